"""A method's pages."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from generator.pages.format import Both
from generator.pages.make import site_of
from generator.pages.method import method_view, version_view
from tests.history.benches import amended
from tests.pages.factory import demo
from tests.pages.rendered import parsed
from tests.pages.sites import made

NB = "\N{NO-BREAK SPACE}"
METHODS = demo().methods["closed-box-heating"]
NEW = version_view(demo(), METHODS[2])


def test_conditions_are_quantities_ranges_and_texts() -> None:
    conditions = {each.name: each for each in NEW.conditions}
    current = conditions["current"]
    assert current.value is not None
    assert current.within is not None
    assert (current.value.metric, current.within.metric) == (f"30{NB}A", f"2{NB}%")
    # ASTM B258: 4 mm² lies between 12 AWG (3.31 mm²) and 11 AWG (4.17 mm²), nearer to 11.
    assert conditions["conductor"].text == Both(f"4{NB}mm² class 5", f"11{NB}AWG", "metric")
    assert conditions["ambient"].span is not None


def test_versions_that_agree_are_told_from_those_that_do_not() -> None:
    assert (NEW.comparable, NEW.apart) == ((1,), ())
    alone = METHODS[2].model_copy(update={"comparable_with": ()})
    assert version_view(demo(), alone).apart == (1,)


def test_an_older_version_names_the_newest_and_the_newest_none() -> None:
    old = version_view(demo(), METHODS[1])
    assert old.latest is not None
    assert (old.latest.number, str(old.latest.link)) == (2, "../2/index.md")
    assert NEW.latest is None


def test_where_a_version_is_used_is_told() -> None:
    assert [each.question for each in NEW.used] == [demo().reports["fuse-holders-30a"].record.question]
    assert version_view(demo(), METHODS[1]).used == ()


def test_a_report_that_was_withdrawn_is_marked_where_a_method_was_used(tmp_path: Path) -> None:
    pages = {page.uri: parsed(page) for page in site_of(amended(tmp_path / "b")).pages}
    for uri in ("m/connector-heating/index.md", "m/connector-heating/1/index.md"):
        assert "Is the connector with the grey lever as cool? (withdrawn)" in pages[uri].text
        assert "Which two-way lever connector stays cooler at 10 A? (withdrawn)" not in pages[uri].text


def test_the_newest_version_comes_first() -> None:
    view = method_view(demo(), "closed-box-heating", "m/")
    assert [row.link.number for row in view.versions] == [2, 1]
    assert view.newest == 2


def text_of(uri: str) -> str:
    return next(parsed(page).text for page in made(demo()).pages if page.uri == uri)


def test_a_rise_s_tolerances_are_differences_and_a_limit_is_a_temperature() -> None:
    """2 K are 3.6 °F; 110 °C are 230 °F."""
    told: Any = text_of("m/closed-box-heating/2/index.md").replace(NB, " ")
    assert "changed by no more than 2 °C (3.6 °F) over the last 15 min" in told
    assert "A run is stopped at 110 °C (230 °F)." in told


def test_a_control_is_told_where_the_method_names_one() -> None:
    asking = METHODS[2].model_copy(update={"control": "unbroken-cable"})
    assert (version_view(demo(), asking).control, NEW.control) == ("unbroken cable", "")
