"""What a model has against a record, as faults with places and in plain words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, TypeAlias

from pydantic import ValidationError, ValidationInfo
from pydantic_core import PydanticCustomError

from generator.fault import Doubt, Fault, Place
from generator.records.nodes import Mapping, Node, Scalar, Sequence
from generator.records.taken_for import signs_of

if TYPE_CHECKING:
    from generator.records.schema.base import Record

_Owners: TypeAlias = dict[int, tuple[Mapping, str]]


@dataclass
class Seen:
    """What was met while a record was read.

    Attributes:
        models: Which model took which mapping, by the mapping's identity.
        doubts: What may stay: signs that were read as others.
    """

    models: dict[int, type[Record]] = field(default_factory=dict)
    doubts: list[Doubt] = field(default_factory=list)


def note_signs(node: object, info: ValidationInfo) -> None:
    """Note what stands in a value, once it is read, in place of another sign."""
    if isinstance(info.context, Seen) and isinstance(node, Scalar) and not node.text.isascii():
        info.context.doubts.extend(signs_of(node))


@dataclass(frozen=True)
class Against:
    """What a field's own type has against a value.

    Attributes:
        what: What is wrong, as in a fault.
        found: The value as written, where quoting it helps.
        accepted: What would be taken instead.
        place: Where inside the value, if not at its begin.
        below: Key inside the value that is meant; empty for the value itself.
    """

    what: str
    found: str | None = None
    accepted: tuple[str, ...] = ()
    place: Place | None = None
    below: str = ""


def problem(
    what: str,
    *,
    found: str | None = None,
    accepted: tuple[str, ...] = (),
    place: Place | None = None,
    below: str = "",
) -> PydanticCustomError:
    """What a field's own type raises; the arguments are those of `Against`."""
    return problems([Against(what, found, accepted, place, below)])


def problems(several: Iterable[Against]) -> PydanticCustomError:
    """What a type raises that finds several things against one value, as a table does."""
    return PydanticCustomError("record", "{several}", {"several": tuple(several)})


def nearest(word: str, known: Iterable[str]) -> str:
    """`; did you mean 'ambient'?` where a known word is near, else nothing."""
    folded = {each.casefold().replace("_", "-"): each for each in known}
    close = get_close_matches(word.casefold().replace("_", "-"), list(folded), n=1, cutoff=0.7)
    return f"; did you mean {folded[close[0]]!r}?" if close else ""


def told(error: ValidationError, root: Mapping, seen: Seen) -> tuple[Fault, ...]:
    """Turn pydantic's errors into faults.

    Args:
        error: What the model raised over the nodes.
        root: The record's nodes.
        seen: Which model took which mapping.

    Returns:
        A fault or more for each error, with the place of the node that it is about: found by the identity of
        the error's input, because `loc` holds tags of unions too.
    """
    owners = {id(child): (parent, key) for parent, key, child in _walk(root)}
    faults: list[Fault] = []
    for each in error.errors(include_url=False):
        faults.extend(_TELL[each["type"]](each, owners, seen))
    halves = [each.place for each in faults if each.what == _HALF_A_NUMBER]
    return tuple(each for each in faults if not any(_ends_at(each, place) for place in halves))


def _ends_at(fault: Fault, place: Place) -> bool:
    """Whether a value at fault is the first half of a number whose other half became a key."""
    end = fault.place.column + len(fault.found or "") + len(",")
    return fault.found is not None and (fault.place.line, end) == (place.line, place.column)


def _walk(node: Node) -> Iterator[tuple[Mapping, str, Node]]:
    """Every child of a mapping with its parent and key, down the whole tree."""
    if isinstance(node, Mapping):
        for key, child in node.items():
            yield node, key, child
            yield from _walk(child)
    elif isinstance(node, Sequence):
        for child in node:
            yield from _walk(child)


def _join(path: str, key: object) -> str:
    return ".".join(part for part in (path, str(key)) if part)


def _record(error: Any, owners: _Owners, seen: Seen) -> Iterator[Fault]:
    node = error["input"]
    if _is_unknown(node, owners, seen):
        yield from _unknown(error, owners, seen)
        return
    for each in error["ctx"]["several"]:
        if isinstance(node, Scalar | Mapping | Sequence):
            path = _join(node.path, each.below)
            yield Fault(each.place or node.place, path, each.what, each.found, each.accepted)
        else:
            parent, key = _owner_of_key(error, owners)
            yield Fault(parent.key_places[key], _join(parent.path, key), each.what, None, each.accepted)


def _is_unknown(node: Any, owners: _Owners, seen: Seen) -> bool:
    """Whether a value at fault stands under a key that an open record would not take with any value."""
    if id(node) not in owners:
        return False
    parent, key = owners[id(node)]
    model = seen.models.get(id(parent))
    return model is not None and not model.takes(key)


def _table(error: Any, _: _Owners, __: Seen) -> Iterator[Fault]:
    yield from error["ctx"]["error"].faults


def _owner_of_key(error: Any, owners: _Owners) -> tuple[Mapping, str]:
    """The open mapping that holds a key at fault; a key is a plain text and has no identity of its own."""
    key, above = error["input"], [str(step) for step in error["loc"][:-2]]
    same = [owner for owner in owners.values() if owner[1] == key]
    return next((owner for owner in same if owner[0].path.split(".")[-1:] == above[-1:]), same[0])


