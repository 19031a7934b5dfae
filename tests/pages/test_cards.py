"""An item's card: figures, pieces, where they came from."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.report import evaluate
from generator.pages.cards import Basis, Card, card, opinion_view
from generator.pages.format import day
from generator.pages.render import Renderer
from generator.records.bench import load
from tests.evaluation.pulls import Pulls
from tests.evaluation.small import table
from tests.pages.factory import ROOT, demo
from tests.pages.rendered import Parsed

REPORT = demo().reports["fuse-holders-30a"]
FINDING = evaluate(demo(), REPORT)


def made(key: str, **more: Any) -> Card:
    given = {
        "item": demo().items[key],
        "measures": FINDING.measures,
        "runs": REPORT.runs,
        "opinions": (),
        "titles": {"rise": "Hotter than the air", "drop": "Drop across the holder", "pull": "Pull-out force"},
        **more,
    }
    return card(key, **given)


def text(each: Card) -> str:
    html = Renderer(ROOT).fragment(
        "fragments/card.html.jinja", card=each, how="1/how/x/", page="../../i/x/", bars=None
    )
    return html.replace("&#160;", " ")


def test_pieces_of_one_purchase_stand_together() -> None:
    rows = made("tessvik-t30").provenance
    assert [(row.letters, row.whom, row.price) for row in rows] == [
        (("A", "B", "C"), "chandler", "6.40\N{NO-BREAK SPACE}€"),
        (("D", "E"), "web shop", "6.15\N{NO-BREAK SPACE}€"),
    ]


def test_every_piece_has_its_own_figure_and_day() -> None:
    pieces = made("okvarn-ih30").figures[0].pieces
    assert [piece.letter for piece in pieces] == list("ABCDEFG")
    assert all(run.plus and run.counted for piece in pieces for run in piece.runs)


def test_one_piece_says_what_its_uncertainty_is_of() -> None:
    alone = made("pallsto-f30")
    assert alone.figures[0].meter_only
    assert "The ± is for the meter; another piece may differ by more" in text(alone)


def stocked(pulls: Pulls) -> Card:
    """An item of two stocks: both were heated, and of the first alone a piece was pulled."""
    pulls.report = pulls.report.replace("[pull]", "[pull, rise]")
    pulls.pull("a", "A", "388 N")
    pulls.run("a", "A", table(30.0))
    pulls.run("a", "B", table(50.0))
    pulls.finish(a_B="new")
    bench = load(pulls.root)
    assert bench.faults == ()
    report = bench.reports["r"]
    found = evaluate(bench, report).measures
    titles = {"pull": "Pull-out force", "rise": "Hotter than the air"}
    return card("a", bench.items["a"], found, report.runs, (), titles=titles)


def test_an_earlier_stock_is_shown_and_not_in_the_mean(tmp_path: Path) -> None:
    each = stocked(Pulls(tmp_path))
    _, rise = each.figures
    assert [piece.older for piece in rise.pieces] == ["first", ""]
    assert rise.plus is not None
    assert rise.plus.value.startswith("50.")
    assert "first stock: not in the mean" in text(each)


def test_a_card_is_of_the_newest_stock_that_any_measure_has(tmp_path: Path) -> None:
    """What was measured of an older one alone says so where it stands."""
    each = stocked(Pulls(tmp_path))
    assert each.stock == "as sold since May"
    assert [figure.older for figure in each.figures] == ["first", ""]
    assert (each.stock_of("pull"), each.stock_of("rise")) == ("first", "as sold since May")
    pull, rise, _folded = text(each).split("<dt>After 60")
    assert "first stock: one piece only." in pull
    assert "first stock: one piece only." not in rise


def test_a_card_leads_to_the_item_s_own_page() -> None:
    (link,) = Parsed(text(made("tessvik-t30"))).all("a", href="../../i/x/")
    assert link.text == "Every result of Tessvik T30"


def test_a_stopped_piece_says_when_and_there_is_no_mean() -> None:
    told = text(made("grenlo-30"))
    assert "stopped at 42 min" in told
    assert "1 of 3 pieces stopped; no mean is given" in told


def test_an_opinion_rests_on_a_run_by_piece_and_day_or_on_what_is_written() -> None:
    key = next(key for key, run in REPORT.runs.items() if run.item == "grenlo-30")
    opinion = REPORT.record.opinions[0].model_copy(update={"basis": (key, "a photo")})
    assert opinion_view(opinion, REPORT.runs).basis == (
        Basis(key, REPORT.runs[key].specimen, day(REPORT.runs[key].date)),
        Basis("a photo"),
    )


def test_what_an_item_is_hotter_than_the_control_of_its_day() -> None:
    measure = FINDING.measures[0]
    found = next(each for each in measure.items if each.item == "okvarn-ih30")
    assert found.figure is not None
    excess = dataclasses.replace(found.figure, value=12.34, half_width=1.5)
    changed = dataclasses.replace(found, excess=excess)
    rest = tuple(changed if each is found else each for each in measure.items)
    each = made("okvarn-ih30", measures=(dataclasses.replace(measure, items=rest),))
    assert each.figures[0].excess is not None
    assert (each.figures[0].excess.value, each.figures[0].excess.value_us) == ("12.3", "22.2")
    assert "Over the control of the same day" in text(each)
    assert "Over the control" not in text(made("okvarn-ih30"))


def test_a_force_stands_under_its_name_in_its_own_unit() -> None:
    each = made("tessvik-t30")
    _, _, pull = each.figures
    assert pull.title == "Pull-out force"
    assert pull.plus is not None
    assert (pull.plus.unit, pull.plus.unit_us) == ("N", "lbf")
    # 1 lbf = 4.448 222 N (NIST SP 811, appendix B).
    assert float(pull.plus.value) == pytest.approx(4.448222 * float(pull.plus.value_us), abs=1.0)
    told = text(each)
    after = told[told.index("<dt>Pull-out force, mean of 5 pieces</dt>") : told.index("<details")]
    assert "above the air" not in after
    assert "later heating" not in after


def test_a_piece_of_several_runs_shows_them_and_their_mean(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path)
    for number, value in ((1, 380), (2, 392), (3, 386)):
        pulls.pull("tessvik", "A", f"{value} N", termination=number)
    finding = pulls.finding()
    bench = load(tmp_path)
    runs = bench.reports["r"].runs
    each = card(
        "tessvik", bench.items["tessvik"], finding.measures, runs, (), titles={"pull": "Pull-out force"}
    )
    (piece,) = each.figures[0].pieces
    assert [run.termination for run in piece.runs] == ["1", "2", "3"]
    assert all(run.counted for run in piece.runs)
    assert piece.mean == each.figures[0].plus
    told = text(each)
    assert "mean of its 3 runs" in told
    assert "termination 2" in told
    assert "not in the mean" not in told


def test_a_drop_at_a_mark_is_no_rise_above_the_air() -> None:
    holder = made("tessvik-t30")
    (drop,) = (each for each in holder.figures if each.measure == "drop")
    assert drop.plus is not None
    assert (drop.mark, drop.plus.unit, drop.title) == ("", "mV", "Drop across the holder")
    said = Parsed(text(holder)).text
    assert "mV above the air" not in said
    assert "°C °F above the air" in said
