"""Items against limits: by pieces, never by the mean, and by how each run ended."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.evaluation.findings import ItemFinding
from generator.evaluation.statements import LimitFinding
from tests.evaluation.small import METHOD, Small, table

LIMIT = """\
limits:
  - {kind: temperature, value: 105 degC, point: body, condition: {%s}, standing: claimed, source: the body}
"""
AMBIENT = "reference-ambient: {value: 50 degC, because: a closed locker}\n"
SETTLING = (
    (METHOD % "")
    .replace("settled: {over: 60 min}", "settled: {change: 60 K, over: 60 min, to-come: 60 K}")
    .replace("within: 2 %}}", "within: 2 %}, conductor: 4 mm2 class 5}")
)


@pytest.fixture
def small(tmp_path: Path) -> Small:
    small = Small(tmp_path)
    # A bound so wide that every run of three readings counts as settled: the limit alone decides.
    small.write("methods/heat/1.yml", SETTLING + AMBIENT)
    return small


def against(small: Small, condition: str = "") -> ItemFinding:
    """The first item, with the report's limit."""
    small.finish()
    path = small.root / "reports/r/report.yml"
    path.write_text(path.read_text(encoding="utf-8") + LIMIT % condition, encoding="utf-8")
    return small.evaluated().measure("rise").items[0]


def only(item: ItemFinding) -> LimitFinding:
    assert len(item.limits) == 1
    return item.limits[0]


def test_a_rise_is_carried_to_the_reference_ambient(small: Small) -> None:
    small.run("tessvik", "A", table(30.0))
    found = only(against(small))
    piece = found.pieces[0]
    assert (found.outcome, piece.outcome) == ("within", "within")
    assert found.reference == 50.0
    assert piece.value == pytest.approx(80.0)
    # 0 of 1 beyond: up to 97.5 of 100 could be (exact binomial, 1 − 0.025).
    assert found.share_beyond == pytest.approx(0.975)
    assert piece.half_width is not None
    figure = against_figure(small)
    # Besides its own ± it has 6 % of the rise for every 20 K that the locker is hotter than the bench.
    extra = 30.0 * 0.06 * 30 / 20
    assert piece.half_width > figure
    assert piece.half_width < math.hypot(figure, extra) * 1.05


def against_figure(small: Small) -> float:
    figure = small.evaluated().measure("rise").items[0].figure
    assert figure is not None
    return figure.half_width


def test_for_drawings_the_figure_is_carried_too_and_stays_a_rise(small: Small) -> None:
    for letter, rise in zip("ABC", (29.0, 30.0, 31.0), strict=True):
        small.run("tessvik", letter, table(rise))
    item = against(small)
    carried, figure = only(item).carried, item.figure
    assert carried is not None
    assert figure is not None
    assert carried.value == pytest.approx(figure.value)
    # 6 % of 30 K for every 20 K from 20 to 50 °C, rectangular: 2.7 K at most, 1.56 K standard uncertainty.
    extra = 30.0 * 0.06 * 30 / 20 / math.sqrt(3)
    assert carried.standard_uncertainty == pytest.approx(
        math.hypot(figure.standard_uncertainty, extra), rel=0.02
    )
    assert carried.half_width > figure.half_width


def test_a_rise_against_a_limit_on_the_rise_is_not_carried(small: Small) -> None:
    small.run("tessvik", "A", table(30.0))
    small.finish()
    path = small.root / "reports/r/report.yml"
    rise = "limits: [{kind: rise, value: 45 K, point: body, standing: claimed, source: the body}]\n"
    path.write_text(path.read_text(encoding="utf-8") + rise, encoding="utf-8")
    assert only(small.evaluated().measure("rise").items[0]).carried is None


def test_one_piece_beyond_decides_and_the_mean_does_not(small: Small) -> None:
    for letter, rise in zip("ABC", (20.0, 20.0, 70.0), strict=True):
        small.run("tessvik", letter, table(rise))
    item = against(small)
    assert item.figure is not None
    assert item.figure.value + 50 < 105
    assert only(item).outcome == "beyond"
    assert [piece.outcome for piece in only(item).pieces] == ["within", "within", "beyond"]


def test_too_close_is_undecided(small: Small) -> None:
    small.run("tessvik", "A", table(54.5))
    found = only(against(small))
    assert found.outcome == "undecided"
    assert found.pieces[0].probability is not None
    assert 0.5 < found.pieces[0].probability < 0.7


def test_a_run_that_has_not_settled_is_never_within(small: Small) -> None:
    small.write("methods/heat/1.yml", SETTLING.replace("change: 60 K", "change: 3 K") + AMBIENT)
    small.run("tessvik", "A", table(20.0).replace("30 | 38.0", "30 | 32.0"))
    assert only(against(small)).outcome == "undecided"


