"""Characters that look like what a person meant and are others: one table, used before a text is parsed."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

_SAME = {
    # minus: the sign itself, hyphens and dashes from a phone's keyboard or a copied chart label
    "\u2212": "-",
    "\u2010": "-",
    "\u2011": "-",
    "\u2012": "-",
    "\u2013": "-",
    "\ufe63": "-",
    "\uff0d": "-",
    # micro: the sign and the Greek letter
    "\u00b5": "u",
    "\u03bc": "u",
    # ohm: the sign and the Greek letter
    "\u2126": "ohm",
    "\u03a9": "ohm",
    # degree: the sign, the masculine ordinal, the ring, and two that hold a letter
    "\u00b0": "deg",
    "\u00ba": "deg",
    "\u02da": "deg",
    "\u2103": "degC",
    "\u2109": "degF",
    "\u212a": "K",
    # powers, never a further digit of the number before them
    "\u00b2": "^2",
    "\u00b3": "^3",
    # products and quotients of units
    "\u00b7": "*",
    "\u22c5": "*",
    "\u2219": "*",
    "\u2044": "/",
    "\u2215": "/",
    # spaces: no-break, narrow, figure, thin and the rest of the row
    "\t": " ",
    "\u00a0": " ",
    "\u202f": " ",
    "\u205f": " ",
    "\u3000": " ",
    **{chr(number): " " for number in range(0x2000, 0x200B)},
}
_TABLE = str.maketrans(_SAME)

# The trade's own signs, and the tab that parts cells: they are what was meant.
_PROPER = frozenset("\u00b5\u03bc\u2126\u03a9\u00b0\u00b2\u00b3\u00b7\t")

# Left alone by `plain`, because a grammar names them itself.
_KNOWN = frozenset("±€£")


def plain(text: str) -> str:
    """The same text in the characters that our grammars know.

    Args:
        text: A quantity, a table's header or a cell as written.

    Returns:
        The text with each look-alike replaced, spaces at both ends taken off. Powers come out as `^2`.
    """
    return text.strip() if text.isascii() and "\t" not in text else text.translate(_TABLE).strip()


def taken_for(text: str) -> Iterator[tuple[int, str]]:
    """What stands in a text in place of another sign, each of them once.

    Args:
        text: As for `plain`.

    Yields:
        Where it stands first, from 0, and a sentence: which sign it is and what it is read as.
    """
    if text.isascii():
        return
    for sign in dict.fromkeys(text):
        if sign in _SAME and sign not in _PROPER:
            meant = "a plain space" if _SAME[sign] == " " else f"'{_SAME[sign]}'"
            yield text.index(sign), f"{code_point(sign)} is read as {meant}"


def foreign(text: str) -> str:
    """The first character that no grammar here knows, told by its code point; empty where there is none."""
    if text.isascii():
        return ""
    for sign in text.translate(_TABLE):
        if not sign.isascii() and sign not in _KNOWN:
            return code_point(sign)
    return ""


def code_point(sign: str) -> str:
    """A character told so that it can be searched for: `U+00A0 (no-break space)`."""
    name = unicodedata.name(sign, "").lower()
    return f"U+{ord(sign):04X}" + (f" ({name})" if name else "")
