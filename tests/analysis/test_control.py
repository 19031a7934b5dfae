"""The control chart of individuals against the e-Handbook's example, and how often it cries wolf."""

from __future__ import annotations

import numpy as np
import pytest

from generator.analysis.control import individuals

FLOW = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)


def test_the_handbooks_flow_rates() -> None:
    """NIST/SEMATECH e-Handbook 6.3.2.2: mean 50.81, moving range 1.8778, limits 45.8159 and 55.8041."""
    found = individuals(FLOW)
    assert found is not None
    assert found.centre == pytest.approx(50.81)
    assert found.moving_range == pytest.approx(1.8778, abs=5e-5)
    assert found.high == pytest.approx(55.8041, abs=1e-4)
    assert found.low == pytest.approx(45.8159, abs=1e-4)
    assert not any(map(found.beyond, FLOW))
    assert found.beyond(55.9)
    assert found.beyond(45.7)


def test_too_few_and_never_differing() -> None:
    assert individuals(FLOW[:7]) is None
    assert individuals(FLOW[:8]) is not None
    assert individuals((20.0,) * 12) is None


def test_a_steady_rig_is_seldom_beyond_and_a_jump_is_found() -> None:
    """Of a normal law 0.27 % lie beyond three standard deviations; limits from twenty hold about so."""
    draws = np.random.default_rng(5).normal(size=(500, 20))
    out = sum(limits.beyond(each) for row in draws.tolist() if (limits := individuals(row)) for each in row)
    assert out / draws.size < 0.01
    jumped = [*draws[0].tolist(), 12.0]
    limits = individuals(jumped)
    assert limits is not None
    assert [each for each in jumped if limits.beyond(each)] == [12.0]
