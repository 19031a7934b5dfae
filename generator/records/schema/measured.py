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
    return Reads(f"{wanted} with its unit", parsed(lambda text: parse_quantity(text, quantity)), TEXT)


def _range(quantity: str) -> Reads:
    return Reads("a range", parsed(lambda text: parse_range(text, quantity)), TEXT)


def _read(parse: Callable[[str, str], R], node: Any, quantity: str) -> R:
    try:
        return parse(str(node), quantity)
    except QuantityError as error:
        raise problem(error.what, found=str(node), accepted=error.accepted) from None


def _asked(info: ValidationInfo) -> str:
    """What the record's own keys, read before this one, say that it measures; empty where they don't."""
    kind = {"rise": INTERVAL, "temperature": TEMPERATURE}.get(info.data.get("kind") or "", "")
    value = getattr(info.data.get("value"), "quantity", "")
    return str(info.data.get("quantity") or kind or value)


def _end(node: Any, info: ValidationInfo) -> Quantity:
    return _read(parse_quantity, node, _asked(info))


def _width(node: Any, info: ValidationInfo) -> Quantity:
    quantity = _asked(info)
    return _read(parse_quantity, node, INTERVAL if quantity == TEMPERATURE else quantity)


def _width_or_percent(node: Any, info: ValidationInfo) -> Quantity:
    return _read(parse_quantity, node, "ratio") if str(node).rstrip().endswith("%") else _width(node, info)


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


AnyQuantity = Annotated[Quantity, _measured("", "a number")]
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
Interval = Annotated[Quantity, _measured(INTERVAL, "a difference of temperatures")]
Time = Annotated[Quantity, _measured("time", "a time")]
Length = Annotated[Quantity, _measured("length", "a length")]
Mass = Annotated[Quantity, _measured("mass", "a mass")]
Torque = Annotated[Quantity, _measured("torque", "a torque")]
Percent = Annotated[Quantity, _measured("ratio", "a share in percent")]
Rate = Annotated[Quantity, _measured("rate", "a growth in percent per hour")]
Temperatures = Annotated[Range, _range(TEMPERATURE)]
Lengths = Annotated[Range, _range("length")]
Times = Annotated[tuple[Quantity, ...], Reads("the times of the readings", parsed(parse_times), TEXT)]

QuantityName = Annotated[str, OneOf(QUANTITIES)]
