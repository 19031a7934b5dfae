"""The bars as their template is given them, and as it draws and says them."""

from __future__ import annotations

import dataclasses
import re
from typing import get_args

import pytest

from generator.charts.bars import Bars, bars, laid
from generator.charts.groups import Code
from generator.charts.rows import Bar
from generator.pages.figures import FiguresView, figures_view
from generator.pages.remarks import RemarkCode
from generator.pages.render import Renderer
from tests.charts.test_still import NAMES
from tests.pages.factory import HOLDERS, ROOT, estimate
from tests.pages.rendered import Element, Parsed
from tests.pages.states import ABOUT, EVERY, LIMIT, TITLES, bar, every

WORDS = (ROOT / "site_templates/words/bars.jinja").read_text(encoding="utf-8")
STATES = (ROOT / "site_templates/charts/states.svg.jinja").read_text(encoding="utf-8")
CODES = [code for code in get_args(Code) if code != "plain"]


def view(shown: Bars | None = None) -> FiguresView:
    return figures_view(shown or every(), ABOUT)


def html(shown: Bars | None = None) -> str:
    return Renderer(ROOT).fragment("fragments/figures.html.jinja", view=view(shown))


def drawn(*rows: Bar) -> Parsed:
    return Parsed(html(every(*rows)))


def rows(found: Parsed) -> dict[str, str]:
    """The text of each row by the name that it begins with."""
    texts = [each.text for each in found.all("div", class_="bar")]
    return {next(key for key, title in TITLES.items() if text.startswith(title)): text for text in texts}


def named(key: str) -> str:
    return rows(drawn())[key]


# ---- What stands on the scale ----


def test_a_row_s_marks_lie_on_its_scale() -> None:
    track = view().rows[0].track
    assert track is not None
    outer, low, value, high, end = (
        float(each.rstrip("%"))
        for each in (track.outer[0], track.low, track.value, track.high, track.outer[1])
    )
    assert 0 < outer < low < value < high < end < 100
    assert abs((value - low) - (high - value)) < 0.02
    assert len(track.pieces) == 5


def test_one_piece_has_no_stroke_of_its_own_and_a_hollow_mark() -> None:
    track = next(row.track for row in view().rows if row.id == "over")
    assert track is not None
    assert (track.pieces, track.hollow, track.meter_only) == ((), True, True)


def test_the_limit_stands_as_a_post_in_every_row() -> None:
    post = view().posts[0]
    tracks = re.findall(r'<line class="post(?: loose)?" x1="([^"]+)"', html())
    assert tracks == [post.at] * len(EVERY)
    # What is not held against it has a broken one: not finished, older, not tested.
    assert html().count('class="post loose" x1') == 3
    assert (post.text, post.text_us) == ("55", "99")
    assert (post.limit.metric, post.air and post.air.metric) == ("105\u00a0°C", "50\u00a0°C")


def test_a_tick_makes_room_for_the_name_of_the_limit() -> None:
    assert [tick.text for tick in view().ticks if tick.text] == ["0", "20", "40", "80"]
    assert [tick.text for tick in view().ticks_us if tick.text] == ["0", "50", "150"]
    assert "limit 55" in html()
    assert "limit 99" in html()


def test_two_limits_too_near_to_each_other_are_named_once_and_told_in_the_key() -> None:
    near = dataclasses.replace(LIMIT, at=58.0, limit=108.0)
    far = dataclasses.replace(LIMIT, at=95.0, limit=145.0)
    shown = view(every(*EVERY, posts=(LIMIT, near, far)))
    assert [post.named for post in shown.posts] == [True, False, True]
    text = Parsed(html(every(*EVERY, posts=(LIMIT, near, far)))).text
    for told in ("limit: 105 °C", "limit: 108 °C", "limit: 145 °C"):
        assert told in text


