"""The table of a measure without a series: better figures first, in the words of its kind."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.findings import MeasureFinding
from generator.pages.figures import About
from generator.pages.quantities import QuantityView, quantity_view
from generator.pages.render import Renderer
from generator.pages.shown import shown
from tests.evaluation.pulls import METHOD, Pulls
from tests.pages.factory import ROOT
from tests.pages.rendered import Parsed


@pytest.fixture
def pulls(tmp_path: Path) -> Pulls:
    return Pulls(tmp_path)


def view_of(found: MeasureFinding) -> QuantityView:
    everyone = [*(each.item for each in found.items), "cable"]
    about = About(
        dict.fromkeys(everyone, ""),
        dict.fromkeys(everyone, None),
        {each: each.title() for each in everyone},
        {},
    )
    return quantity_view(found, "Pull-out force", about, shown(found))


def text_of(view: QuantityView) -> Parsed:
    return Parsed(Renderer(ROOT).fragment("fragments/quantity.html.jinja", view=view))


def fill(pulls: Pulls) -> None:
    for item, values in (
        ("veldrun", (296, 300, 304)),
        ("tessvik", (384, 388, 392)),
        ("okvarn", (298, 302, 306)),
    ):
        for letter, value in zip("ABC", values, strict=True):
            pulls.pull(item, letter, f"{value} N")
    pulls.pull("grenlo", "A", "under 2 N")
    pulls.pull("pallsto", "A", "330 N")


def test_the_better_figures_stand_first_and_those_without_last(pulls: Pulls) -> None:
    fill(pulls)
    view = view_of(pulls.found())
    assert [row.id for row in view.rows] == ["tessvik", "pallsto", "okvarn", "veldrun", "grenlo"]
    assert [row.why_not for row in view.rows] == ["", "", "", "", "under-range"]


def test_where_lower_is_better_the_order_turns(pulls: Pulls) -> None:
    pulls.method((METHOD % "").replace("higher", "lower"))
    fill(pulls)
    view = view_of(pulls.found())
    assert [row.id for row in view.rows][:4] == ["veldrun", "okvarn", "pallsto", "tessvik"]
    assert "Lower is better." in text_of(view).text


def test_where_neither_is_better_the_report_s_order_stands(pulls: Pulls) -> None:
    pulls.method((METHOD % "").replace(", better: higher", ""))
    fill(pulls)
    view = view_of(pulls.found())
    assert [row.id for row in view.rows] == ["veldrun", "tessvik", "okvarn", "pallsto", "grenlo"]
    assert "Neither way is better" in text_of(view).text


def test_it_says_what_a_reader_must_know(pulls: Pulls) -> None:
    fill(pulls)
    told = text_of(view_of(pulls.found())).text
    assert "Higher is better." in told
    assert "no difference found from Veldrun" in told
    assert "one piece only" in told
    assert "Of one piece the ± is for the meter: another may differ by more." in told
    assert "under the meter’s range" in told
    assert "Means of the pieces." in told
    assert "3 pieces" in told
    assert not any(word in told for word in ("hott", "cool", "above the air", "°"))


def test_it_is_named_for_those_who_do_not_see_its_heading(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "388 N")
    hidden = [each.text for each in text_of(view_of(pulls.found())).all("span", class_="unseen")]
    assert hidden == ["Pull-out force."]


def test_a_control_stands_below(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "388 N")
    pulls.pull("control", "", "12 N")
    (line,) = text_of(view_of(pulls.found())).all("p", class_="control")
    assert line.text.startswith("Cable alone (1 run): 12.0 ± ")
