"""What an answer is taken by; no model of a record is loaded for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeAlias

Check: TypeAlias = Callable[[str], str]
"""From an answer as typed to what is kept of it; raises `NotTaken`."""


class NotTaken(Exception):
    """An answer that the record would not take.

    Attributes:
        what: Why, in plain words.
        accepted: What would do instead.
    """

    def __init__(self, what: str, accepted: Iterable[str] = ()) -> None:
        self.what = what
        self.accepted = tuple(accepted)
        super().__init__(what)


def readable(text: str) -> str:
    """An answer without blanks at its ends.

    Raises:
        NotTaken: It holds bytes that stand for no sign.
    """
    try:
        text.encode()
    except UnicodeEncodeError:
        raise NotTaken("this holds bytes that are no text; type it again") from None
    return text.strip()


def parts(answer: str) -> tuple[str, ...]:
    """Several answers on one line, parted by blanks or commas, one by one; each once."""
    return tuple(dict.fromkeys(answer.replace(",", " ").split()))


def several(check: Check) -> Check:
    """A check of several answers on one line."""

    def check_all(answer: str) -> str:
        return " ".join(check(each) for each in parts(answer))

    return check_all


def either(word: str, check: Check) -> Check:
    """A check that takes one word as it is, and leaves all else to another check."""
    return lambda answer: answer if answer == word else check(answer)


def words(*known: str) -> Check:
    """A check of an answer that is one of a few words."""

    def check(answer: str) -> str:
        if answer in known:
            return answer
        raise NotTaken("not one of the words for this", known)

    return check


def number(most: int, least: int = 1) -> Check:
    """A check of an answer that counts."""

    def check(answer: str) -> str:
        if answer.isascii() and answer.isdigit() and answer[0] != "0" and least <= int(answer[:9]) <= most:
            return answer
        raise NotTaken(f"a number from {least} to {most} is wanted, in digits")

    return check
