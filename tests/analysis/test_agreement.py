"""E_n of two instruments on one thing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.agreement import normalized_error


def test_worked_by_hand() -> None:
    # ISO 13528:2022, 9.7: (10.3 − 10.0)/√(0.3² + 0.4²) = 0.6.
    found = normalized_error(10.3, 0.3, 10.0, 0.4)
    assert found.number == pytest.approx(0.6)
    assert found.agree
    assert not normalized_error(11.0, 0.3, 10.0, 0.4).agree


@given(st.floats(-100, 100), st.floats(0.01, 10), st.floats(-100, 100), st.floats(0.01, 10))
def test_it_changes_sign_with_the_sides(first: float, u: float, second: float, v: float) -> None:
    one, other = normalized_error(first, u, second, v), normalized_error(second, v, first, u)
    assert one.number == -other.number
    assert one.agree == other.agree


@pytest.mark.parametrize(("u", "v"), [(0.0, 0.0), (-1.0, 1.0)])
def test_what_has_no_uncertainty(u: float, v: float) -> None:
    with pytest.raises(ValueError, match="E_n needs"):
        normalized_error(1.0, u, 2.0, v)
