"""What each column of a table holds: time, readings, a unit, a counter, events, remarks, text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from generator.intake.meter.find import Block
from generator.intake.meter.hints import Hints
from generator.intake.meter.kinds import VALUES, Kind, kind_of
from generator.intake.meter.marks import FORMULA
from generator.intake.meter.names import named, places
from generator.intake.meter.series import OtherColumn, Role
from generator.intake.meter.unit_words import unit_of, units_in
from generator.intake.meter.words import (
    LOGGED,
    is_counter_name,
    is_event_name,
    is_milliseconds_name,
    is_remark_name,
    is_samples_name,
    is_state_name,
    is_time_name,
    is_unit_name,
)


@dataclass(frozen=True)
class Layout:
    """What each column holds, by its place from 0.

    Attributes:
        names: The columns' names.
        cells: The columns' cells, a row each.
        roles: What each holds; `reading`, `samples` and `milliseconds` besides the roles of other columns.
        mapped: What the hints say that columns hold.
        units: What the hints say that their units are.
        label_units: The row below the names.
    """

    names: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...] = field(repr=False)
    roles: tuple[str, ...]
    mapped: Mapping[int, str]
    units: Mapping[int, str]
    label_units: tuple[str, ...]

    def places(self, role: str) -> tuple[int, ...]:
        """The columns of a role."""
        return tuple(place for place, each in enumerate(self.roles) if each == role)

    def unit_cells(self, place: int) -> tuple[str, ...] | None:
        """The column of units that stands behind a column of readings."""
        follows = place + 1 < len(self.roles) and self.roles[place + 1] == "unit"
        return self.cells[place + 1] if follows else None

    def others(self) -> tuple[OtherColumn, ...]:
        """The columns that hold no readings."""
        told: Mapping[str, Role] = {
            "time": "time", "counter": "counter", "unit": "unit", "text": "text", "state": "state",
            "event": "event", "remark": "remark", "by": "by", "samples": "counter", "milliseconds": "time",
        }  # fmt: skip
        return tuple(
            OtherColumn(self.names[place], place + 1, told[role])
            for place, role in enumerate(self.roles)
            if role in told and (self.names[place] or role != "text")
        )


def layout_of(block: Block, hints: Hints) -> Layout:
    """What each column holds.

    Raises:
        Unreadable: A hint fits no column or several; a column without a name holds readings.
    """
    names = block.names
    width = len(names)
    padded = (row.cells + ("",) * (width - len(row.cells)) for row in block.rows)
    cells = tuple(zip(*(each[:width] for each in padded), strict=True))
    mapped = _bound(block, names, _ours(names, hints.columns, hints), "--map")
    units = _bound(block, names, _ours(names, hints.units, hints), "--unit")
    labels = next((row.cells for row in block.labels if any(unit_of(cell) for cell in row.cells)), ())
    labels = labels + ("",) * (width - len(labels))
    by = _bound(block, names, {hints.by: ""}, "--by") if hints.by is not None else {}
    sorter = _Sorter(names, cells, mapped, frozenset((*mapped, *units)), labels, block.stamped)
    roles = tuple("by" if place in by else sorter.role(place) for place in range(width))
    for place, role in enumerate(roles):
        _all_stamps(block, cells[place], place)
        if role == "reading" and not names[place]:
            raise block.refuse(block.rows[0], place, "a column without a name holds readings")
        if place in mapped and role in {"text", "state", "event", "remark", "unit"}:
            shown = next((row for row in block.rows if row.cells[place : place + 1] > ("",)), block.rows[0])
            what = f"the column '{names[place]}' holds no readings"
            raise block.refuse(shown, place, what)
    return Layout(names, cells, roles, mapped, units, labels)


def _bound(block: Block, names: Sequence[str], hinted: Mapping[str, str], option: str) -> dict[int, str]:
    """Hints by column, from 0.

    Raises:
        Unreadable: A hint names no column, or several, or two name one.
    """
    found: dict[int, str] = {}
    for key, text in hinted.items():
        fits = places(names, key)
        if len(fits) != 1:
            told = ", ".join(f"'{names[place]}' (column {place + 1})" for place in fits)
            what = f"'{key}' may be {told}" if fits else f"there is no column '{key}'"
            which = fits or [place for place, name in enumerate(names) if name]
            settles = tuple(f'{option} "{names[place] or place + 1}={text}"' for place in which[:12])
            raise block.refuse(block.header, -1, what, settles)
        if fits[0] in found and found[fits[0]] != text:
            raise block.refuse(block.header, fits[0], f"two hints name the column '{names[fits[0]]}'")
        found[fits[0]] = text
    return found


def _all_stamps(block: Block, cells: Sequence[str], place: int) -> None:
    """Refuse a column of which most cells are stamps and some neither that nor empty."""
    kinds = [kind_of(cell) for cell in cells]
    stamps = kinds.count("stamp")
    odd = next((line for line, kind in enumerate(kinds) if kind not in {"stamp", "empty"}), None)
    if odd is not None and stamps > len(kinds) - stamps - kinds.count("empty"):
        raise block.refuse(block.rows[odd], place, "a time or date as in the other rows is expected here")


def _ours(names: tuple[str, ...], hinted: Mapping[str, str], hints: Hints) -> dict[str, str]:
    """Those hints that speak of columns; where a row is one reading the others speak of channels."""
    return {key: text for key, text in hinted.items() if hints.by is None or named(names, key)}


@dataclass(frozen=True)
class _Sorter:
    """Tells the role of each column of one table."""

    names: Sequence[str]
    cells: Sequence[Sequence[str]]
    mapped: Mapping[int, str]
    asked: frozenset[int]
    labels: Sequence[str]
    stamped: bool

    @cached_property
    def kinds(self) -> list[Counter[Kind]]:
        """How many cells of each kind a column has."""
        return [Counter(map(kind_of, column)) for column in self.cells]

    def role(self, place: int) -> str:
        kinds, name = self.kinds[place], self.names[place]
        full = {kind for kind in kinds if kind != "empty"}
        if self.mapped.get(place) == "time" or full == {"stamp"}:
            return "time"
        if full == {"unit"} and is_unit_name(name) and place and place not in self.asked:
            return "unit"
        if full & {"number", "quantity", "bound"}:
            return self._number(place)
        if set(self.cells[place]) - {""} == {FORMULA}:
            return "reading"
        return self._words(place) if full else self._empty(place)

    def _number(self, place: int) -> str:
        name, cells = self.names[place], self.cells[place]
        if place in self.asked:
            return "reading"
        whole = all(cell.isdecimal() for cell in cells if cell)
        if whole and self.stamped and is_milliseconds_name(name):
            return "milliseconds"
        if is_time_name(name) and not (self._says_other_unit(place) or self.kinds[place]["quantity"]):
            return "time"
        if self._unit_said(place):
            return "reading"
        if whole and is_samples_name(name):
            return "samples"
        return "counter" if whole and self._counts(place) else "reading"

    def _counts(self, place: int) -> bool:
        numbers = [int(cell) for cell in self.cells[place] if cell]
        steps = {later - earlier for earlier, later in pairwise(numbers)}
        if not all(step > 0 for step in steps):
            return False
        name = self.names[place]
        # A nameless column further in is half of a number that a decimal comma broke, as likely as a counter.
        return (bool(name) and is_counter_name(name)) or (
            place == 0 and steps <= {1} and (self.stamped or not name)
        )

    def _words(self, place: int) -> str:
        name, kinds = self.names[place], self.kinds[place]
        words = {cell.casefold() for cell in self.cells[place] if cell}
        marks = set(kinds) & VALUES == {"mark"} and set(kinds) <= {"mark", "empty"}
        if (marks and place in self.asked) or (self._unit_said(place) and kinds["mark"]):
            return "reading"
        if is_state_name(name) or is_remark_name(name):
            return "state" if is_state_name(name) else "remark"
        if is_event_name(name) or (kinds["empty"] and words <= LOGGED):
            return "event"
        if all(set(word) <= {"l", "h"} for word in words):
            return "state"
        return "remark" if kinds["empty"] and not marks else "text"

    def _empty(self, place: int) -> str:
        if place in self.asked or self._unit_said(place):
            return "reading"
        if is_remark_name(self.names[place]):
            return "remark"
        return "text"

    def _unit_said(self, place: int) -> bool:
        behind = self.cells[place + 1] if place + 1 < len(self.cells) else ()
        column = (
            bool(behind) and is_unit_name(self.names[place + 1]) and all(map(unit_of, filter(None, behind)))
        )
        return (column and any(behind)) or bool(unit_of(self.labels[place]) or units_in(self.names[place]))

    def _says_other_unit(self, place: int) -> bool:
        said = (unit_of(self.labels[place]), *units_in(self.names[place]))
        return any(unit is not None and unit.quantity != "time" for unit in said)
