"""Budgets that add up, and the assumption that costs most."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.analysis.budget import Budget, Row
from generator.evaluation.report import evaluate
from generator.pages.budgets import Dearest, dearest, dof_text, in_own_unit
from generator.pages.format import Plus, day
from generator.pages.render import Renderer
from generator.pages.sure import sure_view
from tests.pages.factory import demo

FINDING = evaluate(demo(), demo().reports["fuse-holders-30a"]).measures[0]
VIEW = sure_view(FINDING, {key: item.title for key, item in demo().items.items()})


def row(label: str, share: float, *, assumed: bool) -> Row:
    return Row(
        label, 0.0, "K", "rectangular", 0.1, math.inf, 1.0, 0.1, share, "run", assumed, source="", count=1
    )


def test_a_budget_s_shares_add_up_and_stand_in_order() -> None:
    for item, view in zip([each for each in FINDING.items if each.figure], VIEW.budgets, strict=True):
        assert item.budget is not None
        assert math.fsum(row.share for row in item.budget.rows) == pytest.approx(100)
        shares = [0.05 if "<" in row.share else float(row.share) for row in view.rows]
        assert shares == sorted(shares, reverse=True)
        assert view.unit == "K"


def test_an_assumption_that_several_inputs_rest_on_costs_what_they_cost_together() -> None:
    rows = (
        row("clamp-2: gain, common to its runs", 60.0, assumed=False),
        row("exponent of the current", 16.0, assumed=True),
        row("clamp-2: gain, new in each run", 14.0, assumed=True),
        row("probe k1, type K class 1: tolerance, new in each run", 10.0, assumed=True),
    )
    assert dearest(Budget(rows, 1.0, math.inf, "K")) == Dearest("new in each run", "24")
    assert dearest(Budget(rows[:2], 1.0, math.inf, "K")) == Dearest("exponent of the current", "16")
    assert dearest(Budget(rows[:1], 1.0, math.inf, "K")) is None


def test_every_assumption_of_the_demo_has_plain_words(tmp_path: Path) -> None:
    folder = tmp_path / "site_templates" / "pages"
    folder.mkdir(parents=True)
    text = '{% from "words/sure.jinja" import assumption %}{{ assumption(what) }}'
    (folder / "assumption.html.jinja").write_text(text, encoding="utf-8")
    renderer = Renderer(tmp_path)
    found = {each.dearest.what for each in VIEW.budgets if each.dearest is not None}
    assert found
    for what in (*found, "exponent of the current", "repeatability", "resolution"):
        assert renderer.fragment("pages/assumption.html.jinja", what=what).startswith("that ")
    assert renderer.fragment("pages/assumption.html.jinja", what="rig") == "rig"


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
    assert [dof_text(each) for each in (1000.0, 1000.5, 1603237.4)] == ["1000", *("more than 1,000",) * 2]
