"""Bars that hold every state there is, by hand: what the demo does not come to is drawn and said here."""

from __future__ import annotations

from typing import Any

from generator.charts.bars import Bars, Post, laid
from generator.charts.description import Name
from generator.charts.looks import look_of
from generator.charts.rows import Bar, Earlier, Older
from generator.evaluation.statements import Place
from generator.pages.figures import About
from generator.pages.format import Both, Day
from generator.pages.older import OlderView
from generator.pages.prices import Price
from tests.pages.factory import estimate

LIMIT = Post(55.0, 105.0, "temperature", 50.0, claimed=False)
"""105 °C less air of 50 °C."""

TITLES = {
    "cool": "Tessvik T30",
    "near": "Veldrun V30",
    "third": "Ombrel O-30",
    "close": "Okvarn IH30",
    "over": "Pallsto F-30",
    "amended": "Ristal R30",
    "stops": "Grenlo 30",
    "blind": "Hovdal H30",
    "rig": "Marnix M30",
    "single": "Quorsby Q30",
    "past": "Eldra E30",
    "absent": "Lunde L30",
}
NAMES = {key: Name(title, title.split()[0]) for key, title in TITLES.items()}


def bar(item: str, value: float | None = None, half_width: float = 2.0, **more: Any) -> Bar:
    """A row: with a value five pieces around it, each with a stroke."""
    given: dict[str, Any] = {"n": 5, "of": 5, **more}
    if value is not None:
        shift = [-1.5, -0.5, 0.0, 0.5, 1.5]
        given.setdefault("pieces", tuple(value + each for each in shift[: given["n"]]))
        given.setdefault("figure", estimate(value, half_width))
    order = list(TITLES).index(item)
    return Bar(item, NAMES[item], look_of(order), **given)


EVERY = (
    bar("cool", 27.9, 2.1, outcome="within", place=Place(1, 2, best=False), alike=("near",),
        reach=(25.0, 30.8)),
    bar("near", 29.6, 2.3, outcome="within", place=Place(1, 3, best=False), alike=("cool", "third")),
    bar("third", 31.9, 2.0, outcome="within", place=Place(2, 3, best=False), alike=("near",)),
    bar(
        "close",
        53.6,
        3.1,
        n=3,
        of=4,
        outcome="undecided",
        place=Place(4, 4, best=False),
        earlier=Earlier(28.1, "stock", 2),
        states=("still-rising",),
    ),
    bar("over", 61.8, 2.0, n=1, of=1, pieces=(61.8,), meter_only=True, outcome="beyond", reach=(57.0, 66.6)),
    bar("amended", 66.0, 3.4, n=3, of=3, outcome="beyond", place=Place(5, 5, best=False),
        earlier=Earlier(70.3, "corrected"), states=("worsening",)),
    bar("stops", n=3, of=3, pieces=(75.9, 78.4), end=97.0, why_not="stopped", outcome="beyond",
        place=Place(6, 6, best=False)),
    bar("blind", n=1, of=1, end=80.0, why_not="over-range", outcome="beyond", place=Place(6, 6, best=False)),
    bar("rig", n=1, of=1, end=22.0, why_not="not-finished"),
    bar("single", 30.4, 1.9, n=1, of=1, pieces=(30.4,), meter_only=True, outcome="within",
        earlier=Earlier(24.9, "retested"), warming=True),
    bar("past", n=0, of=0, older=(Older(33.0),), why_not="no-run"),
    bar("absent", n=0, of=0, why_not="no-run"),
)  # fmt: skip
"""One row for each state; the first three overlap in what could not be told apart."""

PAST = OlderView(
    "Rise", Both("33\N{NO-BREAK SPACE}°C", "59\N{NO-BREAK SPACE}°F"), None, True, Day("2021", 0, 0, 2021),
    None, "", 1, "", "", "From my sheet", "As it came",
)  # fmt: skip
"""A result from before, its ± not known."""

ABOUT = About(
    {"close": "as sold since May"},
    {key: Price("6.40 €") for key in TITLES},
    TITLES,
    {"stops": ("34",)},
    "Rise",
    "60\N{NO-BREAK SPACE}min",
    "30\N{NO-BREAK SPACE}A",
    {"past": (PAST,)},
)


def every(*rows: Bar, posts: tuple[Post, ...] = (LIMIT,)) -> Bars:
    """These rows, or one for each state, side by side."""
    control = (Name("plain cable", "plain cable"), estimate(14.2, 1.0), "2026-03-08")
    return laid("b", rows or EVERY, posts, controls=(control,))
