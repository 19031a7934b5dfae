"""How each figure was worked out: readings → corrections → mean → uncertainty → rounding, in numbers.

Numbers are in the units of the data (rises in K), with more digits than are told elsewhere, so that a reader
can do each step again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.analysis.interval import Estimate
from generator.analysis.rounding import rounded
from generator.charts.numerals import numeral, plain, true_minus
from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding, RunFinding
from generator.evaluation.values import Reading
from generator.evaluation.versions import counts, is_mean
from generator.evaluation.worked import Reduction, WorkedRise
from generator.pages.budgets import budget_rows, dof_text
from generator.pages.conductance import conductance_steps
from generator.pages.derivation_limits import limit_steps
from generator.pages.electrical_steps import electrical_steps
from generator.pages.format import day, plus, significant
from generator.pages.in_unit import in_unit
from generator.pages.seen import seen_steps
from generator.pages.shown import Shown, shown
from generator.pages.ways import ItemWay, ReadingRow, Result, RunWay, Step

STEP_DIGITS = 3
"""Decimals of a number on its way."""
_BY: dict[Reduction, str] = {"value": "typed", "mean": "averaged", "max": "largest", "min": "smallest"}
"""The step that a run without a series takes to its figure."""


def item_way(measure: MeasureFinding, item: ItemFinding, name: str) -> ItemWay:
    """How the figure of an item was worked out.

    Args:
        measure: The measure.
        item: One of its items or controls.
        name: Its name.
    """
    unit = shown(measure)
    measure = in_unit(unit, measure)
    item = next(each for each in (*measure.items, *measure.controls) if _is(each, item))
    return ItemWay(
        item.item,
        name,
        measure.measure,
        tuple(_run_way(run, name, piece, unit) for piece in item.pieces for run in piece.runs),
        (
            *_mean(item),
            *_others(item),
            *_excess(item),
            *(step for limit in item.limits for step in limit_steps(limit, measure.unit)),
        ),
        _result(item.figure),
        item.why_not or "",
        budget_rows(item.budget),
    )


def run_way(measure: MeasureFinding, run: str, names: Mapping[str, str]) -> RunWay | None:
    """How the figure of a run was worked out; None where the measure has no such run.

    Args:
        measure: The measure.
        run: Id of the run.
        names: Of items and controls, by id.
    """
    unit = shown(measure)
    told = in_unit(unit, measure)
    for item in (*told.items, *told.controls):
        for piece in item.pieces:
            for each in piece.runs:
                if each.run == run:
                    return _run_way(each, names[item.item], piece, unit)
    return None


def _is(told: ItemFinding, item: ItemFinding) -> bool:
    """Whether the one is the other in another unit: controls of one name are told apart by their runs."""
    of = [[run.run for piece in each.pieces for run in piece.runs] for each in (told, item)]
    return told.item == item.item and of[0] == of[1]


def _run_way(run: RunFinding, name: str, piece: PieceFinding, unit: Shown) -> RunWay:
    return RunWay(
        run.run,
        name,
        run.specimen,
        day(run.date),
        run.method,
        tuple(_reading(each) for each in run.readings),
        (*_rise(run), *electrical_steps(run.electrical, unit), *_value(run), *_end(run)),
        _result(run.figure),
        run.why_not or "",
        budget_rows(run.budget),
        counts(run, piece),
        sum(each.figure is not None for each in piece.runs) if is_mean(piece) else 1,
        conductance_steps(run),
        run.heating or 0,
    )


def _value(run: RunFinding) -> tuple[Step, ...]:
    """From the readings of a run without a series to its figure."""
    if run.figure is None or run.by is None:
        return ()
    told = _finest(run.figure)
    counted = [each.value for each in run.values if each.value is not None and not each.excluded]
    struck = [each for each in run.values if each.value is not None and each.excluded]
    numbers = {
        "n": str(len(counted)),
        "sum": (" + " if run.by == "mean" else ", ").join(_number(each, told) for each in counted),
        "figure": _number(run.figure.value, told),
        "unit": run.figure.unit,
        "struck": "; ".join(f"{_number(each.value or 0.0, told)} ({each.excluded})" for each in struck),
    }
    return (*seen_steps(run), Step(_BY[run.by], numbers))


def _reading(row: Reading) -> ReadingRow:
    temperature = "" if row.temperature is None else f"{row.bound}{plain(round(row.temperature, 3))}"
    return ReadingRow(
        _minutes(row.time),
        temperature,
        _plain(row.ambient),
        _plain(row.current),
        "" if row.surface is None else _number(row.surface, 2),
        _with_its_reach(row),
        row.excluded,
    )


def _with_its_reach(row: Reading) -> str:
    """A reading's rise with its ±, K; empty without one."""
    if row.rise is None:
        return ""
    if not row.half_width:
        return _number(row.rise, 2)
    told = plus(row.rise, row.half_width, "K")
    return f"{told.value} ± {told.half_width}"


def _plain(value: float | None) -> str:
    return "" if value is None else plain(round(value, STEP_DIGITS))


