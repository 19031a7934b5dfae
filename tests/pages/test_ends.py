"""How runs ended, in words: settled or not, what is to come, where it would end, and why that is not told."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from generator.analysis.fit import WhyNotPrinted
from generator.evaluation.ends import Between, End, SettledRise, State
from generator.evaluation.findings import ItemFinding
from generator.evaluation.report import evaluate
from generator.pages.cards import CardFigure
from generator.pages.ends import NO_CURVE, NOT_JUDGED, end_rows, ends_view, settled_rule
from generator.pages.names import names_of
from generator.pages.pieces import PiecesView
from generator.pages.render import Renderer
from generator.records.schema.measures import HeatingMeasure
from tests.pages.factory import ROOT, demo, item, measure, run
from tests.pages.rendered import Parsed

REPORT = demo().reports["fuse-holders-30a"]
WORDS = (ROOT / "site_templates" / "words" / "ends.jinja").read_text(encoding="utf-8")
SETTLED = SettledRise(41.3, 40.9, 44.2, 600.0, 0.0, None)


def end(state: State, **more: Any) -> End:
    given: dict[str, Any] = {"change": None, "remaining": None, "settled": None, "slope": None, **more}
    return End(state=state, allowance=0.025, over=900.0, **given)


def holder(*ends: End | None, **more: Any) -> ItemFinding:
    runs = (
        run(f"cool-{letter}", "cool", letter, {0: 0.0, 60: 41.0 + place}, end=each, **more)
        for place, (letter, each) in enumerate(zip("ABCDE", ends, strict=False))
    )
    return item("cool", 0, *runs)


def told(*ends: End | None, **more: Any) -> str:
    """The card's lines on how the runs of an item ended, in °C and in °F."""
    view = ends_view(holder(*ends, **more), "60\N{NO-BREAK SPACE}min")
    figure = CardFigure(
        "rise",
        "Hotter than the air",
        "60 min",
        "30 A",
        None,
        "no-run",
        PiecesView(0, 0, 0),
        False,
        0,
        (),
        view,
    )
    card = {
        "id": "cool",
        "name": "Cool C1",
        "figures": (figure,),
        "tallied": (),
        "older": (),
        **dict.fromkeys(("price", "provenance", "ratings", "tell_by"), ()),
    }
    html = Renderer(ROOT).fragment("fragments/card.html.jinja", card=card, how="", page="../", bars=None)
    return Parsed(html).text.partition("Settled? ")[2]


def test_every_state_and_reason_has_its_words() -> None:
    for code in (*get_args(State), NOT_JUDGED, *get_args(WhyNotPrinted), NO_CURVE):
        assert f'"{code}": "' in WORDS, code


def test_a_settled_run_says_where_it_would_settle_with_its_wider_upper_end() -> None:
    text = told(end("settled", settled=SETTLED))
    assert "Settled." in text
    assert "would settle at 41.3 °C (40.9 to 44.2) 74.3 °F (73.6 to 79.6) above the air" in text


def test_one_that_is_still_warming_says_what_is_to_come() -> None:
    text = told(end("still-rising", remaining=Between(1.9, 0.8, 3.0), settled=SETTLED))
    assert "Still warming at 60 min: about 1.9 °C (0.8 to 3.0) 3.4 °F (1.4 to 5.4) to come." in text


def test_without_a_curve_that_may_be_told_the_last_minutes_speak() -> None:
    unsure = SettledRise(60.0, 50.0, 90.0, 3000.0, 0.0, "too-short")
    text = told(
        end("still-rising", change=Between(4.1, 3.7, 4.5), remaining=Between(9.0, -2.0, 20.0), settled=unsure)
    )
    assert "Still warming at 60 min: over the last 15 min it rose by 4.10 °C (3.70 to 4.50)" in text
    assert "We can’t say where it would end: the readings stop too soon." in text
    assert "to come" not in text
    assert "60.0" not in text


def test_what_is_to_come_is_never_below_nothing() -> None:
    text = told(end("still-rising", remaining=Between(0.5, -0.4, 1.4), settled=SETTLED))
    assert "about 0.50 °C (0.00 to 1.40)" in text


def test_getting_worse_is_told_by_the_resistance() -> None:
    assert "its resistance kept rising at the same current" in told(end("worsening"))
    assert "Disturbed" in told(end("disturbed"))
    assert "Too few readings to say" in told(end("too-few"))
    assert "Not judged: the meters do not say" in told(None)


@pytest.mark.parametrize("why", [*get_args(WhyNotPrinted), NO_CURVE])
def test_why_nothing_is_told_of_the_end_is_said(why: str) -> None:
    settled = None if why == NO_CURVE else SettledRise(60.0, 50.0, 90.0, 3000.0, 0.0, why)
    assert "No settled figure is told: " in told(end("settled", settled=settled))
    text = told(end("too-few", settled=settled))
    assert "We can’t say where it would end: " in text
    assert f": {why}" not in text


def test_a_run_without_a_figure_is_not_asked_where_it_would_settle() -> None:
    assert "would end" not in told(end("worsening"), why_not="stopped")


def test_pieces_of_which_the_same_is_said_stand_together() -> None:
    short = SettledRise(60.0, 50.0, 90.0, 3000.0, 0.0, "too-short")
    text = told(end("settled", settled=SETTLED), end("too-few", settled=short), end("too-few", settled=short))
    assert "A Settled." in text
    assert "B, C Too few readings to say." in text
    assert "A would settle at" in text
    assert "B, C We can’t say where they would end: the readings stop too soon." in text


def test_the_runs_of_the_demo_stand_by_state_and_item() -> None:
    names = names_of(demo().items, ())
    rows = end_rows(evaluate(demo(), REPORT).measure("rise"), names)
    whose = {row.state: dict(row.whose) for row in rows}
    assert whose["settled"]["Tessvik T30"] == ("A", "B", "C", "D", "E")
    assert whose["worsening"] == {"Grenlo 30": ("C",)}


def test_the_widening_is_our_choice_unless_a_long_run_tells() -> None:
    method = demo().methods["closed-box-heating"][2]
    stated = method.measure("rise")
    assert isinstance(stated, HeatingMeasure)
    rule = settled_rule(method, stated)
    assert (rule.unseen, rule.long_run, rule.over) == ("6", "", "15\N{NO-BREAK SPACE}min")
    assert (rule.change.us, rule.to_come.us) == ("3.6\N{NO-BREAK SPACE}°F", "1.8\N{NO-BREAK SPACE}°F")
    text = '{% from "words/ends.jinja" import unseen %}{{ unseen(rule) }}'
    assert "our choice" in _said(text, rule)
    long = method.model_copy(update={"slow_part": _Slow("0.04", "2026-01-01-long")})
    known = settled_rule(long, stated)
    assert (known.unseen, known.long_run) == ("4", "2026-01-01-long")
    assert "from the long run 2026-01-01-long" in _said(text, known)


class _Slow:
    def __init__(self, share: str, run: str) -> None:
        self.share, self.run = self, run
        self.si = float(share)


def _said(template: str, rule: object) -> str:
    environment = Renderer(ROOT)._fragments
    return Parsed(environment.from_string(template).render(rule=rule)).text


def test_later_heatings_and_earlier_stocks_are_left_out() -> None:
    assert ends_view(item("cool", 0), "60 min") is None
    assert end_rows(measure(holder(end("settled"))), names_of({"cool": demo().items["tessvik-t30"]}, ()))
