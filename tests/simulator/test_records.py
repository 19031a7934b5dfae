"""The demonstration bench, a new bench and its example are read without a fault or a doubt."""

from pathlib import Path

import pytest

from generator.fault import message
from generator.intake.new_bench import new_bench
from generator.records.bench import Bench, load
from tests.simulator.bench import HEATINGS, PULLS, REPORT, SITTING, truths
from tests.simulator.write import REPORTS


def told(bench: Bench) -> list[str]:
    return [message(each, bench.root) for each in (*bench.faults, *bench.doubts)]


@pytest.fixture(scope="module")
def demo() -> Bench:
    return load(REPORTS.parent)


def test_demonstration_bench_is_sound_and_says_that_it_is_one(demo: Bench) -> None:
    assert told(demo) == []
    assert demo.settings.demonstration
    assert set(demo.items) == set(demo.reports[REPORT].record.items)


def test_every_heating_and_every_pull_is_read(demo: Bench) -> None:
    names = [*(each.name for each in HEATINGS), *(each.name for each in PULLS)]
    ids = {f"{SITTING.date}/{key}" for key in SITTING.channels} | {f"{REPORT}/{name}" for name in names}
    assert set(demo.runs) == ids == set(demo.reports[REPORT].runs)
    short = {run.rpartition("/")[2] if run.startswith(REPORT) else run for run in demo.runs}
    assert short == {*truths().pieces, *truths().pulls}


@pytest.mark.parametrize(("parts", "runs"), [(("bench",), 0), (("bench", "example"), 4)])
def test_a_new_bench_is_sound_before_a_word_of_it_is_changed(
    tmp_path: Path, parts: tuple[str, ...], runs: int
) -> None:
    new_bench(tmp_path, parts)
    bench = load(tmp_path)
    assert told(bench) == []
    assert len(bench.runs) == runs
    assert bench.settings.demonstration


def test_a_new_bench_has_its_dot_files_and_eight_lines_of_settings(tmp_path: Path) -> None:
    written = {path.relative_to(tmp_path).as_posix() for path in new_bench(tmp_path, ("bench",))}
    assert {".gitignore", ".gitattributes", ".editorconfig", "reports/pages/about.md"} <= written
    assert not any("dot-" in name for name in written)
    assert (tmp_path / "mkdocs.yml").read_text(encoding="utf-8").count("\n") == 8
    assert "originals/** -text" in (tmp_path / ".gitattributes").read_text(encoding="utf-8")


def test_the_example_holds_two_of_everything_and_its_own_names(tmp_path: Path, demo: Bench) -> None:
    new_bench(tmp_path, ("bench", "example"))
    bench = load(tmp_path)
    assert (len(bench.methods), len(bench.instruments), len(bench.items), len(bench.reports)) == (1, 2, 2, 1)
    assert not {item.maker for item in bench.items.values()} & {item.maker for item in demo.items.values()}
    assert all(len(item.specimens) == 2 for item in bench.items.values())
    assert all(version.hazard for method in bench.methods.values() for version in method.values())
