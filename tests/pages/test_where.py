"""Where a part may be fitted, in words: temperatures with their offset, outcomes, and what is not told."""

from __future__ import annotations

from typing import Any

import pytest

from generator.evaluation.ends import End
from generator.evaluation.findings import ItemFinding
from generator.evaluation.report import evaluate
from generator.evaluation.statements import InAir, Warmest
from generator.pages.format import Plus
from generator.pages.names import names_of
from generator.pages.render import Renderer
from generator.pages.report import report_view
from generator.pages.statements import Heated
from generator.pages.where import WhereView, where_views
from tests.pages.factory import ROOT, demo, item, measure, run
from tests.pages.rendered import Parsed

REPORT = demo().reports["fuse-holders-30a"]
VIEW = report_view(demo(), REPORT, evaluate(demo(), REPORT)).fit.where
NAMES = names_of({"cool": demo().items["tessvik-t30"], "other": demo().items["veldrun-v30"]}, ())
LIMITS = REPORT.record.limits


def html(*views: WhereView) -> str:
    return str(Renderer(ROOT).fragment("fragments/where.html.jinja", views=views))


def text(*views: WhereView) -> str:
    return Parsed(html(*views)).text


def in_air(air: float, value: float | None, outcome: Any = None, leaning: Any = None) -> InAir:
    warmest = None if value is None else Warmest("A", value, 3.0)
    return InAir(air, air == 50.0, warmest, ((0, outcome, leaning),) if outcome else ())


def warm(*airs: InAir, name: str = "cool", state: Any = "settled", **more: Any) -> ItemFinding:
    end = End(state, None, None, None, None, 0.025, 900.0)
    made = run(f"{name}-a", name, "A", {0: 0.0, 60: 30.0}, end=end, **more)
    return item(name, 0, made, airs=airs)


def views(*items: ItemFinding, limits: Any = LIMITS, **stops: tuple[str, ...]) -> tuple[WhereView, ...]:
    heated = Heated(measure(*items, own_mark=3600.0), "rise", demo().settings.reference_ambient)
    return where_views(limits, (heated,), NAMES, stops)


def test_the_demo_has_one_table_with_its_reference_ambient_marked() -> None:
    (view,) = VIEW
    assert [each.air.metric for each in view.airs] == [
        f"{air}\N{NO-BREAK SPACE}°C" for air in (20, 30, 40, 50, 60)
    ]
    # A temperature has its offset: 50 °C is 122 °F.
    assert [each.air.us for each in view.airs if each.reference] == ["122\N{NO-BREAK SPACE}°F"]
    assert [row.id for row in view.rows] == list(REPORT.record.items)
    told = text(view)
    assert "is this report’s own air: a closed locker in summer." in told
    assert "We don’t scale to other currents, because" in told
    assert "our choice, without a source" in told
    assert "6 % of the rise" in told


def test_each_cell_is_a_temperature_with_its_word() -> None:
    (view,) = VIEW
    pallsto = next(row for row in view.rows if row.id == "pallsto-f30")
    assert [cell.outcome for cell in pallsto.cells] == ["within", "within", "undecided", "beyond", "beyond"]
    for cell in pallsto.cells:
        assert cell.plus is not None
        assert not cell.plus.rise
        # The value has the offset of a temperature, the ± has none.
        celsius, fahrenheit = float(cell.plus.value), float(cell.plus.value_us)
        last_digit = 0.1 if "." in cell.plus.value_us else 1.0
        assert fahrenheit == pytest.approx(celsius * 1.8 + 32, abs=0.1 + last_digit / 2)
        assert float(cell.plus.half_width_us) == pytest.approx(float(cell.plus.half_width) * 1.8, rel=0.05)
    assert "too close" in text(view)


def test_what_stopped_has_no_temperature_and_says_so() -> None:
    (view,) = VIEW
    grenlo = next(row for row in view.rows if row.id == "grenlo-30")
    assert all(cell.plus is None for cell in grenlo.cells)
    assert {cell.outcome for cell in grenlo.cells} == {"beyond"}
    assert "1 of 3 pieces stopped at 42 min: no temperature is told" in text(view)
    assert "getting worse: C" in text(view)


def test_without_a_limit_temperatures_stand_alone() -> None:
    (view,) = views(warm(in_air(20.0, 50.0), in_air(50.0, 80.0)), limits=())
    assert view.limit is None
    assert view.rows[0].cells[1].plus == Plus("80.0", "3.0", "176.0", "5.4", "°C", "°F")
    told = text(view)
    for word in ("within", "over", "too close", "against"):
        assert word not in told


def test_a_stopped_item_without_a_limit_says_that_nothing_is_told() -> None:
    stopped = warm(in_air(20.0, 50.0), name="cool", why_not="stopped")
    (view,) = views(stopped, limits=(), cool=("42",))
    told = text(view)
    assert "1 of 1 piece stopped at 42 min: no temperature is told" in told
    assert "not told" in told
    assert "50.0" not in told


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("still-rising", "still warming"),
        ("worsening", "getting worse"),
        ("disturbed", "disturbed"),
        ("too-few", "too few readings to say"),
        ("settled", ""),
    ],
)
def test_a_temperature_that_is_not_the_last_word_says_so(state: Any, words: str) -> None:
    (view,) = views(warm(in_air(20.0, 50.0), state=state), limits=())
    assert ("one piece only; " in text(view)) is bool(words)
    assert words in text(view)


def test_a_claimed_limit_and_four_outcomes_have_their_own_words() -> None:
    claimed = (LIMITS[0].model_copy(update={"standing": "claimed"}),)
    airs = (
        in_air(20.0, 50.0, "within"),
        in_air(30.0, 103.0, "undecided", "within"),
        in_air(40.0, 104.0, "undecided"),
        in_air(50.0, 120.0, "beyond"),
    )
    told = text(*views(warm(*airs), limits=claimed))
    for words in ("below", "below, by less than its ±", "not told apart", "above"):
        assert words in told
    for words in ("within", "too close", "over the"):
        assert words not in told


def test_each_temperature_limit_has_a_table() -> None:
    airs = (
        InAir(20.0, reference=False, warmest=None, outcomes=((0, "within", None), (1, "within", None))),
        InAir(50.0, reference=True, warmest=None, outcomes=((0, "within", None), (1, "beyond", None))),
    )
    found = views(warm(*airs), limits=(LIMITS[0], LIMITS[0]))
    assert [view.rows[0].cells[1].outcome for view in found] == ["within", "beyond"]


def test_an_item_without_airs_and_a_report_without_heating_have_no_table() -> None:
    assert views(warm()) == ()
    assert where_views(LIMITS, (), NAMES, {}) == ()
