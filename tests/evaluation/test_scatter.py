"""What pieces tell beside their mean: runs and terminations, one apart, one item looser, pieces to come."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from scipy.stats import nct, norm, t

from generator.evaluation.as_data import report_as_data
from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.spreads import Repeats
from tests.evaluation.pulls import SCALE, Pulls
from tests.evaluation.small import METHOD, Small, table

STILL = SCALE.replace("±(1 % + 2 N)", "±(0.001 % + 0.01 N)").replace("resolution: 2 N", "resolution: 0.1 N")
"""A scale that adds next to nothing."""


@pytest.fixture
def pulls(tmp_path: Path) -> Pulls:
    made = Pulls(tmp_path)
    made.write("instruments/scale.yml", STILL)
    return made


def pulled(pulls: Pulls, item: str, *newtons: float) -> None:
    for letter, each in zip("ABCDEFGH", newtons, strict=False):
        pulls.pull(item, letter, f"{each} N")


def item(finding: MeasureFinding, name: str) -> ItemFinding:
    return next(each for each in finding.items if each.item == name)


def test_pieces_terminations_and_runs_are_counted_apart(pulls: Pulls) -> None:
    for letter in "AB":
        for termination in (1, 1, 2):
            pulls.pull("tessvik", letter, "300.0 N", termination=termination)
    pulls.pull("veldrun", "A", "200.0 N")
    found = pulls.found()
    assert item(found, "tessvik").n == 2
    assert item(found, "tessvik").repeats == Repeats(runs=6, terminations=4)
    assert item(found, "veldrun").repeats == Repeats(runs=1, terminations=1)


def test_of_heatings_the_one_that_counts_is_counted(tmp_path: Path) -> None:
    small = Small(tmp_path)
    for date, rise in (("2026-03-01", 40.0), ("2026-03-02", 44.0), ("2026-03-03", 48.0)):
        small.run("tessvik", "A", table(rise), date=date)
    found = small.rise().items[0]
    assert (found.runs, found.repeats) == (3, Repeats(1, 1))


def test_the_second_heating_counts_where_the_method_says_so(tmp_path: Path) -> None:
    """Then the first one conditions the piece; the third is shown and not averaged."""
    small = Small(tmp_path)
    small.write("methods/heat/1.yml", METHOD % ", heating: 2")
    for letter, first in (("A", 40.0), ("B", 50.0)):
        for day, more in enumerate((0.0, 4.0, 9.0), 1):
            small.run("tessvik", letter, table(first + more), date=f"2026-03-{day:02}")
    small.run("veldrun", "A", table(45.0))
    found = small.rise()
    figure = found.items[0].figure
    assert figure is not None
    assert figure.value == pytest.approx((44.0 + 54.0) / 2)
    assert [len(piece.runs) for piece in found.items[0].pieces] == [3, 3]
    # One heating only: it is not the one that counts.
    assert found.items[1].figure is None


def test_the_next_piece_and_most_pieces_of_five(pulls: Pulls) -> None:
    values = (300.0, 310.0, 320.0, 330.0, 340.0)
    pulled(pulls, "tessvik", *values)
    found = item(pulls.found(), "tessvik").ahead
    s = math.sqrt(250.0)
    assert found is not None
    # e-Handbook 7.1.4 and 7.2.6.3, the meter's part being next to nothing.
    assert found.next.high == pytest.approx(320 + t.ppf(0.975, 4) * s * math.sqrt(1.2), abs=0.01)
    assert found.next.low == pytest.approx(320 - t.ppf(0.975, 4) * s * math.sqrt(1.2), abs=0.01)
    factor = nct.ppf(0.95, 4, norm.ppf(0.9) * math.sqrt(5)) / math.sqrt(5)
    assert found.most is not None
    # Higher is better: the limit that most pieces lie above.
    assert found.most.side == "above"
    assert found.most.limit == pytest.approx(320 - factor * s, abs=0.01)


def test_the_next_piece_of_three_by_the_pooled_spread(pulls: Pulls) -> None:
    pulled(pulls, "tessvik", 300.0, 310.0, 320.0)
    pulled(pulls, "veldrun", 200.0, 240.0)
    finding = pulls.found()
    found = item(finding, "tessvik").ahead
    s = math.sqrt((200.0 + 800.0) / 3)
    assert found is not None
    assert found.most is None
    assert found.next.high == pytest.approx(310 + t.ppf(0.975, 3) * s * math.sqrt(4 / 3), abs=0.01)
    assert item(finding, "veldrun").ahead is None


def test_a_piece_that_stands_out_is_flagged_and_stays(pulls: Pulls) -> None:
    values = (300.0, 302.0, 301.0, 303.0, 302.0, 340.0)
    pulled(pulls, "tessvik", *values)
    found = item(pulls.found(), "tessvik")
    assert found.apart is not None
    assert (found.apart.specimen, found.apart.tested) == ("F", True)
    # Grubbs' two-sided limit for six: 1.8871 (published/grubbs-critical-5pct.csv).
    assert found.apart.critical == pytest.approx(1.8871, abs=1e-4)
    assert found.figure is not None
    assert found.figure.value == pytest.approx(sum(values) / 6)


def test_of_few_pieces_one_differs(pulls: Pulls) -> None:
    pulled(pulls, "tessvik", 300.0, 301.0, 330.0)
    pulled(pulls, "veldrun", 200.0, 201.0, 202.0)
    pulled(pulls, "okvarn", 100.0, 101.0, 102.0)
    finding = pulls.found()
    found = item(finding, "tessvik").apart
    assert found is not None
    assert (found.specimen, found.tested) == ("C", False)
    assert item(finding, "okvarn").apart is None


def test_an_item_that_scatters_more_is_named(pulls: Pulls) -> None:
    pulled(pulls, "tessvik", 300.0, 330.0, 360.0)
    pulled(pulls, "veldrun", 200.0, 201.0, 202.0)
    pulled(pulls, "okvarn", 100.0, 101.0, 102.0)
    report = pulls.finding()
    found = report.measure("pull").loosest
    assert found is not None
    assert found.item == "tessvik"
    assert (found.deviation, found.others) == pytest.approx((30.0, 1.0))
    data = report_as_data(report)["measures"]
    assert isinstance(data, list)
    assert data[0]["scatters_more"] == "tessvik"


def test_what_was_stopped_takes_no_part(tmp_path: Path) -> None:
    small = Small(tmp_path)
    for letter, rise in (("A", 40.0), ("B", 41.0), ("C", 60.0)):
        small.run("tessvik", letter, table(rise))
        small.run("veldrun", letter, table(rise / 2))
    small.run("tessvik", "D", table(40.0, last=">150.0"))
    found = small.rise()
    assert found.loosest is None
    assert (found.items[0].ahead, found.items[0].apart, found.items[0].repeats) == (None, None, None)


def test_a_declared_spread_says_where_it_is_from(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path, ", spread: {value: 12 N, origin: twelve pieces of 2024, freedom: 9}")
    pulls.pull("tessvik", "A", "300 N")
    spread = pulls.found().items[0].spread
    assert (spread.origin, spread.deviation, spread.dof) == ("declared", 12.0, 9.0)
    assert spread.declared_from == "twelve pieces of 2024"
