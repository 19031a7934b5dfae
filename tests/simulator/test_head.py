"""The infra-red head in the wall of the box: what its setting does to what it shows."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from generator.analysis.infrared import Settings, surface
from generator.analysis.radiation import Band
from tests.simulator import head
from tests.simulator.meters import generator

SURFACE, WALLS = np.array([25.0, 60.0, 95.0]), np.array([23.0, 28.0, 31.0])
RIGHT = replace(head.WRONGLY_SET, optics=replace(head.WRONGLY_SET.optics, emissivity_set=0.945))


def shown(one: head.Head, seed: int) -> list[float]:
    return [float(each) for each in one.shows(seed, SURFACE, WALLS, generator(seed, "run"))]


def test_a_head_that_is_set_right_keeps_to_its_accuracy() -> None:
    for seed in range(40):
        off = np.abs(np.array(shown(RIGHT, seed)) - SURFACE)
        # Its noise besides, and the walls that are cooler or warmer than it was told.
        assert np.all(off <= [head.ACCURACY.half_width(each) + 1.2 for each in SURFACE])


def test_one_that_is_set_too_low_shows_too_hot_and_more_so_the_hotter_it_is() -> None:
    more = np.array(shown(head.WRONGLY_SET, 3)) - np.array(shown(RIGHT, 3))
    assert more[0] == pytest.approx(0.0, abs=0.5)
    assert list(more) == sorted(more)
    assert 5.0 < more[2] < 9.0


def test_what_it_shows_is_read_back_by_the_setting_that_it_had_and_not_by_the_one_that_was_written() -> None:
    """By the evaluation's own way back, which sees nothing of how the simulator makes a reading."""
    calm = np.mean([shown(head.WRONGLY_SET, seed)[2] for seed in range(40)])
    band = Band(8e-6, 14e-6)
    back = [
        surface(float(calm), Settings(each, "set", 28.0, band), 0.945, 28.0).temperature
        for each in (0.85, 0.95)
    ]
    assert back[0] == pytest.approx(95.0, abs=0.8)
    assert back[1] > 95.0 + 5.0
