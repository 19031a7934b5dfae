"""Plugs pushed in and tries that fail: what was true, and what was noted of it."""

import numpy as np
import pytest

from tests.simulator.meters import Accuracy
from tests.simulator.tried import failed, pushed

GAUGE = Accuracy(share=0.005, fixed=0.2, resolution=0.1, noise=0.03)


def test_pushes_scatter_round_the_force_by_as_much_as_they_should() -> None:
    quiet = Accuracy(share=0.0, fixed=0.0, resolution=1e-6, noise=0.0)
    found = pushed(1, "an-item", 40.0, quiet, times=4000, scatter=0.05)
    assert np.mean(found.shown) == pytest.approx(40.0, abs=4.0 * 2.0 / 4000**0.5)
    assert np.std(found.shown) == pytest.approx(2.0, rel=4.0 / (2.0 * 4000) ** 0.5)


def test_the_gauge_shows_its_own_steps_and_keeps_to_its_statement() -> None:
    for seed in range(50):
        found = pushed(seed, "an-item", 40.0, GAUGE, times=10, scatter=0.0)
        # What is stated, half a step, and five standard deviations of the noise.
        assert all(abs(shown - 40.0) < GAUGE.half_width(40.0) + 0.05 + 0.15 for shown in found.shown)
        assert all(round(shown * 10, 6) % 1 == pytest.approx(0.0) for shown in found.shown)


def test_tries_fail_as_often_as_their_chance_and_a_piece_as_it_did_before() -> None:
    found = [failed(2, "an-item", str(number), 0.1, 50) for number in range(2000)]
    assert found[7] == failed(2, "an-item", "7", 0.1, 50)
    assert np.mean(found) == pytest.approx(5.0, abs=4.0 * (50 * 0.09 / 2000) ** 0.5)
    assert failed(2, "an-item", "A", 0.0, 50) == 0
