"""Doubts about runs, and what is no fault though it looks like one; each fault has its record in bad/."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.laid import REPORT, RUN, SITTING, changed, good, laid, whats

EXTRA = f"{REPORT}/runs/extra.yml"


def doubts(folder: Path, *changes: tuple[str, str]) -> list[str]:
    bench = changed(folder, RUN, *changes)
    assert bench.faults == ()
    return whats(bench.doubts)


def test_a_meter_that_was_due_for_calibration(tmp_path: Path) -> None:
    bench = changed(tmp_path, "instruments/clamp-2.yml", ("due: 2027-02-10", "due: 2026-03-09"))
    assert whats(bench.doubts) == [
        "instruments.current: 'clamp-2' was due for calibration on 2026-03-09, before this run of 2026-03-11"
    ]


def test_only_the_newest_calibration_before_the_run_counts(tmp_path: Path) -> None:
    newer = (
        "due: 2027-02-10}\n",
        "due: 2026-01-01}\n  - {date: 2026-01-05, by: Pallsto Metrology, due: 2028-01-05}\n",
    )
    assert changed(tmp_path, "instruments/clamp-2.yml", newer).doubts == ()


def test_where_the_air_was_read_is_not_said(tmp_path: Path) -> None:
    told = doubts(tmp_path, (", air-measured: beside the box", ""))
    assert told == ["conditions.air-measured: where the air was read is not said, as 'beside the box'"]


def test_a_sitting_is_told_once_of_what_all_its_runs_lack(tmp_path: Path) -> None:
    bench = changed(tmp_path, SITTING, (", air-measured: beside the box", ""))
    assert whats(bench.doubts) == [
        "conditions.air-measured: where the air was read is not said, as 'beside the box'"
    ]


def test_no_column_of_the_current(tmp_path: Path) -> None:
    text = good(f"{REPORT}/runs/veldrun-b.yml", (", current: clamp-2", ""), ("readings: veldrun-b.csv\n", ""))
    text += "readings: |\n  time min | temperature@body degC\n  0 | 20\n  60 | 50\n"
    bench = laid(tmp_path, {f"{REPORT}/runs/veldrun-b.yml": text, f"{REPORT}/runs/veldrun-b.csv": None})
    assert whats(bench.doubts) == [
        "readings: no column 'current', so the rise cannot be told for the set current"
    ]
    assert bench.faults == ()


def test_readings_beyond_the_schedule(tmp_path: Path) -> None:
    row = "  60       | 62.6                  | 21.8         | 29.9      | 41.3\n"
    told = doubts(tmp_path, (row, row + row.replace("60 ", "75 ").replace("62.6", "62.7")))
    assert told == ["readings: readings go on to 75 min, and the schedule ends at 60 min"]


def test_a_reading_a_little_after_the_end_is_no_matter(tmp_path: Path) -> None:
    assert doubts(tmp_path, ("  60       |", "  60.4     |")) == []


def test_a_stop_long_after_the_last_reading(tmp_path: Path) -> None:
    row = "  60       | 62.6                  | 21.8         | 29.9      | 41.3\n"
    told = doubts(tmp_path, (row, ""), ("events:", "stopped: {at: 57 min, because: rig}\nevents:"))
    assert told == [
        (
            "stopped.at: stopped at 57 min, and the last reading is of 45 min; "
            "the schedule has one at 50 min in between"
        )
    ]


def test_a_stopped_run_need_not_reach_the_mark(tmp_path: Path) -> None:
    row = "  60       | 62.6                  | 21.8         | 29.9      | 41.3\n"
    assert doubts(tmp_path, (row, ""), ("events:", "stopped: {at: 46 min, because: rig}\nevents:")) == []


def test_an_excluded_reading_does_not_reach_the_mark(tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, ("29.9      | 41.3", "29.9      | 41.3 ! probe off"))
    assert [each.what.split(",")[0] for each in bench.faults] == ["the readings end at 45 min"]


def test_events_stand_in_order(tmp_path: Path) -> None:
    later = ("deviations:", "  - {at: 3 min, what: a draught}\ndeviations:")
    (fault,) = changed(tmp_path, RUN, later).faults
    assert (fault.path, fault.what) == (
        "events.2.at",
        "events stand in order of time; 29 min stands before this one",
    )


def test_a_check_answered_twice(tmp_path: Path) -> None:
    (fault,) = changed(
        tmp_path, RUN, ("observations:\n", 'observations:\n  - {check: opens-by-hand, answer: "yes"}\n')
    ).faults
    assert (fault.path, fault.what) == ("observations.2.check", "answered twice")


@pytest.mark.parametrize(
    ("said", "path", "what"),
    [
        ("{start: 21 degC}", "conditions.ambient.end", "missing: the air at the end"),
        ("{start: 21 degC, end: 22 degC, mid: 21 degC}", "conditions.ambient.mid", "unknown key"),
        ("21", "conditions.ambient", "a number without a unit"),
        ("[21 degC]", "conditions.ambient", "one value is expected here"),
        ("", "conditions.ambient", "no value here; one is expected, or no key"),
    ],
)
def test_air_that_cannot_be_read(tmp_path: Path, said: str, path: str, what: str) -> None:
    (fault,) = changed(tmp_path, f"{REPORT}/runs/veldrun-b.yml", ("first reading", said)).faults
    assert (fault.path, fault.what) == (path, what)


def test_a_point_must_be_named_where_the_method_has_some(tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, ("temperature@body", "temperature"))
    assert [(each.what, each.accepted) for each in bench.faults] == [
        ("missing: at which point", ("temperature@body",))
    ]


def test_readings_without_a_time(tmp_path: Path) -> None:
    text = (
        good(RUN).split("readings:")[0]
        + "readings: |\n  temperature@body degC | ambient degC | current A | drop mV\n"
    )
    (fault,) = laid(tmp_path, {RUN: text + "  40 | 21 | 30 | 40\n"}).faults
    assert fault.what == "missing: the column 'time', the first of the table"


def test_the_hottest_point_takes_any_column(tmp_path: Path) -> None:
    name = "methods/closed-box-heating/2.yml"
    bench = changed(tmp_path, name, ("    point: body\n", "    point: hottest\n"))
    assert bench.faults == ()


def test_a_table_of_a_scalar_needs_a_way_to_one_figure(tmp_path: Path) -> None:
    table = "readings: |\n  force N\n  388\n  391\n"
    text = good(f"{REPORT}/runs/okvarn-a-pull.yml", ("values: {pull: 388 N}\n", table))
    (fault,) = laid(tmp_path / "a", {f"{REPORT}/runs/okvarn-a-pull.yml": text}).faults
    assert "does not say how readings of 'pull' become one figure" in fault.what
    files: dict[str, str | None] = {
        f"{REPORT}/runs/okvarn-a-pull.yml": text,
        "methods/pull-out/1.yml": good(
            "methods/pull-out/1.yml", ("better: higher", "better: higher, reduce: mean")
        ),
    }
    assert laid(tmp_path / "b", files).faults == ()


def test_a_value_over_range(tmp_path: Path) -> None:
    bench = changed(tmp_path, f"{REPORT}/runs/okvarn-a-pull.yml", ("388 N", "over 500 N"))
    value = bench.runs[f"{REPORT}/okvarn-a-pull"].values["pull"]
    assert (value.si, value.bound) == (500.0, ">")


def test_a_meter_may_be_named_by_measure_or_by_quantity(tmp_path: Path) -> None:
    bench = changed(tmp_path, f"{REPORT}/runs/okvarn-a-pull.yml", ("{force: spring", "{pull: spring"))
    assert bench.faults == ()


def test_a_control_of_which_nothing_was_measured(tmp_path: Path) -> None:
    text = "method: closed-box-heating/2\ncontrol: bare-terminal\ndate: 2026-03-12\n"
    bench = laid(tmp_path, {EXTRA: text})
    assert bench.faults == ()
    assert f"{REPORT}/bare-terminal" not in bench.runs
    assert any("the readings are missing" in each for each in whats(bench.doubts))
    assert any("that `controls` of 2026-fuse-holders does not name" in each for each in whats(bench.doubts))


def test_a_channel_of_a_meter_that_has_none(tmp_path: Path) -> None:
    (fault,) = changed(tmp_path, RUN, ("current: clamp-2", "current: clamp-2/CH1")).faults
    assert (fault.what, fault.accepted) == ("'clamp-2' has no channels", ("clamp-2",))


def test_a_condition_that_the_method_gives_a_range_for(tmp_path: Path) -> None:
    name = "methods/closed-box-heating/2.yml"
    files: dict[str, str | None] = {
        name: good(name, ("enclosure: closed box 2 l, ", "enclosure: closed box 2 l, damp: 30 to 60 %, ")),
        RUN: good(RUN, ("conditions: {", "conditions: {damp: 45 %, ")),
    }
    run = laid(tmp_path, files).runs[f"{REPORT}/okvarn-a"]
    damp = run.conditions["damp"]
    assert not isinstance(damp, str)
    assert damp.text == "45 %"


def test_a_point_that_the_main_figure_needs_is_not_read(tmp_path: Path) -> None:
    name = "methods/closed-box-heating/2.yml"
    lug = "points:\n  lug: {where: top of the lug, held-by: tape, reads-low-by-at-most: 1 K}\n"
    files: dict[str, str | None] = {
        name: good(name, ("points:\n", lug)),
        RUN: good(RUN, ("temperature@body", "temperature@lug")),
    }
    bench = laid(tmp_path, files)
    assert whats(bench.faults) == [
        "readings: missing: the column 'temperature@body', which 'rise' is told for"
    ]


def test_a_stopped_run_without_readings_but_with_a_look(tmp_path: Path) -> None:
    text = """method: closed-box-heating/2
