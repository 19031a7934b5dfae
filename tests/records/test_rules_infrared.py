"""Infra-red meters: their settings stand where one read a temperature, and say what a figure needs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.laid import REPORT, good, laid, whats

NAME = f"{REPORT}/runs/veldrun-b.yml"
CAMERA = """name: infra-red camera
ranges:
  - {quantity: temperature, from: -20 degC, to: 150 degC, accuracy: ±2 degC, resolution: 0.1 degC}
infrared: {reflected: set, distance-to-spot: 30 to 1}
calibrated: never
"""
SETTINGS = """infrared:
  emissivity-set: 0.95
  emissivity: 0.93
  emissivity-within: 0.02
  surface: tape, black vinyl
  reflected: 21 degC
  reflected-within: 2 K
  reflected-set: 20 degC
  distance: 300 mm
  target: 40 mm
  angle: 30 deg
"""


def camera(settings: str, record: str = CAMERA) -> dict[str, str | None]:
    text = good(NAME, ("logger-1/CH3", "camera-1"))
    return {"instruments/camera-1.yml": record, NAME: text + settings}


def test_an_infra_red_meter_needs_its_settings(tmp_path: Path) -> None:
    bench = laid(tmp_path, camera(""))
    assert bench.faults == ()
    assert [each.path for each in bench.doubts] == ["instruments.temperature@body"]


def test_settings_of_an_infra_red_meter(tmp_path: Path) -> None:
    bench = laid(tmp_path, camera(SETTINGS))
    assert (bench.faults, bench.doubts) == ((), ())
    found = bench.runs[f"{REPORT}/veldrun-b"].infrared
    assert found is not None
    assert (found.emissivity, found.surface.text, found.surface.how) == (0.93, "tape, black vinyl", "tape")
    assert found.surface.coated
    assert found.angle is not None
    assert found.angle.magnitude_in("deg") == pytest.approx(30)
    optics = bench.instruments["camera-1"].infrared
    assert optics is not None
    assert optics.distance_to_spot == 30


@pytest.mark.parametrize(
    ("written", "ratio"), [("12 to 1", 12), ("12:1", 12), ("9.5:1", 9.5), ("50 to 2", 25)]
)
def test_a_distance_to_a_spot_as_makers_print_it(tmp_path: Path, written: str, ratio: float) -> None:
    bench = laid(tmp_path, camera(SETTINGS, CAMERA.replace("30 to 1", written)))
    assert bench.faults == ()
    optics = bench.instruments["camera-1"].infrared
    assert optics is not None
    assert optics.distance_to_spot == ratio


def test_a_bare_surface_is_one_that_was_measured(tmp_path: Path) -> None:
    bench = laid(tmp_path, camera(SETTINGS.replace("tape, black vinyl", "measured")))
    found = bench.runs[f"{REPORT}/veldrun-b"].infrared
    assert found is not None
    assert not found.surface.coated


@pytest.mark.parametrize(
    ("gone", "told"),
    [
        ("  reflected: 21 degC\n", "reflected"),
        ("  distance: 300 mm\n", "distance"),
        ("  target: 40 mm\n", "target"),
    ],
)
def test_what_a_main_figure_needs_and_is_not_said(tmp_path: Path, gone: str, told: str) -> None:
    bench = laid(tmp_path, camera(SETTINGS.replace(gone, "")))
    assert bench.faults == ()
    assert whats(bench.doubts) == [f"infrared: not said, so there is no main figure: {told}"]


def test_a_spot_that_nobody_knows_the_size_of(tmp_path: Path) -> None:
    bench = laid(tmp_path, camera(SETTINGS, CAMERA.replace(", distance-to-spot: 30 to 1", "")))
    assert whats(bench.doubts) == ["infrared: not said, so there is no main figure: distance-to-spot"]


def test_settings_for_no_infra_red_meter(tmp_path: Path) -> None:
    (fault,) = laid(tmp_path, {NAME: good(NAME) + SETTINGS}).faults
    assert (fault.path, fault.what) == (
        "infrared",
        "settings of an infra-red meter, and none reads a temperature here",
    )
