"""`correct` where runs are of a sitting: one of them alone, and the meter that all of them were read by."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.records.bench import load
from tests.history.benches import ROOT, published, run, tree

REPORT = "fuse-holders-30a"
RUN = "2026-03-04/tessvik-t30:A"


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo as it is published, and we stand in it."""
    folder = tmp_path / "b"
    shutil.copytree(ROOT / "reports", folder / "reports")
    monkeypatch.chdir(folder)
    assert RUN in load(folder).reports[REPORT].runs
    return folder


def amended(number: int) -> None:
    """Publish the correction as an edition that verifies, and is told in the history."""
    done = published(
        REPORT, "--reason", "correction", "--summary", "What was wrong is corrected.", "--date", "2026-11-30"
    )
    assert done.exit_code == 0, done.output
    assert f"editions/{number}.yml" in done.output
    verified = run("verify", REPORT)
    assert verified.exit_code == 0, verified.output


def test_a_run_of_a_sitting_is_corrected_alone_and_the_correction_published(bench: Path) -> None:
    before = tree(bench)
    last = max(load(bench).reports[REPORT].editions)
    what = ("--because", "the strip was longer", "--set", "termination.strip=12 mm")
    done = run("correct", RUN, *what, "--yes")
    assert done.exit_code == 0, done.output
    after = tree(bench)
    assert {name: after[name] for name in before if not name.endswith("report.yml")} == {
        name: data for name, data in before.items() if not name.endswith("report.yml")
    }, "the sitting stays as it is"
    loaded = load(bench)
    new = loaded.corrected[RUN]
    assert new.startswith(f"{REPORT}/")
    assert loaded.runs[new].termination is not None
    assert loaded.runs[new].termination.strip.text == "12 mm"  # type: ignore[union-attr]
    assert loaded.runs[new].readings == loaded.runs[RUN].readings
    assert RUN not in loaded.reports[REPORT].runs
    assert "2026-03-04/veldrun-v30:A" in loaded.reports[REPORT].runs
    amended(last + 1)
    edition = load(bench).reports[REPORT].editions[last + 1]
    assert new in edition.runs
    assert RUN not in edition.runs
    assert "sittings/2026-03-04.yml" in edition.rests_on
    told = run("history", REPORT).output
    assert f"{RUN} corrected by {new}: the strip was longer" in told


def test_a_meter_of_sittings_is_corrected_for_every_published_run_of_them(bench: Path) -> None:
    before = load(bench)
    last = max(before.reports[REPORT].editions)
    read_by = {
        each.id
        for each in before.reports[REPORT].runs.values()
        if any(use.instrument == "logger-1" for use in each.uses.values())
    }
    assert any(before.runs[each].sitting for each in read_by)
    done = run("correct", "logger-1", "--because", "another handbook", "--set", "maker=Ampreel", "--yes")
    assert done.exit_code == 0, done.output
    loaded = load(bench)
    assert loaded.instruments["logger-1-2"].corrects == "logger-1"
    assert read_by <= set(loaded.corrected)
    for each in loaded.reports[REPORT].runs.values():
        assert "logger-1" not in {use.instrument for use in each.uses.values()}, each.id
    for name in read_by:
        old, new = loaded.runs[name], loaded.runs[loaded.corrected[name]]
        assert new.readings == old.readings
        assert {key: use.channel for key, use in new.uses.items()} == {
            key: use.channel for key, use in old.uses.items()
        }
    assert run("check").exit_code == 0
    amended(last + 1)
