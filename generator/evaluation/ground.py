"""What statements against limits are made on, and which limits are for something else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.evaluation.conditions import plainly
from generator.evaluation.statements import Misfit, NotHeld
from generator.records.quantity import Quantity, QuantityError, Range, parse_quantity, parse_range
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.analysis.uncertainty import Ledger
    from generator.records.bench import Bench
    from generator.records.schema.measures import Measure
    from generator.records.schema.method import Method
    from generator.records.schema.report import Limit as Stated


@dataclass(frozen=True)
class Ground:
    """What statements against limits are made on.

    Attributes:
        ledger: The report's inputs.
        bench: Its records.
        method: The version that the figures are by.
        point: The point that gives them; empty for a kind without one.
        limits: The report's limits that are for what is measured, each with its place in the report's list.
    """

    ledger: Ledger
    bench: Bench
    method: Method
    point: str
    limits: tuple[tuple[int, Stated], ...]

    @property
    def reference(self) -> float | None:
        """The reference ambient, °C: the method's, else the bench's; a convention without uncertainty."""
        stated = self.method.reference_ambient or self.bench.settings.reference_ambient
        return stated.value.si if stated is not None else None

    def fits(self, limit: Stated) -> bool:
        """Whether a limit is for this point and for the conditions that the method sets."""
        return not any(_misfits(limit, self))

    def holds(self, limit: Stated) -> bool:
        """Whether figures are held against a limit: it fits, and a temperature has an air to be told for."""
        return self.fits(limit) and (limit.kind != "temperature" or self.reference is not None)


def limits_for(limits: Iterable[Stated], measure: Measure) -> tuple[tuple[int, Stated], ...]:
    """The limits that are for what a measure gives, each with its place in the report's list."""
    heats = measure.kind == "heating"
    return tuple(
        (number, each)
        for number, each in enumerate(limits)
        if (each.of_heating if heats else each.measure == measure.id)
    )


def not_held(ground: Ground) -> tuple[NotHeld, ...]:
    """The limits that no statement is made against, and why; none is dropped without a word."""
    found = []
    for number, limit in ground.limits:
        if not ground.holds(limit):
            misfits = tuple(_misfits(limit, ground))
            found.append(NotHeld(number, misfits, no_reference=not misfits))
    return tuple(found)


def _misfits(limit: Stated, ground: Ground) -> Iterator[Misfit]:
    if limit.point is not None and limit.point != ground.point:
        yield Misfit("place", "", limit.point, ground.point)
    for key, asked in limit.condition.items():
        set_to = ground.method.conditions.get(key)
        if set_to is None or not _agree(asked, set_to):
            yield Misfit("condition", key, asked, _said(set_to))


def _agree(asked: str, set_to: Any) -> bool:
    """Whether what a limit is for holds what the method sets.

    A limit for a range holds a quantity or a range inside it; one for a quantity holds that quantity, in
    whichever unit it is written.
    """
    if isinstance(set_to, Toleranced):
        return plainly(asked) == plainly(set_to.value.text) or _holds(asked, set_to.value, set_to.value)
    if isinstance(set_to, Range):
        return plainly(asked) == plainly(set_to.text) or _holds(asked, set_to.low, set_to.high)
    return plainly(asked) == plainly(str(set_to))


def _holds(asked: str, low: Quantity, high: Quantity) -> bool:
    span = _parsed(asked, low.quantity)
    if span is None:
        return False
    slack = 1e-9 * max(abs(low.si), abs(high.si), abs(span[0]), abs(span[1]))
    return span[0] - slack <= low.si and high.si <= span[1] + slack


def _parsed(asked: str, quantity: str) -> tuple[float, float] | None:
    """The ends of a range, or one quantity twice, in SI; None for what is neither."""
    try:
        span = parse_range(asked, quantity)
    except QuantityError:
        pass
    else:
        return span.low.si, span.high.si
    try:
        single = parse_quantity(asked, quantity)
    except QuantityError:
        return None
    return None if single.bound else (single.si, single.si)


def _said(set_to: Any) -> str:
    """What a method sets, as its record has it; empty where it does not say."""
    if set_to is None:
        return ""
    value = getattr(set_to, "value", set_to)
    return str(getattr(value, "text", value))