def _missing(error: Any, _: _Owners, seen: Seen) -> Iterator[Fault]:
    node, key = error["input"], str(error["loc"][-1])
    model = seen.models.get(id(node))
    hint = model.hint(key) if model else ""
    yield Fault(node.place, _join(node.path, key), f"missing: {hint}" if hint else "missing")


_HALF_A_NUMBER = "a decimal comma parts a number in two inside { }; write a point"
_HALF_A_TEXT = "unknown key; inside { } a comma begins the next key, so quote a text that holds one"


def _unknown(error: Any, owners: _Owners, seen: Seen) -> Iterator[Fault]:
    parent, key = owners[id(error["input"])]
    place, path = parent.key_places[key], _join(parent.path, key)
    model = seen.models[id(parent)]
    if half := _half(parent, key, place):
        yield Fault(place, path, half)
        return
    known = model.spelt()
    what = f"unknown key{nearest(key, known) or _by_its_hint(key, model)}"
    yield Fault(place, path, what, None, known)


def _half(parent: Mapping, key: str, place: Place) -> str:
    """What to say of a key without a colon inside braces: a comma of the value before made it one."""
    before, after = place.text[: place.column - 1], place.text[place.column - 1 :]
    node = parent[key]
    bare = isinstance(node, Scalar) and node.text == "" and node.style == "plain"
    if not bare or not before.rstrip().endswith(",") or after[len(key) :].lstrip().startswith(":"):
        return ""
    return _HALF_A_NUMBER if _DECIMALS.search(before) and key[:1].isdigit() else _HALF_A_TEXT


_DECIMALS = re.compile(r"\d,$")


def _by_its_hint(key: str, model: type[Record]) -> str:
    """`; did you mean 'specimen'?` where a key is called after what a known key is for, as `piece`."""
    word = re.compile(rf"\b{re.escape(key.casefold())}\b")
    hints = {each: model.hint(each).casefold() for each in model.spelt()}
    meant = [each for each, hint in hints.items() if word.search(hint)]
    close = [each for each in meant if len(hints[each].split()) <= _FEW_WORDS]
    sure = meant if len(meant) == 1 else close
    return f"; did you mean {sure[0]!r}?" if len(sure) == 1 else ""


_FEW_WORDS = 2
"""A hint of so few words, `which piece`, is the word itself."""


def _wrong_form(error: Any, _: _Owners, __: Seen) -> Iterator[Fault]:
    """A key that takes several forms (a text, a list, keys), and got another one."""
    names = {"scalar": "a text", "sequence": "a list", "mapping": "keys with values"}
    forms = [names[part.strip("' ")] for part in error["ctx"]["expected_tags"].split(",")]
    yield from _form(error, f"{' or '.join(reversed(forms))} is expected here")


def _keys_wanted(error: Any, owners: _Owners, seen: Seen) -> Iterator[Fault]:
    """A mapping of known keys is told with them, one of open keys with what they are for."""
    node = error["input"]
    model = seen.models.get(id(node))
    hint = "" if model else _hint_of(node, owners, seen)
    keys = model.first() if model else ()
    yield from _form(error, f"keys with values are expected here, a line each or in {{ }}{hint}", keys)


def _hint_of(node: Any, owners: _Owners, seen: Seen) -> str:
    parent, key = owners.get(id(node), (None, ""))
    model = seen.models.get(id(parent))
    hint = model.hint(key) if model else ""
    return f": {hint}" if hint else ""


def _list_wanted(error: Any, _: _Owners, __: Seen) -> Iterator[Fault]:
    yield from _form(error, "a list is expected here: [one, two], or a line each after a dash")


def _too_short(error: Any, _: _Owners, __: Seen) -> Iterator[Fault]:
    node, least = error["input"], error["ctx"]["min_length"]
    # Entries that are at fault are not counted by pydantic; here they are.
    if len(node) < least:
        number = "one is" if least == 1 else f"{least} are"
        yield Fault(node.place, node.path, f"too few here; at least {number} needed")


def _form(error: Any, what: str, accepted: tuple[str, ...] = ()) -> Iterator[Fault]:
    node = error["input"]
    if not isinstance(node, Scalar):
        kind = "a list" if isinstance(node, Sequence) else "keys with values"
        yield Fault(node.place, node.path, f"{what}; this is {kind}", None, accepted)
    elif node.is_null:
        yield Fault(node.place, node.path, f"no value here; {what}", None, accepted)
    else:
        yield Fault(node.place, node.path, what, None if "\n" in node else node.text, accepted)


_TELL: dict[str, Callable[[Any, _Owners, Seen], Iterator[Fault]]] = {
    "record": _record,
    "value_error": _table,
    "missing": _missing,
    "extra_forbidden": _unknown,
    "union_tag_invalid": _wrong_form,
    "union_tag_not_found": _keys_wanted,
    "model_type": _keys_wanted,
    "dict_type": _keys_wanted,
    "tuple_type": _list_wanted,
    "too_short": _too_short,
}
