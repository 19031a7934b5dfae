"""The answer: who is best, what is over, stopped or too close, where the others lie; in 45 words at most."""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from itertools import combinations
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.ranking import places
from generator.charts.bars import Bars, laid
from generator.charts.description import Name
from generator.charts.looks import look_of
from generator.charts.rows import Bar
from generator.evaluation.statements import Place
from generator.evaluation.why_not import WhyNot
from generator.pages.answer import MOST, Answer, answers, in_one_system, short_enough
from generator.pages.format import Both, Plus
from generator.pages.render import Renderer
from generator.pages.report_pages import words_of
from tests.pages.factory import ROOT, estimate
from tests.pages.states import EVERY, LIMIT, bar, every

BARRED = re.compile(
    r"\b(pass(es|ed)?|fail(s|ed)?|safe(r|ly)?|approved|certified|proven|equal(ly)?|same|joint|winners?|won|best)\b",
    re.IGNORECASE,
)
WORDS = (ROOT / "site_templates/words/answer.jinja").read_text(encoding="utf-8")


@cache
def renderer() -> Renderer:
    return Renderer(ROOT)


def chosen(shown: Bars, stops: dict[str, tuple[str, ...]] | None = None) -> Answer:
    return short_enough(answers(shown, stops or {}), lambda each: words_of(renderer(), each))


def text(answer: Answer, *, system: str = "metric") -> str:
    """What a reader reads who has chosen a system of units, with plain spaces."""
    return plain(in_one_system(answer) if system == "metric" else in_us(answer))


def plain(answer: Answer) -> str:
    """Everything that stands in an answer, with plain spaces."""
    found = renderer().as_read("fragments/answer.md.jinja", answer=answer)
    return " ".join(found.replace("\u00a0", " ").replace("\u202f", " ").split())


def in_us(answer: Answer) -> Answer:
    """The same in US units alone."""
    lead = answer.lead
    if lead is not None and lead.speech is not None:
        figures = tuple(
            Plus(each.value_us, each.half_width_us, unit=each.unit_us) for each in lead.speech.figures
        )
        lead = dataclasses.replace(lead, speech=dataclasses.replace(lead.speech, figures=figures))
    flags = tuple(
        dataclasses.replace(each, air=Both(each.air.us)) if each.air else each for each in answer.flags
    )
    return dataclasses.replace(answer, lead=lead, flags=flags)


def said(*rows: Bar, stops: dict[str, tuple[str, ...]] | None = None, **more: Any) -> str:
    return text(chosen(every(*rows, **more), stops))


def ranked(*rows: Bar) -> list[Bar]:
    """The rows with their places, by what they could not be told from; smaller figures first."""
    told = sorted(
        (row for row in rows if row.figure), key=lambda row: row.figure.value if row.figure else 0.0
    )
    shown = [(a.item, b.item) for a, b in combinations(told, 2) if b.item not in a.alike]
    stands = places([row.item for row in told], shown)
    return [
        dataclasses.replace(row, place=Place(**dataclasses.asdict(stands[row.item])))
        if row.item in stands
        else row
        for row in rows
    ]


# ---- Who is best ----


def test_items_that_could_not_be_told_apart_are_best_together() -> None:
    rows = ranked(
        bar("cool", 27.9, outcome="within", alike=("near",)),
        bar("near", 29.6, outcome="within", alike=("cool",)),
        bar("close", 53.6, outcome="undecided"),
        bar("over", 61.8, outcome="beyond"),
    )
    stopped = bar(
        "stops", n=3, of=3, why_not="stopped", end=97.0, outcome="beyond", place=Place(5, 5, best=False)
    )
    assert said(*rows, stopped, stops={"stops": ("34",)}) == (
        "Tessvik T30 and Veldrun V30 stayed coolest, about 28 and 30 °C above the air: no difference found."
        " Pallsto goes over the limit in 50 °C air, we stopped one Grenlo at 34 min, and Okvarn is too close"
        " to call."
    )


def test_coolest_is_said_only_of_what_was_shown_cooler_than_all_others() -> None:
    chain = ranked(
        bar("cool", 27.9, outcome="within", alike=("near",)),
        bar("near", 29.6, outcome="within", alike=("cool", "third")),
        bar("third", 31.9, outcome="within", alike=("near",)),
    )
    assert said(*chain).startswith(
        "No item was shown cooler than Tessvik T30 and Veldrun V30, about 28 and 30 °C"
    )
    assert "coolest" not in said(*chain)
    alone = ranked(bar("cool", 27.9, outcome="within"), bar("near", 35.0, outcome="within"))
    assert said(*alone) == "Tessvik T30 stayed coolest, about 28 °C above the air. 1 more ran hotter."


