"""A rectangle and many normals at once, against one at a time and against another library."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from generator.analysis.interval import Parts, cdf
from generator.analysis.mixture import given_spreads, mixed, t_as_normals


@given(x=st.floats(-6, 6), a=st.floats(0, 4), s=st.floats(0.05, 3))
def test_many_spreads_at_once_are_each_by_itself(x: float, a: float, s: float) -> None:
    # One of them makes the rectangle narrow, one wide.
    spreads = np.array([s, 3000 * s, s / 10])
    below, density = given_spreads(a, spreads)(x)
    for each, found, steep in zip(spreads, below, density, strict=True):
        alone = Parts(u_normal=float(each), half_width=a)
        assert found == pytest.approx(cdf(x, alone), abs=1e-9)
        step = 1e-4 * float(each)
        slope = (cdf(x + step, alone) - cdf(x - step, alone)) / (2 * step)
        assert steep == pytest.approx(slope, rel=1e-3, abs=1e-6 / float(each))


@pytest.mark.parametrize("dof", [1.0, 2.5, 4.0, 18.0, 200.0])
@pytest.mark.parametrize("x", [-0.1, -1.0, -4.0])
def test_a_t_as_a_mixture_of_normals(dof: float, x: float) -> None:
    # Reference: scipy's Student's t, within what 64 nodes leave.
    weights, factors = t_as_normals(dof)
    below, density = mixed(weights, given_spreads(0.0, factors)(x))
    assert below == pytest.approx(stats.t.cdf(x, dof), rel=5e-5)
    assert density == pytest.approx(stats.t.pdf(x, dof), rel=5e-4)


def test_a_place_for_each() -> None:
    places, spreads = np.array([-1.0, 0.5]), np.array([0.4, 2.0])
    at = given_spreads(0.7, spreads)
    assert at(places)[0].tolist() == [at(-1.0)[0][0], at(0.5)[0][1]]
