"""The figures side by side, on one scale."""

from __future__ import annotations

import dataclasses

from generator.charts.bars import bars
from generator.evaluation.statements import ItemOutcome, LimitFinding
from tests.charts.test_description import NAMES
from tests.pages.factory import HOLDERS, item, measure, run
from tests.pages.states import LIMIT, bar, every


def held(
    number: int, outcome: ItemOutcome, *, limit: float = 105.0, kind: str = "temperature"
) -> LimitFinding:
    reference = 50.0 if kind == "temperature" else None
    return LimitFinding(number, kind, limit, reference, (), outcome, None)  # type: ignore[arg-type]


def test_rows_stand_by_their_figures_and_those_without_last() -> None:
    swapped = measure(*reversed(HOLDERS.items))
    assert [row.item for row in bars("b", swapped, NAMES).rows] == ["cool", "single", "stops"]


def test_the_scale_holds_zero_and_everything_that_is_drawn() -> None:
    made = bars("b", HOLDERS, NAMES)
    assert made.scale.low == 0
    assert made.scale.part(80.0) < 1
    assert every().scale.part(97.0) < 1
    assert every(bar("cool", 20.0, reach=(10.0, 120.0))).scale.part(120.0) < 1
    assert every(bar("cool", 20.0), posts=(dataclasses.replace(LIMIT, at=300.0),)).scale.part(300.0) < 1


def test_a_limit_on_the_temperature_stands_less_the_reference_ambient() -> None:
    found = dataclasses.replace(HOLDERS.items[0], limits=(held(0, "within"),))
    (post,) = bars("b", measure(found), NAMES).posts
    assert (post.at, post.limit, post.reference) == (55.0, 105.0, 50.0)
    found = dataclasses.replace(HOLDERS.items[0], limits=(held(0, "within", limit=45.0, kind="rise"),))
    (post,) = bars("b", measure(found), NAMES).posts
    assert (post.at, post.limit, post.reference) == (45.0, 45.0, None)


def test_what_a_maker_prints_decides_only_where_nothing_else_does() -> None:
    both = (held(0, "beyond", limit=80.0), held(1, "within"))
    found = measure(dataclasses.replace(HOLDERS.items[0], limits=both))
    made = bars("b", found, NAMES, claimed=(0,))
    assert [(post.limit, post.claimed) for post in made.posts] == [(105.0, False)]
    assert made.groups[0].code == "within"
    made = bars("b", found, NAMES, claimed=(0, 1))
    assert [(post.limit, post.claimed) for post in made.posts] == [(80.0, True), (105.0, True)]
    assert made.groups[0].code == "beyond"


def test_a_control_without_a_figure_is_left_out() -> None:
    cold = item(
        "plain-cable", 0, run("r/c", "plain-cable", "", {0: 0.0}, why_not="no-reading-at-mark"), control=True
    )
    made = bars("b", measure(controls=(cold, *HOLDERS.controls)), NAMES)
    assert [(name.full, figure.value, when) for name, figure, when in made.controls] == [
        ("Plain-Cable", 14.2, "2026-03-08")
    ]
