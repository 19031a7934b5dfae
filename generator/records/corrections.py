"""A run that corrects another: what it does not say it takes from that one, key by key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from generator.fault import Place
from generator.records import nodes
from generator.records.schema.run import OF_A_CORRECTION, RunBody

if TYPE_CHECKING:
    from generator.records.schema.sitting import Sitting

_OWN = (*OF_A_CORRECTION, "originals")
"""Keys that are never taken over; the meters' files stay with the run that they were read for."""


@dataclass(frozen=True)
class Changed:
    """A key that is otherwise; a text that is none on one line (a table, a list) is empty.

    Attributes:
        key: Its keys joined by dots: `infrared.emissivity`.
        was: What stood there; empty where nothing did.
        now: What stands there; empty where it was taken away.
    """

    key: str
    was: str
    now: str


@dataclass(frozen=True)
class Correction:
    """What a run corrects.

    Attributes:
        run: Id of the corrected run.
        source: Where that one stands.
        because: What was wrong.
        changed: What is otherwise than in it, in the order of the record.
        sitting: Id of its sitting; empty where it has a file of its own.
    """

    run: str
    source: Place
    because: str
    changed: tuple[Changed, ...]
    sitting: str = ""


@dataclass(frozen=True)
class Written:
    """A correction before it is joined with what it corrects.

    Attributes:
        run: Its id, `<report>/<run>`.
        record: Its file's nodes, as written.
        corrects: The id of the run that it corrects, as far as it is known which that is.
        why: Why it cannot be joined: `absent`, `round` (it corrects itself in the end), `form` (its own or
            the other's form is at fault); empty where it was.
    """

    run: str
    record: nodes.Mapping
    corrects: str = ""
    why: str = ""

    @property
    def named(self) -> nodes.Scalar:
        """The name of the corrected run, as written."""
        said = self.record["corrects"]
        assert isinstance(said, nodes.Scalar)  # noqa: S101
        return said


def is_correction(record: nodes.Mapping) -> bool:
    """Whether a run's nodes name a run that it corrects."""
    said = record.get("corrects")
    return isinstance(said, nodes.Scalar) and not said.is_null


def joined(before: nodes.Mapping, own: nodes.Mapping) -> nodes.Mapping:
    """A correction with all that it takes over: maps key by key, lists and tables whole.

    Args:
        before: The run that it corrects; of a correction, joined already.
        own: The correction as written. A key with nothing behind it takes the other's away.
    """
    made = nodes.Mapping(own.place, own.path)
    taken = {key: node for key, node in before.items() if own.path or key not in _OWN}
    for key in dict.fromkeys((*taken, *own)):
        said = own.get(key)
        if said is None:
            made[key] = taken[key]
            made.key_places[key] = before.key_places[key]
            continue
        if key in taken and _is_nothing(said):
            continue
        was = taken.get(key)
        both = isinstance(said, nodes.Mapping) and isinstance(was, nodes.Mapping)
        made[key] = joined(was, said) if both else said  # type: ignore[arg-type]
        made.key_places[key] = own.key_places[key]
    return made


def alone(own: nodes.Mapping) -> nodes.Mapping:
    """A correction beside nothing but what no run can be without, so that its own form can be looked at."""
    before = nodes.Mapping(own.place)
    for key, text in (("method", "any/1"), ("date", "2000-01-01")):
        before[key] = nodes.Scalar(text, own.place, key)
        before.key_places[key] = own.place
    return joined(before, own)


def _is_nothing(node: nodes.Node) -> bool:
    return isinstance(node, nodes.Scalar) and node.is_null


def correction(written: Written, before: nodes.Mapping, sitting: str) -> Correction:
    """What a correction is and says otherwise.

    Args:
        written: The correction.
        before: The run that it corrects; of a correction, joined already.
        sitting: Id of that run's sitting; empty where it has a file of its own.
    """
    because = written.record.get("because")
    told = because.text.strip() if isinstance(because, nodes.Scalar) else ""
    found = tuple(_changed("", before, written.record))
    return Correction(written.corrects, before.place, told, found, sitting)


def _changed(path: str, before: nodes.Mapping, own: nodes.Mapping) -> Iterator[Changed]:
    for key, said in own.items():
        if not path and key in _OWN:
            continue
        was, name = before.get(key), f"{path}.{key}" if path else key
        if isinstance(said, nodes.Mapping):
            yield from _changed(name, was if isinstance(was, nodes.Mapping) else _EMPTY, said)
        elif was != said or isinstance(said, list):
            yield Changed(name, _text(was), _text(said))


_EMPTY = nodes.Mapping(Place(Path()))


def _text(node: nodes.Node | None) -> str:
    if not isinstance(node, nodes.Scalar) or node.is_null or "\n" in node.text:
        return ""
    return node.text.strip()


def as_file(sitting: Sitting, key: str) -> nodes.Mapping:
    """A run of a sitting as its file would be: with the sitting's day, place and meters, without readings.

    Args:
        sitting: The sitting.
        key: Which of its runs.
    """
    whole, body = sitting.node, sitting.node["runs"]
    assert isinstance(body, nodes.Mapping)  # noqa: S101
    own, place = body[key], body.key_places[key]
    assert isinstance(own, nodes.Mapping)  # noqa: S101
    made = nodes.Mapping(place, own.path)
    meters = nodes.Mapping(place, own.path)
    for name in ("date", "place"):
        _put(made, whole, (name,))
    item, _, specimen = key.partition(":")
    for name, text in (("item", item), ("specimen", specimen)) if specimen else ():
        made[name] = nodes.Scalar(text, place, own.path)
        made.key_places[name] = place
    shared = whole.get("instruments")
    for source in (shared, own):
        if isinstance(source, nodes.Mapping):
            _put(meters, source, (each for each in source if source is shared or each not in _KEYS))
    _put(made, own, (each for each in own if each in _KEYS))
    made["instruments"] = meters
    made.key_places["instruments"] = place
    return made


_KEYS = frozenset(RunBody.spelt())


def _put(into: nodes.Mapping, source: nodes.Mapping, keys: Iterable[str]) -> None:
    for key in keys:
        if key in source:
            into[key] = source[key]
            into.key_places[key] = source.key_places[key]


def in_order(written: Mapping[str, Written]) -> Iterator[Written]:
    """Corrections, each behind the one that it corrects; those that go round or hang on such are left out."""
    waiting = dict(written)
    while ready := [key for key, each in waiting.items() if each.corrects not in waiting]:
        for key in ready:
            yield waiting.pop(key)


def goes_round(run: str, written: Mapping[str, Written]) -> bool:
    """Whether a correction corrects itself in the end."""
    seen: set[str] = set()
    at = run
    while at in written and at not in seen:
        seen.add(at)
        at = written[at].corrects
    return at == run
