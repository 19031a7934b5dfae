"""The types of fields that are quantities, each typed by what it measures."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Any, Literal, TypeVar

from pydantic import ValidationInfo

from generator.records.accuracy import Accuracy, parse_accuracy
from generator.records.quantity import (
    Quantity,
    QuantityError,
    Range,
    parse_quantity,
    parse_range,
    parse_times,
    plain_quantity,
)
from generator.records.schema.fields import TEXT, parsed
from generator.records.schema.reads import OneOf, Reads
from generator.records.schema.told import problem
from generator.records.units import INTERVAL, QUANTITIES, TEMPERATURE

UNKNOWN: Literal["unknown"] = "unknown"
"""An uncertainty that nobody knows: a value and not a blank."""

R = TypeVar("R")
_LOOKS_LIKE_A_RANGE = re.compile(r"[+-]?\d[^a-z]*\bto\b.*\d.*")


def _measured(quantity: str, wanted: str) -> Reads:
    return Reads(f"{wanted} with its unit", parsed(lambda text: plain_quantity(text, quantity)), TEXT)


def _size(quantity: str, wanted: str) -> Reads:
    return Reads(f"{wanted} with its unit", lambda node, _: _above_nought(node, quantity, wanted), TEXT)


def _not_below(quantity: str, wanted: str) -> Reads:
    def read(node: Any, _: ValidationInfo) -> Quantity:
        found = _read(plain_quantity, node, quantity)
        if found.value < 0:
            raise problem(f"{wanted} cannot be below nought", found=str(node))
        return found

    return Reads(f"{wanted} with its unit", read, TEXT)


def _range(quantity: str) -> Reads:
    return Reads("a range", parsed(lambda text: parse_range(text, quantity)), TEXT)


def _read(parse: Callable[[str, str], R], node: Any, quantity: str) -> R:
    try:
        return parse(str(node), quantity)
    except QuantityError as error:
        raise problem(error.what, found=str(node), accepted=error.accepted) from None


def _above_nought(node: Any, quantity: str, wanted: str) -> Quantity:
    found = _read(plain_quantity, node, quantity)
    if found.value <= 0:
        raise problem(f"{wanted} above nought is needed", found=str(node))
    return found


def _asked(info: ValidationInfo) -> str:
    """What the record's own keys, read before this one, say that it measures; empty where they don't."""
    kind = {"rise": INTERVAL, "temperature": TEMPERATURE}.get(info.data.get("kind") or "", "")
    value = getattr(info.data.get("value"), "quantity", "")
    return str(info.data.get("quantity") or kind or value)


def _end(node: Any, info: ValidationInfo) -> Quantity:
    return _read(plain_quantity, node, _asked(info))


def _width(node: Any, info: ValidationInfo) -> Quantity:
    quantity = _asked(info)
    return _above_nought(node, INTERVAL if quantity == TEMPERATURE else quantity, "a width")


def _width_or_percent(node: Any, info: ValidationInfo) -> Quantity:
    in_percent = str(node).rstrip().endswith("%")
    return _above_nought(node, "ratio", "a share") if in_percent else _width(node, info)


def _share(node: Any, _: ValidationInfo) -> Quantity:
    found = _read(plain_quantity, node, "ratio")
    if not 0 <= found.si <= 1:
        raise problem("a share lies from 0 % to 100 %", found=str(node))
    return found


def _width_or_unknown(node: Any, info: ValidationInfo) -> Quantity | str:
    return UNKNOWN if str(node).removeprefix("±").strip() == UNKNOWN else _width(node, info)


def _error_limit(node: Any, info: ValidationInfo) -> Accuracy:
    quantity = _asked(info)
    if not quantity:  # The key `quantity` has its fault already, and the record is not made.
        return Accuracy(str(node))
    return _read(parse_accuracy, node, quantity)


def _probe_tolerance(node: Any, _: ValidationInfo) -> Accuracy:
    return _read(parse_accuracy, node, TEMPERATURE)


def _range_or_text(node: Any, _: ValidationInfo) -> Range | str:
    text = str(node).strip()
    if not _LOOKS_LIKE_A_RANGE.fullmatch(text):
        return text
    try:
        return parse_range(text)
    except QuantityError as error:
        raise problem(error.what, found=text, accepted=error.accepted) from None


def default_of(text: str, quantity: str) -> Callable[[], Quantity]:
    """A default that is printed as assumed: read like any other, when it is first needed."""
    return lambda: parse_quantity(text, quantity)


AnyQuantity = Annotated[Quantity, Reads("a number with its unit", parsed(parse_quantity), TEXT)]
"""A result, which may lie above a range: `over 500 N`."""
SetQuantity = Annotated[Quantity, _measured("", "a number")]
"""What is set or declared, which may not."""
Spread = Annotated[Quantity, _size("", "a spread")]
End = Annotated[Quantity, Reads("a number with its unit", _end, TEXT)]
"""In the quantity that the record's key `quantity`, `kind` or `value` says; of temperatures a point."""
Width = Annotated[Quantity, Reads("a number with its unit", _width, TEXT)]
"""As `End`, of temperatures a difference."""
WidthOrPercent = Annotated[Quantity, Reads("a number with its unit, or percent", _width_or_percent, TEXT)]
WidthOrUnknown = Annotated[
    Quantity | Literal["unknown"], Reads("a number with its unit, or `unknown`", _width_or_unknown, TEXT)
]
RangeOrText = Annotated[Range | str, Reads("a range or a text", _range_or_text, TEXT)]

ErrorLimit = Annotated[Accuracy, Reads("an accuracy as printed", _error_limit, TEXT)]
ProbeTolerance = Annotated[Accuracy, Reads("a tolerance, as `type K class 1`", _probe_tolerance, TEXT)]

Temperature = Annotated[Quantity, _measured(TEMPERATURE, "a temperature")]
Interval = Annotated[Quantity, _size(INTERVAL, "a difference of temperatures")]
Leak = Annotated[Quantity, _not_below(INTERVAL, "what a probe leads away")]
Time = Annotated[Quantity, _not_below("time", "a time")]
Duration = Annotated[Quantity, _size("time", "a time")]
Length = Annotated[Quantity, _size("length", "a length")]
Mass = Annotated[Quantity, _size("mass", "a mass")]
Torque = Annotated[Quantity, _size("torque", "a torque")]
Percent = Annotated[Quantity, Reads("a share in percent with its unit", _share, TEXT)]
Rate = Annotated[Quantity, _size("rate", "a growth in percent per hour")]
Temperatures = Annotated[Range, _range(TEMPERATURE)]
Lengths = Annotated[Range, _range("length")]
Times = Annotated[tuple[Quantity, ...], Reads("the times of the readings", parsed(parse_times), TEXT)]

QuantityName = Annotated[str, OneOf(QUANTITIES)]
