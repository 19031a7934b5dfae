"""Texts that name something else: a method's version, a channel of a meter, a column, a run of a sitting."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from generator.records.header import CONTROL, Head, parse_head
from generator.records.schema.fields import ID, form, parsed
from generator.records.schema.reads import Reads
from generator.records.schema.told import problem

_PART = r"[A-Za-z0-9._-]{1,40}"
_METHOD = re.compile(rf"({ID})/([1-9]\d{{0,4}})")
_BINDING = re.compile(rf"({ID})(?:/({_PART}))?(?:\s+with\s+({_PART}))?")
_COLUMN = re.compile(rf"{ID}(?:@{ID})?")
_COUNT = re.compile(r"(\d{1,6})\s+of\s+(\d{1,6})")
_LASTED = re.compile(r"(broke at|over)\s+(\d{1,9})")
_PIECE = re.compile(rf"({ID}):([A-Za-z0-9-]{{1,12}})")


@dataclass(frozen=True)
class MethodRef:
    """A version of a method: `closed-box-heating/2`."""

    id: str
    version: int

    def __str__(self) -> str:
        return f"{self.id}/{self.version}"


@dataclass(frozen=True)
class Binding:
    """What reads a column: `clamp-2`, `logger-1/CH3`, `logger-1/CH3 with k7`.

    Attributes:
        instrument: Id of the meter.
        channel: Its channel; None for a meter with one input.
        probe: The probe plugged in, where the run says another than the meter's record.
    """

    instrument: str
    channel: str | None = None
    probe: str | None = None


@dataclass(frozen=True)
class RunKey:
    """A run of a sitting: `okvarn-ih30:A`, or `control`, whose item and specimen are None."""

    text: str
    item: str | None = None
    specimen: str | None = None

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True)
class CountOf:
    """So many of so many."""

    k: int
    n: int


@dataclass(frozen=True)
class LastedTo:
    """How many cycles a piece has done, counted from new, and whether it failed there."""

    cycles: int
    failed: bool


def _method(node: str, _: ValidationInfo) -> MethodRef:
    found = _METHOD.fullmatch(str(node))
    if found is None:
        raise problem("not a method with its version, as closed-box-heating/2", found=str(node))
    return MethodRef(found[1], int(found[2]))


def _binding(node: str, _: ValidationInfo) -> Binding:
    found = _BINDING.fullmatch(str(node).strip())
    if found is None:
        raise problem(
            "not an instrument's id, with its channel where it has some",
            found=str(node),
            accepted=("clamp-2", "logger-1/CH3", "logger-1/CH3 with k7"),
        )
    return Binding(found[1], found[2], found[3])


def _column(node: str, _: ValidationInfo) -> str:
    if _COLUMN.fullmatch(str(node)) is None:
        raise problem("not a column's name, as `ambient` or `temperature@body`", found=str(node))
    return str(node)


def _run_key(node: str, _: ValidationInfo) -> str:
    if str(node) != CONTROL and _PIECE.fullmatch(str(node)) is None:
        raise problem(
            f"not a run of a sitting: `item:piece`, as okvarn-ih30:A, or `{CONTROL}`", found=str(node)
        )
    return str(node)


def _count(node: str, _: ValidationInfo) -> CountOf | LastedTo:
    lasted = _LASTED.fullmatch(str(node).strip())
    if lasted is not None:
        if int(lasted[2]) == 0:
            raise problem("nothing was counted", found=str(node))
        return LastedTo(int(lasted[2]), lasted[1] == "broke at")
    found = _COUNT.fullmatch(str(node).strip())
    if found is None:
        raise problem("not a count", found=str(node), accepted=("0 of 50", "broke at 1200", "over 2000"))
    k, n = int(found[1]), int(found[2])
    if k > n or n == 0:
        raise problem("more counted than there were" if n else "nothing was counted", found=str(node))
    return CountOf(k, n)


def split_run_key(text: str) -> RunKey:
    """A checked key of a sitting's runs, in its parts."""
    found = _PIECE.fullmatch(text)
    return RunKey(text, found[1], found[2]) if found else RunKey(text)


def _like(pattern: re.Pattern[str], *words: str) -> JsonSchemaValue:
    """What editors are told of a text of that form, or of these words."""
    return form(f"^(?:{'|'.join((pattern.pattern, *words))})$")


MethodVersion = Annotated[MethodRef, Reads("a method with its version", _method, _like(_METHOD))]
Bound = Annotated[Binding, Reads("an instrument", _binding, _like(_BINDING))]
ColumnKey = Annotated[str, Reads("a column's name", _column, _like(_COLUMN))]
ColumnHead = Annotated[Head, Reads("a column with its unit", parsed(parse_head), form(r"^\S+\s+\S.*$"))]
RunKeyText = Annotated[str, Reads("a run of a sitting", _run_key, _like(_PIECE, CONTROL))]
Count = Annotated[
    CountOf | LastedTo,
    Reads("a count", _count, form(f"^(?:{_COUNT.pattern}|{_LASTED.pattern})$")),
]
