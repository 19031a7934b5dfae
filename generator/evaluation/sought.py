"""What is worked out where it is asked for: of all pages few draw it, and no figure rests on it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Generic, TypeVar

Found_co = TypeVar("Found_co", covariant=True)
Fact = TypeVar("Fact")


class Sought(Generic[Found_co]):
    """A fact that is sought when it is first asked for; two are alike where what they come to is."""

    def __init__(self, seek: Callable[[], Found_co]) -> None:
        self._seek = seek

    @cached_property
    def found(self) -> Found_co:
        """What it comes to."""
        found = self._seek()
        # What it was sought from is let go.
        del self._seek
        return found

    def __eq__(self, other: object) -> bool:
        return self.found == (other.found if isinstance(other, Sought) else other)

    def __hash__(self) -> int:
        return hash(self.found)

    def __repr__(self) -> str:
        return repr(self.found)


def known(fact: Fact | Sought[Fact]) -> Fact:
    """The fact itself."""
    return fact.found if isinstance(fact, Sought) else fact
