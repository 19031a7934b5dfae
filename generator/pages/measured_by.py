"""How a version of a method measures each of its own: facts for the words of its page."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.pages import addresses
from generator.pages.format import Both, minutes, quantity
from generator.records.schema.measures import (
    AnyMeasure,
    CheckMeasure,
    CountMeasure,
    EnduranceMeasure,
    HeatingMeasure,
    ScalarMeasure,
)
from generator.records.schema.method import Method


@dataclass(frozen=True)
class HeatingView:
    """How a rise at a mark is measured, and when a run counts as settled or worsening."""

    anchor: Markup
    name: str
    at: str
    within: str
    point: str
    heating: int
    change: Both
    over: str
    to_come: Both
    worsening: str


@dataclass(frozen=True)
class OtherMeasure:
    """A measure of another kind.

    Attributes:
        anchor: Of the measure on the page.
        name: Its name.
        kind: scalar, count, endurance or check.
        of: The quantity, what is counted, the cycles, or the question.
        failure: Of endurance, what counts as broken; else empty.
        reduce: Of a quantity read several times, how the readings become one figure; else empty.
        better: Which way is better, or the answer one hopes for; empty where neither is.
        spread: Where a declared spread between pieces comes from; empty without one.
    """

    anchor: Markup
    name: str
    kind: str
    of: str
    failure: str = ""
    reduce: str = ""
    better: str = ""
    spread: str = ""


def heating_views(method: Method) -> tuple[HeatingView, ...]:
    """Its rises at a mark."""
    return tuple(_heating(each) for each in method.measures if isinstance(each, HeatingMeasure))


def other_measures(method: Method) -> tuple[OtherMeasure, ...]:
    """What it measures besides rises, drops and their like."""
    return tuple(found for each in method.measures if (found := _other(each)) is not None)


def _heating(measure: HeatingMeasure) -> HeatingView:
    return HeatingView(
        _anchor(measure.id),
        measure.name or measure.id,
        minutes(measure.at.si),
        quantity(measure.within).metric,
        measure.point,
        int(measure.heating),
        quantity(measure.settled.change),
        quantity(measure.settled.over).metric,
        quantity(measure.settled.to_come),
        quantity(measure.worsening).metric,
    )


def _other(measure: AnyMeasure) -> OtherMeasure | None:
    head = _anchor(measure.id), measure.name or measure.id, measure.kind
    match measure:
        case ScalarMeasure():
            spread = measure.spread.origin if measure.spread is not None else ""
            return OtherMeasure(
                *head,
                measure.quantity,
                reduce=measure.reduce or "",
                better=measure.better or "",
                spread=spread,
            )
        case CountMeasure():
            return OtherMeasure(*head, measure.what, better=measure.better or "")
        case EnduranceMeasure():
            return OtherMeasure(*head, measure.cycles, measure.failure)
        case CheckMeasure():
            return OtherMeasure(*head, measure.question, better=measure.good or "")
    return None


def _anchor(measure: str) -> Markup:
    """Begins with a sign that no step's id has, so that the two never meet."""
    return addresses.anchor(f"_measure-{measure}")
