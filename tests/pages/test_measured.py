"""How it was measured: nothing of the records is left out, and "none" is said."""

from __future__ import annotations

import dataclasses
from typing import Any

from generator.evaluation.report import evaluate
from generator.pages.measured import MeasuredView, measured_view
from generator.pages.render import Renderer
from tests.pages.factory import ROOT, demo
from tests.pages.rendered import Parsed

REPORT = demo().reports["fuse-holders-30a"]
FINDING = evaluate(demo(), REPORT)
NAMES = {key: item.title for key, item in demo().items.items()} | {"unbroken-cable": "unbroken cable"}


def view(runs: Any = None) -> MeasuredView:
    return measured_view(runs or REPORT.runs.values(), FINDING.measures, demo().instruments, NAMES)


def text(made: MeasuredView) -> str:
    html = Renderer(ROOT).fragment(
        "fragments/measured.html.jinja", measured=made, methods=(), conditions=(), ends=()
    )
    return Parsed(html).text


def test_the_air_is_told_by_how_and_where_it_was_read_and_from_what_to_what() -> None:
    air = view().air
    assert air.where == ("beside the box",)
    assert dict(air.modes)["channel"] == sum(run.readings is not None for run in REPORT.runs.values())
    assert air.span is not None
    assert 15 < float(air.span.low) < 25


def test_every_meter_says_what_it_read_and_who_calibrated_it() -> None:
    meters = {meter.name: meter for meter in view().meters}
    assert set(meters) == {"bench meter", "clamp meter", "eight-channel logger", "spring scale"}
    assert [each.certificate for each in meters["clamp meter"].calibrations] == ["D-2025-1187"]
    assert not meters["eight-channel logger"].calibrations
    reads = {each.column: each.channels for each in meters["eight-channel logger"].reads}
    assert reads["ambient"] == (("CH1", "k1"),)
    assert ("CH3", "k3") in reads["temperature"]
    told = text(view())
    assert "maker’s figure, never calibrated" in told
    assert "certificate D-2025-1187" in told
    assert all(f"{meter.name}{meter.id}" in told for meter in view().meters)


def test_an_excluded_reading_is_told_with_its_reason_its_piece_and_its_minute() -> None:
    (note,) = view().exclusions
    ((of, at),) = note.runs
    assert (note.text, of.name, of.piece, at) == ("jaw of the clamp not shut", "Grenlo 30", "B", "25")


def test_the_same_words_of_several_runs_are_said_once() -> None:
    notes = {note.text: note.runs for note in view().events}
    assert len(notes["current set back to 30 A after the reading"]) > 5
    assert sum(len(runs) for runs in notes.values()) == sum(len(run.events) for run in REPORT.runs.values())


def test_what_there_is_none_of_is_said() -> None:
    quiet = [
        dataclasses.replace(run, deviations=(), additions=(), events=(), stopped=None)
        for run in REPORT.runs.values()
    ]
    told = text(dataclasses.replace(view(quiet), exclusions=()))
    assert told.count("None.") == 4
    assert "What happened" not in told


def test_zero_checks_are_counted() -> None:
    assert 0 < view().zero_checked == sum(run.zero_check is not None for run in REPORT.runs.values())
