"""Results from before these records: facts beside the figures, in no mean, pair, place or verdict."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.evaluation.instruments import UNITS
from generator.records.quantity import Bound, Quantity
from generator.records.schema.older import OlderResult

if TYPE_CHECKING:
    from generator.records.bench import Bench


@dataclass(frozen=True)
class OlderFinding:
    """One older result.

    Attributes:
        batch: Id of its batch.
        title: What the batch is.
        how: How its results were had, in words.
        method: Id of the method whose measure it stands beside.
        result: As recorded.
        value: In `unit`; of a bound its end.
        unit: SI; °C for a temperature.
        half_width: Half-width as it was stated then, in `unit` (K of a temperature); None where nobody
            knows it.
    """

    batch: str
    title: str
    how: str
    method: str
    result: OlderResult
    value: float
    unit: str
    half_width: float | None

    @property
    def item(self) -> str:
        """Id of the item."""
        return self.result.item

    @property
    def measure(self) -> str:
        """Id of the measure that it stands beside."""
        return self.result.measure

    @property
    def bound(self) -> Bound:
        """`>` where it is above its value, `<` where below it; empty for a plain one."""
        return self.result.value.bound


def older_of(bench: Bench, item: str) -> tuple[OlderFinding, ...]:
    """Every older result of an item, the newest first; of one date, in the order of batches and rows."""
    found = [each for each in _all(bench) if each.item == item]
    return tuple(sorted(found, key=lambda each: each.result.date, reverse=True))


def older_beside(bench: Bench, items: Collection[str], method: str, measure: str) -> tuple[OlderFinding, ...]:
    """The older results that stand beside the figures of a measure, by item, the newest first.

    Args:
        bench: The records.
        items: Ids of the items, in the report's order.
        method: Id of the method that measures.
        measure: Id of the measure.
    """
    return tuple(
        each
        for item in items
        for each in older_of(bench, item)
        if (each.method, each.measure) == (method, measure)
    )


def _all(bench: Bench) -> Iterator[OlderFinding]:
    for name, batch in sorted(bench.older.items()):
        for result in batch.results:
            width = result.uncertainty
            yield OlderFinding(
                name,
                batch.title,
                batch.method,
                result.measured_by(bench.methods)[0],
                result,
                result.value.si,
                "°C" if result.value.quantity == "temperature" else UNITS[result.value.quantity],
                width.si if isinstance(width, Quantity) else None,
            )
