from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.laid import SITTING, changed, good, laid, whats

ZERO = "sittings/zero-2026-03-09.csv"


def test_an_unknown_condition_of_a_sitting_is_told_once(tmp_path: Path) -> None:
    (fault,) = changed(tmp_path, SITTING, ("enclosure:", "enclosur:")).faults
    assert (fault.path, fault.what) == ("conditions.enclosur", "unknown key; did you mean 'enclosure'?")


def test_a_run_may_say_a_condition_otherwise_than_its_sitting(tmp_path: Path) -> None:
    own = ("logger-1/CH3}", "logger-1/CH3, conditions: {enclosure: open bench}}")
    bench = changed(tmp_path, SITTING, own)
    assert bench.faults == ()
    assert bench.runs["2026-03-09/okvarn-ih30:E"].conditions["enclosure"] == "open bench"
    assert bench.runs["2026-03-09/veldrun-v30:A"].conditions["enclosure"] == "closed box 2 l"


def test_a_control_in_a_sitting(tmp_path: Path) -> None:
    text = good(
        SITTING,
        (
            "runs:\n",
            (
                "runs:\n  control: {method: closed-box-heating/2, control: cable, "
                "temperature@body: logger-1/CH4}\n"
            ),
        ),
        ("okvarn-ih30:E@body degC |", "okvarn-ih30:E@body degC | control@body degC |"),
        *(
            (f"| {cell}                    |", f"| {cell}                    | 30.0 |")
            for cell in ("21.4", "49.9", "58.8", "61.2", "62.9", "63.4")
        ),
    )
    bench = laid(tmp_path, {SITTING: text})
    assert bench.faults == ()
    run = bench.runs["2026-03-09/control"]
    assert (run.control, run.item) == ("cable", "")
    assert run.readings is not None
    assert run.readings.column("temperature", "body") is not None


def test_drop_of_a_run_in_a_sitting(tmp_path: Path) -> None:
    text = good(
        SITTING,
        ("temperature@body: logger-1/CH3}", "temperature@body: logger-1/CH3, drop: meter-1}"),
        ("okvarn-ih30:E@body degC |", "okvarn-ih30:E@body degC | okvarn-ih30:E drop mV |"),
        *(
            (f"| {cell}                    |", f"| {cell}                    | 40.1 |")
            for cell in ("21.4", "49.9", "58.8", "61.2", "62.9", "63.4")
        ),
    )
    bench = laid(tmp_path, {SITTING: text})
    assert bench.faults == ()
    assert bench.runs["2026-03-09/okvarn-ih30:E"].uses["drop"].instrument == "meter-1"
    assert "drop" not in bench.runs["2026-03-09/veldrun-v30:A"].uses


def test_a_key_that_names_no_column_is_unknown(tmp_path: Path) -> None:
    (fault,) = changed(
        tmp_path, SITTING, ("temperature@body: logger-1/CH3}", "temperature@body: logger-1/CH3, stop: now}")
    ).faults
    assert (fault.path, fault.what) == ("runs.okvarn-ih30:E.stop", "unknown key; did you mean 'stopped'?")


def test_a_temperature_in_a_sitting_says_whose_it_is(tmp_path: Path) -> None:
    bench = changed(tmp_path, SITTING, ("okvarn-ih30:E@body degC", "temperature@body degC  "))
    assert "whose temperature this is must stand before it" in [each.what for each in bench.faults]


def test_an_item_that_there_is_not_in_a_sitting(tmp_path: Path) -> None:
    bench = changed(tmp_path, SITTING, ("okvarn-ih30:E", "okvarn-ih31:E"))
    assert [(each.path, each.found) for each in bench.faults if "no item" in each.what] == [
        ("runs.okvarn-ih31:E", "okvarn-ih31")
    ]


@pytest.mark.parametrize(
    ("changes", "path", "what"),
    [
        (("4,21.1,21.3,21.2\n", ""), "zero-check.pairs", "the table has 4 rows that count"),
        (
            ("4,21.1,21.3,21.2\n", "4,21.1,21.3,21.2 ! shaken\n"),
            "zero-check.pairs",
            "the table has 4 rows that count",
        ),
    ],
)
def test_a_zero_check_and_its_table(tmp_path: Path, changes: tuple[str, str], path: str, what: str) -> None:
    (fault,) = laid(tmp_path, {ZERO: good(ZERO, changes)}).faults
    assert (fault.path, fault.what) == (path, what)


