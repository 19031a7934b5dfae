"""The rows of the bars as their template is given them, and as it draws them."""

from __future__ import annotations

import dataclasses

from generator.charts.bars import bars
from generator.evaluation.findings import PairFinding
from generator.pages.figures import About, FiguresView, figures_view
from generator.pages.prices import Price
from generator.pages.render import Renderer
from tests.charts.test_still import NAMES
from tests.pages.factory import HOLDERS, ROOT, estimate
from tests.pages.rendered import Parsed

KEYS = ("cool", "single", "stops")
FULL = {key: name.full for key, name in NAMES.items()}
ABOUT = About(dict.fromkeys(KEYS, ""), dict.fromkeys(KEYS, Price("6.15", "6.40 €")), FULL, {"stops": ("34",)})
TIE = PairFinding("cool", "single", estimate(2.0, 2.1), 2.5, 0.1, shown=False)


def view() -> FiguresView:
    found = dataclasses.replace(HOLDERS, pairs=(TIE,))
    return figures_view(bars("b", found, NAMES), found, ABOUT, "60 min", "30 A")


def drawn() -> Parsed:
    return Parsed(Renderer(ROOT).fragment("fragments/figures.html.jinja", view=view()))


def test_two_that_cannot_be_told_apart_name_each_other() -> None:
    assert [row.alike for row in view().rows] == [("Veldrun V30",), ("Tessvik T30",), ()]


def test_a_row_s_marks_lie_on_its_scale() -> None:
    track = view().rows[0].track
    assert track is not None
    low, value, high = (float(each.rstrip("%")) for each in (track.low, track.value, track.high))
    assert 0 < low < value < high < 100
    assert abs((value - low) - (high - value)) < 0.02
    assert len(track.pieces) == 2
    single = view().rows[1].track
    assert single is not None
    assert single.pieces == ()


def test_a_row_says_figure_pieces_price_and_what_it_cannot_tell() -> None:
    rows = [row.text for row in drawn().all("div", class_="bar")]
    assert rows[0].startswith("Tessvik T30 29.0 ± 1.0 52.2 ± 1.8")
    assert "2 pieces · 6.15 to 6.40 € each" in rows[0]
    assert "no difference found from Veldrun V30" in rows[0]
    assert "one piece only: the ± is for the meter" in rows[1]


def test_a_stopped_item_says_when_and_how_many_and_has_no_figure() -> None:
    row = drawn().all("div", class_="bar")[2].text
    assert row.startswith("Grenlo 30 stopped at 34 min")
    assert "1 of 1 piece stopped" in row
    assert "±" not in row


def test_every_row_is_a_row_of_a_named_table() -> None:
    found = drawn()
    table = next(each for each in found.elements if each.attributes.get("role") == "table")
    named = next(
        each for each in found.elements if each.attributes.get("id") == table.attributes["aria-labelledby"]
    )
    assert named.text.startswith("Hotter than the air around it after 60 min at 30 A,")
    drawings = [each for each in found.elements if each.tag == "svg"]
    assert all(each.attributes.get("aria-hidden") == "true" for each in drawings)


def test_the_axis_has_ticks_with_a_text_and_minor_ones_without() -> None:
    ticks = view().ticks
    assert [tick.text for tick in ticks if tick.text] == ["0", "20", "40", "60", "80"]
    assert len([tick for tick in ticks if not tick.text]) == 12


def test_a_row_without_a_figure_and_without_a_stop_has_a_bare_rail_and_says_so() -> None:
    gone = dataclasses.replace(HOLDERS.items[0], figure=None, why_not="over-range")
    found = dataclasses.replace(HOLDERS, items=(gone, *HOLDERS.items[1:]))
    shown = figures_view(bars("b", found, NAMES), found, ABOUT, "60 min", "30 A")
    html = Renderer(ROOT).fragment("fragments/figures.html.jinja", view=shown)
    row = next(each for each in Parsed(html).all("div", class_="bar") if each.text.startswith("Tessvik"))
    assert "over the meter’s range" in row.text
    assert "no drawing" in row.text
    assert html.count('class="rail"') == 3


def test_without_any_mark_there_is_no_scale_either() -> None:
    gone = [dataclasses.replace(each, figure=None, why_not="no-current") for each in HOLDERS.items[:2]]
    found = dataclasses.replace(HOLDERS, items=tuple(gone), controls=())
    shown = figures_view(bars("b", found, NAMES), found, ABOUT, "60 min", "30 A")
    html = Renderer(ROOT).fragment("fragments/figures.html.jinja", view=shown)
    assert 'class="axis"' not in html
    assert 'class="rail"' not in html
    assert Parsed(html).text.count("no figure: the current was not recorded") == 2


def test_the_longest_half_width_makes_the_room_for_all() -> None:
    wide = dataclasses.replace(HOLDERS.items[0], figure=estimate(120.0, 12.3))
    found = dataclasses.replace(HOLDERS, items=(wide, *HOLDERS.items[1:]))
    shown = figures_view(bars("b", found, NAMES), found, ABOUT, "60 min", "30 A")
    html = Renderer(ROOT).fragment("fragments/figures.html.jinja", view=shown)
    assert Parsed(html).all("div", class_="room-3")
    fine = dataclasses.replace(HOLDERS.items[0], figure=estimate(120.0, 0.123))
    found = dataclasses.replace(HOLDERS, items=(fine, *HOLDERS.items[1:]))
    shown = figures_view(bars("b", found, NAMES), found, ABOUT, "60 min", "30 A")
    html = Renderer(ROOT).fragment("fragments/figures.html.jinja", view=shown)
    assert Parsed(html).all("div", class_="room-4")


def test_one_figure_stands_in_no_order() -> None:
    found = dataclasses.replace(HOLDERS, items=HOLDERS.items[:1])
    shown = figures_view(bars("b", found, NAMES), found, ABOUT, "60 min", "30 A")
    html = Renderer(ROOT).fragment("fragments/figures.html.jinja", view=shown)
    assert "Rows stand by their figures" not in Parsed(html).text
    assert "Rows stand by their figures" in drawn().text


def test_a_control_has_its_day_and_its_interval() -> None:
    (told,) = [each.text for each in drawn().all("p", class_="control")]
    assert told.startswith("plain cable alone, one run, 8 March 2026: 14.2 ± 1.0 °C")