def _rise(run: RunFinding) -> tuple[Step, ...]:
    """From the readings at the mark to the rise at the set current."""
    way = run.worked
    if way is None:
        return seen_steps(run) if run.readings else ()
    surface = _number(way.temperature)
    read = {"mark": _minutes(way.mark), "time": _minutes(way.time), "point": way.point}
    indicated = run.seen is not None and way.by == "reading"
    read["temperature"] = _number(run.seen.indicated) if run.seen and indicated else surface
    air = {
        "read": _number(way.air),
        "felt": _number(way.air_felt),
        "tau": _minutes(way.tau),
        "whose": way.tau_from,
    }
    offset = "" if way.offset is None else _number(way.offset)
    rise = {
        "temperature": surface,
        "offset": offset,
        "felt": air["felt"],
        "rise": _number(way.rise),
    }
    zero = [Step("zero", {"offset": offset})] if offset else []
    first = (Step(way.by, read), *seen_steps(run))
    return (*first, *zero, Step("air", air), Step("rise", rise), *_corrections(way))


def _corrections(way: WorkedRise) -> Iterator[Step]:
    """For the heat that the probe draws off, and to the set current."""
    whole = way.rise + way.probe
    if way.probe:
        yield Step("probe", {"probe": _number(way.probe), "whole": _number(whole)})
    numbers = {
        "current": _number(way.current),
        "set": plain(round(way.set_current, STEP_DIGITS)),
        "exponent": significant(way.exponent, 3),
        "factor": numeral(way.figure / whole if whole else 1.0, 5),
        "figure": _number(way.figure),
    }
    yield Step("current", numbers)


def _end(run: RunFinding) -> tuple[Step, ...]:
    """How the run ended, in numbers."""
    end = run.end
    if end is None:
        return ()
    steps = []
    for code, found in (("change", end.change), ("remaining", end.remaining)):
        if found is not None:
            limits = {"value": found.value, "low": found.low, "high": found.high}
            steps.append(Step(code, {key: _number(value, 2) for key, value in limits.items()}))
    if end.slope is not None:
        slope = {"slope": end.slope.value, "low": end.slope.low, "allowance": end.allowance}
        steps.append(Step("resistance", {key: _number(100 * value, 2) for key, value in slope.items()}))
    return (*steps, Step("end", {"state": end.state}))


def _mean(item: ItemFinding) -> tuple[Step, ...]:
    """From the pieces to their mean."""
    counted = [piece for piece in item.pieces if piece.figure and piece.stock == item.stock]
    if item.control or item.figure is None or not counted:
        return ()
    digits = _finest(item.figure)
    told = Step(
        "mean" if len(counted) > 1 else "one",
        {
            "sum": " + ".join(_number(piece.figure.value, digits) for piece in counted if piece.figure),
            "n": str(len(counted)),
            "mean": _number(item.figure.value, digits),
        },
    )
    steps = (*(_piece(piece, digits) for piece in counted if is_mean(piece)), told)
    spread = item.spread
    if spread.origin == "none":
        return steps
    numbers = {
        "origin": spread.origin,
        "deviation": _number(spread.deviation, digits),
        "dof": dof_text(spread.dof),
        "n": str(len(counted)),
        "from": spread.declared_from,
    }
    return (*steps, Step("spread", numbers))


def _piece(piece: PieceFinding, digits: int) -> Step:
    figures = [run.figure.value for run in piece.runs if run.figure]
    return Step(
        "piece",
        {
            "piece": piece.specimen,
            "n": str(len(figures)),
            "runs": ", ".join(_number(each, digits) for each in figures),
            "mean": _number(piece.figure.value, digits) if piece.figure else "",
        },
    )


def _others(item: ItemFinding) -> tuple[Step, ...]:
    """What the pieces tell beside their mean."""
    steps, figure = [], item.figure
    if item.apart is not None:
        found = {"piece": item.apart.specimen}
        if item.apart.tested:
            found |= {"g": numeral(item.apart.statistic, 3), "critical": numeral(item.apart.critical, 3)}
        steps.append(Step("grubbs" if item.apart.tested else "differs", found))
    if item.ahead is not None and figure is not None:
        digits = _finest(figure)
        told = {"low": _number(item.ahead.next.low, digits), "high": _number(item.ahead.next.high, digits)}
        steps.append(Step("next", {**told, "n": str(item.n), "unit": figure.unit}))
        if (most := item.ahead.most) is not None:
            limit = {"limit": _number(most.limit, digits), "side": most.side, "unit": figure.unit}
            steps.append(Step("most", limit))
    return tuple(steps)


def _excess(item: ItemFinding) -> Iterator[Step]:
    if (found := item.excess) is not None:
        told = {"value": _number(found.value), "half_width": _number(found.half_width)}
        yield Step("excess", {**told, "rig": "" if item.rig is None else _number(item.rig)})


def _result(figure: Estimate | None) -> Result | None:
    if figure is None:
        return None
    told = rounded(figure.value, figure.half_width)
    return Result(
        _number(figure.value, _finest(figure)),
        significant(figure.standard_uncertainty, 4),
        dof_text(figure.dof),
        f"{figure.coverage_factor:.2f}",
        significant(figure.half_width, 4),
        true_minus(told.value_text),
        told.uncertainty_text,
        figure.unit,
    )


def _number(value: float, digits: int = STEP_DIGITS) -> str:
    return numeral(value, digits)


def _finest(figure: Estimate) -> int:
    """Decimals of the numbers on the way to a figure: two more than are told of it, three at least."""
    return max(STEP_DIGITS, rounded(figure.value, figure.half_width).decimals + 2)


def _minutes(seconds: float) -> str:
    return plain(round(seconds / 60, 2))
