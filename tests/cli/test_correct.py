"""`correct`: what it writes beside what was wrong, what it tells that moves, and why it refuses."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.bench import load
from tests.history.benches import REPORT, edited, example, published, run, tree

RUN = "2026-01-12-halvenor-a"
RUNS = f"reports/{REPORT}/runs"
LID = ("--because", "the lid was off", "--set", "conditions.enclosure=closed box 2 l")


@pytest.fixture
def once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The example bench with its first edition, and we stand in it."""
    folder = example(tmp_path / "b")
    monkeypatch.chdir(folder)
    assert published(REPORT, "--date", "2026-02-01").exit_code == 0
    return folder


def test_a_correction_is_one_file_more_and_nothing_else(once: Path) -> None:
    before = tree(once)
    done = run("correct", RUN, *LID, "--yes")
    assert done.exit_code == 0, done.output
    after = tree(once)
    assert set(after) - set(before) == {f"{RUNS}/{RUN}-2.yml"}
    assert {name: after[name] for name in before} == before
    assert (
        after[f"{RUNS}/{RUN}-2.yml"]
        .decode()
        .endswith(f'corrects: "{RUN}"\nbecause: the lid was off\nconditions:\n  enclosure: closed box 2 l\n')
    )
    assert run("check", "--strict").exit_code == 0
    assert run("verify").exit_code == 0


def test_it_tells_old_and_new_and_the_edition_that_it_moves(once: Path) -> None:
    before = tree(once)
    done = run("correct", RUN, *LID, "--dry-run")
    assert done.exit_code == 0
    assert tree(once) == before
    assert done.output.splitlines() == [
        f"new      {RUNS}/{RUN}-2.yml",
        "because  the lid was off",
        "",
        f"{REPORT}/{RUN}: corrected by {REPORT}/{RUN}-2",
        "  conditions.enclosure: closed box 1 l → closed box 2 l",
        "",
        f"{REPORT}: edition 1 rests on what was wrong, and stays as published",
        "  Since edition 1 the records would change",
        *(line for line in done.output.splitlines() if line.startswith("    ") and " → " in line),
        f"    {REPORT}/{RUN} corrected by {REPORT}/{RUN}-2: the lid was off",
        "",
        "To amend:",
        f'  provebook publish {REPORT} --reason correction --summary "…"',
        "",
        "Nothing was written. Without --dry-run it is.",
    ]
    assert "    halvenor-c2 rise: " in done.output


def test_the_amendment_is_a_correction_and_no_retest(once: Path) -> None:
    run("correct", RUN, *LID, "--yes")
    amend = ("--summary", "The box was larger.", "--date", "2026-02-03")
    refused = published(REPORT, "--reason", "retest", *amend)
    assert refused.exit_code == 2
    assert "there is none since edition 1" in refused.output
    done = published(REPORT, "--reason", "correction", *amend)
    assert done.exit_code == 0, done.output
    assert f"{REPORT}/{RUN} corrected by {REPORT}/{RUN}-2: the lid was off" in run("history", REPORT).output
    assert run("verify").exit_code == 0
    edited(once / RUNS / f"{RUN}-2.yml", ("closed box 2 l", "closed box 3 l"))
    assert "edition 2 of connectors-10a rests on this" in run("check").output


def test_a_reading_is_left_out(once: Path) -> None:
    done = run("correct", RUN, "--because", "a draught", "--leave-out", "10 min=door open", "--yes")
    assert done.exit_code == 0, done.output
    assert "  left out: 10 min, door open" in done.output
    assert load(once).runs[f"{REPORT}/{RUN}-2"].excluded == {2: "door open"}


def test_a_correction_is_corrected_in_turn_and_not_its_run_again(once: Path) -> None:
    run("correct", RUN, *LID, "--yes")
    again = run("correct", RUN, *LID, "--yes")
    assert again.exit_code == 2
    assert f"was corrected already: correct {REPORT}/{RUN}-2" in again.output
    edit = run("correct", f"{RUN}-2", *LID, "--yes")
    assert edit.exit_code == 2
    assert f"so it may simply be edited: {RUNS}/{RUN}-2.yml" in edit.output
    amend = ("--reason", "correction", "--summary", "The box.", "--date", "2026-02-03")
    assert published(REPORT, *amend).exit_code == 0
    third = run("correct", f"{RUN}-2", "--because", "yet another box", "--set", "place=garage", "--yes")
    assert third.exit_code == 0, third.output
    assert (once / RUNS / f"{RUN}-3.yml").is_file()


