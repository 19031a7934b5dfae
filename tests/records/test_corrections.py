"""Runs that correct others: what they take over, what they say otherwise, and what rests on them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from generator.records.bench import load
from generator.records.corrections import Changed
from generator.records.run import Run
from tests.records.laid import GOOD, REPORT, good, laid, whats

BENCH = load(GOOD)
RUNS = f"{REPORT}/runs"


def alike(run: Run, other: Run) -> bool:
    """Whether two runs are the same but for their name, their place and what they correct."""
    return replace(run, id="", source=other.source, corrections=()) == replace(other, id="", corrections=())


def test_all_that_a_correction_does_not_say_is_as_in_the_run_that_it_corrects() -> None:
    was, now = BENCH.runs[f"{REPORT}/pulled-e"], BENCH.runs[f"{REPORT}/pulled-e-2"]
    assert (was.values["pull"].text, now.values["pull"].text) == ("402 N", "392 N")
    assert alike(replace(now, values=was.values), was)
    assert now.corrections[0].changed == (Changed("values.pull", "402 N", "392 N"),)
    assert now.corrections[0].because == "the scale was read off by one mark"


def test_the_report_rests_on_the_correction_and_the_corrected_run_stays() -> None:
    assert f"{REPORT}/pulled-e-2" in BENCH.reports[REPORT].runs
    assert f"{REPORT}/pulled-e" not in BENCH.reports[REPORT].runs
    assert BENCH.corrected == {f"{REPORT}/pulled-e": f"{REPORT}/pulled-e-2"}
    assert f"{REPORT}/pulled-e" not in {run.id for run in BENCH.standing}


def test_a_reading_is_left_out_and_a_map_is_taken_over_key_by_key(tmp_path: Path) -> None:
    text = "corrects: okvarn-a\nbecause: wire and lid\nconditions: {conductor: 2.5 mm2 class 5}\n"
    text += "leave-out: [{at: 45 min, because: lid open}]\n"
    bench = laid(tmp_path, {f"{RUNS}/okvarn-a-2.yml": text})
    was, now = bench.runs[f"{REPORT}/okvarn-a"], bench.runs[f"{REPORT}/okvarn-a-2"]
    assert bench.faults == ()
    assert now.readings is not None
    assert now.excluded == {3: "lid open", 4: "lid open"}
    assert was.excluded == {3: "lid open"}
    assert now.conditions == {**was.conditions, "conductor": "2.5 mm2 class 5"}
    assert alike(replace(now, conditions=was.conditions, readings=was.readings), was)


def test_readings_in_a_file_beside_the_corrected_run_are_taken_over(tmp_path: Path) -> None:
    text = "corrects: veldrun-b\nbecause: another piece\nspecimen: A\n"
    bench = laid(tmp_path, {f"{RUNS}/veldrun-a.yml": text})
    assert bench.faults == ()
    assert bench.runs[f"{REPORT}/veldrun-a"].readings == bench.runs[f"{REPORT}/veldrun-b"].readings
    assert bench.runs[f"{REPORT}/veldrun-a"].specimen == "A"


def test_a_run_of_a_sitting_is_corrected_in_a_report(tmp_path: Path) -> None:
    text = "corrects: 2026-03-09/okvarn-ih30:E\nbecause: the channel\n"
    text += "instruments: {temperature@body: logger-1/CH4}\n"
    bench = laid(tmp_path, {f"{RUNS}/okvarn-e-2.yml": text})
    was, now = bench.runs["2026-03-09/okvarn-ih30:E"], bench.runs[f"{REPORT}/okvarn-e-2"]
    assert (bench.faults, bench.doubts) == ((), ())
    assert now.uses == {**was.uses, "temperature@body": now.uses["temperature@body"]}
    assert now.uses["temperature@body"].channel == "CH4"
    assert alike(replace(now, uses=was.uses), was)
    assert (now.sitting, now.made_as) == ("2026-03-09", "2026-03-09/okvarn-ih30:E")
    assert was.id not in bench.reports[REPORT].runs
    assert now.sources == (now.source.file, was.source.file)


def test_a_correction_is_corrected_in_turn(tmp_path: Path) -> None:
    text = "corrects: pulled-e-2\nbecause: read off by two marks\nvalues: {pull: 382 N}\n"
    bench = laid(tmp_path, {f"{RUNS}/pulled-e-3.yml": text})
    run = bench.runs[f"{REPORT}/pulled-e-3"]
    assert bench.faults == ()
    assert [each.run for each in run.corrections] == [f"{REPORT}/pulled-e-2", f"{REPORT}/pulled-e"]
    assert run.corrections[0].changed == (Changed("values.pull", "392 N", "382 N"),)
    assert [each for each in bench.reports[REPORT].runs if "pulled" in each] == [run.id]


def test_a_key_with_nothing_behind_it_takes_the_other_away(tmp_path: Path) -> None:
    text = "corrects: okvarn-a\nbecause: it stood on its feet\ndeviations:\nevents:\n"
    run = laid(tmp_path, {f"{RUNS}/okvarn-a-2.yml": text}).runs[f"{REPORT}/okvarn-a-2"]
    assert (run.deviations, run.events) == ((), ())


def test_a_report_that_lists_its_runs_is_told_that_one_was_corrected(tmp_path: Path) -> None:
    listed = "runs: [okvarn-a, okvarn-a-pull, pulled-e, veldrun-b]"
    bench = laid(tmp_path, {f"{REPORT}/report.yml": good(f"{REPORT}/report.yml", ("runs: all", listed))})
    assert bench.faults == ()
    assert whats(bench.doubts) == ["runs.3: this run was corrected; name pulled-e-2 in its place"]


def test_a_correction_whose_run_is_at_fault_is_looked_at_alone(tmp_path: Path) -> None:
    pulled = good(f"{RUNS}/pulled-e.yml", ("pull: 402 N", "pull: 402 N}\nzzz: {a: b"))
    bench = laid(tmp_path, {f"{RUNS}/pulled-e.yml": pulled})
    assert [each.place.file.name for each in bench.faults] == ["pulled-e.yml"]
    assert bench.left_out == 2
