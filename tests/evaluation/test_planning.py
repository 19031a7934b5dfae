"""Plans: where the spread comes from, the gaps against published power values, costs, order, warnings."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import statsmodels.api as sm

from generator.evaluation.plan_as_data import plan_as_data
from generator.evaluation.planned import Asked, Plan
from generator.evaluation.planning import NoSpread, letter_of, plan
from generator.evaluation.report import evaluate
from generator.records.bench import load
from generator.records.money import parse_money
from tests.evaluation.pulls import METHOD, Pulls
from tests.evaluation.small import Small

PULLS = {"anvo": (100, 108, 104), "belk": (96, 102, 105), "corin": (300,)}
DECLARED = ", spread: {value: 8 N, origin: forty pieces of four items, freedom: 36}"


def planned(root: Path, method: str, measure: str, asked: Asked, version: int = 1) -> Plan:
    bench = load(root)
    assert bench.faults == ()
    stated = bench.methods[method][version]
    found = stated.measure(measure)
    assert found is not None
    return plan(bench, stated, found, asked)


def pulls(root: Path, more: str = "", values: dict[str, tuple[int, ...]] | None = None) -> Pulls:
    bench = Pulls(root, more)
    for item, forces in (PULLS if values is None else values).items():
        for letter, force in zip("ABCDE", forces, strict=False):
            bench.pull(item, letter, f"{force} N")
    bench.finish()
    return bench


def pull_plan(root: Path, **asked: Any) -> Plan:
    return planned(root, "pull-out", "pull", Asked(**{"names": ("anvo", "belk"), **asked}))


def nothing_yet(root: Path, more: str = "") -> None:
    """A bench with a method of pulls and no result by it."""
    bench = Small(root)
    bench.write("methods/pull-out/1.yml", METHOD % more)


def warned(plan: Plan) -> dict[str, tuple[float, float]]:
    return {each.what: (each.value, each.other) for each in plan.warned}


def test_two_items_against_published_power(tmp_path: Path) -> None:
    # Smallest difference in standard deviations with 80 % power at 5 %, n = 2 to 10 of each: statsmodels'
    # TTestIndPower, as computed by others.
    nothing_yet(tmp_path)
    found = pull_plan(tmp_path, spread=1.0)
    published = (5.6535, 3.0709, 2.3808, 2.0244, 1.7955, 1.6317, 1.5066, 1.4069, 1.3249)
    assert [row.pieces for row in found.rows] == list(range(2, 11))
    assert [row.gap for row in found.rows] == pytest.approx(published, rel=2e-3)
    assert (found.origin, found.pairs, found.level) == ("said", 1, 0.05)
    assert warned(found) == {"no-meters": (0.0, 0.0)}


@pytest.mark.parametrize(("gap", "n"), [(0.5, 64), (0.8, 26)])
def test_cohens_numbers(tmp_path: Path, gap: float, n: int) -> None:
    # J. Cohen, Statistical Power Analysis (1988): 64 and 26 of each for 80 % (from memory).
    nothing_yet(tmp_path)
    few, enough = (pull_plan(tmp_path, spread=1.0, gap=gap, pieces=each) for each in (n - 1, n))
    assert few.row_of_most.gap > gap > enough.row_of_most.gap
    assert "unseen" in warned(few)
    assert "unseen" not in warned(enough)


def test_power_of_r(tmp_path: Path) -> None:
    # R's documentation of power.t.test(n = 20, delta = 1, sd = 1): power 0.8689528, so that 20 of each find
    # one standard deviation in more than 80 % and the gap found in 80 % is the smaller.
    from scipy.stats import nct, t

    nothing_yet(tmp_path)
    row = pull_plan(tmp_path, spread=1.0, pieces=20).row_of_most
    power = nct.sf(t.isf(0.025, row.dof), row.dof, math.sqrt(20 / 2))
    assert power == pytest.approx(0.8689528, abs=1e-6)
    assert row.gap < 1


def test_the_spread_is_pooled_over_the_benchs_own_results(tmp_path: Path) -> None:
    pulls(tmp_path)
    found = pull_plan(tmp_path)
    # Residual mean square of a one-way analysis of variance: statsmodels.
    groups = [force for forces in PULLS.values() for force in forces]
    which = np.repeat(np.arange(3), [3, 3, 1])
    fit = sm.OLS(groups, np.eye(3)[which]).fit()
    assert found.origin == "recorded"
    assert found.spread.deviation == pytest.approx(math.sqrt(fit.mse_resid))
    assert found.spread.dof == fit.df_resid == 4
    assert (found.recorded.items, found.recorded.pieces) == (2, 6)
    assert (found.recorded.reports, found.recorded.versions) == (("r",), (1,))
    dof, upper = warned(found)["few"]
    # χ² with 4 degrees of freedom, lower 5 %: 0.711 (NIST/SEMATECH e-Handbook 1.3.6.7.4).
    assert dof == 4
    assert upper == pytest.approx(found.spread.deviation * math.sqrt(4 / 0.711), rel=1e-3)


def test_the_plan_is_the_test_that_the_report_makes(tmp_path: Path) -> None:
    pulls(tmp_path, values={key: PULLS[key] for key in ("anvo", "belk")})
    bench = load(tmp_path)
    pair = evaluate(bench, bench.reports["r"]).measure("pull").pairs[0]
    row = pull_plan(tmp_path).row(3)
    assert row is not None
    assert pair.gap == pytest.approx(row.gap, rel=1e-6)


def test_a_piece_in_two_reports_counts_once(tmp_path: Path) -> None:
    bench = pulls(tmp_path)
    once = pull_plan(tmp_path)
    text = (tmp_path / "reports/r/report.yml").read_text(encoding="utf-8")
    names = ", ".join(f"r/run-{number:03}" for number in range(1, 7))
    again = text.replace("runs: all", f"runs: [{names}]").replace(", corin", "")
    bench.write("again/report.yml", again)
    twice = pull_plan(tmp_path)
    assert twice.recorded.reports == ("again", "r")
    assert twice.spread == once.spread
    assert (twice.recorded.pieces, twice.recorded.runs) == (6, 7)


@pytest.mark.parametrize(("declares", "origin"), [("", None), ("comparable-with: [1]\n", "recorded")])
def test_only_versions_that_agree_count(tmp_path: Path, declares: str, origin: str | None) -> None:
    bench = pulls(tmp_path)
    more = f"changes: Another clamp; whether results agree was looked at.\n{declares}"
    bench.method(METHOD % "" + more, version=2)
    asked = Asked(("anvo", "belk"))
    if origin is None:
        with pytest.raises(NoSpread):
            planned(tmp_path, "pull-out", "pull", asked, version=2)
        said = planned(tmp_path, "pull-out", "pull", Asked(("anvo", "belk"), spread=4.0), version=2)
        assert warned(said)["apart"] == (1, 0)
    else:
        found = planned(tmp_path, "pull-out", "pull", asked, version=2)
        assert (found.origin, found.recorded.versions) == (origin, (1,))
        assert "apart" not in warned(found)


def test_one_of_each_only_by_a_declared_spread(tmp_path: Path) -> None:
    pulls(tmp_path, DECLARED)
    found = pull_plan(tmp_path, pieces=1)
    assert [row.pieces for row in found.rows] == list(range(1, 11))
    assert found.origin == "recorded"
    assert found.rows[0].dof == 36
    # Two single pieces at 8 N: (2.0281 + 0.8517)·√2·8, t of 36 degrees of freedom, and the scale's own part.
    assert 32.5 < found.rows[0].gap < 36
    assert set(warned(found)) >= {"single"}
    (tmp_path / "two").mkdir()
    pulls(tmp_path / "two")
    bare = pull_plan(tmp_path / "two", pieces=1)
    assert bare.rows[0].pieces == 2
    assert "one-piece" in warned(bare)


def test_the_declared_spread_stands_in_where_nothing_is_recorded(tmp_path: Path) -> None:
    nothing_yet(tmp_path, DECLARED)
    found = pull_plan(tmp_path)
    assert (found.origin, found.spread.deviation, found.spread.dof) == ("declared", 8.0, 36)
    said = pull_plan(tmp_path, spread=2.0)
    assert (said.origin, said.spread.deviation) == ("said", 2.0)


def test_without_any_spread_there_is_no_plan(tmp_path: Path) -> None:
    nothing_yet(tmp_path)
    with pytest.raises(NoSpread):
        pull_plan(tmp_path)
    pulls(tmp_path / "alike", values={"anvo": (100, 100), "belk": (120, 120)})
    with pytest.raises(NoSpread):
        pull_plan(tmp_path / "alike")


def test_what_cannot_answer_is_warned_of(tmp_path: Path) -> None:
    pulls(tmp_path)
    found = pull_plan(tmp_path, gap=0.5)
    row = found.row(3)
    assert row is not None
    told = warned(found)
    assert found.enough is None
    assert (found.pieces, told["unseen"]) == (3, (row.gap, 0))
    assert told["resolution"] == (2.0, 0.0)  # the scale's step
    wide = pull_plan(tmp_path, gap=11.0)
    assert wide.enough is not None
    assert (wide.pieces, wide.enough) == (wide.enough, min(r.pieces for r in wide.rows if r.gap <= 11))
    assert "unseen" not in warned(wide)
    short = pull_plan(tmp_path, gap=11.0, pieces=2)
    assert warned(short)["unseen"][1] == wide.enough


def test_meters_alone_set_a_floor(tmp_path: Path) -> None:
    pulls(tmp_path, values={"anvo": (400, 402), "belk": (100, 102)})
    found = pull_plan(tmp_path)
    # 1 % of a difference of 300 N does not cancel; the pieces hardly differ.
    assert warned(found)["meters"][0] > 2
    assert warned(found)["meters"][0] < found.row_of_most.gap


def test_runs_without_a_figure_and_a_measure_without_a_direction(tmp_path: Path) -> None:
    bench = Pulls(tmp_path)
    bench.method((METHOD % "").replace(", better: higher", ""))
    for item, force in (("anvo", "100 N"), ("belk", "over 500 N"), ("anvo", "104 N"), ("belk", "90 N")):
        bench.pull(item, "AB"[bench.count > 1], force)
    bench.finish()
    found = pull_plan(tmp_path)
    assert found.recorded.items == 1
    assert warned(found)["lost"] == (1, 4)
    assert "no-direction" in warned(found)
    assert found.better is None


def heated(root: Path, control: str = "") -> None:
    bench = Small(root)
    text = (root / "reports/methods/heat/1.yml").read_text(encoding="utf-8")
    bench.write("methods/heat/1.yml", text + (f"control: {control}\n" if control else ""))


def test_controls_are_first_and_last_of_each_day(tmp_path: Path) -> None:
    heated(tmp_path, "plain-cable")
    names = ("anvo", "belk", "corin")
    asked = Asked(names, pieces=2, spread=2.0, per_day=3, seed="march")
    found = planned(tmp_path, "heat", "rise", asked)
    assert len(found.days) == 2
    for day, letter in zip(found.days, "AB", strict=True):
        assert (day[0], day[-1]) == (day[-1], day[0])
        assert (day[0].item, day[0].piece) == ("plain-cable", "")
        assert {(run.item, run.piece) for run in day[1:-1]} == {(name, letter) for name in names}
    assert planned(tmp_path, "heat", "rise", asked).days == found.days
    other = planned(tmp_path, "heat", "rise", Asked(names, pieces=2, spread=2.0, per_day=3, seed="april"))
    assert other.days != found.days
    assert {"no-control", "split-rounds"}.isdisjoint(warned(found))
    split = planned(tmp_path, "heat", "rise", Asked(names, spread=2.0, per_day=4))
    assert warned(split)["split-rounds"] == (4, 3)


def test_a_heating_plan_without_a_control_is_warned_of(tmp_path: Path) -> None:
    heated(tmp_path)
    found = planned(tmp_path, "heat", "rise", Asked(("anvo", "belk"), spread=2.0))
    assert "no-control" in warned(found)
    assert all(run.piece for day in found.days for run in day)
    named = planned(tmp_path, "heat", "rise", Asked(("anvo", "belk"), spread=2.0, control="bare-wire"))
    assert named.days[0][0].item == "bare-wire"


def test_costs_are_in_whole_packs_and_currencies_stay_apart(tmp_path: Path) -> None:
    bench = pulls(tmp_path)
    for item, bought in (
        ("anvo", "date: 2026-01-02, paid: 9.00 EUR, pack: 4"),
        ("belk", "date: 2026-01-02, paid: 2.50 USD"),
    ):
        pieces = "".join(f"  {letter}: {{got: bought, {bought}}}\n" for letter in "ABC")
        bench.write(f"items/{item}.yml", f"maker: {item.title()}\nmodel: X\nspecimens:\n{pieces}")
    found = pull_plan(tmp_path, names=("anvo", "belk", "corin", "dorv"))
    by_pieces = {row.pieces: cost for row, cost in zip(found.rows, found.costs, strict=True)}
    assert [each.text for each in by_pieces[4].sums] == ["9.00 EUR", "10.00 USD"]
    assert [each.text for each in by_pieces[5].sums] == ["18.00 EUR", "12.50 USD"]
    assert by_pieces[5].without == ("corin", "dorv")
    said = pull_plan(
        tmp_path, names=("anvo", "corin"), prices={"": parse_money("1 EUR"), "anvo": parse_money("2 EUR")}
    )
    assert said.costs[0].sums[0].text == "6 EUR"
    assert [(each.item, each.recorded) for each in said.prices] == [("anvo", False), ("corin", False)]


def test_what_cannot_be_compared(tmp_path: Path) -> None:
    nothing_yet(tmp_path)
    with pytest.raises(ValueError, match="no comparison"):
        pull_plan(tmp_path, names=("anvo",), spread=1.0)
    counted = "  - {id: opened, kind: count, what: openings}\ncannot-show"
    bench = Small(tmp_path / "c")
    bench.write("methods/pull-out/1.yml", (METHOD % "").replace("cannot-show", counted))
    with pytest.raises(ValueError, match="no figures"):
        planned(tmp_path / "c", "pull-out", "opened", Asked(("anvo", "belk"), spread=1.0))


def test_letters_go_on_after_z() -> None:
    assert [letter_of(number) for number in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]


def test_as_data_holds_what_was_assumed(tmp_path: Path) -> None:
    pulls(tmp_path)
    told: Any = plan_as_data(pull_plan(tmp_path, gap=11.0))
    assert told["spread"]["origin"] == "recorded"
    assert told["recorded"]["pieces"] == 6
    assert (told["level_together"], told["power"], told["unit"]) == (0.05, 0.8, "N")
    assert [row["pieces"] for row in told["rows"]] == list(range(2, 11))
    assert told["pieces"] == told["pieces_enough"]