def test_where_some_can_not_be_compared_coolest_is_of_those_that_can() -> None:
    rows = ranked(bar("cool", 27.9, outcome="within"), bar("near", 35.0, outcome="within"))
    single = dataclasses.replace(EVERY[9], place=None, warming=False)
    assert said(*rows, single) == (
        "Tessvik T30 stayed coolest of the 2 compared, about 28 °C above the air. 1 more ran hotter."
        " Of Quorsby one piece only was tested."
    )


def test_where_no_two_were_told_apart_none_is_best() -> None:
    names = ("cool", "near", "third")
    rows = ranked(
        *(
            bar(each, 28.0 + n, outcome="within", alike=tuple(o for o in names if o != each))
            for n, each in enumerate(names)
        )
    )
    assert said(*rows) == (
        "No difference found between Tessvik T30, Veldrun V30 and Ombrel O-30, about 28 to 30 °C above the"
        " air."
    )


def test_single_pieces_say_nothing_of_their_items() -> None:
    rows = [
        bar(each, 28.0 + 9 * n, n=1, of=1, pieces=(), meter_only=True)
        for n, each in enumerate(("cool", "near"))
    ]
    assert said(*rows, posts=()) == (
        "One piece only of each of Tessvik T30 and Veldrun V30, about 28 and 37 °C above the air: too little"
        " to say which is cooler."
    )


def test_one_item_alone_is_told_with_its_pieces() -> None:
    assert said(bar("cool", 27.9), posts=()) == "Tessvik T30 ran about 28 °C above the air."
    single = bar("cool", 27.9, n=1, of=1, pieces=(), meter_only=True, outcome="beyond")
    assert said(single) == (
        "Tessvik T30’s one piece ran about 28 °C above the air. Tessvik’s one piece goes over the limit in"
        " 50 °C air."
    )


def test_what_went_over_may_be_the_coolest_and_both_is_said() -> None:
    rows = ranked(bar("cool", 60.0, outcome="beyond"), bar("near", 90.0, outcome="beyond"))
    assert said(*rows) == (
        "Tessvik T30 stayed coolest, about 60 °C above the air. Tessvik and Veldrun go over the limit in"
        " 50 °C air."
    )


# ---- The others ----


def test_the_others_lie_between_only_where_they_do() -> None:
    best = bar("cool", 27.9, outcome="within")
    over = bar("over", 61.8, outcome="beyond")
    middle = [bar("near", 35.0, outcome="within"), bar("third", 40.0, outcome="within")]
    assert "2 more lie between." in said(*ranked(best, *middle, over))
    hot = bar("third", 70.0, outcome="within")
    assert "2 more ran hotter." in said(*ranked(best, middle[0], hot, over))
    unsure = bar("near", 35.0, outcome="within", alike=("cool", "third"))
    untold = dataclasses.replace(best, alike=("near",))
    assert "1 more is told below." in said(
        *ranked(untold, unsure, bar("third", 40.0, outcome="within", alike=("near",)))
    )


def test_what_a_maker_prints_is_no_limit() -> None:
    rows = ranked(bar("cool", 27.9, outcome="undecided"), bar("over", 61.8, outcome="beyond"))
    told = said(*rows, posts=(dataclasses.replace(LIMIT, claimed=True),))
    assert told.endswith(
        "Pallsto runs above the maker’s figure in 50 °C air and Tessvik is not told apart from the maker’s"
        " figure."
    )


def test_what_was_not_finished_and_what_has_no_figure_is_counted() -> None:
    rows = ranked(bar("cool", 27.9, outcome="within"), bar("near", 35.0, outcome="within"))
    told = said(*rows, EVERY[8], EVERY[11], dataclasses.replace(EVERY[11], item="blind"))
    assert "Marnix’s one piece was not finished." in told
    assert "2 more have no figure." in told


def test_several_stopped_pieces_are_told_from_the_first() -> None:
    rows = ranked(bar("cool", 27.9, outcome="within"))
    stopped = bar("stops", n=4, of=4, why_not="stopped", end=97.0)
    told = said(*rows, stopped, stops={"stops": ("34", "12")})
    assert "We stopped 2 of 4 Grenlo from 12 min." in told


def test_another_measure_has_its_own_words() -> None:
    rows = [
        dataclasses.replace(
            each, figure=estimate(each.figure.value, 2.0, "N"), place=Place(n, n, best=n == 1)
        )
        for n, each in ((2, bar("cool", 190.0)), (1, bar("near", 388.0)))
        if each.figure
    ]
    told = text(chosen(laid("b", rows, (), unit="N", better="higher")))
    assert told == "Veldrun V30 came out highest, about 388 N. 1 more came out lower."
    neither = [dataclasses.replace(each, place=None) for each in rows]
    told = text(chosen(laid("b", neither, (), unit="N", better=None)))
    assert told == "Tessvik T30 and Veldrun V30 can’t be compared: about 190 and 388 N."