def test_a_stopped_piece_is_stopped_or_beyond(small: Small) -> None:
    cool = "\n".join(table(30.0).splitlines()[:3])
    small.run("tessvik", "A", cool, more="stopped: {at: 31 min, because: smoke}\n")
    assert only(against(small)).outcome == "stopped"
    hot = "\n".join(table(90.0).splitlines()[:3])
    other = Small(small.root / "hot")
    other.write("methods/heat/1.yml", SETTLING + AMBIENT)
    other.run("tessvik", "A", hot, more="stopped: {at: 31 min, because: smoke}\n")
    assert only(against(other)).outcome == "beyond"


def test_a_piece_that_stopped_in_a_later_heating_is_not_within_by_its_first(small: Small) -> None:
    small.run("tessvik", "A", table(30.0))
    again = "\n".join(table(40.0).splitlines()[:3])
    small.run("tessvik", "A", again, date="2026-03-02", more="stopped: {at: 31 min, because: smoke}\n")
    found = only(against(small))
    assert [piece.outcome for piece in found.pieces] == [found.outcome] == ["stopped"]


def test_what_alone_keeps_a_figure_from_within_is_told(small: Small) -> None:
    small.write("methods/heat/1.yml", SETTLING.replace("change: 60 K", "change: 3 K") + AMBIENT)
    small.run("tessvik", "A", table(20.0).replace("30 | 38.0", "30 | 32.0"))
    piece = only(against(small)).pieces[0]
    assert (piece.outcome, piece.kept_by) == ("undecided", "still-rising")


def test_nothing_but_the_uncertainty_keeps_one_that_is_too_close(small: Small) -> None:
    small.run("tessvik", "A", table(54.5))
    assert only(against(small)).pieces[0].kept_by is None


# By hand: for a rise of 55 K U at the reference ambient is some 5.5 K (9 % of it, rectangular, is 5.0);
# 54 and 56 K lie within and beyond by less than U, 40 and 70 K by more (ILAC-G8:09/2019, 4.2.1 and 4.2.3).
@pytest.mark.parametrize(
    ("rise", "three", "four", "simple"),
    [
        (40.0, ("within", None), ("within", None), ("within", None)),
        (54.0, ("undecided", None), ("undecided", "within"), ("within", None)),
        (56.0, ("undecided", None), ("undecided", "beyond"), ("beyond", None)),
        (70.0, ("beyond", None), ("beyond", None), ("beyond", None)),
    ],
)
def test_the_rule_of_the_method_decides(
    small: Small, rise: float, three: tuple[str, None], four: tuple[str, str | None], simple: tuple[str, None]
) -> None:
    small.run("tessvik", "A", table(rise))
    for rule, expected in (("three outcomes", three), ("four outcomes", four), ("simple", simple)):
        small.write("methods/heat/1.yml", f"{SETTLING}{AMBIENT}rule: {rule}\n")
        found = only(against(small))
        assert (found.outcome, found.leaning) == expected
        assert (found.pieces[0].outcome, found.pieces[0].leaning) == expected
        assert found.rule == rule


@pytest.mark.parametrize("rule", ["three outcomes", "four outcomes", "simple"])
def test_by_no_rule_is_a_run_within_that_promises_nothing(small: Small, rule: str) -> None:
    text = SETTLING.replace("change: 60 K", "change: 3 K")
    small.write("methods/heat/1.yml", f"{text}{AMBIENT}rule: {rule}\n")
    small.run("tessvik", "A", table(20.0).replace("30 | 38.0", "30 | 32.0"))
    found = only(against(small))
    assert (found.outcome, found.leaning) == ("undecided", None)


def test_an_undecided_item_leans_where_all_its_undecided_pieces_do(small: Small) -> None:
    small.write("methods/heat/1.yml", f"{SETTLING}{AMBIENT}rule: four outcomes\n")
    for letter, rise in zip("AB", (40.0, 54.0), strict=True):
        small.run("tessvik", letter, table(rise))
    found = only(against(small))
    assert [(each.outcome, each.leaning) for each in found.pieces] == [
        ("within", None),
        ("undecided", "within"),
    ]
    assert (found.outcome, found.leaning) == ("undecided", "within")
    # Where one may be over, the item may.
    small.run("tessvik", "C", table(56.0))
    assert only(against(small)).leaning == "beyond"
    small.run("tessvik", "D", table(70.0))
    assert (only(against(small)).outcome, only(against(small)).leaning) == ("beyond", None)


def test_places_come_from_pairs_that_are_shown(small: Small) -> None:
    for item, rise in (("tessvik", 20.0), ("veldrun", 20.3), ("okvarn", 60.0)):
        for number, letter in enumerate("ABC"):
            small.run(item, letter, table(rise + number))
    items = small.rise().items
    places = [(each.place.first, each.place.last, each.place.best) for each in items if each.place]
    assert places == [(1, 2, False), (1, 2, False), (3, 3, False)]
