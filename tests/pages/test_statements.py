"""Items against limits in words: by pieces, with the ±, and nothing that the figures do not carry."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, get_args

import pytest

from generator.analysis.mark import TimeTo
from generator.evaluation.report import evaluate
from generator.evaluation.statements import (
    ItemOutcome,
    KeptBy,
    LimitFinding,
    Misfit,
    NotHeld,
    PieceAgainst,
    Rule,
)
from generator.pages.fit import FitView
from generator.pages.format import temperature_plus
from generator.pages.names import names_of
from generator.pages.render import Renderer
from generator.pages.report import report_view
from generator.pages.statements import Heated, LimitView, limit_views, unheld_views
from generator.records.bench import Bench, load
from generator.records.schema.report import Limit
from tests.pages.factory import HOLDERS, demo, item, measure, run
from tests.pages.rendered import Parsed
from tests.pages.sites import made

ROOT = Path(__file__).parents[2]
WORDS = (ROOT / "site_templates" / "words" / "statements.jinja").read_text(encoding="utf-8")
NAMES = names_of({"cool": demo().items["tessvik-t30"], "single": demo().items["veldrun-v30"]}, ())
STATED = demo().reports["fuse-holders-30a"].record.limits[0]


@pytest.fixture(scope="module")
def bench() -> Bench:
    return load(ROOT)


@pytest.fixture(scope="module")
def views(bench: Bench) -> tuple[LimitView, ...]:
    report = bench.reports["fuse-holders-30a"]
    return report_view(bench, report, evaluate(bench, report)).fit.limits


def limit(**more: Any) -> Limit:
    return STATED.model_copy(update=more)


def piece(letter: str, value: float, outcome: Any, **more: Any) -> PieceAgainst:
    return PieceAgainst(letter, value, 5.6, outcome, 0.5, **more)


def found(
    *pieces: PieceAgainst,
    outcome: ItemOutcome,
    leaning: Any = None,
    rule: Rule = "three outcomes",
    share: float | None = None,
) -> LimitFinding:
    return LimitFinding(0, "temperature", 105.0, 50.0, pieces, outcome, share, None, leaning, rule)


def told(said: LimitFinding, **of_limit: Any) -> str:
    """The words of one item against one limit, in metric units first."""
    cool = item("cool", 0, run("cool-a", "cool", "A", {0: 0.0, 60: 54.0}), limits=(said,))
    heated = Heated(measure(cool), "rise", demo().settings.reference_ambient)
    limits = limit_views((limit(**of_limit),), (heated,), NAMES)
    return fragment(FitView((), limits, (), None, ()))


def fragment(fit: FitView) -> str:
    html = Renderer(ROOT).fragment("fragments/limits.html.jinja", fit=fit)
    return Parsed(re.sub(r'<span class="us">.*?\)</span></span>', "", html)).text


def test_a_temperature_has_its_offset_and_its_half_width_has_none() -> None:
    told = temperature_plus(105.0, 5.0)
    assert (told.value, told.half_width) == ("105.0", "5.0")
    assert (told.value_us, told.half_width_us) == ("221.0", "9.0")


def test_every_outcome_has_its_words() -> None:
    for code in get_args(ItemOutcome):
        # Against a limit and against a figure that the maker prints, in a sentence and in a cell.
        assert WORDS.count(f'"{code}": "') == 4, code


def test_the_demo_shows_each_outcome(views: tuple[LimitView, ...]) -> None:
    (view,) = views
    assert view.limit.metric == "105\N{NO-BREAK SPACE}°C"
    assert view.reference is not None
    assert view.reference.metric == "50\N{NO-BREAK SPACE}°C"
    assert {row.name: row.outcome for row in view.rows} == {
        "Tessvik T30": "within",
        "Veldrun V30": "within",
        "Okvarn IH30": "beyond",
        "Pallsto F-30": "beyond",
        "Grenlo 30": "beyond",
    }


def test_one_that_the_reference_ambient_alone_decides(bench: Bench, views: tuple[LimitView, ...]) -> None:
    """On the bench under the limit, in the locker over it by more than its ±."""
    runs = [run for run in bench.runs.values() if run.item == "pallsto-f30" and run.readings is not None]
    read = [cell.value for run in runs for cell in run.readings.column("temperature", "body").cells if cell]  # type: ignore[union-attr]
    assert max(read) < 105
    row = next(row for row in views[0].rows if row.name == "Pallsto F-30")
    assert row.hottest is not None
    assert float(row.hottest.value) - float(row.hottest.half_width) > 105


def test_a_report_without_limits_says_so(bench: Bench) -> None:
    report = bench.reports["fuse-holders-30a"]
    heated = Heated(evaluate(bench, report).measure("rise"), "rise", None)
    assert limit_views((), (heated,), {}) == ()
    assert unheld_views((), (heated,)) == ()


def test_no_mean_is_held_against_a_limit(bench: Bench) -> None:
    page = next(page for page in made(bench).pages if page.uri == "r/fuse-holders-30a/index.md")
    text = re.sub(r"<[^>]+>", "", page.slots["limits"])
    assert "never by the mean" in text
    assert text.count("±") >= 10


def test_too_close_says_neither() -> None:
    pieces = [piece(letter, 104.9 - n, "undecided") for n, letter in enumerate("ABCD")]
    assert (
        "Too close to call. Hottest of 4 pieces: 104.9 ± 5.6 °C in 50 °C air, against 105 °C. "
        "We can’t say that it stays within the limit, nor that it goes over."
    ) in told(found(*pieces, outcome="undecided"))


def test_one_piece_speaks_of_the_meter() -> None:
    text = told(found(piece("A", 80.0, "within"), outcome="within", share=0.975))
    assert "The one piece: 80.0 ± 5.6 °C in 50 °C air, against 105 °C." in text
    assert "The ± is for the meter; another piece may differ by more, and we don’t know by how much." in text
    assert "up to 98 in 100 could go beyond" in text


def test_the_piece_that_decides_is_told_where_another_is_hotter() -> None:
    text = told(
        found(
            piece("A", 99.0, "within"),
            piece("B", 95.0, "undecided", kept_by="still-rising"),
            outcome="undecided",
        )
    )
    assert "Piece B: 95.0 ± 5.6 °C" in text
    assert "B would be within by the figure at the mark, but it was still warming" in text


@pytest.mark.parametrize("by", [code for each in get_args(KeptBy) for code in (get_args(each) or (each,))])
def test_each_thing_that_keeps_a_figure_from_within_has_its_words(by: Any) -> None:
    if by == "settled":
        return
    text = told(found(piece("A", 90.0, "undecided", kept_by=by), outcome="undecided"))
    assert "It would be within by the figure at the mark, but " in text
    assert f"but {by}" not in text


def test_worsening_is_told_by_the_resistance() -> None:
    text = told(found(piece("A", 90.0, "undecided", kept_by="worsening"), outcome="undecided"))
    assert "but its resistance kept rising at the same current." in text


def test_stopped_pieces_are_counted_and_what_was_last_read_is_told() -> None:
    text = told(
        found(piece("A", 80.0, "within"), piece("B", 98.0, "stopped"), outcome="stopped"),
    )
    assert (
        "Stopped. 1 of 2 pieces was stopped before the mark. Last read: 98.0 ± 5.6 °C in 50 °C air." in text
    )


@pytest.mark.parametrize(
    ("outcome", "words"),
    [
        ("within", "Below the figure the maker prints."),
        ("undecided", "Not told apart from the figure the maker prints."),
        ("beyond", "Above the figure the maker prints."),
    ],
)
def test_a_claimed_limit_is_a_figure_that_the_maker_prints(outcome: Any, words: str) -> None:
    text = told(
        found(piece("A", 90.0, outcome), piece("B", 89.0, outcome), outcome=outcome), standing="claimed"
    )
    assert words in text
    for word in ("within the limit", "over the limit", "too close", "goes over", "pass", "fail"):
        assert word not in text.lower()


@pytest.mark.parametrize(
    ("rule", "leaning", "words"),
    [
        (
            "three outcomes",
            None,
            ("Too close to call.", "only where a figure is off the limit"),
        ),
        ("four outcomes", "within", ("Within the limit, but by less than its ±.", "up to 50 times in 100")),
        ("four outcomes", "beyond", ("Over the limit, but by less than its ±.", "up to 50 times in 100")),
        ("simple", None, ("without regard to the ±", "up to 50 times in 100")),
    ],
)
def test_the_rule_is_told_with_its_risk(rule: Rule, leaning: Any, words: tuple[str, ...]) -> None:
    text = told(
        found(
            piece("A", 104.0, "undecided", leaning=leaning), outcome="undecided", leaning=leaning, rule=rule
        )
    )
    for each in words:
        assert each in text
    assert ("We can’t say" in text) is (leaning is None)


def unheld(*misfits: Misfit, no_reference: bool = False) -> str:
    why = NotHeld(0, misfits, no_reference)
    heated = Heated(measure(*HOLDERS.items[:1], not_held=(why,)), "rise", None)
    return fragment(FitView((), (), unheld_views((limit(),), (heated,)), None, ()))


def test_a_limit_for_something_else_says_what_it_is_for_and_what_was_measured() -> None:
    text = unheld(
        Misfit("place", "", "lid", "body"), Misfit("condition", "conductor", "6 mm2 class 5", "4 mm2 class 5")
    )
    assert "Nothing is said against 105 °C" in text
    assert "the limit is for the place lid; conductor 6 mm² class 5" in text
    assert "measured was the place body; conductor 4 mm² class 5" in text
    assert "duration: the method does not say" in unheld(Misfit("condition", "duration", "8 h", ""))
    assert "the record names no air to tell temperatures for" in unheld(no_reference=True)


def test_a_limit_that_one_measure_is_held_against_is_not_told_as_for_something_else() -> None:
    away = measure(*HOLDERS.items[:1], not_held=(NotHeld(0, (), no_reference=True),))
    here = measure(*HOLDERS.items[:1])
    assert unheld_views((limit(),), (Heated(away, "lid", None), Heated(here, "body", None))) == ()


def test_where_limits_stand_there_is_their_anchor() -> None:
    why = NotHeld(0, (), no_reference=True)
    heated = Heated(measure(*HOLDERS.items[:1], not_held=(why,)), "rise", None)
    alone = FitView((), (), unheld_views((limit(), limit()), (heated,)), None, ())
    html = Renderer(ROOT).fragment("fragments/limits.html.jinja", fit=alone)
    assert html.count('id="limit"') == 1


def test_when_the_limit_was_reached_is_told_of_the_first_piece_over() -> None:
    later = piece("A", 120.0, "beyond", reached=TimeTo(50 * 60.0, "readings"))
    first = piece("B", 118.0, "beyond", reached=TimeTo(41.6 * 60.0, "readings"))
    within = piece("C", 80.0, "within", reached=TimeTo(10 * 60.0, "readings"))
    said = told(found(later, first, within, outcome="beyond"))
    assert "The first of them got there between two readings, after about 42 min." in said
    by_curve = piece("A", 120.0, "beyond", reached=TimeTo(75 * 60.0, "fit"))
    assert "It would get there, by its curve, after about 75 min." in told(found(by_curve, outcome="beyond"))
    assert "got there" not in told(found(within, outcome="within"))
