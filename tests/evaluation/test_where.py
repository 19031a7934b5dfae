"""Where a part may be fitted: its hottest piece in air from cool to hot, by hand arithmetic."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from generator.analysis.uncertainty import Ledger
from generator.evaluation.findings import ItemFinding
from generator.evaluation.ground import Ground
from generator.evaluation.pieces import Piece
from generator.evaluation.statements import InAir
from generator.evaluation.where import airs, in_airs
from generator.records.bench import load
from tests.evaluation.small import Small, table
from tests.evaluation.test_against import AMBIENT, LIMIT, SETTLING


@pytest.fixture
def small(tmp_path: Path) -> Small:
    small = Small(tmp_path)
    small.write("methods/heat/1.yml", SETTLING + AMBIENT)
    return small


def first(small: Small, limits: str = "") -> ItemFinding:
    small.finish()
    path = small.root / "reports/r/report.yml"
    path.write_text(path.read_text(encoding="utf-8") + limits, encoding="utf-8")
    return small.evaluated().measure("rise").items[0]


def outcomes(item: ItemFinding) -> dict[float, str]:
    return {each.air: each.outcomes[0][1] for each in item.airs}


def hottest(each: InAir) -> tuple[str, float, float]:
    assert each.warmest is not None
    return each.warmest.specimen, each.warmest.value, each.warmest.half_width


def test_the_airs_are_the_same_in_every_report_and_the_reference_ambient_is_among_them() -> None:
    assert airs(None) == airs(50.0) == (20.0, 30.0, 40.0, 50.0, 60.0)
    # 122 °F is 50 °C, and not quite in binary.
    assert airs((122 - 32) * 5 / 9) == airs(50.0)
    assert airs(45.0) == (20.0, 30.0, 40.0, 45.0, 50.0, 60.0)


def test_each_air_adds_itself_and_a_part_of_the_rise_for_each_20_k_of_the_way(small: Small) -> None:
    for letter, rise in zip("AB", (30.0, 34.0), strict=True):
        small.run("tessvik", letter, table(rise))
    found = first(small).airs
    assert [each.air for each in found if each.reference] == [50.0]
    own = hottest(found[0])
    # On the bench the air had 20 °C: nothing is carried there, and the ± is the piece's own.
    assert own[0] == "B"
    assert own[1] == pytest.approx(54.0)
    figure = next(
        piece.figure for piece in small.evaluated().measure("rise").items[0].pieces if piece.specimen == "B"
    )
    assert figure is not None
    assert own[2] == pytest.approx(figure.half_width)
    for each in found[1:]:
        _, value, half_width = hottest(each)
        assert value == pytest.approx(34.0 + each.air)
        # θ·(1 ± 0.06·|ΔT|/20 K), rectangular: at most the sum of both half-widths, at least the larger.
        carried = 34.0 * 0.06 * (each.air - 20) / 20
        assert max(own[2], carried) < half_width < own[2] + carried
    assert all(not each.outcomes for each in found)


def test_the_outcome_of_each_air_is_that_of_a_limit_held_there(small: Small) -> None:
    small.run("tessvik", "A", table(54.5))
    item = first(small, LIMIT % "")
    assert outcomes(item) == {
        20.0: "within",
        30.0: "within",
        40.0: "within",
        50.0: "undecided",
        60.0: "beyond",
    }
    at_reference = next(each for each in item.airs if each.reference)
    assert at_reference.outcomes[0][1] == item.limits[0].outcome
    assert hottest(at_reference)[1] == item.limits[0].pieces[0].value
    assert hottest(at_reference)[2] == item.limits[0].pieces[0].half_width


def test_the_hottest_piece_decides_and_not_the_mean(small: Small) -> None:
    for letter, rise in zip("ABC", (20.0, 20.0, 70.0), strict=True):
        small.run("tessvik", letter, table(rise))
    told = outcomes(first(small, LIMIT % ""))
    assert (told[20.0], told[50.0]) == ("within", "beyond")
    # The mean is 36.7 K: it would be within everywhere.
    assert (20.0 + 20.0 + 70.0) / 3 + 60 < 105


def test_a_run_that_promises_nothing_is_within_in_no_air(small: Small) -> None:
    small.write("methods/heat/1.yml", SETTLING.replace("change: 60 K", "change: 3 K") + AMBIENT)
    small.run("tessvik", "A", table(20.0).replace("30 | 38.0", "30 | 32.0"))
    assert set(outcomes(first(small, LIMIT % "")).values()) == {"undecided"}


def test_a_stopped_piece_is_stopped_or_beyond_in_every_air(small: Small) -> None:
    small.run("tessvik", "A", table(30.0))
    stopped = "\n".join(table(70.0).splitlines()[:3])
    small.run("tessvik", "B", stopped, more="stopped: {at: 31 min, because: smoke}\n")
    told = outcomes(first(small, LIMIT % ""))
    assert told[20.0] == told[40.0] == "stopped"
    assert told[60.0] == "beyond"


def test_a_limit_for_something_else_says_nothing_in_any_air(small: Small) -> None:
    small.run("tessvik", "A", table(30.0))
    found = first(small, LIMIT % "conductor: 6 mm2 class 5").airs
    assert len(found) == 5
    assert all(not each.outcomes for each in found)


def test_without_a_reference_ambient_temperatures_are_told_and_held_all_the_same(small: Small) -> None:
    small.write("methods/heat/1.yml", SETTLING)
    small.run("tessvik", "A", table(30.0))
    item = first(small, LIMIT % "")
    assert item.limits == ()
    assert not any(each.reference for each in item.airs)
    assert outcomes(item)[20.0] == "within"


def test_the_way_to_cooler_air_is_as_unsure_as_to_hotter(small: Small) -> None:
    small.run("tessvik", "A", table(40.0, ambient=30.0))
    by_air = {each.air: hottest(each)[2] for each in first(small).airs}
    assert by_air[20.0] == pytest.approx(by_air[40.0])
    assert by_air[30.0] < by_air[20.0] < by_air[50.0]


def test_a_kind_without_a_point_and_an_item_without_pieces_have_no_airs(small: Small) -> None:
    small.run("tessvik", "A", table(30.0))
    small.finish()
    bench = load(small.root)
    ground = Ground(Ledger(), bench, bench.methods["heat"][1], "body", ())
    assert in_airs(ground, ()) == ()
    assert in_airs(replace(ground, point=""), (Piece("A", "", (), None),)) == ()
    # A piece without a reading is in the air, and has no temperature there.
    assert [each.warmest for each in in_airs(ground, (Piece("A", "", (), None),))] == [None] * 5
