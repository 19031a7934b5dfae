"""Answers of a person to what a new record asks, read by the very types that the record is read by."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TypeAlias

from pydantic import ValidationError

from generator.fault import Fault, Place
from generator.intake.taking import Check, NotTaken
from generator.records import nodes
from generator.records.conductor import Conductor
from generator.records.quantity import Quantity, QuantityError, parse_quantity
from generator.records.rules.common import offered
from generator.records.schema.base import Record
from generator.records.schema.fields import ID, ID_HINT
from generator.records.schema.told import Seen, nearest, told
from generator.records.tree import Misnamed, record_at, slug

Data: TypeAlias = "str | Mapping[str, Data] | list[Data]"
"""A record, or a part of it, as plain texts."""


def field(model: type[Record], *path: str) -> Check:
    """A check of an answer by a field of a record.

    Args:
        model: The record's model.
        path: Keys down to the value.
    """

    def check(answer: str) -> str:
        key, *below = path
        value: Data = answer
        for each in reversed(below):
            value = {each: value}
        refused(model, {key: value}, ".".join(path))
        return answer

    return check


def refused(model: type[Record], record: Mapping[str, Data], path: str) -> None:
    """Refuse a value that a model does not take; what else the record lacks is not looked at.

    Raises:
        NotTaken: The model has something against the value at `path`.
    """
    for fault in faults_of(model, record):
        if fault.path == path:
            raise NotTaken(fault.what, fault.accepted)


def quantity(name: str) -> Check:
    """A check of an answer that is a number with a unit of one quantity."""
    return read_by(lambda answer: parse_quantity(answer, name))


def read_by(parse: Callable[[str], Quantity | Conductor]) -> Check:
    """A check of an answer by a reader of the records' own, which keeps it as it was written."""

    def check(answer: str) -> str:
        try:
            return parse(answer).text
        except QuantityError as error:
            raise NotTaken(error.what, error.accepted) from None

    return check


def one_of(words: Iterable[str], what: str) -> Check:
    """A check of an answer that names something that there is.

    Args:
        words: What there is.
        what: What is not there, as in `there is no item`.
    """
    known = tuple(words)

    def check(answer: str) -> str:
        if answer in known:
            return answer
        near = nearest(answer, known) if known else ", and none at all"
        raise NotTaken(f"{what} of this name{near}", offered(answer, known))

    return check


def new_name(root: Path, place: Callable[[str], str]) -> Check:
    """A check of an answer that is to be the id of a new record.

    Args:
        root: The folder of the bench.
        place: From an id to the record's file, below reports/.
    """

    def check(answer: str) -> str:
        if not re.fullmatch(ID, answer):
            near = slug(answer)
            raise NotTaken(f"not an id: {ID_HINT}", (near,) if near else ())
        reports = root.absolute() / "reports"
        path = reports / place(answer)
        found = record_at(path, reports)
        if isinstance(found, Misnamed):
            raise NotTaken(found.what)
        if path.exists():
            raise NotTaken(f"reports/{place(answer)} exists already, and nothing is written over it")
        return answer

    return check


def faults_of(model: type[Record], record: Mapping[str, Data]) -> tuple[Fault, ...]:
    """What a model has against a record that stands in no file."""
    root, seen = _mapping(record, ""), Seen()
    try:
        model.model_validate(root, context=seen)
    except ValidationError as error:
        return told(error, root, seen)
    return ()


_NOWHERE = Place(Path("answer"), 1, 1)


def _node(data: Data, path: str) -> nodes.Node:
    if isinstance(data, str):
        return nodes.Scalar(data, _NOWHERE, path, "quoted")
    if isinstance(data, list):
        made = nodes.Sequence(_NOWHERE, path)
        made.extend(_node(each, f"{path}.{number}") for number, each in enumerate(data, 1))
        return made
    return _mapping(data, path)


def _mapping(data: Mapping[str, Data], path: str) -> nodes.Mapping:
    mapping = nodes.Mapping(_NOWHERE, path)
    for key, each in data.items():
        mapping[key] = _node(each, f"{path}.{key}" if path else key)
        mapping.key_places[key] = _NOWHERE
    return mapping
