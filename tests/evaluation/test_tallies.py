"""Counts and checks: what is added, what is shown beside, and how little a few pieces say."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.counted import CheckFinding, CountFinding
from generator.evaluation.findings import ReportFinding
from tests.evaluation.lids import METHOD, Lids


@pytest.fixture
def lids(tmp_path: Path) -> Lids:
    return Lids(tmp_path)


def opened(finding: ReportFinding) -> CountFinding:
    (found,) = finding.counts
    return found


def by_hand(finding: ReportFinding) -> CheckFinding:
    (found,) = finding.checks
    return found


def test_trials_are_added_over_pieces_and_pieces_are_counted_apart(lids: Lids) -> None:
    for letter, count in (("A", "0 of 50"), ("B", "2 of 50"), ("C", "0 of 50")):
        lids.look("tessvik", letter, f"counts: {{opened: {count}}}")
    found = opened(lids.finding())
    (item,) = found.items
    assert (found.what, found.better, found.method) == (
        "openings after which the lid did not hold",
        "lower",
        "open",
    )
    assert item.trials is not None
    assert item.affected is not None
    assert (item.n, item.trials.k, item.trials.n) == (3, 2, 150)
    assert (item.affected.k, item.affected.n) == (1, 3)
    # Clopper and Pearson: 1 of 3 is 0.84 to 90.57 %; three pieces say little, 150 openings more.
    assert (item.affected.low, item.affected.high) == pytest.approx((0.00840376, 0.90570068), abs=1e-8)
    assert item.trials.high < 0.05


def test_none_has_an_upper_end(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 0 of 50}")
    (item,) = opened(lids.finding()).items
    assert item.trials is not None
    # 1 − 0.025^(1/50) = 7.1 %.
    assert (item.trials.low, round(item.trials.high, 3)) == (0.0, 0.071)


def test_an_older_stock_is_shown_and_not_added(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 5 of 50}")
    lids.look("tessvik", "B", "counts: {opened: 0 of 50}", day=2)
    (item,) = opened(lids.finding(tessvik_B="new")).items
    assert item.trials is not None
    assert (item.stock, item.n, item.trials.k, item.trials.n) == ("new", 1, 0, 50)
    assert [(piece.specimen, piece.stock, piece.runs[0].k) for piece in item.pieces] == [
        ("A", "", 5),
        ("B", "new", 0),
    ]


def test_a_version_that_does_not_agree_stands_beside(lids: Lids) -> None:
    lids.write(
        "methods/open/2.yml",
        (METHOD % "no").replace("measures:", "changes: A colder room.\nmeasures:"),
    )
    lids.look("tessvik", "A", "counts: {opened: 5 of 50}")
    lids.look("tessvik", "A", "counts: {opened: 1 of 50}", day=2, version=2)
    found = opened(lids.finding())
    (item,) = found.items
    assert found.versions == (1, 2)
    assert item.trials is not None
    assert (item.trials.k, item.trials.n) == (1, 50)
    assert [(run.k, run.beside) for run in item.pieces[0].runs] == [(5, True), (1, False)]


@pytest.mark.parametrize(
    ("good", "against"), [("no", (1, 2)), ("yes", (1, 2))], ids=["no is hoped for", "yes is hoped for"]
)
def test_answers_by_piece(lids: Lids, good: str, against: tuple[int, int]) -> None:
    lids.write("methods/open/1.yml", METHOD % good)
    for letter, answer in (("A", "yes"), ("B", "no"), ("C", "could not tell")):
        lids.look("tessvik", letter, f'observations: [{{check: by-hand, answer: "{answer}"}}]')
    found = by_hand(lids.finding())
    (item,) = found.items
    assert (found.question, found.good) == ("Does it open by hand when hot?", good)
    assert item.answers == (("A", "yes"), ("B", "no"), ("C", "could not tell"))
    assert item.against is not None
    assert (item.against.k, item.against.n) == against


def test_what_was_seen_and_its_photo_are_kept(lids: Lids) -> None:
    lids.look(
        "tessvik",
        "A",
        'observations: [{check: by-hand, answer: "yes", note: it slid}]',
    )
    (item,) = by_hand(lids.finding()).items
    (run,) = item.pieces[0].runs
    assert (run.date, run.answer, run.note, run.photo) == ("2026-03-01", "yes", "it slid", "")


@pytest.mark.parametrize(
    ("answers", "together"),
    [
        (("yes", "yes"), "yes"),
        (("no", "could not tell"), "no"),
        (("could not tell", "could not tell"), "could not tell"),
        (("yes", "no"), "differs"),
    ],
)
def test_a_piece_that_was_asked_twice(lids: Lids, answers: tuple[str, str], together: str) -> None:
    for day, answer in enumerate(answers, 1):
        lids.look("tessvik", "A", f'observations: [{{check: by-hand, answer: "{answer}"}}]', day=day)
    (item,) = by_hand(lids.finding()).items
    assert item.answers == (("A", together),)
    assert (item.against is None) == (together in {"differs", "could not tell"})


def test_a_report_may_count_and_ask_without_a_figure(lids: Lids) -> None:
    lids.look("veldrun", "A", "counts: {opened: 0 of 10}", 'observations: [{check: by-hand, answer: "no"}]')
    lids.look("tessvik", "A", "counts: {opened: 1 of 10}", 'observations: [{check: by-hand, answer: "yes"}]')
    finding = lids.finding()
    assert finding.measures == ()
    assert [each.item for each in opened(finding).items] == [each.item for each in by_hand(finding).items]
    data = report_as_data(finding)
    assert data["counts"] == [
        {
            "measure": "opened",
            "what": "openings after which the lid did not hold",
            "method": "open",
            "versions": [1],
            "better": "lower",
            "items": [
                {
                    "item": each.item,
                    "stock": None,
                    "n": 1,
                    "trials": {"k": each.trials.k, "n": 10, "interval": [each.trials.low, each.trials.high]},
                    "specimens": {
                        "k": each.affected.k,
                        "n": 1,
                        "interval": [each.affected.low, each.affected.high],
                    },
                }
                for each in opened(finding).items
                if each.trials is not None
                if each.affected is not None
            ],
        }
    ]
    checks = data["checks"]
    assert isinstance(checks, list)
    assert {each["item"]: each["answers"] for each in checks[0]["items"]} == {
        "veldrun": {"A": "no"},
        "tessvik": {"A": "yes"},
    }
