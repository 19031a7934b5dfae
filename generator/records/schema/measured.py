"""The types of fields that are quantities, each typed by what it measures."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Any, Literal, TypeVar, cast

from pydantic import ValidationInfo

from generator.records.accuracy import Accuracy, parse_accuracy
from generator.records.nodes import Scalar
from generator.records.quantity import (
    Quantity,
    Range,
    parse_quantity,
    parse_range,
    parse_times,
    plain_quantity,
)
from generator.records.schema.fields import TEXT, form, parsed
from generator.records.schema.reads import OneOf, Reads
from generator.records.schema.told import problem
from generator.records.units import INTERVAL, QUANTITIES, TEMPERATURE

UNKNOWN: Literal["unknown"] = "unknown"
"""An uncertainty that nobody knows: a value and not a blank."""

R = TypeVar("R")

# What an editor can tell at once: a digit, something that may be a unit, no decimal comma, no underscore.
_QUANTITY = form(r"^(?!.*\d,\d)(?!.*\d_)(?=.*\d)(?=.*[^\d\s.,:+-]).*$")
_RANGE = form(r"^.*\d.* to .*\d.*[^\d\s.,].*$")
_TIMES = form(r"^(?!.*\d,\d).*\d\s+[A-Za-z]+$")
_ACCURACY = form(r"^(?!.*\d,\d).*([A-Za-z]|%|°).*$")
_LOOKS_LIKE_A_RANGE = re.compile(r"[+-]?\d[^a-z]*\bto\b.*\d.*")


def _measured(quantity: str, wanted: str) -> Reads:
    return Reads(f"{wanted} with its unit", parsed(lambda text: plain_quantity(text, quantity)), _QUANTITY)


def _size(quantity: str, wanted: str) -> Reads:
    return Reads(
        f"{wanted} with its unit", lambda node, info: _above_nought(node, info, quantity, wanted), _QUANTITY
    )


def _not_below(quantity: str, wanted: str) -> Reads:
    def read(node: Any, info: ValidationInfo) -> Quantity:
        found = _read(plain_quantity, node, info, quantity)
        if found.value < 0:
            raise problem(f"{wanted} cannot be below nought", found=str(node))
        return found

    return Reads(f"{wanted} with its unit", read, _QUANTITY)


def _range(quantity: str) -> Reads:
    return Reads("a range", parsed(lambda text: parse_range(text, quantity)), _RANGE)


def _read(parse: Callable[[str, str], R], node: Any, info: ValidationInfo, quantity: str) -> R:
    return cast(R, parsed(lambda text: parse(text, quantity))(node, info))


def _above_nought(node: Any, info: ValidationInfo, quantity: str, wanted: str) -> Quantity:
    found = _read(plain_quantity, node, info, quantity)
    if found.value <= 0:
        raise problem(f"{wanted} above nought is needed", found=str(node))
    return found


def _asked(info: ValidationInfo) -> str:
    """What the record's own keys, read before this one, say that it measures; empty where they don't."""
    kind = {"rise": INTERVAL, "temperature": TEMPERATURE}.get(info.data.get("kind") or "", "")
    value = getattr(info.data.get("value"), "quantity", "")
    return str(info.data.get("quantity") or kind or value)


def _end(node: Any, info: ValidationInfo) -> Quantity:
    return _read(plain_quantity, node, info, _asked(info))


def _width(node: Any, info: ValidationInfo) -> Quantity:
    quantity = _asked(info)
    return _above_nought(node, info, INTERVAL if quantity == TEMPERATURE else quantity, "a width")


def _width_or_percent(node: Any, info: ValidationInfo) -> Quantity:
    in_percent = str(node).rstrip().endswith("%")
    return _above_nought(node, info, "ratio", "a share") if in_percent else _width(node, info)


def _share(node: Any, info: ValidationInfo) -> Quantity:
    found = _read(plain_quantity, node, info, "ratio")
    if not 0 <= found.si <= 1:
        raise problem("a share lies from 0 % to 100 %", found=str(node))
    return found


def _width_or_unknown(node: Any, info: ValidationInfo) -> Quantity | str:
    text = str(node).removeprefix("±").strip()
    if text == UNKNOWN:
        return UNKNOWN
    if not text:
        raise problem("nothing stands behind ±; where nobody knows it, write unknown", found=str(node))
    return _width(Scalar(text, node.place, node.path) if text != str(node) else node, info)


def _error_limit(node: Any, info: ValidationInfo) -> Accuracy:
    quantity = _asked(info)
    if not quantity:  # The key `quantity` has its fault already, and the record is not made.
        return Accuracy(str(node))
    return _read(parse_accuracy, node, info, quantity)


def _probe_tolerance(node: Any, info: ValidationInfo) -> Accuracy:
    return _read(parse_accuracy, node, info, TEMPERATURE)


def _range_or_text(node: Any, info: ValidationInfo) -> Range | str:
    text = str(node).strip()
    return _read(parse_range, node, info, "") if _LOOKS_LIKE_A_RANGE.fullmatch(text) else text


def default_of(text: str, quantity: str) -> Callable[[], Quantity]:
    """A default that is printed as assumed: read like any other, when it is first needed."""
    return lambda: parse_quantity(text, quantity)


AnyQuantity = Annotated[Quantity, Reads("a number with its unit", parsed(parse_quantity), _QUANTITY)]
"""A result, which may lie above a range: `over 500 N`."""
SetQuantity = Annotated[Quantity, _measured("", "a number")]
"""What is set or declared, which may not."""
Spread = Annotated[Quantity, _size("", "a spread")]
End = Annotated[Quantity, Reads("a number with its unit", _end, _QUANTITY)]
"""In the quantity that the record's key `quantity`, `kind` or `value` says; of temperatures a point."""
Width = Annotated[Quantity, Reads("a number with its unit", _width, _QUANTITY)]
"""As `End`, of temperatures a difference."""
WidthOrPercent = Annotated[
    Quantity, Reads("a number with its unit, or percent", _width_or_percent, _QUANTITY)
]
WidthOrUnknown = Annotated[
    Quantity | Literal["unknown"], Reads("a number with its unit, or `unknown`", _width_or_unknown, TEXT)
]
RangeOrText = Annotated[Range | str, Reads("a range or a text", _range_or_text, TEXT)]

