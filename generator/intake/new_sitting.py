"""A sitting begun: several pieces on one bench at one time, all but their readings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.intake.begun import Begun, begun
from generator.intake.blank import blank_table
from generator.intake.new_run import lines
from generator.intake.offers import Offers, own_columns, shared_columns
from generator.records.header import CONTROL
from generator.records.schema.method import Method
from generator.records.writer import scalar


@dataclass(frozen=True)
class NewSitting:
    """What a person said of a sitting.

    Attributes:
        id: Its id: the day, with `-b` for the second.
        method: Method and version of all its runs.
        date: The day.
        place: Where it is made; empty where nothing was said.
        runs: Each run, as `okvarn-ih30:A`, to its columns and their meters.
        control: Name of the control, where one of the runs is `control`.
        instruments: Shared column to meter.
        conditions: The method's conditions as they were.
    """

    id: str
    method: str
    date: str
    place: str
    runs: Mapping[str, Mapping[str, str]]
    control: str = ""
    instruments: Mapping[str, str] = field(default_factory=dict)
    conditions: Mapping[str, str] = field(default_factory=dict)


def new_sitting(offers: Offers, sitting: NewSitting) -> Begun:
    """Begin the record of a sitting.

    Args:
        offers: The bench; the sitting's method, pieces and meters are there.
        sitting: What was said of it.
    """
    method = offers.method(sitting.method)
    heads = _heads(offers, method, sitting)
    own = [label for label in heads if "@" in label]
    view = {
        "method": sitting.method,
        "date": sitting.date,
        "place": sitting.place,
        "into": sitting.id,
        "instruments": lines(sitting.instruments),
        "conditions": lines(sitting.conditions),
        "columns": own,
        "runs": tuple(line for run in sitting.runs for line in _run(sitting, run)),
        "table": blank_table(method.schedule or (), (f"{label} {unit}" for label, unit in heads.items())),
        "list": "",
        "pairs": "",
        "singles": (),
        "counts": (),
        "endurances": (),
        "checks": (),
    }
    return begun(offers.root, f"sittings/{sitting.id}.yml", "sitting.yml.jinja", run=view)


def column_of(run: str, key: str) -> str:
    """The column of a run in the table of its sitting: `okvarn-ih30:A@body`."""
    return f"{run}@{key.partition('@')[2]}"


def _heads(offers: Offers, method: Method, sitting: NewSitting) -> dict[str, str]:
    """Every column of the table to its unit."""
    shared = {
        each.key: offers.unit(sitting.instruments[each.key], each.quantity)
        for each in shared_columns(method)
        if each.key in sitting.instruments
    }
    own = {
        column_of(run, each.key): offers.unit(meters[each.key], each.quantity)
        for run, meters in sitting.runs.items()
        for each in own_columns(method)
    }
    return {**shared, **own}


def _run(sitting: NewSitting, run: str) -> tuple[str, ...]:
    """The lines of one run."""
    name = {"control": sitting.control} if run == CONTROL else {}
    keys = {"method": sitting.method, **name, **sitting.runs[run]}
    return (f"{scalar(run)}:", *(f"  {line}" for line in lines(keys)))
