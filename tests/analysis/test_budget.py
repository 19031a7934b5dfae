"""Budgets as rows."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.budget import budget
from generator.analysis.uncertainty import Ledger, combined, rectangle, scatter, total


def test_rows_by_hand() -> None:
    ledger = Ledger()
    offset = ledger.input(
        rectangle(("o",), "offset", 0.6, "K", "shared", assumed=True, source="handbook of logger-1")
    )
    spread = ledger.input(scatter(("s",), "spread", 0.5, "K", "spread", dof=4))
    exponent = ledger.input(rectangle(("n",), "exponent", 0.4, "1", "shared"), 2.0)
    found = budget(ledger.components(41.3 + offset - 2.0 * spread + exponent * 0.1), "K")
    assert [row.label for row in found.rows] == ["spread", "offset", "exponent"]
    first, second, third = found.rows
    assert (first.sensitivity, first.contribution, first.dof) == pytest.approx((-2.0, 1.0, 4.0))
    assert second.standard_uncertainty == pytest.approx(0.34641, abs=1e-5)
    assert (second.source, second.assumed) == ("handbook of logger-1", True)
    assert (third.value, third.unit, third.distribution) == (2.0, "1", "rectangular")
    # 1, 0.12 and 0.04²/3 of the variance.
    whole = 1 + 0.12 + 0.04**2 / 3
    assert [row.share for row in found.rows] == pytest.approx(
        [100 / whole, 12 / whole, 100 * 0.04**2 / 3 / whole]
    )
    assert found.standard_uncertainty == pytest.approx(math.sqrt(whole))
    assert found.dof == pytest.approx(whole**2 / (1 / 4))
    assert found.unit == "K"


def test_inputs_of_one_label_are_one_row() -> None:
    ledger = Ledger()
    steps = [
        ledger.input(rectangle((str(i),), "resolution", 0.05 * (1 + i), "A", "reading")) for i in range(3)
    ]
    (row,) = budget(ledger.components(total(steps) * 2.0), "K").rows
    # √(1 + 4 + 9) = 3.742; root mean square of the three u is √(14/3)·0.05/√3.
    assert row.contribution == pytest.approx(2 * 0.05 / math.sqrt(3) * math.sqrt(14))
    assert row.standard_uncertainty == pytest.approx(0.05 / math.sqrt(3) * math.sqrt(14 / 3))
    assert abs(row.sensitivity) * row.standard_uncertainty == pytest.approx(row.contribution)
    assert row.count == 3
    assert row.share == pytest.approx(100)


def test_what_differs_in_kind_stays_apart() -> None:
    ledger = Ledger()
    stated = ledger.input(rectangle(("a",), "offset", 0.3, "K", "shared"))
    assumed = ledger.input(rectangle(("b",), "offset", 0.3, "K", "shared", assumed=True))
    assert [row.assumed for row in budget(ledger.components(stated + assumed), "K").rows] == [False, True]


def test_nothing_uncertain_has_no_rows() -> None:
    found = budget((), "K")
    assert (found.rows, found.standard_uncertainty, found.dof) == ((), 0.0, math.inf)


@given(
    parts=st.lists(
        st.tuples(st.sampled_from("abc"), st.floats(0.001, 9), st.floats(-9, 9)), min_size=1, max_size=9
    )
)
def test_shares_add_up(parts: list[tuple[str, float, float]]) -> None:
    ledger = Ledger()
    numbers = [
        ledger.input(rectangle((label, str(place)), label, width, "K", "run")) * weight
        for place, (label, width, weight) in enumerate(parts)
    ]
    components = ledger.components(total(numbers))
    found = budget(components, "K")
    if components:
        assert math.fsum(row.share for row in found.rows) == pytest.approx(100)
    assert found.standard_uncertainty == combined(components)
    assert sum(row.count for row in found.rows) == len(components)
    assert all(above.contribution >= below.contribution * (1 - 1e-8) for above, below in pairwise(found.rows))