def test_a_zero_check_of_few_pairs(tmp_path: Path) -> None:
    files: dict[str, str | None] = {
        ZERO: good(ZERO, ("4,21.1,21.3,21.2\n", "")),
        SITTING: good(SITTING, ("pairs: 5", "pairs: 4")),
    }
    (fault,) = laid(tmp_path, files).faults
    assert fault.what == "a zero check needs 5 pairs or more"


def test_a_zero_check_of_something_else_than_temperatures(tmp_path: Path) -> None:
    text = good(SITTING, ("columns: [ambient", "columns: [time, ambient"))
    (fault,) = laid(tmp_path, {SITTING: text}).faults
    assert fault.what == "a zero check compares temperatures"


def test_a_file_of_readings_that_nobody_reads(tmp_path: Path) -> None:
    bench = laid(tmp_path, {"sittings/left-over.csv": "time min,ambient degC\n0,21\n"})
    assert (bench.faults, whats(bench.doubts)) == ((), [": no record reads this file"])


def test_the_second_sitting_of_a_day(tmp_path: Path) -> None:
    second = {
        "sittings/2026-03-09-b.yml": good(SITTING, ("okvarn-ih30:E", "okvarn-ih30:A")).replace(
            "zero-2026", "zero-b-2026"
        ),
        "sittings/zero-b-2026-03-09.csv": good(ZERO, ("okvarn-ih30:E", "okvarn-ih30:A")),
    }
    bench = laid(tmp_path, dict(second))
    assert bench.faults == ()
    assert "2026-03-09-b/okvarn-ih30:A" in bench.runs


def test_a_key_that_names_no_column_and_holds_no_meter_is_unknown_too(tmp_path: Path) -> None:
    change = ("temperature@body: logger-1/CH3}", "temperature@body: logger-1/CH3, stoped: {at: 3 min}}")
    (fault,) = changed(tmp_path, SITTING, change).faults
    assert (fault.path, fault.what) == ("runs.okvarn-ih30:E.stoped", "unknown key; did you mean 'stopped'?")


def test_a_sitting_without_readings(tmp_path: Path) -> None:
    text = good(SITTING).split("readings:")[0]
    bench = laid(tmp_path, {SITTING: text})
    (waiting,) = (each for each in bench.doubts if each.what.startswith("the readings are missing"))
    assert waiting.path == "runs.okvarn-ih30:E"
    (stopped,) = bench.faults
    assert stopped.path == "runs.veldrun-v30:A"
    assert stopped.what.startswith("stopped, and nothing was measured before: write a row a reading")
    assert not any(name.startswith("2026-03-09/") for name in bench.runs)


def test_one_channel_for_two_columns(tmp_path: Path) -> None:
    bench = changed(tmp_path, SITTING, ("logger-1/CH4 with k7", "logger-1/CH3"))
    assert bench.faults == ()
    (doubt,) = bench.doubts
    assert doubt.path == "runs.veldrun-v30:A.temperature@body"
    assert doubt.what == (
        "'logger-1/CH3' reads 'okvarn-ih30:E@body' at the same times; a channel has one probe"
    )
    assert doubt.place.line == 10


def test_a_channel_that_is_read_by_turns_is_no_doubt(tmp_path: Path) -> None:
    rows = [
        (f"| {cell}                    | {other}", f"|                         | {other}")
        for cell, other in (("21.4", "21.3"), ("49.9", "70.2"), ("58.8", "108.4"))
    ]
    bench = changed(tmp_path, SITTING, ("logger-1/CH4 with k7", "logger-1/CH3"), *rows)
    assert (bench.faults, bench.doubts) == ((), ())


def test_readings_of_the_zero_check_of_a_faulty_sitting_are_not_called_unread(tmp_path: Path) -> None:
    bench = changed(tmp_path, SITTING, ("place: workshop", "plaice: workshop"))
    assert whats(bench.faults) == ["plaice: unknown key; did you mean 'place'?"]
    assert bench.doubts == ()
