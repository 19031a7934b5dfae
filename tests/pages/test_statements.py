"""Items against limits in words: by pieces, with the ±, and nothing that the figures do not carry."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest

from generator.evaluation.ends import State
from generator.evaluation.report import evaluate
from generator.evaluation.statements import ItemOutcome
from generator.pages.format import temperature_plus
from generator.pages.make import made
from generator.pages.report import report_view
from generator.pages.statements import LimitView, limit_views
from generator.records.bench import Bench, load

ROOT = Path(__file__).parents[2]
WORDS = (ROOT / "site_templates" / "words" / "statements.jinja").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def bench() -> Bench:
    return load(ROOT)


@pytest.fixture(scope="module")
def views(bench: Bench) -> tuple[LimitView, ...]:
    report = bench.reports["fuse-holders-30a"]
    return report_view(bench, report, evaluate(bench, report)).limits


def test_a_temperature_has_its_offset_and_its_half_width_has_none() -> None:
    told = temperature_plus(105.0, 5.0)
    assert (told.value, told.half_width) == ("105.0", "5.0")
    assert (told.value_us, told.half_width_us) == ("221.0", "9.0")


def test_every_state_and_outcome_has_its_words() -> None:
    for code in (*get_args(State), *get_args(ItemOutcome)):
        assert f'"{code}": "' in WORDS, code
    # Twice: once for a limit, once for a figure that the maker prints.
    assert WORDS.count('"within": "') == 2


def test_the_demo_shows_each_outcome(views: tuple[LimitView, ...]) -> None:
    (view,) = views
    assert view.limit.metric == "105\N{NO-BREAK SPACE}°C"
    assert view.reference is not None
    assert view.reference.metric == "50\N{NO-BREAK SPACE}°C"
    assert {row.name: row.outcome for row in view.rows} == {
        "Tessvik T30": "within",
        "Veldrun V30": "within",
        "Okvarn IH30": "undecided",
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
    measure = evaluate(bench, report).measure("rise")
    assert limit_views((), measure, {}, None) == ()


def test_no_mean_is_held_against_a_limit(bench: Bench) -> None:
    page = next(page for page in made(bench).pages if page.uri == "r/fuse-holders-30a/index.md")
    text = re.sub(r"<[^>]+>", "", page.slots["limits"])
    assert "never by the mean" in text
    assert text.count("±") >= 10
