"""Hints kept in `instruments/<id>.import.yml`: taken where no option says otherwise, and kept anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

from generator.intake.importing.target import Slot, Target
from generator.intake.meter.hints import Hints
from generator.pages.render import Renderer
from generator.records.changes import Change, Put
from generator.records.edit import edited
from generator.records.schema.imports import ImportHints
from generator.records.store import Write
from generator.records.units import TIME
from generator.records.writer import Value, document

_PLAIN = ("date_order", "zone", "time_unit", "by", "sheet", "encoding", "delimiter", "decimal")


def hints_file(root: Path, meter: str) -> Path:
    """Where the hints of a meter are kept."""
    return root / "reports" / "instruments" / f"{meter}.import.yml"


@dataclass(frozen=True)
class Over:
    """A hint that an option set aside.

    Attributes:
        key: As in the file of hints.
        kept: What it says.
        option: What the option says.
    """

    key: str
    kept: str
    option: str


@dataclass(frozen=True)
class Taken:
    """Options and kept hints together.

    Attributes:
        hints: What the file is read by.
        columns: The file's column to ours, of those that were kept; not in `hints` yet.
        units: The file's column to its unit, of those that were kept; not in `hints` yet.
        used: Keys that were taken from the file of hints.
        over: Those that an option set aside.
    """

    hints: Hints
    columns: Mapping[str, str] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    used: tuple[str, ...] = ()
    over: tuple[Over, ...] = ()


def taken(options: Hints, kept: ImportHints | None, target: Target | None, meter: str) -> Taken:
    """Put options before kept hints.

    Args:
        options: What was said this time.
        kept: What was kept; None without any.
        target: Where the readings go; its bindings turn a channel into a column.
        meter: Id of the instrument that the hints are of.
    """
    if kept is None:
        return Taken(options)
    hints, used, over = options, list[str](), list[Over]()
    for name in (*_PLAIN, "interval"):
        said, option = getattr(kept, name), getattr(options, "interval_s" if name == "interval" else name)
        key = name.replace("_", "-")
        if said is None:
            continue
        if option is None:
            used.append(key)
            hints = replace(hints, **_value(name, said))
        elif _value(name, said) != {("interval_s" if name == "interval" else name): option}:
            over.append(
                Over(key, getattr(said, "text", said), f"{option} s" if name == "interval" else option)
            )
    units = {key: unit for key, unit in kept.units.items() if key not in options.units}
    columns = {
        key: ours
        for key, said in kept.columns.items()
        if key not in options.columns
        and (ours := _ours(said, target, meter)) is not None
        and ours not in options.columns.values()
    }
    used += [key for key, some in (("columns", columns), ("units", units)) if some]
    return Taken(hints, columns, units, tuple(used), tuple(over))


def _value(name: str, said: Any) -> dict[str, Any]:
    if name == "interval":
        return {"interval_s": Decimal(repr(said.si)).normalize()}
    return {name: said}


def _ours(said: str, target: Target | None, meter: str) -> str | None:
    """The column of the target that a channel of a meter reads; of a meter without any, by what it reads."""
    if said == TIME or target is None:
        return said if said == TIME else None
    found = [
        each.label for each in target.bound.values() if each.binding.instrument == meter and _is(said, each)
    ]
    return found[0] if len(found) == 1 else None


def _is(said: str, slot: Slot) -> bool:
    return said == _said(slot)


def keeping(
    options: Hints, target: Target, meter: str, columns: Mapping[str, str], root: Path
) -> tuple[Write | None, tuple[str, ...]]:
    """What the file of hints is to hold after a success: what it has, and this time's options beside it.

    Args:
        options: What was said this time.
        target: Where the readings go.
        meter: Whose hints they are.
        columns: The file's column, as it may be named next time, to ours.
        root: The folder of the bench.

    Returns:
        What to write, None where there is nothing new; and the keys that are new.
    """
    path, kept = hints_file(root, meter), target.library.hints.get(meter)
    new: list[tuple[tuple[str, ...], Value]] = []
    for name in _PLAIN:
        option = getattr(options, name)
        if option is not None and getattr(kept, name, None) is None:
            new.append(((name.replace("_", "-"),), option))
    if options.interval_s is not None and (kept is None or kept.interval is None):
        new.append((("interval",), f"{options.interval_s.normalize():f} s"))
    known = kept.columns if kept is not None else {}
    for column, label in columns.items():
        said = label if label == TIME else _said(target.bound[label])
        if column not in known and column != said:
            new.append((("columns", column), said))
    known = kept.units if kept is not None else {}
    new += [(("units", column), unit) for column, unit in options.units.items() if column not in known]
    if not new:
        return None, ()
    return _write(new, path, root), tuple(dict.fromkeys(way[0] for way, _ in new))


def _said(slot: Slot) -> str:
    return slot.binding.channel or slot.name


def _write(new: list[tuple[tuple[str, ...], Value]], path: Path, root: Path) -> Write:
    if not path.exists():
        record: dict[str, Any] = {}
        for way, value in new:
            if len(way) == 1:
                record[way[0]] = value
            else:
                record.setdefault(way[0], {})[way[1]] = value
        text = Renderer(root).text("text/hints.yml.jinja", record=document(record))
        return Write(path, text.rstrip("\n").encode() + b"\n")
    before = path.read_bytes()
    changes: list[Change] = [Put(way, value) for way, value in new]
    return Write(path, edited(before, path, changes), before)
