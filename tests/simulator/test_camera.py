"""The simulator's infra-red camera against temperatures computed elsewhere, and against integrals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad

from tests.simulator.meters import BOLTZMANN, LIGHT, PLANCK, Optics, indication

PAIRS = [
    (100.0, 0.05, 20.0, 25.8),
    (100.0, 0.10, 20.0, 31.3),
    (100.0, 0.30, 20.0, 50.9),
    (100.0, 0.60, 20.0, 75.6),
    (100.0, 0.05, 35.0, 40.1),
    (80.0, 0.90, 20.0, 77.4),
    (80.0, 0.85, 20.0, 74.8),
]
"""True temperature, emissivity, what is mirrored, what a camera set to 0.95 and 20 °C shows: see the test of
`generator.analysis.infrared`."""


@pytest.mark.parametrize(("true", "emissivity", "around", "shown"), PAIRS)
def test_what_a_camera_shows(true: float, emissivity: float, around: float, shown: float) -> None:
    found = indication(np.array([true]), Optics(0.95, 20.0, emissivity, around))
    assert found[0] == pytest.approx(shown, abs=0.06)


def test_it_sees_what_an_integral_of_plancks_law_sees() -> None:
    """By scipy's adaptive quadrature: 60 °C at 0.80 mirroring 30 °C, the camera set to 0.95 and 20 °C."""
    shown = float(indication(np.array([60.0]), Optics(0.95, 20.0, 0.80, 30.0))[0])

    def radiance(celsius: float) -> float:
        def spectral(micron: float) -> float:
            wave = 1e-6 * micron
            x = PLANCK * LIGHT / (wave * BOLTZMANN * (celsius + 273.15))
            return 1e-6 * 2 * PLANCK * LIGHT**2 / wave**5 / math.expm1(x)

        return float(quad(spectral, 7.5, 14.0, epsabs=1e-10)[0])

    seen = 0.80 * radiance(60.0) + 0.20 * radiance(30.0)
    assert 0.95 * radiance(shown) + 0.05 * radiance(20.0) == pytest.approx(seen, rel=1e-6)


def test_a_camera_that_is_set_right_shows_the_surface() -> None:
    true = np.linspace(-20.0, 200.0, 23)
    assert indication(true, Optics()) == pytest.approx(true, abs=1e-4)
    assert indication(true, Optics(1.0, None, 1.0)) == pytest.approx(true, abs=1e-4)
