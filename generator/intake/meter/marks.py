"""What meters write where they have no reading: words, strokes, bounds, and numbers too large to be any."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from generator.intake.meter.numbers import Sign, digits
from generator.intake.meter.series import Bound, Meaning

LARGEST = 1e30
"""Above any reading: bench meters send 9.9E+37 for over range (common practice, no source)."""

FORMULA = "formula without a stored value"
"""Stands for such a cell of a workbook."""

_OVER = (
    r"o\.?l\.?|\.ol|0\.?l|ol[muk]?[va]?|ovld|ovl|over|over ?load|over ?range|over ?flow|ovr|ovf|ofl|oor|hi"
)
_INFINITE = r"inf(?:inity)?|1\.#inf|∞"
_RULES: tuple[tuple[str, Meaning, Bound], ...] = (
    (rf"\+?(?:{_OVER}|{_INFINITE})", "over range", ">"),
    (rf"-(?:{_OVER}|{_INFINITE})|under|under ?range|under ?flow|lo", "under range", "<"),
    (r"open|open ?tc|open circuit|no ?probe|no ?sensor|disconnected|not connected", "no probe", ""),
    (r"burn ?out|b\.?out", "no probe, or a broken one", ""),
    (r"[-\u2013\u2014]+(?:[.,:][-\u2013\u2014]+)?|\*+(?:[.,]\*+)?|_+|\?+|#+", "no reading", ""),
    (r"[+-]?nanq?|-?1\.#(?:ind|qnan)|none|null|nil|n\.?/?a\.?|#n/a|#div/0!|#value!", "no reading", ""),
    (r"err(?:or)?|fault|invalid|no ?data|missing|off|#num!|#ref!|#name\?|#null!", "no reading", ""),
)
_WORDS = tuple((re.compile(pattern, re.IGNORECASE), means, bound) for pattern, means, bound in _RULES)
_BOUND = re.compile(r"(>=?|<=?|≥|≤|over|under|above|below)\s*(.+)", re.IGNORECASE)
_LOW = frozenset(("<", "<=", "≤", "under", "below"))


@dataclass(frozen=True, slots=True)
class Mark:
    """What a cell means that is no reading.

    Attributes:
        means: What it means.
        bound: The side on which the reading lies.
        limit: The range's end as written digits; empty where the cell does not say it.
    """

    means: Meaning
    bound: Bound = ""
    limit: str = ""


@lru_cache(maxsize=4096)
def mark_of(cell: str) -> Mark | None:
    """What a word or stroke means in place of a reading; None where it is none of those known."""
    if cell == FORMULA:
        return Mark("formula without a stored value")
    if not cell:
        return Mark("no reading")
    if len(cell) > 20:
        return None
    fits = ((means, bound) for pattern, means, bound in _WORDS if pattern.fullmatch(cell))
    found = next(fits, None)
    return Mark(*found) if found else None


def bound_of(cell: str, sign: Sign) -> Mark | None:
    """`>150.0` as a bound; None where the cell is none."""
    found = _BOUND.fullmatch(cell)
    limit = digits(found[2].strip(), sign) if found else None
    if found is None or limit is None:
        return None
    low = found[1].casefold() in _LOW
    return Mark("under range", "<", limit) if low else Mark("over range", ">", limit)


def beyond(number: str) -> Mark | None:
    """A number that no meter reads: over range by its size alone; None where it can be a reading."""
    if len(number) < 30 and "e" not in number and "E" not in number:
        return None
    value = float(number)
    if abs(value) < LARGEST:
        return None
    return Mark("over range", ">") if value > 0 else Mark("under range", "<")
