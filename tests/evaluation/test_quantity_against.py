"""The most and the least of a quantity: each outcome by each rule, piece by piece, and out of range."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.findings import ItemFinding
from generator.evaluation.statements import LimitFinding
from tests.evaluation.pulls import METHOD, Pulls

LIMIT = "limits:\n  - {kind: %s, measure: pull, value: 200 N, standing: reviewer's own, source: my own%s}\n"


@pytest.fixture
def pulls(tmp_path: Path) -> Pulls:
    return Pulls(tmp_path)


def against(pulls: Pulls, kind: str, more: str = "") -> ItemFinding:
    pulls.report += LIMIT % (kind, more)
    return pulls.found().items[0]


def only(item: ItemFinding) -> LimitFinding:
    (found,) = item.limits
    return found


# The scale: ±(1 % + 2 N), 4 N at 200 N, with its step and repeatability U ≈ 4.3 N.
@pytest.mark.parametrize(
    ("kind", "value", "outcome", "probable"),
    [
        ("at least", "240 N", "within", (0.999, 1.0)),
        ("at least", "160 N", "beyond", (0.0, 0.001)),
        ("at least", "201 N", "undecided", (0.5, 0.8)),
        ("at most", "160 N", "within", (0.999, 1.0)),
        ("at most", "240 N", "beyond", (0.0, 0.001)),
        ("at most", "201 N", "undecided", (0.2, 0.5)),
    ],
)
def test_each_outcome_in_each_direction(
    pulls: Pulls, kind: str, value: str, outcome: str, probable: tuple[float, float]
) -> None:
    pulls.pull("tessvik", "A", value)
    found = only(against(pulls, kind))
    (piece,) = found.pieces
    assert (found.kind, found.limit, found.outcome, piece.outcome) == (kind, 200.0, outcome, outcome)
    assert piece.probability is not None
    low, high = probable
    assert low <= piece.probability <= high


@pytest.mark.parametrize(
    ("rule", "kind", "value", "said"),
    [
        ("four outcomes", "at least", "202 N", ("undecided", "within")),
        ("four outcomes", "at least", "198 N", ("undecided", "beyond")),
        ("four outcomes", "at most", "202 N", ("undecided", "beyond")),
        ("four outcomes", "at most", "198 N", ("undecided", "within")),
        ("four outcomes", "at least", "240 N", ("within", None)),
        ("simple", "at least", "201 N", ("within", None)),
        ("simple", "at least", "199 N", ("beyond", None)),
        ("simple", "at most", "201 N", ("beyond", None)),
    ],
)
def test_the_rule_decides_on_either_side(
    pulls: Pulls, rule: str, kind: str, value: str, said: tuple[str, str | None]
) -> None:
    pulls.method((METHOD % "").replace("measures:", f"rule: {rule}\nmeasures:"))
    pulls.pull("tessvik", "A", value)
    found = only(against(pulls, kind))
    assert ((found.outcome, found.leaning), found.rule) == (said, rule)


def test_all_within_leaves_open_how_many_are_beyond_and_one_beyond_decides(pulls: Pulls) -> None:
    for letter in "ABC":
        pulls.pull("tessvik", letter, "240 N")
    for letter, value in (("A", "500 N"), ("B", "500 N"), ("C", "150 N")):
        pulls.pull("veldrun", letter, value)
    pulls.report += LIMIT % ("at least", "")
    first, second = pulls.found().items
    # 0 of 3: 1 − 0.025^(1/3).
    assert only(first).share_beyond == pytest.approx(0.7076, abs=1e-4)
    # Its mean of 383 N would keep the limit; one piece does not.
    assert (only(second).outcome, only(second).share_beyond) == ("beyond", None)


@pytest.mark.parametrize(
    ("kind", "bound", "outcome"),
    [
        ("at least", "over 500 N", "within"),
        ("at most", "over 500 N", "beyond"),
        ("at least", "over 150 N", "undecided"),
        ("at most", "over 150 N", "undecided"),
        ("at least", "under 20 N", "beyond"),
        ("at most", "under 20 N", "within"),
        ("at least", "over 201 N", "undecided"),
    ],
)
def test_out_of_range_decides_where_the_range_ends_past_the_limit(
    pulls: Pulls, kind: str, bound: str, outcome: str
) -> None:
    pulls.pull("tessvik", "A", bound)
    item = against(pulls, kind)
    assert item.figure is None
    (piece,) = only(item).pieces
    assert (piece.outcome, piece.probability) == (outcome, None)


def test_a_piece_stands_by_the_mean_of_its_runs(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "190 N", termination=1)
    pulls.pull("tessvik", "A", "450 N", termination=2)
    (piece,) = only(against(pulls, "at least")).pieces
    assert piece.value == pytest.approx(320.0)
    # Two terminations that far apart leave the mean of all of them open.
    assert piece.outcome == "undecided"


def test_a_piece_that_stopped_is_never_within(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "240 N", more="stopped: {at: 1 min, because: part failed}\n")
    assert only(against(pulls, "at least")).outcome == "stopped"


def test_outside_its_condition_nothing_is_said_and_why(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "240 N")
    pulls.report += LIMIT % ("at least", ", condition: {conductor: 6 mm2 class 5}")
    found = pulls.found()
    assert found.items[0].limits == ()
    (unheld,) = found.not_held
    (misfit,) = unheld.misfits
    assert (misfit.asked, misfit.measured) == ("6 mm2 class 5", "4 mm2 class 5")


def test_programs_are_told(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "240 N")
    pulls.report += LIMIT % ("at least", "")
    data = report_as_data(pulls.finding())
    measures = data["measures"]
    assert isinstance(measures, list)
    (limit,) = measures[0]["figures"][0]["limits"]
    assert (limit["kind"], limit["limit"], limit["outcome"]) == ("at least", 200.0, "within")
    assert limit["specimens"][0]["outcome"] == "within"