def test_a_report_that_lists_its_runs_names_the_correction_and_keeps_its_comments(once: Path) -> None:
    listed = f"runs: [{RUN}, 2026-01-13-halvenor-b, 2026-01-12-quorsby-a, 2026-01-13-quorsby-b]  # all"
    record = once / f"reports/{REPORT}/report.yml"
    edited(record, ("runs: all", listed))
    before = record.read_text(encoding="utf-8").splitlines()
    done = run("correct", RUN, *LID, "--yes")
    assert done.exit_code == 0, done.output
    pairs = zip(before, record.read_text(encoding="utf-8").splitlines(), strict=True)
    assert [was for was, now in pairs if was != now] == [listed]
    assert (
        listed.replace(RUN, f'"{RUN}-2"') in record.read_text()
        or listed.replace(RUN, f"{RUN}-2") in record.read_text()
    )
    assert run("check", "--strict").exit_code == 0


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("nobody", *LID), "there is no run and no meter 'nobody'"),
        ((RUN, "--because", "x"), "give as options"),
        ((RUN, "--because", "x", "--set", "place"), "write what it is, '='"),
        ((RUN, *LID), "there is no terminal to ask at; write with --yes"),
        (("clamp-1", "--because", "x", "--leave-out", "1 min=y"), "a meter has no readings"),
        (("clamp-1", "--because", "x", "--set", "ranges.accuracy=1 A"), "say which of its 1"),
    ],
)
def test_what_it_refuses_and_writes_nothing(once: Path, arguments: tuple[str, ...], told: str) -> None:
    before = tree(once)
    done = run("correct", *arguments)
    assert done.exit_code == 2
    assert told in done.output
    assert tree(once) == before


def test_a_key_that_the_record_would_not_take_is_told_with_its_place(once: Path) -> None:
    done = run("correct", RUN, "--because", "x", "--set", "termination.strip=11", "--yes")
    assert done.exit_code == 1
    assert f"{RUNS}/{RUN}-2.yml:" in done.output
    assert "termination.strip" in done.output
    assert not (once / RUNS / f"{RUN}-2.yml").exists()


def test_a_meter_is_corrected_beside_itself_and_every_published_run_takes_it(once: Path) -> None:
    before = tree(once)
    what = ("--set", "ranges.1.accuracy=±(1 % + 1 degC)", "--set", "probes.t2=type K class 2")
    done = run("correct", "thermometer-1", "--because", "another handbook", *what, "--yes")
    assert done.exit_code == 0, done.output
    after = tree(once)
    assert {name: after[name] for name in before} == before
    assert len(set(after) - set(before)) == 5
    bench = load(once)
    meter = bench.instruments["thermometer-1-2"]
    assert (meter.corrects, meter.because) == ("thermometer-1", "another handbook")
    assert meter.ranges[0].accuracy != bench.instruments["thermometer-1"].ranges[0].accuracy
    assert meter.ranges[0].resolution == bench.instruments["thermometer-1"].ranges[0].resolution
    used = {use.instrument for each in bench.reports[REPORT].runs.values() for use in each.uses.values()}
    assert used == {"thermometer-1-2", "clamp-1"}
    assert "halvenor-c2 rise: " in done.output
    assert "published" in done.output
    assert run("check", "--strict").exit_code == 0
    assert run("verify").exit_code == 0


def test_a_draft_run_takes_the_corrected_meter_in_place(once: Path) -> None:
    text = (once / RUNS / f"{RUN}.yml").read_text(encoding="utf-8")
    draft = once / RUNS / "2026-02-02-halvenor-a.yml"
    draft.write_text(text.replace("date: 2026-01-12", "date: 2026-02-02  # anew"), encoding="utf-8")
    before = draft.read_text(encoding="utf-8").splitlines()
    done = run("correct", "clamp-1", "--because", "x", "--set", "maker=Ampreel", "--yes")
    assert done.exit_code == 0, done.output
    # Every other line of the draft, and every comment, is as it was.
    pairs = zip(before, draft.read_text(encoding="utf-8").splitlines(), strict=True)
    assert [was.partition(":")[0] for was, now in pairs if was != now] == ["instruments"]
    assert "current: clamp-1-2}" in draft.read_text(encoding="utf-8")
    assert "# anew" in draft.read_text(encoding="utf-8")


def test_a_meter_on_which_no_edition_rests_may_be_edited(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(example(tmp_path / "b"))
    done = run("correct", "clamp-1", "--because", "x", "--set", "maker=y")
    assert done.exit_code == 2
    assert "so it may simply be edited: reports/instruments/clamp-1.yml" in done.output