ErrorLimit = Annotated[Accuracy, Reads("an accuracy as printed", _error_limit, _ACCURACY)]
ProbeTolerance = Annotated[Accuracy, Reads("a tolerance, as `type K class 1`", _probe_tolerance, _ACCURACY)]

Temperature = Annotated[Quantity, _measured(TEMPERATURE, "a temperature")]
Interval = Annotated[Quantity, _size(INTERVAL, "a difference of temperatures")]
Leak = Annotated[Quantity, _not_below(INTERVAL, "what a probe leads away")]
Time = Annotated[Quantity, _not_below("time", "a time")]
Moment = Annotated[Quantity, _measured("time", "a time")]
Duration = Annotated[Quantity, _size("time", "a time")]
Length = Annotated[Quantity, _size("length", "a length")]
Mass = Annotated[Quantity, _size("mass", "a mass")]
Torque = Annotated[Quantity, _size("torque", "a torque")]
Percent = Annotated[Quantity, Reads("a share in percent with its unit", _share, _QUANTITY)]
Voltage = Annotated[Quantity, _size("voltage", "a voltage")]
PerLength = Annotated[Quantity, _size("resistance per length", "a resistance per length")]
Coefficient = Annotated[Quantity, _size("temperature coefficient", "a temperature coefficient")]
Rate = Annotated[Quantity, _size("rate", "a growth in percent per hour")]
Temperatures = Annotated[Range, _range(TEMPERATURE)]
Lengths = Annotated[Range, _range("length")]
Times = Annotated[tuple[Quantity, ...], Reads("the times of the readings", parsed(parse_times), _TIMES)]

QuantityName = Annotated[str, OneOf(QUANTITIES)]
