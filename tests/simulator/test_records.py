"""The demonstration bench, a new bench and its example are read without a fault or a doubt."""

from collections.abc import Iterable
from pathlib import Path

import pytest

from generator.fault import message
from generator.intake.new_bench import new_bench
from generator.records.bench import Bench, load
from tests.simulator import bench, crimped, handling, sockets, terminals
from tests.simulator.write import REPORTS


def told(bench: Bench) -> list[str]:
    return [message(each, bench.root) for each in (*bench.faults, *bench.doubts)]


@pytest.fixture(scope="module")
def demo() -> Bench:
    return load(REPORTS.parent)


def test_demonstration_bench_is_sound_and_says_that_it_is_one(demo: Bench) -> None:
    assert told(demo) == []
    assert demo.settings.demonstration
    published = [report for report in demo.reports.values() if report.editions]
    named = [item for report in published for item in report.record.items]
    assert sorted(named) == sorted(demo.items)


def names_of(runs: Iterable[str], report: str) -> set[str]:
    """As the simulator names them: without the report, with the sitting."""
    return {run.removeprefix(f"{report}/") for run in runs}


def test_every_heating_pull_and_handling_of_a_holder_is_read(demo: Bench) -> None:
    handled = {f"{date}/{each.key}" for date, (_, held) in handling.SITTINGS.items() for each in held}
    found = names_of(demo.reports[bench.REPORT].runs, bench.REPORT)
    true = bench.truths()
    assert found == {*true.pieces, *true.pulls, *handled}


def test_every_heating_of_a_socket_and_every_push_is_read(demo: Bench) -> None:
    found = names_of(demo.reports[sockets.REPORT].runs, sockets.REPORT)
    assert found == {*sockets.true_rises(), *(each.name for each in sockets.PUSHED)}


def test_every_crimp_and_its_cable_is_read(demo: Bench) -> None:
    found = names_of(demo.reports[terminals.REPORT].runs, terminals.REPORT)
    pulled = {f"{terminals.DATE}/{each.key}" for each in terminals.CRIMPS}
    assert found == {*pulled, *(each.name for each in crimped.PASSED)}


def test_each_run_is_of_one_report(demo: Bench) -> None:
    rested = [run for report in demo.reports.values() for run in report.runs]
    assert sorted(rested) == sorted(set(demo.runs) - set(demo.corrected))
    assert demo.corrected == {
        f"{bench.REPORT}/{run}": f"{bench.REPORT}/{bench.standing(run)}" for run in bench.CORRECTED
    }


@pytest.mark.parametrize(("parts", "runs"), [(("bench",), 0), (("bench", "example"), 4)])
def test_a_new_bench_is_sound_before_a_word_of_it_is_changed(
    tmp_path: Path, parts: tuple[str, ...], runs: int
) -> None:
    new_bench(tmp_path, parts)
    new = load(tmp_path)
    assert told(new) == []
    assert len(new.runs) == runs
    assert new.settings.demonstration


def test_a_new_bench_has_its_dot_files_and_eight_lines_of_settings(tmp_path: Path) -> None:
    written = {path.relative_to(tmp_path).as_posix() for path in new_bench(tmp_path, ("bench",))}
    assert {".gitignore", ".gitattributes", ".editorconfig", "reports/pages/about.md"} <= written
    assert not any("dot-" in name for name in written)
    assert (tmp_path / "mkdocs.yml").read_text(encoding="utf-8").count("\n") == 8
    assert "originals/** -text" in (tmp_path / ".gitattributes").read_text(encoding="utf-8")


def test_the_example_holds_two_of_everything_and_its_own_names(tmp_path: Path, demo: Bench) -> None:
    new_bench(tmp_path, ("bench", "example"))
    new = load(tmp_path)
    assert (len(new.methods), len(new.instruments), len(new.items), len(new.reports)) == (1, 2, 2, 1)
    assert not {item.maker for item in new.items.values()} & {item.maker for item in demo.items.values()}
    assert all(len(item.specimens) == 2 for item in new.items.values())
    assert all(version.hazard for method in new.methods.values() for version in method.values())
