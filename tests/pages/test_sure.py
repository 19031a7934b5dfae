"""How sure: pairs in the right words, spreads with their origin, budgets that add up."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.findings import PairFinding, Spread
from generator.evaluation.report import evaluate
from generator.pages.format import Plus, day
from generator.pages.render import Renderer
from generator.pages.sure import dof_text, errors_in, in_own_unit, sure_view
from tests.pages.factory import HOLDERS, ROOT, demo, demo_site, estimate, measure
from tests.pages.rendered import Parsed, parsed

FINDING = evaluate(demo(), demo().reports["fuse-holders-30a"]).measures[0]
NAMES = {key: item.title for key, item in demo().items.items()}
VIEW = sure_view(FINDING, NAMES)


def pair(**more: Any) -> PairFinding:
    return PairFinding("cool", "single", estimate(1.7, 1.4), 2.1, 0.02, **more)


def words(found: PairFinding) -> str:
    rows = sure_view(
        measure(*HOLDERS.items, pairs=(found,)), {"cool": "A", "single": "B", "stops": "C"}
    ).pairs
    html = Renderer(ROOT).fragment("fragments/pairs.html.jinja", pairs=rows)
    return Parsed(html).text


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"shown": True}, "B ran hotter than A"),
        ({"shown": False}, "No difference found between A and B; a small one may exist"),
        ({"shown": False, "known": False}, "The pieces of A and B: whether the products differ is not known"),
    ],
)
def test_a_pair_is_said_with_the_half_width_of_its_own_level(more: dict[str, bool], sentence: str) -> None:
    made = words(pair(**more))
    assert sentence in made
    assert "1.7 ± 2.1 °C" in made
    assert "3.1 ± 3.8 °F" in made


def test_every_pair_of_the_demo_is_told() -> None:
    assert len(VIEW.pairs) == len(FINDING.pairs) == 6
    assert [each.said for each in VIEW.pairs].count("pieces only") == 3


def test_a_spread_says_where_it_comes_from() -> None:
    origins = {row.name: (row.n, row.origin) for row in VIEW.spreads}
    assert origins["Tessvik T30"] == (5, "own")
    assert origins["Okvarn IH30"] == (4, "pooled")
    assert origins["Pallsto F-30"] == (1, "none")
    assert "Grenlo 30" not in origins
    assert all((row.deviation is None) == (row.origin == "none") for row in VIEW.spreads)
    assert Spread("none", 0.0, math.inf).declared_from == ""


def test_a_budget_s_shares_add_up_and_stand_in_order() -> None:
    for item, view in zip([each for each in FINDING.items if each.figure], VIEW.budgets, strict=True):
        assert item.budget is not None
        assert math.fsum(row.share for row in item.budget.rows) == pytest.approx(100)
        shares = [0.05 if "<" in row.share else float(row.share) for row in view.rows]
        assert shares == sorted(shares, reverse=True)
        assert view.unit == "K"


def test_the_assumption_that_costs_most_is_the_first_that_is_assumed() -> None:
    for view in VIEW.budgets:
        assumed = [row.label for row in view.rows if row.assumed]
        assert view.dearest == (assumed[0] if assumed else "")


def test_meters_are_named_once_whatever_they_may_be_wrong_by() -> None:
    errors = errors_in([FINDING], demo().instruments)
    assert errors.meters == ("clamp meter", "eight-channel logger")
    (probes,) = errors.probes
    assert probes.tolerance == "type K class 1"
    assert probes.ids[:2] == ("k1", "k3")
    assert errors.others[0] == "spread between pieces"
    assert len(set(errors.others)) == len(errors.others)


def test_every_source_of_error_has_plain_words(tmp_path: Path) -> None:
    folder = tmp_path / "site_templates" / "pages"
    folder.mkdir(parents=True)
    text = '{% from "words/sure.jinja" import cause %}{{ cause(label) }}'
    (folder / "cause.html.jinja").write_text(text, encoding="utf-8")
    renderer = Renderer(tmp_path)
    for label in errors_in([FINDING], demo().instruments).others:
        assert renderer.fragment("pages/cause.html.jinja", label=label) != label
    assert renderer.fragment("pages/cause.html.jinja", label="rig") == "rig"


def test_only_pairs_whose_products_compare_are_said_to_be_held_together() -> None:
    assert VIEW.compared == sum(each.known for each in FINDING.pairs) == 3
    told = parsed(next(each for each in demo_site().pages if each.uri == "r/fuse-holders-30a/index.md")).text
    assert "3 of these pairs compare the products. Their ± are wide enough for all of them" in told


def test_a_budget_says_when_its_meter_was_calibrated() -> None:
    rows = [row for view in VIEW.budgets for row in view.rows if row.label.startswith("clamp-2: gain")]
    assert {row.calibrated for row in rows} == {day("2025-11-03")}
    assert {view.name: view.n for view in VIEW.budgets}["Pallsto F-30"] == 1


def test_a_budget_s_figure_is_in_kelvins() -> None:
    assert in_own_unit(28.83, 3.06, "K") == Plus("28.8", "3.1", unit="K")


def test_degrees_of_freedom_are_cut_and_infinite_ones_left_out() -> None:
    """GUM G.4.1: to the next lower integer."""
    assert dof_text(13.97) == "13"
    assert dof_text(14 - 1e-12) == "14"
    assert dof_text(math.inf) == ""
