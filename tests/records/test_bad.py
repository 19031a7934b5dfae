"""Bad records, one fault each, with the exact message beside each: what a person reads, as a whole.

A case is `bad/<name>.yml`, whose first line says where it stands under reports/, or a folder `bad/<name>/`
with several files. It is laid over the good bench; `bad/<name>.txt` is everything that a check then tells.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.evaluation.checks import checked
from generator.fault import count_line, in_order, message
from generator.records.bench import load

HERE = Path(__file__).parent
BAD = HERE / "bad"
CASES = sorted({path.stem if path.is_file() else path.name for path in BAD.iterdir()})


def lay(name: str, bench: Path) -> None:
    """Copy the good bench and lay a case over it."""
    shutil.copytree(HERE / "good", bench)
    single = BAD / f"{name}.yml"
    if single.is_file():
        place = single.read_text(encoding="utf-8").split("\n", 1)[0].removeprefix("# ")
        (bench / "reports" / place).parent.mkdir(exist_ok=True)
        shutil.copyfile(single, bench / "reports" / place)
    else:
        shutil.copytree(BAD / name, bench, dirs_exist_ok=True)


def told(bench: Path) -> str:
    """What a check of a bench tells, to someone who stands in it."""
    loaded = checked(load(bench))
    found = in_order((*loaded.faults, *loaded.doubts))
    lines = [message(each, bench) for each in found]
    return "\n".join([*lines, count_line(found, loaded.left_out)]) + "\n"


def test_the_good_bench_has_neither_faults_nor_doubts() -> None:
    assert told(HERE / "good") == "no faults\n"


@pytest.mark.parametrize("name", CASES)
def test_message(name: str, tmp_path: Path) -> None:
    lay(name, tmp_path / "bench")
    assert told(tmp_path / "bench") == (BAD / f"{name}.txt").read_text(encoding="utf-8")


def test_there_are_enough_of_them_and_none_without_its_message() -> None:
    assert len(CASES) >= 300
    assert {path.stem for path in BAD.glob("*.txt")} == set(CASES)


def test_each_has_one_fault_and_what_is_understood_one_doubt() -> None:
    counts = {path.stem: path.read_text(encoding="utf-8").splitlines()[-1] for path in BAD.glob("*.txt")}
    several = {name for name, line in counts.items() if line.split(";")[0] not in {"1 fault", "1 doubt"}}
    assert several == {"two-faults-in-two-files"}
    assert {name for name, line in counts.items() if line == "1 doubt"} == {
        name for name in counts if name.startswith("look-alike-")
    }


def test_messages_keep_the_house_style() -> None:
    for path in BAD.glob("*.txt"):
        text = path.read_text(encoding="utf-8").lower()
        told_lines = [line for line in text.splitlines() if " | " not in line]
        for word in ("invalid", "traceback", "error", "pydantic", "nonetype", "scalar(", "input should"):
            assert not any(word in line for line in told_lines), (path.name, word)
