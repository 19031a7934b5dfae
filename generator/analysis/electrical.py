"""Resistance of an item: from drops and currents, less its leads, reduced to 20 °C; and the heat it makes.

Drops are in V, currents in A, resistances in Ω, powers in W, temperatures in °C.
"""

from __future__ import annotations

import math

from generator.analysis.conductors import COPPER, PerMetre
from generator.analysis.uncertainty import NEW_IN_EACH_RUN, Key, Ledger, Uncertain, rectangle, scatter
from generator.analysis.worsening import Coefficient

OF_COPPER = Coefficient(COPPER, 0.0, assumed=False)
"""Of annealed copper (IEC 60028)."""

LEAD_WARMTH = 0.5
"""Where between air and part the lead's temperature lies, and how far off that may be: no source."""


def resistance(drop: Uncertain, current: Uncertain) -> Uncertain:
    """R = ΔV/I, Ω."""
    return drop / current


def of_reversed(
    forward: tuple[Uncertain, Uncertain], back: tuple[Uncertain, Uncertain]
) -> tuple[Uncertain, Uncertain]:
    """Resistance and thermal EMF by a drop each way: what does not turn with the current goes out.

    Args:
        forward: Drop and current.
        back: The same with the current reversed: the drop below nought, the current by its amount.

    Returns:
        R = (V₊/I₊ − V₋/I₋)/2 in Ω; and the EMF, (V₊ + V₋)/2 less what unlike currents leave in that, in V.
    """
    found = (forward[0] / forward[1] - back[0] / back[1]) / 2.0
    return found, (forward[0] + back[0]) / 2.0 - found * (forward[1] - back[1]) / 2.0


def temperature_coefficient(ledger: Ledger, key: Key, stated: Coefficient, source: str = "") -> Uncertain:
    """α as an input, 1/K.

    Args:
        ledger: Where the input is made.
        key: Identity of the method.
        stated: The method's, or the default.
        source: Where it comes from.
    """
    entry = rectangle(
        key,
        "temperature coefficient of resistance",
        stated.half_width,
        "1/K",
        "shared",
        assumed=stated.assumed,
        source=source,
    )
    return ledger.input(entry, stated.value)


def at_20(resistance: Uncertain, temperature: Uncertain, coefficient: Uncertain) -> Uncertain:
    """Resistance in Ω reduced to 20 °C, R/(1 + α(T − 20 °C)) (IEC 60028 has it for copper; from memory)."""
    return resistance / (coefficient * (temperature - 20.0) + 1.0)


def per_metre(ledger: Ledger, key: Key, stated: PerMetre, *, assumed: bool = False) -> Uncertain:
    """Resistance of a metre of lead at 20 °C as an input, Ω/m, rectangular."""
    words = "resistance of a metre of lead"
    entry = rectangle(key, words, stated.half_width, "Ω/m", "shared", assumed=assumed, source=stated.source)
    return ledger.input(entry, stated.value)


def warm(at_20: Uncertain, temperature: Uncertain) -> Uncertain:
    """Resistance of copper at 20 °C as it is at a temperature, R₂₀·(1 + α·(T − 20 °C)) (IEC 60028)."""
    return at_20 * ((temperature - 20.0) * COPPER + 1.0)


def cool(resistance: Uncertain, temperature: Uncertain) -> Uncertain:
    """Resistance of copper at a temperature as it is at 20 °C, the reverse of `warm`."""
    return resistance / ((temperature - 20.0) * COPPER + 1.0)


def brought(ledger: Ledger, key: Key, number: Uncertain, unit: str) -> Uncertain:
    """A control's figure as it goes into the figures of others: what was new in its run is common to them.

    Args:
        ledger: Where the inputs are made.
        key: Identity of the control's run.
        number: Its figure.
        unit: Of the figure.
    """
    new = [part for entry, part in ledger.contributions(number) if entry.scope in NEW_IN_EACH_RUN]
    words = "control, as read in its run"
    once = scatter((*key, "brought"), words, math.hypot(*new), unit, "shared", source="its meters")
    return ledger.without(number, NEW_IN_EACH_RUN) + ledger.input(once)


def between(ledger: Ledger, key: Key, air: Uncertain, part: Uncertain) -> Uncertain:
    """Temperature of a lead between a part and the air, °C: halfway, and anywhere between the two."""
    words = "temperature of the lead, between air and part"
    entry = rectangle(key, words, LEAD_WARMTH, "1", "shared", assumed=True, source="anywhere between")
    return air + ledger.input(entry, LEAD_WARMTH) * (part - air)


def power(resistance: Uncertain, current: Uncertain | float) -> Uncertain:
    """Heat that a resistance makes at a current, (ΔV − I·R_lead)·I = R·I², W."""
    return resistance * current * current


def heat_per_kelvin(power: Uncertain, rise: Uncertain, coefficient: Uncertain, to_come: float) -> Uncertain:
    """Heat that a part gives off for each kelvin above the air once it has settled, P/θ∞, W/K.

    Args:
        power: Heat as it was read, W.
        rise: Rise that it settles at by the same current, K.
        coefficient: α, 1/K: the part makes more heat as it warms.
        to_come: What was still to come when the heat was read, K.
    """
    return power * (coefficient * to_come + 1.0) / rise
