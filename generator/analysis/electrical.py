"""Resistance of an item during a run: from its drop and its current, and reduced to 20 °C.

Drops are in V, currents in A, resistances in Ω, temperatures in °C.
"""

from __future__ import annotations

from generator.analysis.uncertainty import Key, Ledger, Uncertain, rectangle
from generator.analysis.worsening import Coefficient


def resistance(drop: Uncertain, current: Uncertain) -> Uncertain:
    """R = ΔV/I, Ω."""
    return drop / current


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
