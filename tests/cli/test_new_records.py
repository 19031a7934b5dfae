"""`provebook new` with options alone: what each writes, what it refuses, and that nothing is written over."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.fresh import (
    BOUGHT,
    CLAMP,
    COUNT,
    GROUND,
    HEATING,
    PULL_OUT,
    REPORT,
    RUN,
    SCALE,
    SENT,
    SITTING,
    THERMOMETER,
    files,
    instead,
    made,
    new,
    run,
    without,
)

RUN_FILE = "reports/connectors/runs/2026-01-12-halvenor-c2-a.yml"
OTHER = ("--item", "quorsby-q2", "--specimen", "B", "--date", "2026-01-13")
LIKE = ("run", "--like", "2026-01-12-halvenor-c2-a")
MISSING = (
    "the readings are missing: write a row a reading under `readings`, or: provebook import FILE --into "
)


def told() -> tuple[list[str], list[str]]:
    """What a check has against the bench: faults and doubts."""
    data = json.loads(run("check", "--json").stdout)
    return [each["what"] for each in data["faults"]], [each["what"] for each in data["doubts"]]


def test_each_record_passes_the_check_as_it_is_written(fresh: Path) -> None:
    for each in GROUND[:-1]:
        made(each)
        assert told() == ([], []), each
    made(REPORT)
    assert told() == ([], ["this report has no run yet, and so no page; begin one with: provebook new run"])
    made(RUN)
    assert told() == ([], [f"{MISSING}connectors/2026-01-12-halvenor-c2-a"])
    made(SITTING)
    assert told()[1] == [f"{MISSING}connectors/2026-01-12-halvenor-c2-a", f"{MISSING}2026-01-14"]
    assert run("build").exit_code == 0
    assert sorted(each.name for each in (fresh / "reports").iterdir()) == [
        "bench.yml", "connectors", "instruments", "items", "methods", "pages", "sittings",
    ]  # fmt: skip


@pytest.mark.usefixtures("fresh")
def test_what_was_written_and_what_comes_next_is_told() -> None:
    made(HEATING, THERMOMETER, CLAMP, BOUGHT, SENT, REPORT)
    done = new(*RUN)
    assert done.stdout == (
        f"wrote {RUN_FILE}\n\nNext:\n"
        f"  type the readings into {RUN_FILE}\n"
        "  or: provebook import FILE --into connectors/2026-01-12-halvenor-c2-a\n"
        "  provebook check\n  provebook build\n"
    )


@pytest.mark.usefixtures("fresh")
@pytest.mark.parametrize("what", ["method", "instrument", "item", "report", "run", "sitting"])
def test_without_a_terminal_the_options_that_are_missing_are_named(what: str) -> None:
    made(*GROUND)
    done = new(what)
    assert (done.exit_code, done.stdout) == (2, "")
    first, *options = done.stderr.splitlines()
    assert first == "provebook: there is no terminal to ask at; give as options:"
    wanted = {
        "method": ["--from"],
        "instrument": ["--name", "--quantity", "--to", "--accuracy", "--resolution", "--calibrated"],
        "item": ["--maker", "--model", "--pieces", "--got", "--from", "--date", "--chosen"],
        "report": ["--question", "--initiative", "--method", "--items"],
        "run": ["--method", "--item", "--specimen", "--date"],
        "sitting": ["--method", "--date", "--runs"],
    }
    assert [each.split()[0] for each in options] == wanted[what]


@pytest.mark.usefixtures("fresh")
def test_what_depends_on_an_answer_is_named_once_that_is_known() -> None:
    made(*GROUND)
    done = new(*without(without(RUN, "--instrument"), "--place"))
    assert done.exit_code == 2
    assert done.stderr.splitlines()[1] == (
        "  --instrument COLUMN=METER, as temperature@body=thermometer-1/CH1  "
        "What reads the temperature at 'body'?"
    )
    assert len(done.stderr.splitlines()) == 2  # the one clamp and the cable are as they can only be


@pytest.mark.usefixtures("fresh")
def test_a_current_that_nothing_reads_is_left_out_only_where_that_is_said() -> None:
    made(HEATING, THERMOMETER, BOUGHT, SENT, REPORT)
    at = RUN.index("current=clamp-1")
    done = new(*RUN[: at - 1], *RUN[at + 1 :])
    assert done.exit_code == 2
    assert "--instrument COLUMN=METER, as current=none  What reads the current? (With none" in done.stderr
    assert "--condition NAME=VALUE, as current=" in done.stderr
    made((*RUN[:at], "current=none", *RUN[at + 1 :], "--condition", "current=10.1 A"))
    assert "  current: 10.1 A\n" in Path(RUN_FILE).read_text(encoding="utf-8")


def test_air_that_no_meter_reads_is_asked_for_in_the_record(fresh: Path) -> None:
    at = RUN.index("ambient=thermometer-1/CH1")
    made(*GROUND, (*RUN[: at - 1], *RUN[at + 1 :]))
    text = (fresh / RUN_FILE).read_text(encoding="utf-8")
    assert "#   ambient: {start: 21.4 degC, end: 22.0 degC}\n" in text
    made((*LIKE, *OTHER))


@pytest.mark.parametrize(
    ("command", "option", "value", "why"),
    [
        (BOUGHT, "--got", "found", "the words for this (accepted: bought, sent, lent, from a viewer)"),
        (BOUGHT, "--paid", "4,80 EUR", "a decimal comma; write 4.80 EUR (accepted: 4.80 EUR)"),
        (BOUGHT, "--paid", "4 $", "'$' may be several currencies; write which (accepted: USD, AUD"),
        (BOUGHT, "--date", "8.1.2026", "'8.1.2026' may be two days; write year, month and day"),
        (BOUGHT, "--pieces", "27", "a number from 1 to 26 is wanted, in digits"),
        (BOUGHT, "--id", "Halvenor C2", "not an id: small letters, digits and hyphens, 40 at most"),
        (BOUGHT, "--id", "control", "'control' stands for runs without an item; an item needs another id"),
        (CLAMP, "--accuracy", "about 2 %", "not an accuracy"),
        (CLAMP, "--to", "40 V", "'V' is a unit of voltage, not of current"),
        (CLAMP, "--quantity", "curent", "there is no quantity of this name; did you mean 'current'?"),
        (CLAMP, "--mode", "d.c.", "not one of the words for this (accepted: dc, ac)"),
        (HEATING, "--current", "10", "a number without a unit"),
        (HEATING, "--stop-limit", "90 K", "a temperature is not given in kelvin here"),
        (HEATING, "--conductor", "1.5 mm2", "a size alone; say in words what it is, too"),
        (HEATING, "--from", "heat", "not one of the words for this (accepted: heating, drop, pull-out"),
        (REPORT, "--items", "halvenor-c3", "there is no item of this name; did you mean 'halvenor-c2'?"),
        (REPORT, "--method", "heating-10a/1", "of this name; did you mean 'heating-10-a/1'?"),
        (REPORT, "--id", "items", "'items' is kept for other records; a report needs another name"),
        (RUN, "--specimen", "C", "this item has no piece of this name"),
        (RUN, "--date", "2026-01-07", "piece A was had on 2026-01-08, after this day"),
        (SITTING, "--runs", "halvenor-c2:Z", "there is no piece of this name"),
    ],
)  # fmt: skip
def test_an_answer_is_checked_by_the_grammar_of_the_records(
    command: tuple[str, ...], option: str, value: str, why: str, fresh: Path
) -> None:
    made(*GROUND)
    before = files(fresh)
    done = new(*instead(command, option, value))
    assert done.exit_code == 2
    assert f"{option} {value!r}: " in done.stderr
    assert why in done.stderr
    assert files(fresh) == before


@pytest.mark.usefixtures("fresh")
def test_a_meter_is_looked_for_among_those_that_can_read_it() -> None:
    made(*GROUND)
    at = RUN.index("current=clamp-1")
    done = new(*RUN[:at], "current=thermometer-1/CH1", *RUN[at + 1 :])
    assert done.exit_code == 2
    assert "there is no meter for current of this name (accepted: clamp-1)" in done.stderr
    done = new(*RUN[:at], "current", *RUN[at + 1 :])
    assert "--instrument 'current': write a name, '=' and what stands for it" in done.stderr


@pytest.mark.usefixtures("fresh")
def test_an_option_that_nothing_asks_for_is_told_and_not_dropped() -> None:
    made(*GROUND)
    done = new(*RUN, "--instrument", "curent=clamp-1")
    assert done.exit_code == 2
    assert done.stderr == (
        "provebook: --instrument curent: nothing asks for this here; asked for: --instrument ambient, "
        "--instrument current, --instrument temperature@body\n"
    )
    assert "--pack: nothing asks for this here" in new(*SENT, "--pack", "2").stderr
    assert "--current: nothing asks for this here" in new(*PULL_OUT, "--current", "3 A").stderr


@pytest.mark.usefixtures("fresh")
def test_several_wrong_answers_are_told_together() -> None:
    done = new(*instead(instead(BOUGHT, "--date", "yesterday"), "--got", "found"))
    assert done.exit_code == 2
    assert [line.split(" '")[0] for line in done.stderr.splitlines()] == ["provebook: --got", "--date"]


@pytest.mark.parametrize("command", [HEATING, CLAMP, BOUGHT, REPORT, RUN], ids=lambda each: each[0])
def test_nothing_is_written_over(command: tuple[str, ...], fresh: Path) -> None:
    made(*GROUND, RUN)
    before = files(fresh)
    named = {
        "method": ("heating-10-a",),
        "item": ("--id", "halvenor-c2"),
        "run": ("--id", "2026-01-12-halvenor-c2-a"),
    }
    done = new(*command, *named.get(command[0], ()))
    assert done.exit_code == 2
    assert "exists already, and nothing is written over it" in done.stderr
    assert f"reports/{'connectors' if command[0] in {'report', 'run'} else command[0] + 's'}" in done.stderr
    assert files(fresh) == before


def test_without_an_id_the_next_free_one_is_taken(fresh: Path) -> None:
    made(*GROUND, RUN, RUN, BOUGHT, HEATING, SITTING, SITTING)
    assert (fresh / "reports/connectors/runs/2026-01-12-halvenor-c2-a-2.yml").is_file()
    assert (fresh / "reports/items/halvenor-c2-2.yml").is_file()
    assert (fresh / "reports/methods/heating-10-a-2/1.yml").is_file()
    assert (fresh / "reports/sittings/2026-01-14-b.yml").is_file()
    assert told()[0] == []


def test_like_takes_over_all_but_piece_day_and_readings(fresh: Path) -> None:
    made(*GROUND)
    made((*RUN, "--strip", "11 mm", "--tool", "pliers: the red ones"))
    first = fresh / RUN_FILE
    text = first.read_text(encoding="utf-8")
    first.write_text(text.replace("0        |                       |", "0 | 21.4 |", 1), encoding="utf-8")
    made((*LIKE, *OTHER))
    second = (fresh / "reports/connectors/runs/2026-01-13-quorsby-q2-b.yml").read_text(encoding="utf-8")
    for line in (
        "method: heating-10-a/1", "place: kitchen table", "  strip: 11 mm", '  tool: "pliers: the red ones"',
        "  temperature@body: thermometer-1/CH2", "  current: clamp-1", "  conductor: 1.5 mm2 class 5",
        "  air-measured: beside the box", "item: quorsby-q2", "specimen: B", "date: 2026-01-13",
    ):  # fmt: skip
        assert f"{line}\n" in second, line
    assert "21.4" not in second
    assert "halvenor" not in second


def test_air_that_was_measured_is_a_reading_and_a_way_of_having_it_is_not(fresh: Path) -> None:
    at = RUN.index("ambient=thermometer-1/CH1")
    made(*GROUND, (*RUN[: at - 1], *RUN[at + 1 :]))
    first = fresh / RUN_FILE
    text = first.read_text(encoding="utf-8")
    for said, kept in (
        ("first reading", True),
        ("{start: 21 degC, end: 22 degC}", False),
        ("21 degC", False),
    ):
        first.write_text(text.replace("conditions:\n", f"conditions:\n  ambient: {said}\n"), encoding="utf-8")
        made((*LIKE, *OTHER, "--id", f"b-{len(said)}"))
        second = (fresh / f"reports/connectors/runs/b-{len(said)}.yml").read_text(encoding="utf-8")
        assert ("\n  ambient: first reading\n" in second) == kept
        assert kept or "\n  ambient:" not in second


def test_a_run_like_one_of_a_sitting(fresh: Path) -> None:
    made(*GROUND, SITTING)
    like = (
        "run",
        "--like",
        "2026-01-14/halvenor-c2:B",
        "--item",
        "halvenor-c2",
        "--specimen",
        "A",
        "--date",
        "today",
    )
    made(like)
    (found,) = (fresh / "reports/connectors/runs").iterdir()
    text = found.read_text(encoding="utf-8")
    assert "  temperature@body: thermometer-1/CH2\n" in text
    assert "  ambient: thermometer-1/CH1\n" in text


@pytest.mark.usefixtures("fresh")
def test_like_a_run_that_is_not_there() -> None:
    made(*GROUND, RUN)
    done = new("run", "--like", "2026-01-12-halvenor-c2-b", "--item", "quorsby-q2")
    assert done.exit_code == 2
    assert done.stderr.startswith("provebook: there is no run '2026-01-12-halvenor-c2-b'; did you mean '")


def test_a_control_run(fresh: Path) -> None:
    made(*GROUND)
    bare = without(without(RUN, "--item"), "--specimen")
    made((*bare, "--control", "bare-cable"))
    text = (fresh / "reports/connectors/runs/2026-01-12-bare-cable.yml").read_text(encoding="utf-8")
    assert "control: bare-cable" in text
    assert told()[0] == []


def test_a_run_of_one_value_and_one_that_is_counted(fresh: Path) -> None:
    made(*GROUND, PULL_OUT, SCALE, COUNT)
    also = (*instead(REPORT, "--id", "all"), "--also", "pull-out/1 count/1")
    made(also)
    report = (fresh / "reports/all/report.yml").read_text(encoding="utf-8")
    assert "main: rise\nmeasures: [rise, pull, counted]\n" in report
    piece = ("--report", "all", "--item", "halvenor-c2", "--specimen", "A", "--date", "2026-01-12")
    made(("run", "--method", "pull-out/1", *piece, "--instrument", "force=scale-1", "--id", "pull-a"))
    made(("run", "--method", "count/1", *piece, "--id", "count-a"))
    text = (fresh / "reports/all/runs/pull-a.yml").read_text(encoding="utf-8")
    assert "instruments:\n  force: scale-1\n" in text
    assert "values:\n  pull:  # as 12.5 N\n" in text
    faults, doubts = told()
    assert faults == []
    assert sum(each.startswith("the readings are missing") for each in doubts) == 2


@pytest.mark.usefixtures("fresh")
def test_a_question_is_not_answered_by_a_count() -> None:
    made(COUNT, BOUGHT)
    done = new(
        "report",
        "--question",
        "Which?",
        "--initiative",
        "own",
        "--method",
        "count/1",
        "--items",
        "halvenor-c2",
    )
    assert done.exit_code == 2
    assert "no method here measures a figure" in done.stderr


@pytest.mark.usefixtures("fresh")
@pytest.mark.parametrize(
    ("ground", "what", "wanted"),
    [
        ((), "report", "method"),
        ((HEATING,), "report", "item"),
        ((), "run", "method"),
        ((HEATING, BOUGHT), "run", "report"),
        ((HEATING,), "sitting", "item"),
    ],
)
def test_what_must_be_there_first_is_said(
    ground: tuple[tuple[str, ...], ...], what: str, wanted: str
) -> None:
    made(*ground)
    done = new(what)
    assert done.exit_code == 2
    assert done.stderr.endswith(f"Begin one with:  provebook new {wanted}\n")


def test_a_record_that_the_check_would_refuse_is_not_written(fresh: Path) -> None:
    made(*GROUND)
    before = files(fresh)
    done = new(*SENT, "--paid", "1 EUR", "--id", "other")
    assert done.exit_code == 1
    assert "paid for, and had as 'sent'; one of the two is not so" in done.stderr
    assert done.stderr.endswith("Nothing was written.\n")
    assert files(fresh) == before


@pytest.mark.usefixtures("fresh")
def test_records_at_fault_are_not_offered_and_that_is_said(fresh: Path) -> None:
    made(*GROUND)
    item = fresh / "reports/items/quorsby-q2.yml"
    item.write_text(item.read_text(encoding="utf-8") + "colour: red\n", encoding="utf-8")
    done = new(*instead(REPORT, "--id", "another"))
    assert done.exit_code == 2
    assert "Some records here are at fault and are not offered" in done.stderr
    assert "there is no item of this name" in done.stderr


def test_outside_a_bench_what_would_do_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for what in ("method", "instrument", "item", "report", "run", "sitting"):
        done = new(what)
        assert done.exit_code == 2
        assert "provebook new bench" in done.stderr


@pytest.mark.usefixtures("fresh")
def test_the_machine_may_refuse(monkeypatch: pytest.MonkeyPatch) -> None:
    def refusing(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(Path.cwd() / "reports" / "items"))

    monkeypatch.setattr("generator.intake.begun.write_new", refusing)
    done = new(*BOUGHT)
    assert (done.exit_code, done.stderr) == (
        2,
        "provebook: nothing was written: permission denied: reports/items\n",
    )


@pytest.mark.usefixtures("fresh")
def test_today_is_written_as_its_date() -> None:
    made(instead(BOUGHT, "--date", "today"))
    assert "today" not in Path("reports/items/halvenor-c2.yml").read_text(encoding="utf-8")
