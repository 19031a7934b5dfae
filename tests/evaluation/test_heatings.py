"""Which heating of its piece a run is, and that only the same heating of each piece is compared."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from generator.evaluation.heatings import numbered
from generator.fault import Place
from generator.records.run import Run
from tests.evaluation.small import METHOD, Small, table


def run(number: int, heating: int | None = None) -> Run:
    return Run(f"r/{number}", Place(Path()), "heat", 1, date(2026, 3, number), heating=heating)


@pytest.mark.parametrize(
    ("said", "numbers"),
    [
        ([(None, True), (None, True)], [1, 2]),
        ([(None, False), (None, True)], [None, 1]),
        ([(3, True), (None, True)], [3, 4]),
        ([(None, True), (4, True), (None, True)], [1, 4, 5]),
        ([(2, False), (None, True)], [None, 1]),
        ([], []),
    ],
)
def test_heatings_are_counted_from_what_a_run_says(
    said: list[tuple[int | None, bool]], numbers: list[int | None]
) -> None:
    runs = [(run(day, heating), done) for day, (heating, done) in enumerate(said, 1)]
    assert list(numbered(runs)) == numbers


def small(root: Path, counts: int = 1) -> Small:
    bench = Small(root)
    bench.write("methods/heat/1.yml", METHOD % (f", heating: {counts}" if counts > 1 else ""))
    return bench


def test_a_piece_that_was_heated_before_has_no_first_heating(tmp_path: Path) -> None:
    bench = small(tmp_path)
    for letter in "AB":
        bench.run("new", letter, table(40.0))
    bench.run("used", "A", table(44.0), more="heating: 2\n")
    bench.run("used", "B", table(50.0), more="heating: 3\n")
    found = bench.rise()
    assert found.heating == 1
    new, used = found.items
    assert new.figure is not None
    assert (used.figure, used.n, used.why_not) == (None, 2, "other-heating")
    # Each run keeps its own figure, and is in no pair, place or spread.
    assert [each.heating for piece in used.pieces for each in piece.runs] == [2, 3]
    assert all(each.figure is not None for piece in used.pieces for each in piece.runs)
    assert found.pairs == ()
    assert used.place is None


def test_one_piece_of_an_item_that_was_heated_before_is_not_in_its_mean(tmp_path: Path) -> None:
    bench = small(tmp_path)
    bench.run("new", "A", table(40.0))
    bench.run("new", "B", table(41.0))
    bench.run("new", "C", table(60.0), more="heating: 2\n")
    (item,) = bench.rise().items
    assert item.figure is not None
    assert item.n == 2
    assert item.figure.value == pytest.approx(40.5, abs=0.01)


def test_the_heating_that_the_method_names_is_the_one_compared(tmp_path: Path) -> None:
    """By hand: of A the second run counts, of B the first, since it had been heated once before."""
    bench = small(tmp_path, counts=2)
    bench.run("part", "A", table(40.0), date="2026-03-01")
    bench.run("part", "A", table(44.0), date="2026-03-02")
    bench.run("part", "B", table(46.0), date="2026-03-01", more="heating: 2\n")
    bench.run("part", "B", table(60.0), date="2026-03-02")
    found = bench.rise()
    (item,) = found.items
    assert found.heating == 2
    assert item.figure is not None
    assert item.figure.value == pytest.approx((44.0 + 46.0) / 2, abs=0.01)
