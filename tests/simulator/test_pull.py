"""A cable pulled out of its holder: what was true, and what the scale showed."""

import numpy as np
import pytest

from tests.simulator.meters import Accuracy
from tests.simulator.pull import Grip, pulled

SCALE = Accuracy(share=0.01, fixed=2.0, resolution=2.0, noise=1.0)
GRIP = Grip(388.0, 0.05)


def test_the_same_piece_lets_go_at_the_same_force_and_another_at_another() -> None:
    first, again, other = (pulled(1, "an-item", letter, GRIP, SCALE) for letter in ("A", "A", "B"))
    assert first == again
    assert first.force != other.force


def test_the_scale_shows_the_force_within_its_statement_in_its_own_steps() -> None:
    for seed in range(200):
        one = pulled(seed, "an-item", "A", GRIP, SCALE)
        # What is stated, half a step, and five standard deviations of the noise.
        assert abs(one.shown - one.force) < SCALE.half_width(one.force) + 1.0 + 5.0
        assert one.shown % 2.0 == pytest.approx(0.0)


def test_two_pulls_on_one_bench_share_most_of_the_scales_error() -> None:
    quiet = Accuracy(share=0.01, fixed=2.0, resolution=1e-6, noise=0.0)
    pairs = [[pulled(seed, "an-item", each, GRIP, quiet) for each in "AB"] for seed in range(300)]
    off = np.array([[one.shown - one.force for one in pair] for pair in pairs])
    assert np.corrcoef(off.T)[0, 1] > 0.8


def test_mean_over_all_pieces_is_the_mean_of_many() -> None:
    many = [pulled(3, "an-item", str(number), Grip(100.0, 0.3), SCALE).force for number in range(4000)]
    assert Grip(100.0, 0.3).mean == pytest.approx(float(np.mean(many)), abs=4.0 * float(np.std(many)) / 63.0)
