"""The committed editions are what `provebook publish` makes of the records of the day of each."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.records.bench import Bench, load
from tests.simulator import publish
from tests.simulator.editions import EDITIONS, FUSES, SOCKETS, TERMINALS, Typed
from tests.simulator.write import REPORTS

BY_PROGRAM = re.compile(r"(?m)^program:\n(?:  .*\n)+|^(?:follows|marks|hash): .*\n|^# .*\n")
"""What another version of the program or of its libraries writes otherwise."""


@pytest.fixture(scope="module")
def made() -> dict[str, bytes]:
    return publish.editions(REPORTS)


@pytest.fixture(scope="module")
def demo() -> Bench:
    return load(REPORTS.parent)


def program(text: str) -> str:
    found = re.search(r"(?m)^program:\n(?:  .*\n)+", text)
    assert found is not None
    return found[0]


def test_committed_editions_are_those_that_are_published_anew(made: dict[str, bytes]) -> None:
    kept = {path.relative_to(REPORTS).as_posix(): path for path in REPORTS.glob("*/editions/*")}
    assert sorted(kept) == sorted(made)
    for name, data in made.items():
        was, now = kept[name].read_bytes().decode(), data.decode()
        anew = f"{name} differs; python -m tests.simulator.publish makes it anew"
        assert BY_PROGRAM.sub("", was) == BY_PROGRAM.sub("", now), anew
        if program(was) == program(now):
            assert was == now, anew


def test_each_reason_but_wording_is_there_in_order_of_days(demo: Bench) -> None:
    told = {
        key: [each.reason for _, each in sorted(report.editions.items())]
        for key, report in demo.reports.items()
        if report.editions
    }
    assert told == {
        FUSES: [None, "retest", "correction", "addition"],
        SOCKETS: [None, "retest"],
        TERMINALS: [None, "withdrawal"],
    }
    for report in demo.reports.values():
        days = [each.date for _, each in sorted(report.editions.items())]
        assert days == sorted(days)


def test_an_edition_has_what_was_known_on_its_day_and_nothing_of_later(demo: Bench) -> None:
    first, retest = (demo.reports[FUSES].editions[number] for number in (1, 2))
    pieces = [sorted(each.content["items"]["okvarn-ih30"]["specimens"]) for each in (first, retest)]
    assert pieces == [list("ABCD"), list("ABCDEFG")]
    assert max(re.findall(r"2026-\d\d-\d\d", " ".join(first.runs))) == "2026-03-12"
    by_version = demo.reports[SOCKETS].editions
    assert "methods/socket-heating-15a/2.yml" not in by_version[1].rests_on
    assert {"methods/socket-heating-15a/1.yml", "methods/socket-heating-15a/2.yml"} <= set(
        by_version[2].rests_on
    )


def test_what_was_typed_for_an_edition_must_stand_in_the_record(tmp_path: Path) -> None:
    first, second = (each for each in EDITIONS if each.report == SOCKETS)
    reports = tmp_path / "reports"
    for name, data in publish.as_of(REPORTS, second, []).items():
        (reports / name).parent.mkdir(parents=True, exist_ok=True)
        (reports / name).write_bytes(data)
    other = replace(second, typed=(Typed(f"{SOCKETS}/report.yml", "never typed"),))
    with pytest.raises(ValueError, match="holds not once what was typed for an edition: 'never typed'"):
        publish.as_of(reports, first, [other])


def test_what_is_refused_is_told() -> None:
    retest = replace(next(each for each in EDITIONS if each.reason == "retest"), date="2026-08-01")
    files = publish.as_of(REPORTS, EDITIONS[1], [])
    with pytest.raises(ValueError, match="was not published on 2026-08-01"):
        publish.published(files, retest)
