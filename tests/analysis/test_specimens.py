"""The spread between pieces and the mean over them."""

from __future__ import annotations

import csv
import math
import statistics
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.interval import estimate
from generator.analysis.specimens import (
    Spread,
    components,
    figure,
    own_spread,
    pooled_spread,
    spread_for,
    with_spread,
)
from generator.analysis.uncertainty import Ledger, Uncertain, combined, effective_dof, rectangle

PUBLISHED = Path(__file__).parents[1] / "published"

pieces = st.lists(st.floats(20, 90), min_size=2, max_size=8)


def test_pooled_standard_deviation_of_ten_days() -> None:
    with (PUBLISHED / "gum-h5.csv").open(encoding="utf-8") as file:
        days = [(float(row["mean_V"]), float(row["s_V"])) for row in csv.DictReader(file)]
    # Five readings of each day's mean and standard deviation: √2 above, √2 below and three at the mean.
    readings = [[(step * s) for step in (-math.sqrt(2), 0, 0, 0, math.sqrt(2))] for _, s in days]
    pooled = pooled_spread(readings)
    assert pooled is not None
    # GUM H.5.2: pooled over the days 85 µV with ν = 40; of the day means 57 µV with ν = 9.
    assert pooled.deviation == pytest.approx(85e-6, abs=0.5e-6)
    assert (pooled.dof, pooled.origin) == (40, "pooled")
    between = own_spread([mean - 10 for mean, _ in days])
    assert between is not None
    assert between.deviation == pytest.approx(57e-6, abs=0.5e-6)
    assert (between.dof, between.origin) == (9, "own")


@given(values=pieces)
def test_own_spread_against_the_standard_library(values: list[float]) -> None:
    found = own_spread(values)
    assert found is not None
    assert found.deviation == pytest.approx(statistics.stdev(values), rel=1e-9, abs=1e-12)


@given(items=st.lists(pieces, min_size=1, max_size=5), lone=st.floats(20, 90))
def test_a_single_piece_says_nothing_about_spread(items: list[list[float]], lone: float) -> None:
    assert pooled_spread([*items, [lone], []]) == pooled_spread(items)
    assert own_spread([lone]) is None
    assert pooled_spread([[lone], []]) is None


def test_which_spread_is_used() -> None:
    pooled, declared = Spread(0.8, 7, "pooled"), Spread(1.1, 12, "declared")
    five = [40.0, 41.0, 42.0, 43.0, 44.0]
    assert spread_for(five[:1], pooled, declared) is declared
    assert spread_for(five[:1], pooled, None) is None
    assert spread_for(five[:2], pooled, declared) is pooled
    assert spread_for(five[:4], pooled, declared) is pooled
    own = spread_for(five, pooled, declared)
    assert own is not None
    assert own.origin == "own"
    assert own.deviation == pytest.approx(math.sqrt(2.5))


def piece(ledger: Ledger, value: float, run: str) -> Uncertain:
    """A rise with a shared error ± 0.6 K, one new in the run ± 0.3 K and one of the reading ± 0.05 K."""
    return (
        value
        + ledger.input(rectangle(("shared",), "offset", 0.6, "K", "shared"))
        + ledger.input(rectangle(("run", run), "offset of the run", 0.3, "K", "run"))
        + ledger.input(rectangle(("reading", run), "resolution", 0.05, "K", "reading"))
    )


def test_a_mean_of_three_by_hand() -> None:
    ledger = Ledger()
    values = [41.1, 42.0, 42.5]
    mean = figure(
        ledger,
        ("rise", "item-a"),
        [piece(ledger, value, str(place)) for place, value in enumerate(values)],
        Spread(0.9, 4, "pooled"),
        unit="K",
        resolution=0.1,
    )
    assert mean.number.x == pytest.approx(41.8667, abs=1e-4)
    found = components(ledger, mean)
    # The shared ± 0.6 K stays whole; what is new in each run is in the spread; that is 0.9/√3 with ν = 4.
    assert {part.input.scope: abs(part.contribution) for part in found} == pytest.approx(
        {"spread": 0.9 / math.sqrt(3), "shared": 0.6 / math.sqrt(3)}
    )
    result = estimate(mean.number.x, found, "K")
    assert result.standard_uncertainty == pytest.approx(math.sqrt(0.27 + 0.12))
    # GUM G.4: (0.27 + 0.12)²/(0.27²/4).
    assert result.dof == pytest.approx(0.39**2 / (0.27**2 / 4))


def test_one_piece_keeps_what_is_new_in_its_run() -> None:
    ledger = Ledger()
    lone = figure(ledger, ("rise", "item-a"), [piece(ledger, 41.1, "1")], None, unit="K", resolution=0.1)
    found = components(ledger, lone)
    assert combined(found) == pytest.approx(math.sqrt((0.36 + 0.09 + 0.0025) / 3))
    declared = figure(
        ledger, ("rise", "item-b"), [piece(ledger, 41.1, "1")], Spread(1.0, 12, "declared"), unit="K"
    )
    assert combined(components(ledger, declared)) == pytest.approx(
        math.sqrt((0.36 + 0.09 + 0.0025) / 3 + 1.0)
    )


def test_a_spread_below_the_resolution() -> None:
    ledger = Ledger()
    same = [piece(ledger, 41.1, str(place)) for place in range(3)]
    spread = pooled_spread([[41.1] * 3])
    found = components(ledger, figure(ledger, ("rise", "a"), same, spread, unit="K", resolution=0.5))
    # s = 0 < 0.5 K: 0.5/√12 once, not divided by √3.
    assert [part.input.label for part in found] == ["offset", "resolution of the figure"]
    assert found[1].contribution == pytest.approx(0.5 / math.sqrt(12))


def test_means_that_rest_on_one_estimate_share_its_degrees_of_freedom() -> None:
    ledger = Ledger()
    pooled = Spread(0.9, 4, "pooled")
    one = with_spread(ledger, ledger.exact(1.0), ("d",), "K", [(pooled, 2), (pooled, 3), (None, 1)])
    found = ledger.components(one)
    assert combined(found) == pytest.approx(0.9 * math.sqrt(1 / 2 + 1 / 3))
    assert effective_dof(found) == pytest.approx(4)
    own = with_spread(
        ledger, ledger.exact(1.0), ("e",), "K", [(Spread(0.9, 4, "own"), 5), (Spread(0.7, 5, "own"), 6)]
    )
    assert len(ledger.components(own)) == 2


def test_no_mean_without_pieces_or_spread() -> None:
    ledger = Ledger()
    with pytest.raises(ValueError, match="no pieces"):
        figure(ledger, ("rise", "a"), [], None, unit="K")
    with pytest.raises(ValueError, match="no spread"):
        figure(ledger, ("rise", "a"), [ledger.exact(1.0)] * 2, None, unit="K")
