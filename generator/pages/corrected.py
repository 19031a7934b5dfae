"""What a correction of a run says otherwise, for a reader."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.pages.format import Both, condition
from generator.records.corrections import Changed

_TOLD = "leave-out"
"""What is told with the readings that were not used."""


@dataclass(frozen=True)
class ChangedKey:
    """A key of a run, old and new; None where nothing stands there, both where it is more than a line."""

    key: str
    was: Both | None
    now: Both | None


def changed_keys(changed: Iterable[Changed]) -> tuple[ChangedKey, ...]:
    """The keys that a correction says otherwise."""
    return tuple(
        ChangedKey(each.key, _text(each.was), _text(each.now)) for each in changed if each.key != _TOLD
    )


def _text(said: str) -> Both | None:
    return condition(said) if said else None
