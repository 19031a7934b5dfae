"""Numbers as readers see them: a true minus, fixed decimals, no prefixes and no exponents."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

MINUS = "\N{MINUS SIGN}"
NO_BREAK = "\N{NO-BREAK SPACE}"


def numeral(value: float, decimals: int) -> str:
    """A number with so many decimals, never a negative zero."""
    return true_minus(f"{value:.{max(decimals, 0)}f}")


def true_minus(text: str) -> str:
    """A number's text with U+2212 for its minus; a zero has none."""
    if text.startswith("-") and not text.strip("-0."):
        return text[1:]
    return text.replace("-", MINUS)


def plain(value: float) -> str:
    """A number as a person would write it: no more digits than it has, twelve at most."""
    # Decimal's fixed form, since `g` turns to exponents at both ends.
    short = Decimal(f"{value:.12g}")
    return true_minus(f"{short:f}")


def tick_texts(ticks: Sequence[float]) -> tuple[str, ...]:
    """The texts of an axis' ticks, all with the decimals that the finest of them needs."""
    texts = [f"{Decimal(f'{tick:.9g}'):f}" for tick in ticks]
    decimals = max((len(text.partition(".")[2]) for text in texts), default=0)
    return tuple(numeral(tick, decimals) for tick in ticks)
