"""Every pair: the gap that this test would find stands beside a tie, and beside nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.findings import PairFinding
from tests.evaluation.small import Small, table


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def test_a_tie_says_what_gap_it_would_have_seen(small: Small) -> None:
    for item, rise in (("tessvik", 20.0), ("veldrun", 20.3), ("okvarn", 60.0)):
        for number, letter in enumerate("ABC"):
            small.run(item, letter, table(rise + number))
    tie, *shown = sorted(small.rise().pairs, key=lambda pair: pair.shown)
    assert (tie.first, tie.second) == ("tessvik", "veldrun")
    assert tie.gap is not None
    # What is seen in four cases of five lies above what is just shown, and by less than as much again: with 6
    # degrees of freedom Student's t is 2.45 at 5 % and 0.91 at 80 %.
    assert tie.half_width < tie.gap < 2 * tie.half_width
    assert all(pair.gap is None for pair in shown)


def test_more_pairs_see_less(small: Small) -> None:
    def gap(pairs: tuple[PairFinding, ...]) -> float:
        found = next(pair for pair in pairs if {pair.first, pair.second} == {"tessvik", "veldrun"})
        assert found.gap is not None
        return found.gap

    for item in ("tessvik", "veldrun"):
        for number, letter in enumerate("ABC"):
            small.run(item, letter, table(20.0 + number))
    alone = gap(small.rise().pairs)
    for number, letter in enumerate("ABC"):
        small.run("okvarn", letter, table(20.2 + number))
    assert gap(small.rise().pairs) > 1.05 * alone


def test_single_pieces_have_no_gap(small: Small) -> None:
    small.run("tessvik", "A", table(20.0))
    small.run("veldrun", "A", table(60.0))
    (pair,) = small.rise().pairs
    assert not pair.known
    assert pair.gap is None
