"""How it was measured: nothing of the records is left out, and "none" is said."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

from generator.evaluation.conditions import Departure, Unlike
from generator.evaluation.findings import RunFinding
from generator.evaluation.report import evaluate
from generator.pages.fit import FitView
from generator.pages.measured import MeasuredView, measured_view
from generator.pages.render import Renderer
from generator.pages.report import methods_of
from generator.records.bench import load
from tests.evaluation.pulls import Pulls
from tests.evaluation.small import LOGGER, METHOD, Small, table
from tests.evaluation.test_agreements import BESIDE, THERMOMETER
from tests.pages.factory import ROOT, demo
from tests.pages.rendered import Parsed

REPORT = demo().reports["fuse-holders-30a"]
FINDING = evaluate(demo(), REPORT)
NAMES = {key: item.title for key, item in demo().items.items()} | {"unbroken-cable": "unbroken cable"}


NOTHING = FitView((), (), (), None, ())


def view(runs: Any = None) -> MeasuredView:
    return measured_view(runs or REPORT.runs.values(), FINDING.measures, demo().instruments, NAMES)


def text(made: MeasuredView) -> str:
    html = Renderer(ROOT).fragment(
        "fragments/measured.html.jinja", measured=made, methods=(), conditions=(), fit=NOTHING
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
    wired = {"bench meter", "clamp meter", "eight-channel logger", "spring scale"}
    assert set(meters) == {*wired, "infra-red head"}
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


def test_runs_that_another_made_are_told_as_theirs() -> None:
    assert "Every run is my own; none was made by another." in text(view())
    one, *others = REPORT.runs.values()
    told = text(view([dataclasses.replace(one, made_by="a reader with a bench"), *others]))
    assert "by a reader with a bench, and not by me: told as they gave it (" in told
    assert "Every run is my own" not in told


def test_zero_checks_are_counted() -> None:
    assert 0 < view().zero_checked == sum(run.zero_check is not None for run in REPORT.runs.values())


def test_a_condition_out_of_tolerance_and_a_drifting_room_are_told() -> None:
    item = FINDING.measures[0].items[0]
    piece = item.pieces[0]
    departures = (
        Departure("enclosure", "closed box 2 l", "open air"),
        Departure("ambient", "", "", (28.4, 29.0)),
    )
    run = dataclasses.replace(piece.runs[0], departures=departures, ramp=-2.6)
    changed = dataclasses.replace(item, pieces=(dataclasses.replace(piece, runs=(run,)),))
    measure = dataclasses.replace(FINDING.measures[0], items=(changed,))
    made = measured_view(REPORT.runs.values(), (measure,), demo().instruments, NAMES)
    told = text(made)
    assert "enclosure was “open air”: shown, and not compared" in told
    assert "the air was 28.4 to 29.0 °C" in told
    assert "the air drifted by −2.6 °C" in told
    assert "−4.68" in told
    assert "32" not in told.split("drifted by")[1][:40]


def test_a_room_that_keeps_within_two_kelvin_an_hour_is_not_told() -> None:
    assert all(abs(run.ramp or 0) <= 2 for run in (each for each in _runs()))
    assert view().drifts == ()


def _runs() -> list[RunFinding]:
    measure = FINDING.measures[0]
    return [
        run for item in (*measure.items, *measure.controls) for piece in item.pieces for run in piece.runs
    ]


def test_what_compared_runs_do_not_share_is_told_with_whose_it_was() -> None:
    ids = [run.run for run in _runs()][:2]
    unlike = (Unlike("tool", (("ratchet crimper", (ids[0],)), ("pliers", (ids[1],)))),)
    measure = dataclasses.replace(FINDING.measures[0], unlike=unlike)
    told = text(measured_view(REPORT.runs.values(), (measure,), demo().instruments, NAMES))
    assert "Not the same for all tool: ratchet crimper (Tessvik T30); pliers (Tessvik T30)" in told


def test_air_and_zero_checks_are_told_of_what_was_heated_alone() -> None:
    made = view()
    assert (made.heated, made.runs) == (24, len(REPORT.runs))
    assert [mode for mode, _ in made.air.modes] == ["channel"]
    told = text(made)
    assert "before 5 of 24 heatings" in told
    assert "over all 24 heatings" in told
    runs = [run for run in REPORT.runs.values() if run.method == "pull-out"]
    cold = text(measured_view(runs, [FINDING.measure("pull")], demo().instruments, NAMES))
    assert "Nothing was heated in this test" in cold
    assert "not recorded" not in cold


def test_a_struck_reading_without_a_time_is_told_without_a_minute(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path, ", reduce: mean")
    pulls.pull("tessvik", "A", "pull N\n388\n20 ! not yet taut")
    finding, bench = pulls.finding(), load(tmp_path)
    runs = bench.reports["r"].runs.values()
    (note,) = measured_view(runs, finding.measures, bench.instruments, {"tessvik": "Tessvik X"}).exclusions
    ((of, at),) = note.runs
    assert (note.text, of.name, at) == ("not yet taut", "Tessvik X", "")


def test_what_two_measures_share_is_told_once() -> None:
    rows = view().unlike
    assert [row.what for row in rows] == list(dict.fromkeys(row.what for row in rows))
    tools = next(row for row in rows if row.what == "tool")
    assert dict(tools.values)["pliers"] == ("Grenlo 30", "Pallsto F-30")


def test_two_meters_beside_each_other_and_the_order_of_runs_are_told(tmp_path: Path) -> None:
    small = Small(tmp_path)
    small.write("instruments/glass.yml", THERMOMETER)
    small.write("instruments/logger.yml", LOGGER + BESIDE % ("53.0 degC", "50.0 degC"))
    for item, days in (("tessvik", (1, 2)), ("veldrun", (3, 3))):
        for letter, each in zip("AB", days, strict=True):
            small.run(item, letter, table(40.0), date=f"2026-03-{each:02}")
    small.finish()
    bench = load(small.root)
    report = bench.reports["r"]
    names = {"tessvik": "Tessvik X", "veldrun": "Veldrun X"}
    measures = evaluate(bench, report).measures
    told = text(measured_view(report.runs.values(), measures, bench.instruments, names))
    assert "it read 53.0 °C ± 2 °C (127.4 °F ± 3.5 °F), glass thermometer beside it 50.0 °C ± 0.45 °C" in told
    assert "they do not agree, so one of them is further off than it states (En = 1.49;" in told
    assert "1 March 2026: Tessvik X A" in told
    assert "3 March 2026: Veldrun X A, Veldrun X B in an order that nobody noted" in told
    assert "All runs of Tessvik X and Veldrun X were made on days of their own:" in told


def test_runs_by_a_version_that_does_not_agree_say_why_they_are_not_compared(tmp_path: Path) -> None:
    small = Small(tmp_path)
    small.write("methods/heat/2.yml", METHOD % "" + "changes: a smaller box\n")
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(50.0), version=2)
    small.finish()
    bench = load(small.root)
    report = bench.reports["r"]
    names = {"tessvik": "Tessvik X", "veldrun": "Veldrun X"}
    methods = methods_of(bench, report)
    measures = evaluate(bench, report).measures
    told = text(measured_view(report.runs.values(), measures, bench.instruments, names, methods))
    assert (
        "By another version Version 1 of “Heating at 30 A”: version 2 does not say that results of version 1"
        " may stand beside its own. What changed: a smaller box. Shown, and not compared"
        " (Tessvik X A, 1 March 2026)" in told
    )
    small.write("methods/heat/2.yml", METHOD % "" + "changes: new labels\ncomparable-with: [1]\n")
    bench = load(small.root)
    measures = evaluate(bench, bench.reports["r"]).measures
    methods = methods_of(bench, bench.reports["r"])
    assert measured_view(report.runs.values(), measures, bench.instruments, names, methods).apart == ()
