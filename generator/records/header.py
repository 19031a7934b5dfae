"""The header of a readings table: `time min | temperature@body degC | okvarn-ih30:A@body degC | drop mV`."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.records.grammar import QuantityError, checked
from generator.records.units import TEMPERATURE, TIME, Unit, find_unit, in_words, meant, offered

CONTROL = "control"
"""Stands in place of an item's id for a run of the rig without an item."""

QUANTITY_OF = {
    "time": TIME,
    "temperature": TEMPERATURE,
    "ambient": TEMPERATURE,
    "current": "current",
    "drop": "voltage",
    "voltage": "voltage",
    "force": "force",
    "torque": "torque",
    "mass": "mass",
    "length": "length",
    "resistance": "resistance",
}
"""What the columns that every method knows hold; under any other name the unit decides."""

_NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,39}", re.ASCII)
_OWNER = re.compile(rf"[a-z0-9-]{{1,40}}:[A-Za-z0-9-]{{1,12}}|{CONTROL}", re.ASCII)
_EXAMPLE = ("temperature@body degC",)


@dataclass(frozen=True)
class Head:
    """What one column holds.

    Attributes:
        name: What was read: `time`, `ambient`, `drop`, or a measure's id.
        unit: The unit of its cells.
        point: Where on the item, as the method names it; empty where there is one place only.
        owner: Whose reading it is in a sitting, `okvarn-ih30:A` or `control`; empty where shared.
    """

    name: str
    unit: Unit
    point: str = ""
    owner: str = ""

    @property
    def quantity(self) -> str:
        """What the column measures: one of `units.QUANTITIES`."""
        return self.unit.quantity

    @property
    def label(self) -> str:
        """The column as its header names it, without the unit; no two of a table have the same."""
        at = f"@{self.point}" if self.point else ""
        if not self.owner:
            return f"{self.name}{at}"
        return f"{self.owner}{at}" if self.name == TEMPERATURE else f"{self.owner}{at} {self.name}"


def parse_head(text: str) -> Head:
    """Read one cell of a header.

    Args:
        text: `name unit`, `name@point unit`, or in a sitting `item:piece@point unit` (a temperature) and
            `item:piece name unit`.

    Raises:
        QuantityError: The unit is missing or not one for that name, or the name is none.
    """
    first, _, rest = checked(text, longest=120).partition(" ")
    base, at, point = first.partition("@")
    if at and not _NAME.fullmatch(point):
        raise QuantityError(f"after '@' a point of the method is expected, not '{point}'", _EXAMPLE)
    if not _OWNER.fullmatch(base):
        return Head(_name(base), _unit(base, rest.strip()), point)
    name, rest = _owned(base, rest.strip())
    return Head(name, _unit(name, rest), point, base)


def _owned(owner: str, rest: str) -> tuple[str, str]:
    """What is read in an owner's column, and its unit: a temperature unless a name stands before the unit."""
    first, _, unit = rest.partition(" ")
    if unit and find_unit(rest) is None:
        return _name(first), unit.strip()
    found = find_unit(rest)
    if rest and found is not None and found.quantity != TEMPERATURE:
        raise QuantityError(f"say what was read in {rest} of {owner}", (f"{owner} drop {rest}",))
    return TEMPERATURE, rest


def _name(text: str) -> str:
    if _NAME.fullmatch(text):
        return text
    lower = text.casefold()
    near = f"; did you mean '{lower}'?" if lower in QUANTITY_OF else ""
    raise QuantityError(f"'{text}' is no name of a column{near}", (*QUANTITY_OF, "a measure's id"))


def _unit(name: str, symbol: str) -> Unit:
    quantity = QUANTITY_OF.get(name, "")
    told = offered(quantity)
    if not symbol:
        raise QuantityError(f"{name}: the unit is missing", tuple(f"{name} {each}" for each in told))
    if quantity == TIME and symbol in {"clock", "h:mm", "hh:mm", "hh:mm:ss"}:
        raise QuantityError("a time of day; write the minutes since the current came on", ("time min",))
    unit = find_unit(symbol, quantity)
    if unit is not None and unit.symbol != "AWG":
        return unit
    bare = symbol.strip("()[]/, ")
    if bare != symbol and find_unit(bare, quantity) is not None:
        raise QuantityError("the unit stands behind the name without brackets", (f"{name} {bare}",))
    near = meant(symbol, quantity)
    hint = f"; did you mean '{near}'?" if near else ""
    other = find_unit(symbol) if quantity else None
    if other is not None and not near:
        hint = f"; it is a unit of {in_words(other.quantity)}"
    raise QuantityError(f"{name}: '{symbol}' is no unit for this{hint}", told)
