"""Where everything of a still stands; and one whole drawing that a person can read, held byte for byte."""

from __future__ import annotations

import dataclasses
import itertools
import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from generator.charts.description import HeatingChart, Name, heating_chart
from generator.charts.looks import ITEMS
from generator.charts.still import HEIGHT, LABEL_GAP, Still, still
from generator.pages.chart import chart_view
from generator.pages.render import Renderer
from tests.pages.factory import HOLDERS, ROOT, item, measure, run

NAMES = {
    "cool": Name("Tessvik T30", "Tessvik"),
    "single": Name("Veldrun V30", "Veldrun"),
    "stops": Name("Grenlo 30", "Grenlo"),
    "plain-cable": Name("plain cable", "plain cable"),
}
GOLDEN = Path(__file__).with_name("heating.svg")


def chart() -> HeatingChart:
    stops = {"r/stops-a": 34 * 60.0}
    return heating_chart("t", HOLDERS, NAMES, schedule=(0, 1800, 3600), within=30, stops=stops)


def drawn(described: HeatingChart) -> str:
    view = chart_view(described)
    facts = {"id": view.id, "still": view.still, "facts": view.facts}
    return Renderer(ROOT).fragment("charts/heating.svg.jinja", **facts)


@pytest.fixture(scope="module")
def placed() -> Still:
    return still(chart())


def test_the_drawing_is_the_one_that_was_looked_at() -> None:
    assert drawn(chart()) == GOLDEN.read_text(encoding="utf-8")


def test_the_drawing_is_well_formed_and_names_itself() -> None:
    root = ET.fromstring(drawn(chart()))  # noqa: S314  # our own
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert len(ids) == len(set(ids))
    assert root.get("role") == "img"
    assert set((root.get("aria-labelledby") or "").split()) <= set(ids)
    used = {(each.get("href") or "").removeprefix("#") for each in root.iter("use")}
    assert used <= set(ids)


def test_a_name_is_text_in_the_drawing() -> None:
    hostile = dict(NAMES, single=Name("A&B <i>", "A&B <i>"))
    made = drawn(heating_chart("t", HOLDERS, hostile))
    assert "A&amp;B &lt;i&gt;" in made
    ET.fromstring(made)  # noqa: S314


def test_both_systems_ticks_are_in_it(placed: Still) -> None:
    assert [tick.text for tick in placed.y_ticks] == ["0", "20", "40", "60", "80"]
    assert [tick.text for tick in placed.y_ticks_us] == ["0", "50", "100", "150"]
    zero = {tick.at for tick in (*placed.y_ticks, *placed.y_ticks_us) if tick.text == "0"}
    assert len(zero) == 1


def test_a_line_of_a_mean_breaks_at_its_gap(placed: Still) -> None:
    mean = next(curve for curve in placed.curves if curve.lead and curve.look.role == "s1")
    assert mean.path.count("M") == 2


def test_the_figure_at_the_line_s_end_is_the_item_s(placed: Still) -> None:
    """29.0 ± 1.0 K are 52.2 ± 1.8 °F."""
    label = next(each for each in placed.edge_labels if each.name == "Tessvik")
    assert (label.value, label.value_us) == ("29.0", "52.2")


def test_a_stopped_line_is_named_beside_its_end(placed: Still) -> None:
    assert [(each.name, each.stopped, round(each.end, 2)) for each in placed.inner_labels] == [
        ("Grenlo", "34", 0.5)
    ]
    assert placed.stops == (("50.00%", placed.stops[0][1]),)


def test_pieces_without_a_mean_are_named_once_and_a_stopped_one_by_itself() -> None:
    runs = [run(f"r/{letter}", "stops", letter, {0: 0.0, 60: 50.0 + n}) for n, letter in enumerate("ABC")]
    gone = run("r/stops-a", "stops", "D", {0: 0.0, 30: 80.0}, why_not="stopped")
    made = still(
        heating_chart("t", measure(item("stops", 0, *runs, gone)), NAMES, stops={"r/stops-a": 2040.0})
    )
    assert [(each.name, each.piece) for each in made.edge_labels] == [("Grenlo", "")]
    assert [(each.name, each.piece) for each in made.inner_labels] == [("Grenlo", "D")]
    alone = still(
        heating_chart("t", measure(item("stops", 0, runs[0], gone)), NAMES, stops={"r/stops-a": 2040.0})
    )
    assert [(each.name, each.piece) for each in alone.edge_labels] == [("Grenlo", "A")]


def test_names_keep_their_distance(placed: Still) -> None:
    heights = sorted(each.y * HEIGHT for each in placed.edge_labels)
    assert all(after - before >= LABEL_GAP - 1e-6 for before, after in itertools.pairwise(heights))


def test_a_moved_name_has_a_leader_and_one_in_place_has_none() -> None:
    near = measure(
        item("cool", 0, run("r/a", "cool", "A", {0: 0.0, 60: 30.0})),
        item("single", 1, run("r/b", "single", "A", {0: 0.0, 60: 30.5})),
    )
    assert all(each.leader for each in still(heating_chart("t", near, NAMES)).edge_labels)
    alone = measure(near.items[0])
    assert [each.leader for each in still(heating_chart("t", alone, NAMES)).edge_labels] == [""]


def test_one_control_run_twice_is_named_once() -> None:
    twice = dataclasses.replace(HOLDERS, controls=HOLDERS.controls * 2)
    labels = still(heating_chart("t", twice, NAMES)).edge_labels
    assert [each.soft for each in labels].count(True) == 1


def test_the_box_is_as_high_in_the_style_sheet() -> None:
    styles = (ROOT / "site_templates/theme/assets/pages.css").read_text(encoding="utf-8")
    found = re.search(r"\.plot \{[^}]*?\bheight: (\d+)px", styles)
    assert found is not None
    assert int(found[1]) == HEIGHT


def test_every_role_marker_and_dash_is_drawn_somehow() -> None:
    styles = (ROOT / "site_templates/theme/assets/pages.css").read_text(encoding="utf-8")
    marks = (ROOT / "site_templates/charts/marks.svg.jinja").read_text(encoding="utf-8")
    for look in ITEMS:
        assert f".{look.role} " in styles
        assert f'-{look.marker}"' in marks
        assert look.dash == "solid" or f".line.{look.dash} " in styles
