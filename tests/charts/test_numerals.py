"""Numbers as readers see them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.charts.numerals import numeral, plain, tick_texts, true_minus


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [(27.94, 1, "27.9"), (-0.3, 1, "−0.3"), (-0.04, 1, "0.0"), (1500, 0, "1500"), (160, -1, "160")],
)
def test_a_number_has_its_decimals_a_true_minus_and_no_negative_zero(
    value: float, decimals: int, text: str
) -> None:
    assert numeral(value, decimals) == text


@pytest.mark.parametrize(
    ("value", "text"), [(1e-7, "0.0000001"), (1500.0, "1500"), (2.5, "2.5"), (-4.0, "−4"), (0.1 + 0.2, "0.3")]
)
def test_a_plain_number_has_no_exponent_and_no_binary_tail(value: float, text: str) -> None:
    assert plain(value) == text


def test_ticks_have_one_count_of_decimals() -> None:
    assert tick_texts([0.0, 0.5, 1.0]) == ("0.0", "0.5", "1.0")
    assert tick_texts([0.0, 20.0, 40.0]) == ("0", "20", "40")


@given(st.floats(-1e6, 1e6))
def test_with_its_minus_made_plain_a_number_reads_back(value: float) -> None:
    assert float(plain(value).replace("−", "-")) == pytest.approx(value, rel=1e-11, abs=1e-11)
    assert "-" not in true_minus(f"{value:.3f}")
