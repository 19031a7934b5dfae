"""A figure is a rise: the season in which a part was tested is not in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.evaluation.small import Small, table


def test_the_same_heat_in_a_cold_and_in_a_warm_room_is_one_rise(tmp_path: Path) -> None:
    small = Small(tmp_path)
    small.run("kelda", "A", table(45.0, ambient=10.0), date="2026-01-20")
    small.run("orrin", "A", table(45.0, ambient=35.0), date="2026-07-20")
    winter, summer = small.rise().items
    assert winter.figure is not None
    assert summer.figure is not None
    assert winter.figure.value == summer.figure.value == pytest.approx(45.0)
    # A hotter probe has a larger class (IEC 60584-1: 0.004·|t| beyond 375 °C alone), so the ± agree as well,
    # but for the share of the reading that the logger may be off by.
    assert summer.figure.half_width == pytest.approx(winter.figure.half_width, rel=0.02)


def test_the_season_ranks_nobody(tmp_path: Path) -> None:
    small = Small(tmp_path)
    for item, ambient, date in (("kelda", 10.0, "2026-01-20"), ("orrin", 35.0, "2026-07-20")):
        for piece, rise in zip("ABC", (44.6, 45.0, 45.4), strict=True):
            small.run(item, piece, table(rise, ambient=ambient), date=date)
    (pair,) = small.rise().pairs
    assert pair.difference.value == pytest.approx(0.0, abs=1e-9)
    assert not pair.shown
    # Their temperatures differ by 25 K all the same.
    last = [item.pieces[0].runs[0].readings[-1].temperature for item in small.rise().items]
    assert last == [54.6, 79.6]