def test_without_any_mark_there_is_no_scale_either() -> None:
    bare = [bar("cool", n=1, of=1, why_not="no-current"), bar("near", n=1, of=1, why_not="no-current")]
    made = html(laid("b", bare, ()))
    assert 'class="axis"' not in made
    assert 'class="rail"' not in made
    assert Parsed(made).text.count("no figure: the current was not recorded") == 2
    assert 'class="key"' not in made


# ---- What each row says ----


def test_a_row_says_figure_pieces_and_price() -> None:
    assert named("cool").startswith("Tessvik T30 27.9 ± 2.1 50.2 ± 3.8 5 pieces · 6.40 € each")
    assert "3 of 4 pieces" in named("close")
    assert "as sold since May" in named("close")


def test_every_state_is_said_in_words() -> None:
    said = {
        "cool": "no difference found from Veldrun V30",
        "near": "no difference found from Tessvik T30 and Ombrel O-30",
        "close": "still warming at 60 min",
        "over": "one piece only: the ± is for the meter, another piece may differ by more",
        "amended": "we were wrong: 70.3 °C (126.5 °F) before the correction",
        "stops": "stopped at 34 min 1 of 3 pieces",
        "blind": "over the meter’s range",
        "rig": "not finished (rig)",
        "single": "it changed: 24.9 °C (44.8 °F) before the retest",
        "past": "33 °C (59 °F) ± not known",
        "absent": "not tested",
    }
    for key, words in said.items():
        assert words in named(key), key
    assert (
        "earlier stock, mean of 2 pieces (how far off each may be is on the card): 28.1 °C (50.6 °F)"
        in named("close")
    )
    assert "getting worse: its resistance kept rising at the same current" in named("amended")
    assert "the other 2 (how far off each may be is on the card): 75.9 to 78.4 °C" in named("stops")
    assert "over the limit" in named("stops")
    assert "this piece stayed within the limit" in named("single")
    assert "too far from settled to be compared: no place given" in named("single")
    assert "older result, ± not known, from 2021" in named("past")


def test_what_has_no_figure_has_no_half_width() -> None:
    for key in ("stops", "blind", "rig", "absent"):
        assert "±" not in named(key), key


def test_many_that_could_not_be_told_from_one_are_counted() -> None:
    many = bar("cool", 27.9, outcome="within", alike=("near", "third", "close", "over"))
    assert "no difference found from 4 others" in rows(drawn(many))["cool"]


def test_where_the_heading_says_it_of_all_no_row_says_it_again() -> None:
    pair = [
        bar("cool", 27.9, outcome="within", alike=("near", "close")),
        bar("near", 29.6, outcome="within", alike=("cool",)),
    ]
    found = drawn(*pair)
    assert found.all("div", class_="group-head")[0].text == "Within the limit no difference found"
    assert "no difference found from Okvarn IH30" in rows(found)["cool"]
    assert "no difference found" not in rows(found)["near"]
    assert [each.attributes["class"] for each in found.all("div", class_="bar")] == [
        "bar hold-first",
        "bar hold-last",
    ]


def test_brackets_that_overlap_stand_side_by_side() -> None:
    classes = [each.attributes["class"] for each in drawn().all("div", class_="bar")][:4]
    assert classes == ["bar hold-first", "bar hold-last hold-first-2", "bar hold-last-2", "bar"]


# ---- Groups ----


def headings(shown: Bars) -> list[str]:
    return [each.text for each in Parsed(html(shown)).all("div", class_="group-head")]


def test_each_group_has_its_heading_in_words() -> None:
    assert headings(every()) == [
        "Within the limit",
        "Too close to call we can’t say which side",
        "Over the limit in air of 50 °C (122 °F)",
        "Stopped early by us, for safety",
        "Not finished (rig) not the part’s doing",
        "One piece only no place given",
        "Older result ± not known, no place given",
        "Not tested",
    ]


def test_a_figure_that_a_maker_prints_is_no_limit() -> None:
    said = headings(every(*EVERY, posts=(dataclasses.replace(LIMIT, claimed=True),)))
    assert said[:3] == [
        "Below the figure the maker prints",
        "Not told apart from the figure the maker prints we can’t say which side",
        "Above the figure the maker prints in air of 50 °C (122 °F)",
    ]
    assert "maker’s 55" in html(every(*EVERY, posts=(dataclasses.replace(LIMIT, claimed=True),)))


