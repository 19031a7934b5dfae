"""Infra-red readings: the surface behind them, what it costs, and what may not be told of them."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from generator.evaluation.checks import checked
from generator.evaluation.report import evaluate
from generator.records.bench import load
from tests.evaluation.drops import METER
from tests.evaluation.seen import CAMERA, by_camera, first, shown, told
from tests.evaluation.small import METHOD, Small, table
from tests.simulator.meters import Optics, indication


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


# ---- The surface behind a reading ----


@pytest.mark.parametrize(
    ("optics", "record", "changes"),
    [
        (Optics(0.95, 20.0, 0.90, 20.0), CAMERA, {}),
        (Optics(0.95, 20.0, 0.90, 30.0), CAMERA, {"reflected": "30 degC", "reflected_set": "20 degC"}),
        (Optics(1.0, None, 0.80, 25.0), CAMERA.replace("reflected: set", "reflected: none"),
         {"emissivity_set": "1", "emissivity": "0.80", "reflected": "25 degC"}),
        (Optics(0.95, 20.0, 0.85, 26.0), CAMERA.replace("reflected: set", "reflected: own-temperature"),
         {"emissivity": "0.85", "reflected": "26 degC"}),
        (Optics(0.95, 20.0, 0.90, 20.0, (8.0, 14.0)),
         CAMERA.replace("{reflected: set", "{reflected: set, band: 8 to 14 um"), {}),
    ],
)  # fmt: skip
def test_the_true_rise_is_found_behind_what_each_kind_of_meter_shows(
    small: Small, optics: Optics, record: str, changes: dict[str, str]
) -> None:
    """The truth by quadratures of Planck's law (tests/simulator/meters.py), not by the sum used here."""
    by_camera(small, readings=shown(optics), more=told(**changes), camera=record)
    run = first(small)
    assert run.figure is not None, run.why_not
    assert run.figure.value == pytest.approx(40.0, abs=0.1)
    assert [each.surface for each in run.readings] == pytest.approx([20.0, 56.0, 60.0], abs=0.1)
    # What was read stays beside it.
    assert run.readings[-1].temperature == pytest.approx(
        float(indication(np.array([60.0]), optics)[0]), abs=0.051
    )


def test_the_way_from_the_indication_adds_up(small: Small) -> None:
    by_camera(small)
    run = first(small)
    way, worked = run.seen, run.worked
    assert way is not None
    assert worked is not None
    shown_black, reckoned_black, mirrored_black = way.black
    assert way.signal == pytest.approx(0.95 * shown_black + 0.05 * reckoned_black)
    assert way.own == pytest.approx((way.signal - 0.10 * mirrored_black) / 0.90)
    assert way.temperature == pytest.approx(worked.temperature)
    assert worked.temperature - worked.air_felt == pytest.approx(worked.rise)
    assert worked.figure == pytest.approx(40.0, abs=0.1)


def test_the_errors_of_the_meter_pass_through_the_slope(small: Small) -> None:
    by_camera(small)
    run = first(small)
    assert run.budget is not None
    assert run.seen is not None
    rows = {row.label: row for row in run.budget.rows}
    below, above = indication(np.array([59.0, 61.0]), Optics(emissivity=0.90))
    assert run.seen.magnified == pytest.approx(2.0 / (above - below), rel=1e-3)
    offset = next(row for label, row in rows.items() if label.startswith("camera: offset"))
    assert offset.sensitivity == pytest.approx(run.seen.magnified, rel=1e-6)
    # −0.38 K per 0.01 of emissivity, ± 0.02 as a rectangle.
    assert rows["emissivity of the surface"].contribution == pytest.approx(
        0.02 / math.sqrt(3) * 37.9, rel=0.02
    )
    assert rows["emissivity of the surface"].source == "tape, black vinyl"
    assert not rows["emissivity of the surface"].assumed
    # 0.1 · L'(20 °C) / (0.9 · L'(60 °C)) K for a K.
    assert 0.06 < abs(rows["temperature that the surface mirrors"].sensitivity) < 0.1


