"""Whatever stands in place of a value, a record is read or refused in words; never a traceback."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from generator.fault import Place, message
from generator.records.library import MODELS
from generator.records.nodes import Mapping, Node, Scalar, Sequence
from generator.records.schema.base import FileRecord
from generator.records.source import read
from generator.records.tree import survey
from tests.records.laid import GOOD

FILES = survey(GOOD / "reports").records

Slot = tuple[Any, Any]


def slots(node: Node) -> Iterator[Slot]:
    """Every place in a tree that holds a node: its container and the key or number."""
    entries: Any = node.items() if isinstance(node, Mapping) else enumerate(node)
    if isinstance(node, Mapping | Sequence):
        for key, child in list(entries):
            yield node, key
            yield from slots(child)


def mapping(place: Place, path: str, **values: str) -> Mapping:
    made = Mapping(place, path)
    for key, value in values.items():
        made[key] = Scalar(value, place, f"{path}.{key}")
        made.key_places[key] = place
    return made


def sequence(place: Place, path: str, *values: str) -> Sequence:
    made = Sequence(place, path)
    made.extend(Scalar(value, place, f"{path}.{number}") for number, value in enumerate(values, 1))
    return made


REPLACEMENTS: dict[str, Callable[[Place, str], Node]] = {
    "nothing": lambda place, path: Scalar("", place, path),
    "a word": lambda place, path: Scalar("nonsense", place, path),
    "a number": lambda place, path: Scalar("7", place, path),
    "a quantity": lambda place, path: Scalar("7 K", place, path),
    "no keys": mapping,
    "unknown keys": lambda place, path: mapping(place, path, nonsense="7"),
    "a kind": lambda place, path: mapping(place, path, kind="heating", id="x"),
    "an empty list": sequence,
    "a list of words": lambda place, path: sequence(place, path, "nonsense", "7"),
}


@pytest.mark.parametrize("instead", sorted(REPLACEMENTS))
@pytest.mark.parametrize("file", FILES, ids=lambda each: f"{each.kind}-{each.path.stem}")
def test_any_value_replaced(file: Any, instead: str) -> None:
    root = read(file.path).root
    assert root is not None
    refused = 0
    for container, key in list(slots(root)):
        kept = container[key]
        container[key] = REPLACEMENTS[instead](kept.place, kept.path)
        found = MODELS[file.kind].from_nodes(root, file.name)
        container[key] = kept
        if isinstance(found, FileRecord):
            continue
        refused += 1
        assert all(each.what and message(each, GOOD) and each.place.file == file.path for each in found)
    assert refused


@pytest.mark.parametrize("file", FILES, ids=lambda each: f"{each.kind}-{each.path.stem}")
def test_any_key_misspelt_has_its_own_place(file: Any) -> None:
    root = read(file.path).root
    assert root is not None
    for container, key in list(slots(root)):
        if not isinstance(container, Mapping):
            continue
        kept = dict(container)
        container.clear()
        for each, value in kept.items():
            spelt = "no such key" if each == key else each
            container[spelt] = value
            container.key_places[spelt] = container.key_places[each]
        found = MODELS[file.kind].from_nodes(root, file.name)
        container.clear()
        container.update(kept)
        if isinstance(found, tuple):
            misspelt = [each for each in found if each.path.endswith("no such key")]
            assert [each.place for each in misspelt] in ([], [container.key_places[key]])
