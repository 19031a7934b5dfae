"""Limits for something else: none is held, and none is dropped without a word."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.findings import MeasureFinding
from generator.evaluation.statements import Misfit, NotHeld
from tests.evaluation.small import METHOD, Small, table

AMBIENT = "reference-ambient: {value: 50 degC, because: a closed locker}\n"
POINTS = "points: {body: {where: side, held-by: cement, reads-low-by-at-most: 0 K}"
LID = "lid: {where: middle, held-by: tape, reads-low-by-at-most: 0 K}"
CONDITIONS = (
    "within: 2 %}, conductor: 4 mm2 class 5, ambient: 18 to 28 degC, length: {value: 300 mm, within: 10 mm}}"
)
WHOLE = ((METHOD % "").replace("within: 2 %}}", CONDITIONS).replace(POINTS, f"{POINTS}, {LID}")) + AMBIENT
LIMIT = "  - {kind: %s, value: %s, point: %s, condition: {%s}, standing: claimed, source: the body}\n"


@pytest.fixture
def small(tmp_path: Path) -> Small:
    small = Small(tmp_path)
    small.write("methods/heat/1.yml", WHOLE)
    return small


def against(small: Small, *limits: str) -> MeasureFinding:
    small.run("tessvik", "A", table(30.0))
    small.finish()
    path = small.root / "reports/r/report.yml"
    path.write_text(path.read_text(encoding="utf-8") + "limits:\n" + "".join(limits), encoding="utf-8")
    return small.evaluated().measure("rise")


def limit(
    condition: str = "", kind: str = "temperature", value: str = "105 degC", point: str = "body"
) -> str:
    return LIMIT % (kind, value, point, condition)


def test_a_limit_for_another_place_says_nothing_and_is_told(small: Small) -> None:
    found = against(small, limit(), limit(point="lid"))
    assert [each.number for each in found.items[0].limits] == [0]
    assert found.not_held == (NotHeld(1, (Misfit("place", "", "lid", "body"),), no_reference=False),)


def test_everything_that_a_limit_is_for_and_was_not_measured_is_told(small: Small) -> None:
    (found,) = against(small, limit("conductor: 6 mm2 class 5, current: 20 A", point="lid")).not_held
    assert found.misfits == (
        Misfit("place", "", "lid", "body"),
        Misfit("condition", "conductor", "6 mm2 class 5", "4 mm2 class 5"),
        Misfit("condition", "current", "20 A", "30 A"),
    )


@pytest.mark.parametrize(
    ("condition", "holds"),
    [
        ("current: 30 A", True),
        ("current: 30.0 A", True),
        ("current: 0 to 30 A", True),
        ("current: 0.03 kA", True),
        ("current: 0 to 29 A", False),
        ("current: over 20 A", False),
        ("length: 0.3 m", True),
        ("length: 300", False),
        ("conductor: 4 mm²  Class 5", True),
        ("conductor: 4 mm2", False),
        ("ambient: 18 to 28 degC", True),
        ("ambient: 10 to 40 degC", True),
        ("ambient: 20 to 40 degC", False),
        ("ambient: 23 degC", False),
    ],
)
def test_a_condition_agrees_by_what_it_means(small: Small, condition: str, holds: bool) -> None:
    found = against(small, limit(condition))
    assert bool(found.items[0].limits) is holds
    assert bool(found.not_held) is not holds


def test_a_temperature_without_an_air_to_tell_it_for_is_told(small: Small) -> None:
    small.write("methods/heat/1.yml", WHOLE.replace(AMBIENT, ""))
    found = against(small, limit(), limit(kind="rise", value="60 K"))
    assert [each.number for each in found.items[0].limits] == [1]
    assert found.not_held == (NotHeld(0, (), no_reference=True),)
