"""Results from before on pages: hollow, without a bar, with their words, in both systems of units."""

from __future__ import annotations

import csv
import dataclasses
import io
from pathlib import Path

from generator.charts.rows import Older
from generator.evaluation.older import OlderFinding, older_of
from generator.evaluation.report import evaluate
from generator.pages.downloads import older
from generator.pages.figures import figures_view
from generator.pages.older import older_view
from generator.pages.render import Renderer
from generator.records.bench import load
from generator.records.quantity import parse_quantity
from tests.pages.factory import demo, demo_site
from tests.pages.newest import newest
from tests.pages.rendered import Parsed
from tests.pages.states import ABOUT, EVERY, PAST, every

ROOT = Path(__file__).parents[2]
GOOD = load(ROOT / "tests" / "records" / "good")
REPORT = "fuse-holders-30a"


def found(**more: object) -> OlderFinding:
    """The pull of the good bench, or one like it."""
    first = older_of(GOOD, "okvarn-ih30")[0]
    return dataclasses.replace(first, result=first.result.model_copy(update=more))


def drawn(name: str, mark: str) -> Parsed:
    """The bars of every state, one of them with results from before beside it."""
    rows = tuple(
        dataclasses.replace(row, older=(Older(40.0), Older(60.0, ">"))) if row.item == name else row
        for row in EVERY
    )
    about = dataclasses.replace(
        ABOUT, older={**ABOUT.older, name: (dataclasses.replace(PAST, mark=mark),) * 2}
    )
    view = figures_view(every(*rows), about)
    return Parsed(Renderer(ROOT).fragment("fragments/figures.html.jinja", view=view))


def test_beside_a_newer_figure_it_is_a_ring_and_words_and_the_group_stays() -> None:
    page = drawn("cool", mark="45\N{NO-BREAK SPACE}min")
    words = (
        "older result: 33 °C (59 °F) above the air after 45 min, ± not known, 1 piece, from 2021, and 1 more"
    )
    assert words in page.text.replace("\N{NO-BREAK SPACE}", " ")
    assert (
        page.text.count("± not known")
        == Parsed(
            Renderer(ROOT).fragment("fragments/figures.html.jinja", view=figures_view(every(), ABOUT))
        ).text.count("± not known")
        + 1
    )


def test_what_is_the_end_of_a_range_has_words_and_no_mark() -> None:
    row = next(each for each in every().rows if each.item == "past")
    bound = dataclasses.replace(row, older=(Older(60.0, ">"),))
    (view,) = (each for each in figures_view(every(bound), ABOUT).rows if each.id == "past")
    assert view.track is None
    assert view.older is not None


def test_digits_are_as_written_and_a_stated_uncertainty_is_told_as_stated() -> None:
    view = older_view(found(), "Pull-out force")
    assert (view.value.us, view.value.metric) == ("84\N{NO-BREAK SPACE}lbf", "374\N{NO-BREAK SPACE}N")
    assert view.half_width is not None
    over = older_view(found(value=parse_quantity("over 60 K"), uncertainty="unknown"), "Rise")
    assert (over.value.metric, over.value.us) == (">60\N{NO-BREAK SPACE}°C", ">108\N{NO-BREAK SPACE}°F")
    assert over.half_width is None


def test_a_luggage_scale_is_told_in_the_unit_of_the_other_figures() -> None:
    # 1 kgf is 9.80665 N by definition.
    view = older_view(found(value=parse_quantity("38.5 kgf")), "Pull-out force")
    assert view.value.metric == "377.6\N{NO-BREAK SPACE}N"


def test_the_file_holds_each_once_and_the_file_of_figures_none() -> None:
    finding = evaluate(demo(), demo().reports[REPORT])
    rows = list(csv.DictReader(io.StringIO(older(finding).decode())))
    assert [(each["measure"], each["item"], each["date"], each["± known"]) for each in rows] == [
        ("rise", "tessvik-t30", "2021", "no"),
        ("rise", "okvarn-ih30", "2021-05", "no"),
        ("rise", "pallsto-f30", "2021-05", "no"),
        ("pull", "pallsto-f30", "2021-06-12", "no"),
    ]
    assert all(each["half-width of its 95 % interval"] == "" for each in rows)
    files = {each.uri: each.content.decode() for each in demo_site().downloads if each.uri[-4:] != ".zip"}
    assert "2021-spreadsheet" in files[newest(files, REPORT) + "data/older.csv"]
    assert "2021-spreadsheet" not in files[newest(files, REPORT) + "data/results.csv"]


def test_the_comparison_marks_them_and_sorts_by_none() -> None:
    page = next(each for each in demo_site().pages if each.uri == "compare/index.md")
    table = page.slots["table"]
    assert table.count("older result") == 4
    finding = evaluate(demo(), demo().reports[REPORT])
    means = {f"{each.figure.value:.6g}" for m in finding.measures for each in m.items if each.figure}
    sorts = {part.split('"', 1)[0] for part in table.split('data-sort="')[1:]}
    assert sorts <= means


def test_an_item_without_anything_newer_is_a_group_of_its_own() -> None:
    (group,) = (each for each in figures_view(every(), ABOUT).groups if each.code == "older")
    assert [row.id for row in group.rows] == ["past"]
    assert group.rows[0].why_not == ""
