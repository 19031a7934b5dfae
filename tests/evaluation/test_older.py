"""Results from before stand beside the figures and change none of them."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.older import older_beside, older_of
from generator.evaluation.report import evaluate
from generator.records.bench import Bench, load

DEMO = load(Path(__file__).parents[2])
GOOD = load(Path(__file__).parents[1] / "records" / "good")
REPORT = "fuse-holders-30a"


def without(bench: Bench) -> Bench:
    return dataclasses.replace(bench, older={})


def test_no_figure_pair_place_or_verdict_rests_on_one() -> None:
    with_older, bare = (evaluate(each, each.reports[REPORT]) for each in (DEMO, without(DEMO)))
    assert any(measure.older for measure in with_older.measures)
    told, plain = report_as_data(with_older), report_as_data(bare)
    for data in (told, plain):
        measures = data["measures"]
        assert isinstance(measures, list)
        for measure in measures:
            measure.pop("older")
    assert told == plain


def test_the_newest_stands_first_and_each_is_in_si() -> None:
    found = older_of(GOOD, "okvarn-ih30")
    assert [str(each.result.date) for each in found] == ["2022-05-03", "2022-05", "2021"]
    pull = found[0]
    # 1 lbf is 4.4482216152605 N, from NIST SP 811, appendix B.
    assert pull.value == pytest.approx(84 * 4.4482216152605)
    assert pull.half_width == pytest.approx(4.5 * 4.4482216152605)
    assert (pull.unit, pull.method) == ("N", "pull-out")
    assert [(each.value, each.bound, each.half_width) for each in found[1:]] == [
        (60.0, ">", None),
        (48.0, "", None),
    ]


def test_beside_a_measure_stand_those_of_its_method_and_its_items_alone() -> None:
    rise = older_beside(GOOD, ["veldrun-v30"], "closed-box-heating", "rise")
    assert {each.item for each in rise} == {"veldrun-v30"}
    assert [str(each.result.date) for each in rise] == ["2022", "2021-05"]
    assert older_beside(GOOD, ["veldrun-v30"], "pull-out", "rise") == ()


def test_data_for_other_programs_say_null_where_nobody_knows_the_uncertainty() -> None:
    finding = evaluate(DEMO, DEMO.reports[REPORT])
    measures = report_as_data(finding)["measures"]
    assert isinstance(measures, list)
    okvarn = next(each for each in measures[0]["older"] if each["item"] == "okvarn-ih30")
    assert (okvarn["half_width"], okvarn["date"], okvarn["unit"]) == (None, "2021-05", "K")
    assert okvarn["at_s"] == 3600.0
