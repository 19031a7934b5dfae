"""What the small grammars share: the fault they raise, the characters they take, what a number looks like."""

from __future__ import annotations

import re

from generator.records.lookalikes import foreign, plain

# Longer than any quantity; what is longer is not looked into.
LONGEST = 80

NUMBER = re.compile(r"[+-]?(?:\d{1,80}(?:\.\d{1,80})?|\.\d{1,80})(?:[eE][+-]?\d{1,3})?", re.ASCII)
_COMMA = re.compile(r"([+-]?\d+),(\d+)(.*)", re.ASCII)


class QuantityError(ValueError):
    """A text that is not what its field asks for.

    Attributes:
        what: What is wrong, in plain words, with the right form where it can be said.
        accepted: What would do instead.
    """

    def __init__(self, what: str, accepted: tuple[str, ...] = ()) -> None:
        self.what = what
        self.accepted = accepted
        super().__init__(what)


def checked(text: str, longest: int = LONGEST) -> str:
    """A text in the characters that the grammars know.

    Raises:
        QuantityError: It is empty, far too long, in curly quotes, or holds a character that none knows.
    """
    if not text.strip():
        raise QuantityError("the value is missing")
    if len(text) > longest:
        raise QuantityError(f"longer than {longest} characters; a number and its unit are wanted")
    if text.strip()[0] in "“”„‘’":
        raise QuantityError("curly quotes are part of the value; take them out")
    if strange := foreign(text):
        raise QuantityError(f"a character that looks like another: {strange}; type it again")
    return plain(text)


def decimals_of(number: str) -> int:
    """Digits after the point of a number as written, less its exponent: 2 of `1.10`, −3 of `1e3`."""
    digits, _, exponent = number.lower().partition("e")
    return len(digits.partition(".")[2]) - int(exponent or 0)


_ODD: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"^[<>]?[+-]?\d+_"), "an underscore inside a number; write the digits alone"),
    (re.compile(r"^[+-]?\d+ \d"), "a space inside a number; write the digits alone"),
    (re.compile(r"^[+-]?\d+\.(?!\d)"), "digits are missing after the point"),
    (re.compile(r"^\d+ ?h ?\d+$"), "the last part of the time is without a unit; write '1 h 30 min'"),
    (re.compile(r"^[+-]?0[xXoObB]"), "a number in another base; write it with the digits 0 to 9"),
    (re.compile(r"^[+-]?\d+:\d"), "a clock; write one number with its unit"),
    (re.compile(r"^\S*\d\s*[*^/]+\s*\d"), "a number still to be worked out; write the result"),
    (
        re.compile(r"^[+-]?(?:inf|nan|o\.?l\.?\b)", re.IGNORECASE),
        "no number; over range is written 'over 150 degC'",
    ),
    (re.compile(r"±|\+/-"), "one value is wanted here, without ±"),
    (re.compile(r"\d.* to .*\d"), "one value is wanted here, not a range"),
)


def oddity(text: str, unit: str = "") -> str:
    """What is odd about a text that is no number with its unit, with the right form; empty where nothing is.

    Args:
        text: The text, after `checked`.
        unit: What is written behind the right form where the text itself has no unit.
    """
    if comma := _COMMA.fullmatch(text):
        return f"a decimal comma; write {comma[1]}.{comma[2]}{comma[3] or unit}"
    return next((told for pattern, told in _ODD if pattern.search(text)), "")
