"""One row of the figures, from what was found of an item."""

from __future__ import annotations

import dataclasses

from generator.charts.rows import Bar, Earlier, rows_of
from generator.evaluation.ends import End
from generator.evaluation.findings import ItemFinding, PairFinding
from generator.evaluation.statements import ItemOutcome, LimitFinding
from tests.charts.test_description import NAMES
from tests.pages.factory import HOLDERS, estimate, item, measure, run


def limit(number: int, outcome: ItemOutcome, half_width: float = 1.5) -> LimitFinding:
    carried = estimate(29.0, half_width)
    return LimitFinding(number, "temperature", 105.0, 50.0, (), outcome, None, carried)


def row(found: ItemFinding, *deciding: int, pairs: tuple[PairFinding, ...] = ()) -> Bar:
    return rows_of(measure(found, pairs=pairs), NAMES, deciding)[0]


def test_a_row_has_the_pieces_of_its_stock_and_how_many_were_tested() -> None:
    cool = row(HOLDERS.items[0])
    assert cool.pieces == (28.0, 30.0)
    assert (cool.n, cool.of) == (2, 2)
    lost = item(
        "cool",
        0,
        run("r/a", "cool", "A", {60: 28.0}),
        run("r/b", "cool", "B", {30: 22.0}, why_not="no-reading-at-mark"),
        n=1,
        figure=estimate(28.0, 1.0),
    )
    assert (row(lost).n, row(lost).of) == (1, 2)


def test_one_piece_of_unknown_spread_has_the_meter_s_interval_only() -> None:
    assert [each.meter_only for each in rows_of(HOLDERS, NAMES, ())] == [False, True, False]


def test_of_the_limits_that_decide_the_worst_outcome_stands_and_the_widest_reach() -> None:
    told = (limit(0, "within"), limit(1, "undecided", 4.0), limit(2, "beyond"))
    found = dataclasses.replace(HOLDERS.items[0], limits=told)
    assert row(found, 0, 1).outcome == "undecided"
    assert row(found, 0, 1).reach == (25.0, 33.0)
    assert row(found, 0, 1, 2).outcome == "beyond"
    assert row(found, 3).outcome is None
    assert row(found, 3).reach is None


def test_pieces_that_say_nothing_have_no_outcome() -> None:
    found = dataclasses.replace(HOLDERS.items[0], limits=(limit(0, "no-figure"),))
    assert row(found, 0).outcome is None


def test_a_row_without_a_mean_ends_where_a_piece_without_a_figure_was_last_read() -> None:
    rows = rows_of(HOLDERS, NAMES, ())
    assert [each.end for each in rows] == [None, None, 80.0]
    mixed = item(
        "stops",
        2,
        run("r/a", "stops", "A", {60: 99.0}),
        run("r/b", "stops", "B", {30: 80.0}, why_not="stopped"),
        figure=None,
        why_not="stopped",
    )
    assert row(mixed).end == 80.0
    assert row(mixed).pieces == (99.0,)


def test_the_older_stock_is_told_by_the_mean_of_its_pieces() -> None:
    older, oldest = (
        item("cool", 0, dataclasses.replace(run(f"r/{n}", "cool", n, {60: rise}), date=day)).pieces[0]
        for n, rise, day in (("C", 20.0, "2025-06-01"), ("D", 10.0, "2024-06-01"))
    )
    stocks = (
        dataclasses.replace(older, stock="b"),
        dataclasses.replace(oldest, stock="a"),
        *(dataclasses.replace(piece, stock="c") for piece in HOLDERS.items[0].pieces),
    )
    found = dataclasses.replace(HOLDERS.items[0], pieces=stocks, stock="c")
    assert row(found).earlier == Earlier(20.0, "stock", 1)
    assert row(found).pieces == (28.0, 30.0)
    assert row(HOLDERS.items[0]).earlier is None


def test_still_warming_and_getting_worse_are_told_and_settled_is_not() -> None:
    ends = [
        End(state, None, None, None, None, 0.025, 900.0) for state in ("settled", "still-rising", "worsening")
    ]
    runs = [run(f"r/{n}", "cool", n, {60: 28.0}, end=end) for n, end in zip("ABC", ends, strict=True)]
    assert row(item("cool", 0, *runs)).states == ("worsening", "still-rising")
    assert row(item("cool", 0, runs[0])).states == ()


def test_items_not_told_apart_name_each_other() -> None:
    untold = PairFinding("cool", "single", estimate(2.0, 2.1), 2.5, 0.1, shown=False)
    shown = PairFinding("cool", "stops", estimate(9.0, 2.1), 2.5, 0.0, shown=True)
    unknown = PairFinding("single", "stops", estimate(9.0, 2.1), 2.5, 0.0, shown=False, known=False)
    found = rows_of(measure(*HOLDERS.items, pairs=(untold, shown, unknown)), NAMES, ())
    assert [each.alike for each in found] == [("single",), ("cool",), ()]
