"""Errors that are new each time."""

from __future__ import annotations

import math

import pytest

from generator.analysis.uncertainty import Ledger, combined, rectangle, scatter, total

RESOLUTION = rectangle(("meter", "resolution"), "resolution", 0.5, "K", "reading")
REPEATABILITY = scatter(("meter", "repeatability"), "repeatability", 0.2, "K", "reading")


def test_what_acts_together_is_told_apart() -> None:
    ledger = Ledger()
    noise = ledger.each((RESOLUTION, REPEATABILITY))
    shared = ledger.input(scatter(("offset",), "offset", 1.0, "K", "shared"))
    figure = total([noise.of(("run", "1")) * -3.0, noise.of(("run", "2")), shared])
    found = {part.input.key: part.contribution for part in ledger.components(figure)}
    # GUM 4.3.7: a rectangle of half-width 0.5 has u = 0.5/√3.
    assert found == pytest.approx(
        {
            ("meter", "resolution", "run", "1"): -1.5 / math.sqrt(3),
            ("meter", "repeatability", "run", "1"): -0.6,
            ("meter", "resolution", "run", "2"): 0.5 / math.sqrt(3),
            ("meter", "repeatability", "run", "2"): 0.2,
            ("offset",): 1.0,
        }
    )
    assert combined(ledger.parts(figure)) == pytest.approx(figure.u)
    assert ledger.noise(figure) == pytest.approx(math.sqrt(10 * (0.25 / 3 + 0.04)))
    assert ledger.without(figure, {"reading"}).u == pytest.approx(1.0)


def test_the_same_inputs_are_the_same_errors() -> None:
    ledger = Ledger()
    first, second = (ledger.each((RESOLUTION,)).of(("run", "1")) for _ in range(2))
    assert first is second
    assert (first - ledger.each((RESOLUTION,)).of(("run", "2"))).u == pytest.approx(0.5 / math.sqrt(1.5))


def test_a_key_is_of_one_input_only() -> None:
    ledger = Ledger()
    ledger.each((RESOLUTION,)).of(("1",))
    coarser = rectangle(RESOLUTION.key, "resolution", 5.0, "K", "reading")
    with pytest.raises(ValueError, match="another input already"):
        ledger.each((coarser,)).of(("1",))
    # Of another reading it is another error.
    assert ledger.each((coarser,)).of(("2",)).u == pytest.approx(5 / math.sqrt(3))


def test_degrees_of_freedom_are_of_one_error_alone() -> None:
    ledger = Ledger()
    estimated = scatter(("meter", "scatter"), "scatter", 0.2, "K", "reading", dof=4)
    (part,) = ledger.components(ledger.each((estimated,)).of(("1",)))
    assert part.input.dof == 4
    with pytest.raises(ValueError, match="by itself"):
        ledger.each((RESOLUTION, estimated))
