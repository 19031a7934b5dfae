"""An error in a part common to all runs and one new in each."""

from __future__ import annotations

import math

import pytest

from generator.analysis.split import split
from generator.analysis.uncertainty import Ledger, rectangle

WHOLE = rectangle(("meter", "offset"), "meter: offset", 0.6, "K", "shared", source="never calibrated")


@pytest.mark.parametrize("unshared", [0.0, 0.25, 1.0])
def test_the_whole_keeps_its_variance(unshared: float) -> None:
    ledger = Ledger()
    parts = split(ledger, WHOLE, unshared, frozenset())
    first, second = parts.of("run-1"), parts.of("run-2")
    # GUM 4.3.7: a²/3.
    assert first.u == pytest.approx(0.6 / math.sqrt(3))
    assert (first - second).u == pytest.approx(unshared * 0.6 * math.sqrt(2 / 3))
    assert (first - parts.of("run-1")).u == 0.0
    scopes = {part.input.key: part.input.scope for part in ledger.components(first)}
    known = {("meter", "offset"): "shared", ("meter", "offset", "run", "run-1"): "run"}
    absent = {0.0: ("meter", "offset", "run", "run-1"), 1.0: ("meter", "offset")}.get(unshared)
    assert scopes == {key: scope for key, scope in known.items() if key != absent}


def test_how_it_is_split_is_assumed_of_what_is_new() -> None:
    ledger = Ledger()
    figure = split(ledger, WHOLE, 0.25, frozenset({"unshared", "resolution"})).of("run-1")
    assert {part.input.label: part.input.assumed for part in ledger.components(figure)} == {
        "meter: offset, common to its runs": False,
        "meter: offset, new in each run": True,
    }


def test_no_error_has_no_parts() -> None:
    ledger = Ledger()
    assert ledger.components(split(ledger, None, 0.25, frozenset()).of("run-1")) == ()


def test_a_part_is_not_more_than_the_whole() -> None:
    with pytest.raises(ValueError, match="not between 0 and 1"):
        split(Ledger(), WHOLE, 1.2, frozenset())