def test_a_meter_that_touches_nothing_leads_no_heat_away(small: Small) -> None:
    small.write("methods/heat/1.yml", (METHOD % "").replace("at-most: 0 K", "at-most: 2 K"))
    by_camera(small)
    run = first(small)
    assert run.worked is not None
    assert run.worked.probe == 0
    assert run.worked.figure == pytest.approx(40.0, abs=0.1)
    small.run("tessvik", "B", table(40.0))
    found = [piece.runs[0].worked for piece in small.rise().items[0].pieces]
    assert [each.probe for each in found if each is not None] == [0.0, 1.0]


def test_what_the_record_does_not_say_of_them_is_assumed_and_said_so(small: Small) -> None:
    by_camera(small, more=told(emissivity_within=None, reflected_within=None))
    run = first(small)
    assert run.budget is not None
    rows = {row.label: row for row in run.budget.rows}
    emissivity, around = rows["emissivity of the surface"], rows["temperature that the surface mirrors"]
    assert emissivity.assumed
    assert around.assumed
    assert emissivity.standard_uncertainty == pytest.approx(0.05 / math.sqrt(3))
    assert around.standard_uncertainty == pytest.approx(5.0 / math.sqrt(3))


def test_a_meter_that_reckons_with_its_own_temperature_may_be_warmer_than_the_air(small: Small) -> None:
    record = CAMERA.replace("reflected: set", "reflected: own-temperature")
    by_camera(small, camera=record)
    run = first(small)
    assert run.budget is not None
    own = next(row for row in run.budget.rows if row.label.startswith("the meter's own temperature"))
    assert own.assumed
    assert 0 < own.sensitivity < 0.05
    by_camera(small, piece="B", more=told(reflected_set="24 degC"), camera=record)
    runs = [piece.runs[0] for piece in small.rise().items[0].pieces]
    assert runs[1].budget is not None
    assert not any("own temperature" in row.label for row in runs[1].budget.rows)


def test_parts_under_one_tape_share_its_emissivity_and_bare_ones_do_not(small: Small) -> None:
    def left(surface: str) -> float:
        for item in ("tessvik", "veldrun"):
            by_camera(small, item, more=told(surface=surface))
        (pair,) = small.rise().pairs
        return pair.difference.standard_uncertainty

    taped = left("tape, black vinyl")
    small.items.clear()
    for path in (small.root / "reports/r/runs").iterdir():
        path.unlink()
    assert left("measured, brass") > 1.2 * taped


def test_a_range_that_ends_stays_a_bound(small: Small) -> None:
    by_camera(small, readings=shown(Optics(emissivity=0.90), last=">150"))
    run = first(small)
    assert (run.figure, run.why_not) == (None, "over-range")
    assert (run.readings[-1].bound, run.readings[-1].surface) == (">", None)


def test_a_zero_check_is_of_surfaces_too(small: Small) -> None:
    """Five pairs without current: the camera, seeing 20 °C right, is 0.4 K above the probe."""
    pairs = "\n".join(f"{at} | 20.4 | 20.0" for at in range(5))
    check = (
        "zero-check:\n  pairs: 5\n  columns: [temperature@body, ambient]\n  table: |\n"
        "    time min | temperature@body degC | ambient degC\n"
        + "".join(f"    {row}\n" for row in pairs.splitlines())
    )
    by_camera(small, more=told() + check)
    run = first(small)
    assert run.worked is not None
    assert run.worked.offset is not None
    assert run.worked.offset == pytest.approx(0.4 * 1.03, abs=0.02)
    assert run.worked.figure == pytest.approx(40.0 - run.worked.offset, abs=0.1)


# ---- What may not be told ----


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"emissivity": "0.10"}, "emissivity-too-low"),
        ({"emissivity": "0.59"}, "emissivity-too-low"),
        ({"emissivity": "0.60"}, None),
        ({"target": "29 mm"}, "target-too-small"),
        ({"target": "30 mm"}, None),
        ({"angle": "46 deg"}, "seen-too-slanted"),
        ({"angle": "45 deg"}, None),
        ({"through": "a lid of acrylic"}, "seen-through-a-window"),
        ({"reflected": None}, "settings-not-recorded"),
        ({"distance": None}, "settings-not-recorded"),
        ({"target": None}, "settings-not-recorded"),
    ],
)
def test_what_is_no_main_figure(small: Small, changes: dict[str, str | None], why: str | None) -> None:
    by_camera(small, more=told(**changes))
    run = first(small)
    assert run.why_not == why
    assert (run.figure is None) is (why is not None)
    # What was read stays shown.
    assert run.readings[-1].temperature is not None
    if why is not None:
        assert (run.end, run.readings[-1].rise, run.readings[-1].surface) == (None, None, None)


