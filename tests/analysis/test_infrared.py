"""Surface temperatures from what an infra-red meter shows, against cases computed another way."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from generator.analysis.infrared import Settings, surface, uncertain_surface
from generator.analysis.radiation import Band, NoTemperature
from generator.analysis.uncertainty import Ledger, rectangle

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
