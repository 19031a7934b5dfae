"""What is to change in a record, and what it is to say afterwards; how that is written comes in `edit`."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any, TypeAlias

from generator.fault import Fault
from generator.records import nodes
from generator.records.writer import Lines, OneLine, Value


@dataclass(frozen=True)
class Put:
    """A value under a key: in place of the text or the nothing that stands there, or as a new key.

    Attributes:
        path: Keys down to it; those that are missing are made.
        value: The value.
        behind: Keys behind the last of which a new key stands; at the end where none of them is there.
    """

    path: tuple[str, ...]
    value: Value
    behind: tuple[str, ...] = ()


@dataclass(frozen=True)
class Insert:
    """An item more in a list, which is made where it is missing.

    Attributes:
        path: Keys down to the list.
        value: The item.
        at: Its number from 0; None for the end.
        behind: As of `Put`, where the list is made.
    """

    path: tuple[str, ...]
    value: Value
    at: int | None = None
    behind: tuple[str, ...] = ()


@dataclass(frozen=True)
class Drop:
    """An item less in a list of several.

    Attributes:
        path: Keys down to the list.
        at: Its number from 0.
    """

    path: tuple[str, ...]
    at: int


Change: TypeAlias = Put | Insert | Drop


class EditRefused(Exception):
    """A record that cannot be changed so.

    Attributes:
        faults: What it has against it, or where it is written so that the change has no place.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(each.what for each in self.faults))


Meaning: TypeAlias = "str | list[Any] | dict[str, Any] | None"
"""What a record says, as plain data."""


def meaning(node: nodes.Node) -> Meaning:
    """What a node says; whether a block ends with a line end or without is how it is written."""
    if isinstance(node, nodes.Mapping):
        return {key: meaning(each) for key, each in node.items()}
    if isinstance(node, nodes.Sequence):
        return [meaning(each) for each in node]
    if node.is_null:
        return None
    return node.text.rstrip("\n") if node.style in {"block", "folded"} else node.text


def meant(before: dict[str, Any], change: Change) -> dict[str, Any]:
    """What a record is to say after a change.

    Args:
        before: What it says now.
        change: The change; what it leads through are keys with values, or nothing yet.
    """
    after = deepcopy(before)
    above = after
    *way, last = map(nfc, change.path)
    for key in way:
        if above.get(key) is None:
            above[key] = {}
        above = above[key]
    if isinstance(change, Put):
        above[last] = _plainly(change.value)
    elif isinstance(change, Drop):
        del above[last][change.at]
    else:
        items = above[last] = above.get(last) or []
        items.insert(len(items) if change.at is None else change.at, _plainly(change.value))
    return after


def _plainly(value: Value) -> Meaning:
    if isinstance(value, str):
        return value
    if isinstance(value, Lines):
        return value.text.rstrip("\n")
    if isinstance(value, OneLine):
        return _plainly(value.value)
    if isinstance(value, Mapping):
        return {nfc(key): _plainly(each) for key, each in value.items()}
    return [_plainly(each) for each in value]


def nfc(key: str) -> str:
    """A key as readers of records know it."""
    return unicodedata.normalize("NFC", key)