def test_without_a_limit_there_is_one_group_of_figures_plainly_headed() -> None:
    free = [dataclasses.replace(row, outcome=None) for row in EVERY if row.figure]
    made = every(*free, posts=())
    assert headings(made) == ["Measured no limit is held against them"]
    assert 'class="post"' not in html(made)
    assert "limit:" not in Parsed(html(made)).text


@pytest.mark.parametrize("code", CODES)
def test_every_group_has_its_words_and_its_drawing(code: str) -> None:
    assert f'"{code}": "' in WORDS
    assert f'code == "{code}"' in STATES


@pytest.mark.parametrize("code", get_args(RemarkCode))
def test_every_remark_has_its_words(code: str) -> None:
    assert f'r.code == "{code}"' in WORDS


# ---- For who can't see ----


def test_every_drawing_is_hidden_from_screen_readers_and_words_stand_beside_it() -> None:
    found = drawn()
    drawings = [each for each in found.elements if each.tag == "svg"]
    assert all(each.attributes.get("aria-hidden") == "true" for each in drawings)
    assert "no drawing" in named("absent")


def test_every_row_is_a_row_of_a_named_table() -> None:
    found = drawn()

    def role(name: str) -> list[Element]:
        return [each for each in found.elements if each.attributes.get("role") == name]

    (table,) = role("table")
    caption = next(
        each for each in found.elements if each.attributes.get("id") == table.attributes["aria-labelledby"]
    )
    assert caption.text.startswith("Hotter than the air around it after 60 min at 30 A,")
    # A row of heads, eight groups with a heading each, and the rows.
    assert len(role("row")) == 1 + 8 + len(EVERY)
    assert len(role("rowgroup")) == 1 + 8
    assert {each.attributes.get("aria-colspan") for each in role("columnheader")} == {None, "5"}


# ---- Below the rows ----


def test_the_key_tells_the_marks_that_are_there() -> None:
    def key(*some: Bar) -> str:
        return drawn(*some).all("p", class_="key")[0].text

    assert key() == (
        "mean, and how far off it may be (95 times in 100). each piece. limit: 105 °C (221 °F) less air of"
        " 50 °C (122 °F). with what that air adds. can’t be told apart."
    )
    assert key(EVERY[4]).startswith("one piece, and how far off it may be")
    assert "each piece" not in key(EVERY[4])
    assert "told apart" not in key(EVERY[3])


def test_controls_of_one_name_stand_in_one_line_with_their_intervals() -> None:
    (told,) = [each.text for each in drawn().all("p", class_="control")]
    assert told == "plain cable alone (1 run): 14.2 ± 1.0 °C (25.6 ± 1.8 °F)"
    twice = dataclasses.replace(HOLDERS, controls=HOLDERS.controls * 2)
    shown = figures_view(bars("b", twice, NAMES), dataclasses.replace(ABOUT, names=dict.fromkeys(NAMES, "x")))
    assert [(each.name, len(each.figures)) for each in shown.controls] == [("plain cable", 2)]


def test_the_longest_half_width_makes_the_room_for_all() -> None:
    for half_width, room in ((12.3, "room-3"), (0.123, "room-4")):
        assert drawn(bar("cool", 120.0, half_width), bar("near", 30.0, 2.0)).all("div", class_=room)


def test_another_measure_is_told_in_its_own_units_and_words() -> None:
    pull = bar("cool", 388.0, 21.0, figure=estimate(388.0, 21.0, "N"), pieces=())
    made = laid("b", [pull], (), unit="N", better="higher")
    text = Parsed(html(made)).text
    assert text.startswith("Rise after 60 min at 30 A, N lbf")
    assert "388 ± 21 87.2 ± 4.7" in text
    assert "°C" not in text