def test_settings_that_nobody_wrote_down(small: Small) -> None:
    by_camera(small, more="place: workshop\n")
    run = first(small)
    assert (run.figure, run.why_not) == (None, "settings-not-recorded")
    assert run.readings[-1].temperature is not None


def test_a_spot_of_unknown_size_and_a_meter_that_may_have_had_any_temperature(small: Small) -> None:
    by_camera(small, camera=CAMERA.replace(", distance-to-spot: 30 to 1", ""))
    assert first(small).why_not == "settings-not-recorded"


def test_what_a_stopped_part_showed_of_bare_metal_is_held_against_nothing(small: Small) -> None:
    readings = "\n".join(shown(Optics(emissivity=0.90)).splitlines()[:-1])
    stop = "stopped: {at: 40 min, because: smoke}\n"
    by_camera(small, readings=readings, more=told(emissivity="0.1") + stop)
    small.report += (
        "limits:\n  - {kind: rise, value: 10 K, point: body, standing: claimed, source: the maker}\n"
    )
    item = small.rise().items[0]
    assert item.why_not == "stopped"
    assert [limit.outcome for limit in item.limits] == ["stopped"]


def test_a_reading_that_no_surface_shows_is_a_fault_that_names_it(small: Small) -> None:
    readings = shown(Optics(emissivity=0.90)).replace("0 | 20.0 |", "0 | 5.0 |", 1)
    by_camera(small, readings=readings, more=told(emissivity="0.6", reflected="140 degC"))
    small.finish()
    bench = checked(load(small.root))
    assert [each.what for each in bench.faults if each.found == "5.0"] == [
        "5 °C shown, emissivity 0.6, mirrors 140 °C: no such surface"
    ]
    run = evaluate(bench, bench.reports["r"]).measure("rise").items[0].pieces[0].runs[0]
    assert (run.figure, run.why_not) == (None, "no-such-surface")


# ---- Side by side ----


def test_bare_surfaces_that_differ_are_not_compared(small: Small) -> None:
    by_camera(small, "tessvik", more=told(surface="measured, brass"))
    by_camera(small, "veldrun", more=told(surface="measured, nylon"))
    found = small.rise()
    assert [each.why_not for each in found.items] == ["other-surface", "other-surface"]
    assert found.pairs == ()
    assert [(each.what, [text for text, _ in each.values]) for each in found.unlike] == [
        ("surface", ["measured, brass", "measured, nylon"])
    ]


def test_bare_surfaces_that_are_alike_are_compared(small: Small) -> None:
    by_camera(small, "tessvik", more=told(surface="measured, brass"))
    by_camera(small, "veldrun", more=told(surface="measured, Brass"))
    found = small.rise()
    assert len(found.pairs) == 1
    assert found.unlike == ()


def test_under_tape_and_paint_all_are_compared_and_it_is_said(small: Small) -> None:
    by_camera(small, "tessvik")
    by_camera(small, "veldrun", more=told(surface="paint, matt black"))
    small.run("ombrel", "A", table(44.0))
    found = small.rise()
    assert len(found.pairs) == 3
    assert [each.what for each in found.unlike] == ["surface"]
    by_camera(small, "okvarn", more=told(surface="measured, nylon"))
    found = small.rise()
    assert [each.why_not for each in found.items] == [None, None, None, "other-surface"]
    assert len(found.pairs) == 3


# ---- Other kinds, other points ----


SCALAR = (
    METHOD.replace("measures:", "measures:\n  - {id: cap, kind: scalar, quantity: temperature, reduce: max}")
    % ""
)