item: veldrun-v30
specimen: B
date: 2026-03-12
stopped: {at: 2 min, because: part failed}
observations: [{check: opens-by-hand, answer: "no", photo: melted.jpg}]
"""
    bench = laid(tmp_path, {EXTRA: text})
    assert bench.faults == ()
    assert whats(bench.doubts) == ["observations.1.photo: no such photo in the report's photos/"]


def test_neither_a_table_nor_a_file(tmp_path: Path) -> None:
    name = f"{REPORT}/runs/veldrun-b.yml"
    (fault,) = list(changed(tmp_path, name, ("readings: veldrun-b.csv", "readings: 41.2 degC")).faults)
    assert fault.what.startswith("not readings: write a table below '|'")


def test_a_point_that_the_method_lacks_is_the_methods_fault_alone(tmp_path: Path) -> None:
    bench = changed(tmp_path, "methods/closed-box-heating/2.yml", ("    point: body\n", "    point: lid\n"))
    assert [each.place.file.name for each in bench.faults] == ["2.yml"]
    assert whats(bench.faults) == ["measures.1.point: this method has no point of this name"]


def test_a_meter_of_the_column_at_another_point(tmp_path: Path) -> None:
    text = good(RUN).replace("temperature@body: logger-1/CH3", "temperature@lid: logger-1/CH3")
    bench = laid(tmp_path, {RUN: text})
    (fault,) = bench.faults
    assert fault.path == "instruments.temperature@lid"
    assert fault.what == (
        "nothing is read by this: there is no 'temperature@lid' in the readings; "
        "did you mean 'temperature@body'?"
    )
