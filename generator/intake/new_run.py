"""A run begun: all but its readings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.intake.begun import Begun, begun
from generator.intake.blank import blank_table
from generator.intake.offers import Offers, columns, over_time, pair_columns, scalar_key, scalars
from generator.records import nodes
from generator.records.conditions import AMBIENT, FIRST_READING
from generator.records.drafts import Draft
from generator.records.schema.measures import CheckMeasure, CountMeasure, EnduranceMeasure, ScalarMeasure
from generator.records.schema.method import Method
from generator.records.schema.references import Binding
from generator.records.writer import below, scalar


@dataclass(frozen=True)
class NewRun:
    """What a person said of a run; empty where nothing was said.

    Attributes:
        id: Its id.
        report: Id of the report that it belongs to.
        method: Method and version.
        date: The day.
        item: Id of the item.
        specimen: The piece.
        control: Name of the control, in place of both.
        place: Where it is made.
        termination: How the conductor was fastened, by the keys of the record.
        instruments: Column to meter.
        conditions: The method's conditions as they were.
    """

    id: str
    report: str
    method: str
    date: str
    item: str = ""
    specimen: str = ""
    control: str = ""
    place: str = ""
    termination: Mapping[str, str] = field(default_factory=dict)
    instruments: Mapping[str, str] = field(default_factory=dict)
    conditions: Mapping[str, str] = field(default_factory=dict)


def new_run(offers: Offers, run: NewRun) -> Begun:
    """Begin the record of a run.

    Args:
        offers: The bench; the run's method and meters are there.
        run: What was said of it.
    """
    method = offers.method(run.method)
    name = f"{run.report}/runs/{run.id}.yml"
    return begun(offers.root, name, "run.yml.jinja", run=_view(offers, method, run))


def _view(offers: Offers, method: Method, run: NewRun) -> dict[str, object]:
    """What the template is given: texts, and lines that are YAML already."""
    table = _table(offers, method, run) if over_time(method) else ()
    several = [each for each in scalars(method) if each.reduce and not table]
    single = [each for each in scalars(method) if not each.reduce]
    return {
        **{key: getattr(run, key) for key in ("method", "control", "item", "specimen", "date", "place")},
        "into": f"{run.report}/{run.id}",
        "termination": tuple(f"{key}: {_plain(key, value)}" for key, value in run.termination.items()),
        "instruments": lines(run.instruments),
        "conditions": lines(run.conditions),
        "airless": bool(table) and AMBIENT not in {**run.instruments, **run.conditions},
        "table": table,
        "list": " | ".join(_head(offers, run, _key(method, run, each), each.quantity) for each in several),
        "pairs": _pairs(offers, method, run) if not table else "",
        "singles": tuple(
            f"{each.id}:  # as 12.5 {_unit(offers, run, _key(method, run, each), each.quantity)}"
            for each in single
        ),
        "counts": tuple(each.id for each in method.measures if isinstance(each, CountMeasure)),
        "endurances": tuple(each.id for each in method.measures if isinstance(each, EnduranceMeasure)),
        "checks": tuple(each.id for each in method.measures if isinstance(each, CheckMeasure)),
    }


def _pairs(offers: Offers, method: Method, run: NewRun) -> str:
    """The header of a table of drops and currents; empty where the method has none."""
    asked = {each.key: each.quantity for each in pair_columns(method)}
    heads = (_head(offers, run, key, asked[key]) for key in asked if key in run.instruments)
    return " | ".join(heads)


def lines(keys: Mapping[str, str]) -> tuple[str, ...]:
    """Keys with their values as lines of YAML."""
    return tuple(line for key, value in keys.items() for line in below(key, value, 0))


def _plain(key: str, value: str) -> str:
    """A value as YAML; the number of a termination is digits and stays so."""
    return value if key == "number" and value.isdigit() else scalar(value)


def _table(offers: Offers, method: Method, run: NewRun) -> tuple[str, ...]:
    asked = {each.key: each.quantity for each in columns(method)}
    singles = {_key(method, run, each) for each in scalars(method)}
    heads = [
        _head(offers, run, key, asked[key]) for key in run.instruments if key in asked and key not in singles
    ]
    return blank_table(method.schedule or (), heads)


def _key(method: Method, run: NewRun, measure: ScalarMeasure) -> str:
    """What names a measure's meter in this run."""
    return measure.id if measure.id in run.instruments else scalar_key(method, measure)


def _head(offers: Offers, run: NewRun, key: str, quantity: str) -> str:
    return f"{key} {_unit(offers, run, key, quantity)}"


def _unit(offers: Offers, run: NewRun, key: str, quantity: str) -> str:
    return offers.unit(run.instruments[key], quantity)


@dataclass(frozen=True)
class Taken:
    """What a run takes over from another of its kind: everything but the piece, the day and what was read.

    Attributes:
        report: Id of its report; empty for a run of a sitting.
        method: Method and version.
        place: Where it was made.
        termination: How the conductor was fastened.
        instruments: Column to meter.
        conditions: Conditions that are words; one that was measured is a reading.
    """

    report: str = ""
    method: str = ""
    place: str = ""
    termination: Mapping[str, str] = field(default_factory=dict)
    instruments: Mapping[str, str] = field(default_factory=dict)
    conditions: Mapping[str, str] = field(default_factory=dict)


def taken_from(draft: Draft, method: Method) -> Taken:
    """What a new run takes over from this one."""
    said = {key: node for mapping in draft.conditions for key, node in mapping.items()}
    words = {
        key: node.text
        for key, node in said.items()
        if isinstance(node, nodes.Scalar)
        and (node == FIRST_READING if key == AMBIENT else isinstance(method.conditions.get(key, ""), str))
    }
    fastened = draft.body.node.get("termination")
    return Taken(
        report=draft.report,
        method=str(draft.body.method),
        place=draft.place,
        termination=_texts(fastened) if isinstance(fastened, nodes.Mapping) else {},
        instruments={key: binding_text(bound.binding) for key, bound in draft.bound.items()},
        conditions=words,
    )


def _texts(mapping: nodes.Mapping) -> dict[str, str]:
    return {key: node.text for key, node in mapping.items() if isinstance(node, nodes.Scalar)}


def binding_text(binding: Binding) -> str:
    """What reads a column, as a record names it."""
    channel = f"/{binding.channel}" if binding.channel else ""
    return f"{binding.instrument}{channel}" + (f" with {binding.probe}" if binding.probe else "")
