"""Power of a run beside the rise that the same run settles at: what its part gives off for each kelvin."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.analysis import electrical as formulas
from generator.analysis.interval import error_of, half_width
from generator.analysis.worsening import Coefficient
from generator.evaluation.conductance import Conductance
from generator.evaluation.reduced import Reduced
from generator.evaluation.work import Work

if TYPE_CHECKING:
    from generator.records.run import Run

ASSEMBLY = Coefficient()
"""Of an assembly: our choice, no source."""


def with_conductances(works: Sequence[Work | None]) -> tuple[Work | None, ...]:
    """The measures of a report, those of power with what each of their runs gives off for each kelvin."""
    heated = [work for work in works if work is not None and work.stated.kind == "heating"]
    return tuple(
        replace(
            work,
            runs=tuple(_beside(work, heated, work.runs)),
            controls=tuple(_beside(work, heated, work.controls)),
        )
        if work is not None and work.stated.kind == "power"
        else work
        for work in works
    )


def _beside(
    work: Work, heated: Sequence[Work], runs: Iterable[tuple[Run, Reduced]]
) -> Iterator[tuple[Run, Reduced]]:
    point = getattr(work.stated, "point", None)
    near = [each for each in heated if point in (None, getattr(each.stated, "point", None))]
    for run, reduced in runs:
        found = next(
            (
                (each.measure, other)
                for each in near
                for it, other in (*each.runs, *each.controls)
                if it.id == run.id
            ),
            None,
        )
        yield run, reduced if found is None else replace(reduced, conductance=_of(work, reduced, *found))


def _of(work: Work, power: Reduced, measure: str, heating: Reduced) -> Conductance:
    """What one run gives off; both errors that power and rise share, the current's above all, go out."""
    read = power.electrical.time if power.electrical is not None else None
    if power.number is None or read is None:
        return Conductance(measure, "no-power")
    settled = heating.end.settled if heating.end is not None else None
    if heating.settled is None or settled is None or settled.why_not is not None or settled.low <= 0:
        return Conductance(measure, "no-settled-rise")
    to_come = (settled.value - settled.start) * math.exp(-read / settled.tau)
    alpha = formulas.temperature_coefficient(
        work.ledger, (work.measure, "heat per kelvin"), ASSEMBLY, "no source"
    )
    number = formulas.heat_per_kelvin(power.number, heating.settled, alpha, to_come)
    reach = half_width(error_of(work.ledger, number))
    # The settled rise may be higher by what the run cannot see: the heat for each kelvin is lower then.
    unseen = number.x * settled.unseen / (settled.value + settled.unseen)
    return Conductance(
        measure,
        None,
        number.x,
        number.x - reach - unseen,
        number.x + reach,
        power.number.x,
        settled.value,
        settled.low,
        settled.high,
        to_come,
        ASSEMBLY.value,
    )