def test_a_single_temperature_typed_as_read(small: Small) -> None:
    small.write("methods/heat/1.yml", SCALAR)
    small.report = small.report.replace("measures: [rise]", "measures: [rise, cap]")
    by_camera(small, more=told() + "values: {cap: 57.9 degC}\n")
    path = small.root / "reports/r/runs/run-001.yml"
    text = path.read_text(encoding="utf-8")
    head, rest = text.split("instruments:")
    typed = f"{head}instruments: {{cap: camera}}\n{rest[rest.index('infrared:') :]}"
    path.write_text(typed, encoding="utf-8")
    run = small.finding().measure("cap").items[0].pieces[0].runs[0]
    assert run.figure is not None
    assert run.seen is not None
    assert run.figure.value == pytest.approx(run.seen.temperature)
    assert run.figure.value > 59.5
    path.write_text(typed.replace("emissivity: 0.90", "emissivity: 0.5"), encoding="utf-8")
    run = small.evaluated().measure("cap").items[0].pieces[0].runs[0]
    assert (run.figure, run.why_not) == (None, "emissivity-too-low")
    assert [each.value for each in run.values] == [57.9]


def test_a_temperature_from_a_table_of_readings(small: Small) -> None:
    small.write("methods/heat/1.yml", SCALAR)
    small.report = small.report.replace("measures: [rise]", "measures: [rise, cap]")
    by_camera(small)
    run = small.finding().measure("cap").items[0].pieces[0].runs[0]
    assert run.figure is not None
    assert run.figure.value == pytest.approx(60.0, abs=0.1)
    assert [each.value for each in run.values] == pytest.approx([20.0, 56.0, 60.0], abs=0.1)
    by_camera(small, piece="B", more=told(emissivity="0.5"))
    run = small.finding().measure("cap").items[0].pieces[1].runs[0]
    assert (run.figure, run.why_not) == (None, "emissivity-too-low")


def test_of_a_point_by_probe_and_one_by_camera_the_hotter_surface_counts(small: Small) -> None:
    """The camera shows 58 °C of a surface at 60 °C; the probe's point is at 59 °C."""
    points = "points: {body: {where: side, held-by: cement, reads-low-by-at-most: 0 K}"
    method = (
        (METHOD % "")
        .replace("point: body,", "point: hottest,")
        .replace(points, points + ", cap: {where: cap, held-by: nothing, reads-low-by-at-most: 0 K}")
    )
    small.write("methods/heat/1.yml", method)
    rows = shown(Optics(emissivity=0.90)).splitlines()
    probe = [" temperature@cap degC ", " 20.0 ", " 55.0 ", " 59.0 "]
    readings = "\n".join(
        "|".join([*row.split("|")[:2], more, *row.split("|")[2:]])
        for row, more in zip(rows, probe, strict=True)
    )
    by_camera(small, readings=readings)
    path = small.root / "reports/r/runs/run-001.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(
        text.replace("ambient: logger", "temperature@cap: logger/CH3, ambient: logger"), encoding="utf-8"
    )
    run = first(small)
    assert run.worked is not None
    assert run.worked.point == "body"
    assert run.worked.figure == pytest.approx(40.0, abs=0.1)
    last = run.readings[-1]
    assert last.temperature is not None
    assert last.temperature < 59.0 < (last.surface or 0.0)


@pytest.mark.parametrize("emissivity", ["0.90", "0.10"])
def test_a_resistance_is_referred_to_20_degrees_by_the_surface_alone(small: Small, emissivity: str) -> None:
    """1.3 mΩ of copper at 60 °C, 0.00393 a K (IEC 60028): 1.3/(1 + 0.00393·40) at 20 °C."""
    ohms = "{id: ohms, kind: resistance, supply: dc, leads: none, coefficient: copper, point: body}"
    small.write("methods/heat/1.yml", METHOD.replace("measures:", f"measures:\n  - {ohms}") % "")
    small.write("instruments/meter.yml", METER)
    small.report = small.report.replace("measures: [rise]", "measures: [rise, ohms]")
    rows = shown(Optics(emissivity=0.90)).splitlines()
    readings = "\n".join([f"{rows[0]} | drop mV", *(f"{row} | " for row in rows[1:3]), f"{rows[3]} | 39.0"])
    by_camera(small, readings=readings, more=told(emissivity=emissivity))
    path = small.root / "reports/r/runs/run-001.yml"
    text = path.read_text(encoding="utf-8").replace("current: clamp}", "current: clamp, drop: meter}")
    path.write_text(text, encoding="utf-8")
    found = small.finding().measure("ohms").items[0]
    if emissivity == "0.10":
        assert found.why_not == "no-temperature"
        return
    assert found.figure is not None
    assert found.figure.value == pytest.approx(1.3e-3 / (1 + 0.00393 * 40), rel=1e-3)
