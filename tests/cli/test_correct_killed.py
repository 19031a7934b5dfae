"""`correct`, stopped at any moment or run twice at once: the tree is as before or whole, never half."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from generator.records.bench import load
from generator.records.together import LIST
from tests.history.benches import REPORT, edited, example, published, run, tree
from tests.history.test_killed import stopped_child

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this machine has no fork")

RUN = "2026-01-12-halvenor-a"
LISTED = f"runs: [{RUN}, 2026-01-13-halvenor-b, 2026-01-12-quorsby-a, 2026-01-13-quorsby-b]  # all"
OF_RUN = ("correct", RUN, "--because", "the lid was off", "--set", "place=garage", "--yes")
OF_METER = ("correct", "thermometer-1", "--because", "a new handbook", "--set", "maker=Ampreel", "--yes")


@pytest.fixture(scope="module")
def listed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A bench with an edition whose report lists its runs, so that a correction changes it, too."""
    folder = example(tmp_path_factory.mktemp("listed") / "b")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        edited(folder / f"reports/{REPORT}/report.yml", ("runs: all", LISTED))
        assert published(REPORT, "--date", "2026-02-01").exit_code == 0
    return folder


def records(folder: Path) -> dict[str, bytes]:
    """Every file but those that never had their name."""
    return {name: data for name, data in tree(folder).items() if not name.endswith(".new")}


@pytest.mark.parametrize("command", [OF_RUN, OF_METER], ids=["a run", "a meter"])
def test_at_each_file_operation_in_turn(
    listed: Path, tmp_path: Path, command: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = shutil.copytree(listed, tmp_path / "done")
    monkeypatch.chdir(done)
    assert run(*command).exit_code == 0
    before, whole = records(listed), records(done)
    assert len(whole) - len(before) + sum(before[name] != whole[name] for name in before) >= 2
    found = []
    for at in range(200):
        there = shutil.copytree(listed, tmp_path / "there")
        monkeypatch.chdir(there)
        ended = stopped_child(lambda: run(*command), at, f"{there}/reports")
        seen = records(there)
        if seen not in (before, whole):
            # Half of it has its name: no reader takes that for the records, and any command writes the rest.
            assert there / "reports" / LIST in [each.place.file for each in load(there).faults]
        if (there / "reports" / LIST).exists():
            checked = run("check")
            assert checked.exit_code == 0, checked.output
            assert "files; they are written now." in checked.output
        assert records(there) in (before, whole), at
        found.append(records(there) == whole)
        shutil.rmtree(there)
        if ended == 0:
            break
    assert ended == 0
    assert found[0] is False
    assert found[-1] is True
    assert found == sorted(found), "once it is written it stays so"


@pytest.mark.parametrize("command", [OF_RUN, OF_METER], ids=["a run", "a meter"])
def test_of_two_at_once_one_wins(
    listed: Path, tmp_path: Path, command: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    there = shutil.copytree(listed, tmp_path / "there")
    monkeypatch.chdir(there)
    others = tuple(
        "another reason" if each in {"the lid was off", "a new handbook"} else each for each in command
    )
    children = []
    for each in (command, others):
        child = os.fork()
        if not child:
            code = 9
            try:
                code = run(*each).exit_code
            finally:
                os._exit(code)
        children.append(child)
    codes = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
    assert 0 in codes
    assert sorted(codes) in ([0, 0], [0, 2]), codes
    assert run("check").exit_code == 0
    bench = load(there)
    reasons = {each.because for each in bench.instruments.values() if each.because}
    reasons |= {each.because for each_run in bench.runs.values() for each in each_run.corrections}
    if codes != [0, 0]:  # where one came after the other altogether, it corrected what was left to correct
        assert len(reasons) == 1
    assert not (there / "reports" / LIST).exists()
    assert list((there / "reports").rglob("*.new")) == []


def test_one_that_came_too_late_says_so_and_writes_nothing(
    listed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    there = shutil.copytree(listed, tmp_path / "there")
    monkeypatch.chdir(there)
    later = there / f"reports/{REPORT}/runs/{RUN}-2.yml"
    link = os.link

    def late(fresh: Path, place: Path) -> None:
        if place.name == LIST and not later.exists():
            later.write_bytes(b"somebody's\n")
        link(fresh, place)

    monkeypatch.setattr(os, "link", late)
    before = tree(there)
    done = run(*OF_RUN)
    assert done.exit_code == 2
    assert (
        f"nothing was written: reports/{REPORT}/runs/{RUN}-2.yml was changed or written meanwhile"
        in done.output
    )
    assert tree(there) == before | {f"reports/{REPORT}/runs/{RUN}-2.yml": b"somebody's\n"}
