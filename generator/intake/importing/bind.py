"""Which column of a file goes into which of a record: by option, by kept hint, by the channel's own name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.intake.importing.refusals import Refused
from generator.intake.importing.target import Slot, Target
from generator.intake.meter.names import named
from generator.intake.meter.series import MeterColumn, MeterFile
from generator.records.grammar import QuantityError
from generator.records.header import QUANTITY_OF, Head, parse_head
from generator.records.units import TIME

MOST = 12


@dataclass(frozen=True)
class Pair:
    """A column of the file and what it is here.

    Attributes:
        column: The file's.
        head: Ours, with the file's unit.
        slot: What reads it.
    """

    column: MeterColumn
    head: Head
    slot: Slot


def by_channel(file: MeterFile, target: Target, meter: str, said: Mapping[str, str]) -> dict[str, str]:
    """Columns that are called as a channel of a meter, to what that channel reads.

    Args:
        file: The file.
        target: The record.
        meter: The instrument that the file is of; empty where it is not known, and any of them may be.
        said: What is said already; columns of ours and of the file that stand there are left alone.
    """
    names = [column.name for column in file.columns]
    taken = {column.name for column in file.columns if column.mapped}
    found: dict[str, list[Slot]] = {}
    for slot in target.bound.values():
        binding = slot.binding
        if binding.channel is None or meter not in {"", binding.instrument} or slot.label in said.values():
            continue
        fits = named(names, binding.channel)
        if len(fits) == 1 and names[fits[0]] not in taken:
            found.setdefault(names[fits[0]], []).append(slot)
    for name, slots in found.items():
        meters = tuple(dict.fromkeys(each.binding.instrument for each in slots))
        if len(meters) > 1:
            what = (
                f"the column '{name}' is called as a channel of {' and of '.join(meters)}; whose file is it?"
            )
            raise Refused(what, (f"--meter {each}" for each in meters))
        if len(slots) > 1:
            what = f"the column '{name}' is the channel of {_listed(each.label for each in slots)}"
            raise Refused(what, (f'--map "{name}={each.label}"' for each in slots))
    return {name: slots[0].label for name, slots in found.items()}


def pairs(file: MeterFile, target: Target) -> tuple[Pair, ...]:
    """The columns that were said, in the order of the record.

    Raises:
        Refused: One has no meter in the record, two are one of ours, or a unit is not one for it.
    """
    found: dict[str, Pair] = {}
    for column in file.columns:
        if column.mapped in {"", TIME}:
            continue
        pair = _pair(column, target)
        if pair.slot.label in found:
            first = found[pair.slot.label].column.name
            what = f"'{first}' and '{column.name}' cannot both be '{pair.slot.label}'"
            raise Refused(what, ("one --map for each column of the record",))
        found[pair.slot.label] = pair
    if not found:
        ways = [way for column in file.columns[:MOST] for way in _ways(column, target)]
        if not target.bound:
            ways = ["name the meters of its columns under `instruments` first, as `ambient: <instrument>`"]
        raise Refused("no column of the file goes anywhere yet", ways)
    return tuple(found[label] for label in target.bound if label in found)


def _pair(column: MeterColumn, target: Target) -> Pair:
    """One column with the slot that was said for it."""
    unit = column.unit
    if unit is None:
        what = f"the column '{column.name}' of line {column.line} has no unit"
        raise Refused(what, (f'--unit "{column.name}=degC"',))
    said = " ".join(column.mapped.split())
    option = f'--map "{column.name}={said}"'
    if said not in target.bound:
        what = f"{option}: no instrument is named for '{said}' in {target.path.name}"
        raise Refused(what, _instead(column, said, target))
    try:
        return Pair(column, parse_head(f"{said} {unit.typed}"), target.bound[said])
    except QuantityError as error:
        raise Refused(f"{option}: {error.what}", _ways(column, target)) from None


def _instead(column: MeterColumn, said: str, target: Target) -> Iterator[str]:
    """Columns that have a meter, the likeliest first; and that another needs one first."""
    base = said.partition("@")[0].partition(" ")[0]
    near = [label for label in target.bound if label.startswith(base)]
    for label in dict.fromkeys((*near, *target.bound)):
        yield f'--map "{column.name}={label}"'
    key = "under its run in `runs`" if ":" in said else "under `instruments`"
    yield f"or write `{said}: <instrument>` {key} first"


def _ways(column: MeterColumn, target: Target) -> Iterator[str]:
    """What a column could be, by its unit."""
    unit = column.unit
    first, *others = [
        slot.label
        for slot in target.bound.values()
        if unit is None or QUANTITY_OF.get(slot.name, unit.quantity) == unit.quantity
    ] or [""]
    if first:
        also = f" (or {', '.join(others)})" if others else ""
        yield f'--map "{column.name}={first}"{also}'
    elif unit is not None:
        yield f"nothing for '{column.name}': no meter of {target.id} reads anything in {unit.typed}"


def _listed(words: Iterable[str]) -> str:
    return " and of ".join(f"'{each}'" for each in words)
