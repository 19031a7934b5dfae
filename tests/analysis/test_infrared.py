"""Surface temperatures from what an infra-red meter shows, against cases computed another way."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from generator.analysis.budget import budget
from generator.analysis.infrared import Settings, surface
from generator.analysis.radiation import Band, NoTemperature
from generator.analysis.surfaces import uncertain_surface
from generator.analysis.uncertainty import Ledger, rectangle
from tests.simulator.meters import Optics, indication

PUBLISHED = Path(__file__).parents[1] / "published"


def _cases() -> list[dict[str, float]]:
    with (PUBLISHED / "ir-emissivity-cases.csv").open(encoding="utf-8") as file:
        return [{name: float(value) for name, value in row.items()} for row in csv.DictReader(file)]


@pytest.mark.parametrize("case", _cases(), ids=str)
@pytest.mark.parametrize(("low", "name"), [(7.5e-6, "7.5_14um"), (8e-6, "8_14um")])
def test_cases_by_quadrature(case: dict[str, float], low: float, name: str) -> None:
    # Solved with quadratures of Planck's law (scipy), not with the sum used here.
    settings = Settings(case["eps_set"], "set", case["t_refl_set_C"], Band(low, 14e-6))
    found = surface(case["t_indicated_C"], settings, case["eps_true"], case["t_refl_true_C"])
    assert found.temperature == pytest.approx(case[f"t_surface_band_{name}_C"], abs=2e-6)


@pytest.mark.parametrize(("shown", "emissivity", "around"), [(60.0, 0.8, 20.0), (40.1, 0.05, 35.0)])
def test_against_another_library(shown: float, emissivity: float, around: float) -> None:
    # Reference: scipy, Planck's law by QUADPACK and the surface by Brent's method.
    def seen(celsius: float) -> float:
        kelvin = celsius + 273.15
        return float(
            quad(lambda um: um**-5 / math.expm1(14387.76877504 / um / kelvin), 7.5, 14, epsrel=1e-11)[0]
        )

    def left(celsius: float) -> float:
        reflected = (1 - 0.95) * seen(20.0), (1 - emissivity) * seen(around)
        return 0.95 * seen(shown) + reflected[0] - emissivity * seen(celsius) - reflected[1]

    found = surface(shown, Settings(0.95, "set", 20.0), emissivity, around)
    assert found.temperature == pytest.approx(brentq(left, -60.0, 200.0, xtol=1e-9), abs=1e-5)


def test_the_whole_spectrum_is_no_stand_in_for_the_band() -> None:
    # The law of the fourth power puts 60 °C at ε 0.80 to 68.04 °C; in the band it is 68.26 °C.
    found = surface(60.0, Settings(1.0, "set"), 0.80, 20.0)
    assert found.temperature == pytest.approx(68.262, abs=5e-4)
    assert abs(found.temperature - 68.043) > 0.2


def test_the_errors_of_the_meter_grow_at_a_low_emissivity() -> None:
    # Computed here: ±2 K of a meter set to 0.95 that shows 60 °C is 2.27 K at ε 0.8 and 4.38 K at 0.3.
    for emissivity, grown in ((0.8, 2.269), (0.3, 4.380)):
        found = surface(60.0, Settings(0.95, "set"), emissivity, 20.0)
        assert 2 * found.per_indication == pytest.approx(grown, abs=5e-4)
    assert surface(60.0, Settings(0.95, "set"), 0.95, 20.0).per_indication == pytest.approx(1.0)
    # −0.36 K per 0.01 of emissivity at 60 °C, ε 0.95, 20 °C around (by quadrature, scipy).
    assert surface(60.0, Settings(0.95, "set"), 0.95, 20.0).per_emissivity == pytest.approx(-35.86, abs=0.01)


@given(
    shown=st.floats(-10, 300),
    set_to=st.floats(0.3, 1.0),
    emissivity=st.floats(0.6, 1.0),
    around=st.floats(-10, 40),
    mirrors=st.sampled_from(["set", "own-temperature", "none"]),
)
def test_sensitivities_are_slopes(
    shown: float, set_to: float, emissivity: float, around: float, mirrors: str
) -> None:
    settings = Settings(set_to, mirrors, 20.0)  # type: ignore[arg-type]
    try:
        found = surface(shown, settings, emissivity, around)
        near = [
            surface(shown + a, settings, emissivity + b, around + c).temperature
            for a, b, c in ((1e-3, 0, 0), (-1e-3, 0, 0), (0, -1e-6, 0), (0, 0, 1e-3), (0, 0, -1e-3))
        ]
    except NoTemperature:
        return
    if found.temperature < -100:
        return
    assert found.per_indication == pytest.approx((near[0] - near[1]) / 2e-3, rel=1e-4, abs=1e-6)
    assert found.per_emissivity == pytest.approx((found.temperature - near[2]) / 1e-6, rel=1e-2, abs=1e-2)
    assert found.per_reflected == pytest.approx((near[3] - near[4]) / 2e-3, rel=1e-4, abs=1e-6)


@given(shown=st.floats(-20, 400), emissivity=st.floats(0.05, 1.0), around=st.floats(-20, 60))
def test_a_meter_set_right_shows_the_surface(shown: float, emissivity: float, around: float) -> None:
    found = surface(shown, Settings(emissivity, "set", around), emissivity, around)
    assert found.temperature == pytest.approx(shown, abs=1e-6)


def test_what_is_mirrored_can_outshine_the_surface() -> None:
    with pytest.raises(NoTemperature, match=r"5 °C shown, emissivity 0\.2, mirrors 60 °C"):
        surface(5.0, Settings(0.95, "set"), 0.2, 60.0)


@pytest.mark.parametrize("emissivity", [0.0, -0.1, 1.01])
def test_what_is_no_emissivity(emissivity: float) -> None:
    with pytest.raises(ValueError, match="emissivity"):
        surface(60.0, Settings(0.95, "set"), emissivity, 20.0)
    with pytest.raises(ValueError, match="emissivity"):
        Settings(emissivity, "set")


def test_readings_of_one_tape_share_its_emissivity() -> None:
    ledger = Ledger()
    tape = ledger.input(rectangle(("tape",), "emissivity", 0.02, "1", "shared"), 0.95)
    around = ledger.input(rectangle(("around",), "mirrored", 2.0, "K", "shared"), 20.0)
    shown = [
        ledger.input(rectangle(("meter", str(place)), "meter", 1.0, "K", "run"), 60.0 + place)
        for place in (0, 1)
    ]
    found = [uncertain_surface(each, Settings(0.95, "set"), tape, around) for each in shown]
    alone = ledger.contributions(found[0])
    assert {entry.label: abs(part) for entry, part in alone}["emissivity"] == pytest.approx(
        0.02 / 3**0.5 * 35.86, rel=1e-3
    )
    between = {entry.label: abs(part) for entry, part in ledger.contributions(found[1] - found[0])}
    assert between["emissivity"] < 0.02
    assert found[0].x == pytest.approx(60.0)


SHOWN = [
    (100.0, 0.05, 20.0, 25.8),
    (100.0, 0.10, 20.0, 31.3),
    (100.0, 0.30, 20.0, 50.9),
    (100.0, 0.60, 20.0, 75.6),
    (100.0, 0.05, 35.0, 40.1),
    (80.0, 0.90, 20.0, 77.4),
    (80.0, 0.85, 20.0, 74.8),
]
"""True temperature, emissivity, mirrored, shown by a camera at 0.95 and 20 °C over 7.5 to 14 µm: computed by
quadrature for public complaints about cameras on bare metal ("a bar at 100 °C may show about 30 °C", IET
engineering forum, thread "Infrared Thermography")."""


@pytest.mark.parametrize(("true", "emissivity", "around", "shown"), SHOWN)
def test_pairs_of_what_is_so_and_what_is_shown_both_ways(
    true: float, emissivity: float, around: float, shown: float
) -> None:
    camera = Settings(0.95, "set", 20.0)
    showed = float(indication(np.array([true]), Optics(0.95, 20.0, emissivity, around))[0])
    assert showed == pytest.approx(shown, abs=0.1)
    back = surface(showed, camera, emissivity, around)
    assert back.temperature == pytest.approx(true, abs=0.1)
    # From the tenth of a degree that is printed, no nearer than a tenth of the surface is for each shown.
    printed = surface(shown, camera, emissivity, around)
    assert printed.temperature == pytest.approx(true, abs=0.1 + 0.05 * printed.per_indication)


@pytest.mark.parametrize(("emissivity", "most"), [(0.3, "emissivity"), (0.95, "meter")])
def test_of_a_poor_emissivity_its_own_error_is_most_of_the_budget(emissivity: float, most: str) -> None:
    """A surface at 100 °C in 20 °C: the meter good to ± 2 K, the emissivity to ± 0.03."""
    ledger = Ledger()
    showed = float(indication(np.array([100.0]), Optics(0.95, 20.0, emissivity, 20.0))[0])
    found = uncertain_surface(
        ledger.input(rectangle(("meter",), "meter", 2.0, "K", "shared"), showed),
        Settings(0.95, "set", 20.0),
        ledger.input(rectangle(("tape",), "emissivity", 0.03, "1", "shared"), emissivity),
        ledger.input(rectangle(("around",), "mirrored", 2.0, "K", "shared"), 20.0),
    )
    first = budget(ledger.components(found), "K").rows[0]
    assert first.label == most
    assert first.share > 50


def test_two_kelvin_of_the_meter_at_two_emissivities() -> None:
    """± 2 K of a meter set to 0.95 that shows 40 °C are 2.3 K at 0.8 and 4.9 K at 0.3."""
    for emissivity, grown in ((0.8, 2.3), (0.3, 4.9)):
        found = surface(40.0, Settings(0.95, "set", 20.0), emissivity, 20.0)
        assert 2 * found.per_indication == pytest.approx(grown, abs=0.05)
        optics = Optics(0.95, 20.0, emissivity, 20.0)
        below, above = indication(found.temperature + np.array([-0.5, 0.5]), optics)
        assert found.per_indication == pytest.approx(1.0 / (above - below), rel=1e-3)
