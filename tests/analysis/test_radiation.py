"""Radiance within a band, against printed tables, constants and an integral done another way."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.constants import c, h, k, sigma
from scipy.integrate import quad
from scipy.optimize import brentq

from generator.analysis.radiation import (
    C2,
    SIGMA,
    THERMAL,
    Band,
    NoTemperature,
    radiance,
    share_below,
    slope,
    temperature_of,
)

PUBLISHED = Path(__file__).parents[1] / "published"
ZERO = 273.15


def _table() -> list[tuple[float, float, float]]:
    with (PUBLISHED / "blackbody-fraction.csv").open(encoding="utf-8") as file:
        return [(float(a), float(b), float(c)) for a, b, c in list(csv.reader(file))[1:]]


@pytest.mark.parametrize(("product", "printed", "computed"), _table())
def test_the_printed_fractions(product: float, printed: float, computed: float) -> None:
    # As printed in M. F. Modest, Radiative Heat Transfer, appendix C, and in OpenFOAM's blackBodyEmission.C;
    # old constants put the print up to 2·10⁻⁵ low, its entry at 1500 µm·K by 5·10⁻⁵.
    found = share_below(product * 1e-6, 1.0)
    assert found == pytest.approx(computed, abs=6e-8 if product < 1e5 else 1e-6)
    assert found == pytest.approx(printed, abs=6e-5 if product == 1500 else 2e-5)


def test_the_constant_of_planck() -> None:
    # CODATA 2018, exact from h, k and c.
    assert pytest.approx(0.01438776877504, rel=1e-12) == C2
    # scipy's table has CODATA's ten digits.
    assert pytest.approx(h * c / k, rel=1e-15) == C2
    assert pytest.approx(sigma, rel=1e-9) == SIGMA


@pytest.mark.parametrize(
    ("product", "printed"),
    # F. P. Incropera and others, Fundamentals of Heat and Mass Transfer, table 12.1 (from memory); the same
    # old constants.
    [
        (1000, 0.000321),
        (2000, 0.066728),
        (2898, 0.250108),
        (3000, 0.273232),
        (4000, 0.480877),
        (5000, 0.633747),
        (6000, 0.737818),
        (10000, 0.914199),
    ],
)
def test_the_fractions_of_a_textbook(product: float, printed: float) -> None:
    assert share_below(product * 1e-6, 1.0) == pytest.approx(printed, abs=5e-5)


@pytest.mark.parametrize(
    ("celsius", "low", "share"),
    # Of all that a black body radiates, 7.5 or 8 to 14 µm: series and quadrature by others, alike to 1e-6.
    [
        *((celsius, 7.5e-6, share) for celsius, share in (
            (0, 0.373548), (20, 0.398813), (23, 0.401932), (25, 0.403918), (50, 0.422788), (60, 0.427499),
            (75, 0.431905), (100, 0.433161), (150, 0.419015),
        )),
        *((celsius, 8e-6, share) for celsius, share in ((20, 0.370397), (60, 0.390984), (100, 0.390860))),
    ],
)  # fmt: skip
def test_the_share_that_a_meter_sees(celsius: float, low: float, share: float) -> None:
    kelvin = celsius + ZERO
    assert share_below(14e-6, kelvin) - share_below(low, kelvin) == pytest.approx(share, abs=1e-6)


def test_the_median_of_the_spectrum() -> None:
    # Half of the radiance lies below 4107.248 µm·K, a quarter below Wien's peak 2897.771955 µm·K (computed
    # with mpmath from CODATA 2018).
    assert share_below(4107.248e-6, 1.0) == pytest.approx(0.5, abs=1e-7)
    assert share_below(2897.771955e-6, 1.0) == pytest.approx(0.2500545, abs=1e-7)


@pytest.mark.parametrize(
    ("celsius", "expected"),
    # 7.5 to 14 µm, by quadrature of Planck's law (scipy), another way than the sum used here.
    [(20, 53.160680), (23, 55.803504), (50, 83.215002), (60, 95.050912), (75, 114.528930), (100, 151.581115)],
)
def test_the_radiance_within_the_band(celsius: float, expected: float) -> None:
    assert radiance(celsius + ZERO) == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize("celsius", [-40.0, 20.0, 105.0, 400.0])
def test_against_an_integral_of_plancks_law(celsius: float) -> None:
    # Reference: scipy's quadrature (QUADPACK).
    kelvin = celsius + ZERO

    def spectral(wavelength: float) -> float:
        return 2 * h * c**2 / wavelength**5 / math.expm1(h * c / (wavelength * k * kelvin))

    expected, _ = quad(spectral, 7.5e-6, 14e-6, epsabs=0, epsrel=1e-12)
    assert radiance(kelvin) == pytest.approx(expected, rel=1e-10)


def test_the_whole_spectrum_is_stefans_law() -> None:
    everything = Band(1e-8, 1.0)
    assert radiance(300.0, everything) == pytest.approx(sigma * 300.0**4 / math.pi, rel=1e-9)


@pytest.mark.parametrize("z", [0.9999999, 1.0000001])
def test_both_series_meet(z: float) -> None:
    other = 2.0 - z
    assert share_below(C2 / z, 1.0) == pytest.approx(share_below(C2 / other, 1.0), abs=1e-7)


@given(st.floats(200, 900), st.floats(2e-6, 9e-6), st.floats(1e-6, 20e-6))
def test_there_and_back(kelvin: float, low: float, width: float) -> None:
    band = Band(low, low + width)
    assert temperature_of(radiance(kelvin, band), band) == pytest.approx(kelvin, rel=1e-9)
    step = kelvin * 1e-5
    secant = (radiance(kelvin + step, band) - radiance(kelvin - step, band)) / (2 * step)
    assert slope(kelvin, band) == pytest.approx(secant, rel=1e-6)


@given(st.floats(21, 4990), st.floats(2e-6, 9e-6), st.floats(1e-6, 20e-6))
def test_it_is_found_where_brents_method_finds_it(kelvin: float, low: float, width: float) -> None:
    """Reference: scipy's brentq, which needs no slope."""
    band = Band(low, low + width)
    wanted = radiance(kelvin, band)
    if not radiance(20.0, band) < wanted < radiance(5000.0, band):
        return
    expected = brentq(lambda each: radiance(each, band) / wanted - 1, 20.0, 5000.0, xtol=1e-10, rtol=1e-14)
    assert temperature_of(wanted, band) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("wanted", [0.0, -1.0, 1e9])
def test_no_body_has_it(wanted: float) -> None:
    with pytest.raises(NoTemperature, match="no black body"):
        temperature_of(wanted, THERMAL)


@pytest.mark.parametrize(("low", "high"), [(0.0, 1e-6), (2e-6, 1e-6), (1e-6, 1e-6), (1e-6, math.inf)])
def test_what_is_no_band(low: float, high: float) -> None:
    with pytest.raises(ValueError, match="no band"):
        Band(low, high)