def test_a_reader_of_the_other_units_reads_the_same_words() -> None:
    answer = chosen(every(*ranked(bar("cool", 27.9, outcome="within"), bar("over", 61.8, outcome="beyond"))))
    assert text(answer, system="us") == (
        "Tessvik T30 stayed coolest, about 50 °F above the air. Pallsto goes over the limit in 122 °F air."
    )
    assert plain(answer) == (
        "Tessvik T30 stayed coolest, about 28 °C (50 °F) above the air. Pallsto goes over the limit in"
        " 50 °C (122 °F) air."
    )


# ---- Where nothing can be answered ----


def test_without_an_answer_it_is_said_what_is_missing() -> None:
    rows = [bar("cool", n=1, of=1, why_not="no-ambient"), bar("near", n=0, of=0, why_not="no-run")]
    assert said(*rows) == "No answer yet: the air was not recorded; no piece has been tested."


@pytest.mark.parametrize("code", [*get_args(WhyNot), "not-measured"])
def test_every_reason_has_its_words(code: str) -> None:
    assert f'  "{code}": "' in WORDS


# ---- Whatever comes ----

NAME = st.lists(st.text("abdeghknortuvxyz", min_size=1, max_size=12), min_size=1, max_size=9).map(" ".join)
KIND = st.sampled_from(
    ["within", "undecided", "beyond", "plain", "stopped", "not-finished", "no-ambient", "no-run"]
)


@st.composite
def mixes(draw: st.DrawFn) -> tuple[Bars, dict[str, tuple[str, ...]]]:
    """Up to twelve items of any outcome, tied in any way, with long names."""
    names = draw(st.lists(NAME, min_size=1, max_size=12, unique=True))
    limited = draw(st.booleans())
    rows: list[Bar] = []
    for order, name in enumerate(names):
        kind = draw(KIND)
        n = draw(st.integers(1, 5))
        short = name if len(name) <= 11 else name[:10] + "…"
        given_: dict[str, Any] = {"n": n, "of": n}
        if kind in {"within", "undecided", "beyond", "plain"}:
            value = draw(st.floats(1, 120))
            outcome = kind if limited and kind != "plain" else None
            known = n > 1 or draw(st.booleans())
            given_ |= {"figure": estimate(value, 2.0), "outcome": outcome, "meter_only": not known}
        else:
            given_ |= {
                "why_not": kind,
                "end": draw(st.floats(1, 120)),
                "outcome": "beyond" if limited else None,
            }
        rows.append(Bar(f"i{order}", Name(name.title(), short.title()), look_of(order), **given_))
    return standing(draw, rows, limited=limited)


def standing(draw: st.DrawFn, rows: list[Bar], *, limited: bool) -> tuple[Bars, dict[str, tuple[str, ...]]]:
    """The rows with ties and places, in order of their figures."""
    known = sorted(
        (row for row in rows if row.figure and not row.meter_only),
        key=lambda row: row.figure.value if row.figure else 0.0,
    )
    ties = {pair for pair in combinations([row.item for row in known], 2) if draw(st.booleans())}
    stands = places(
        [row.item for row in known], [p for p in combinations([r.item for r in known], 2) if p not in ties]
    )
    told = []
    for row in rows:
        alike = tuple(b if a == row.item else a for a, b in sorted(ties) if row.item in {a, b})
        place = stands.get(row.item) if len(known) > 1 else None
        told.append(
            dataclasses.replace(row, alike=alike, place=Place(**dataclasses.asdict(place)) if place else None)
        )
    stops = {row.item: ("34", "12")[: max(1, row.of - 1)] for row in rows if row.why_not == "stopped"}
    return laid("b", told, (LIMIT,) if limited else ()), stops


@settings(max_examples=80, deadline=None)
@given(mixes())
def test_whatever_comes_the_answer_is_short_true_of_ties_and_free_of_barred_words(
    mix: tuple[Bars, dict[str, tuple[str, ...]]],
) -> None:
    shown, stops = mix
    answer = chosen(shown, stops)
    assert words_of(renderer(), dataclasses.replace(answer)) >= 3
    for system in ("metric", "us"):
        words = text(answer, system=system)
        assert len(re.sub(r"(?<=\d) (?=[°±]|min)|(?<=±) ", "", words).split()) <= MOST, words
        assert not BARRED.search(words), words
        assert words[0].isupper() or words[0].isdigit(), words
        assert words.endswith("."), words
    lead = answer.lead
    if lead is None:
        assert answer.flags or answer.missing
        return
    if lead.count > 1 and lead.code in {"best", "none-better", "untold"}:
        assert "o difference found" in words
    if lead.code == "best":
        first = [row for row in shown.rows if row.place is not None and row.place.first == 1]
        others = [row for row in shown.rows if row.place is not None and row not in first]
        assert all(other.item not in row.alike for row in first for other in others)
    single = [row for row in shown.rows if row.single and (row.figure or row.why_not == "stopped")]
    if single:
        assert "one piece" in words.lower(), words
