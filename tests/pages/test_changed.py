"""What has changed since the newest video, in words."""

from __future__ import annotations

from dataclasses import replace

from generator.evaluation.report import evaluate
from generator.evaluation.statements import ItemOutcome
from generator.pages.changed import Changed, Move, changed_since
from generator.pages.format import day
from generator.pages.photos import album
from generator.pages.render import Renderer
from generator.pages.report import report_view
from tests.pages.factory import ROOT, demo
from tests.pages.rendered import Parsed

VIDEO = day("2026-03-14")


def said(*moves: Move, why: str = "") -> str:
    changed = Changed(VIDEO, moves, why)
    shown = Parsed(Renderer(ROOT).fragment("fragments/changed.html.jinja", changed=changed))
    return " ".join("".join(shown.texts).split())


def test_an_outcome_a_place_and_the_choice_are_told_one_by_one() -> None:
    assert said(
        Move("place", "Okvarn IH30", "best"),
        Move("outcome", "Okvarn IH30", "within", "undecided"),
        Move("choice", "Okvarn IH30", now="Veldrun V30"),
    ) == (
        "Changed since the video of 14 March 2026: Okvarn IH30 came first then. Okvarn IH30 was within"
        " the limit then; it is too close to call now. I chose Okvarn IH30 then; now Veldrun V30."
        " What changed"
    )


def test_of_many_changes_three_are_told_and_the_others_counted() -> None:
    told = said(*(Move("place", f"Item {n}") for n in range(5)), why="Its new contact runs hotter.")
    assert "Item 2 stood elsewhere then. And 2 more. Its new contact runs hotter." in told
    assert "Item 3" not in told


def test_a_text_of_the_record_stays_text() -> None:
    assert "*x*" in said(Move("choice", "<b>*x*</b>"))


def test_every_outcome_has_its_words() -> None:
    words = (ROOT / "site_templates/words/changed.jinja").read_text(encoding="utf-8")
    for code in ItemOutcome.__args__:  # type: ignore[attr-defined]
        assert f'"{code}": "' in words


def test_it_stands_between_the_choice_and_the_figures() -> None:
    report = demo().reports["fuse-holders-30a"]
    view = report_view(demo(), report, evaluate(demo(), report))
    given = {"photos": album(demo(), report), "taken_back": False}
    page = Renderer(ROOT).markdown("pages/report.md.jinja", report=view, answer=view.answers[0], **given)
    places = [page.index(part) for part in ("My choice", 'data-slot="changed"', 'data-slot="figures"')]
    assert places == sorted(places)


NAMES = {key: item.title for key, item in demo().items.items()}


def test_it_is_told_against_the_edition_that_the_newest_video_shows() -> None:
    bench = demo()
    report = bench.reports["fuse-holders-30a"]
    found = changed_since(bench, report, NAMES, "rise")
    assert found is not None
    assert found.video == day("2026-03-22")
    assert Move("outcome", "Okvarn IH30", "undecided", "beyond") in found.moves
    # Why is told by the edition that moved it, not by a later one that moved nothing of the kind.
    assert found.why == report.editions[2].summary


def test_nothing_is_told_where_no_video_shows_an_edition_or_the_latest_is_shown() -> None:
    bench = demo()
    report = bench.reports["fuse-holders-30a"]
    assert report.links is not None
    assert changed_since(bench, replace(report, links=None), NAMES, "rise") is None
    (video,) = report.links.videos
    latest = video.model_copy(update={"edition": max(report.editions)})
    links = report.links.model_copy(update={"videos": (latest,)})
    assert changed_since(bench, replace(report, links=links), NAMES, "rise") is None
