"""Drops, resistances and powers against the most and the least: by their side, and past a meter's range."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.statements import LimitFinding
from tests.evaluation.drops import Drops

LIMIT = "limits:\n  - {kind: %s, measure: %s, value: %s, standing: reviewer's own, source: my own}\n"
PAIR = "drop mV | current A\n%s | 30.0\n-%s | -30.0"
OUT = "drop mV | current A\n%s | 30.0\n%s | -30.0"


def against(drops: Drops, kind: str, value: str) -> LimitFinding:
    drops.report += LIMIT % (kind, drops.kind, value)
    (found,) = drops.found().items[0].limits
    return found


# 15 mV at 30 A are 0.5 mΩ and 0.45 W; U of such a drop is some 0.2 mV.
@pytest.mark.parametrize(
    ("kind", "value"), [("drop", "15 mV"), ("resistance", "0.5 mohm"), ("power", "450 mW")]
)
@pytest.mark.parametrize(
    ("read", "outcomes"),
    [
        ("14.0", ("within", "beyond")),
        ("16.0", ("beyond", "within")),
        ("15.1", ("undecided", "undecided")),
    ],
)
def test_each_outcome_of_each_kind(
    tmp_path: Path, kind: str, value: str, read: str, outcomes: tuple[str, str]
) -> None:
    for side, outcome in zip(("at most", "at least"), outcomes, strict=True):
        drops = Drops(tmp_path / side.replace(" ", "-"), kind)
        drops.read("lug", "A", PAIR % (read, read))
        found = against(drops, side, value)
        (piece,) = found.pieces
        assert (found.outcome, piece.outcome) == (outcome, outcome)
        assert piece.probability is not None
        if read == "15.1":
            assert (piece.probability < 0.5) == (side == "at most")


@pytest.mark.parametrize(
    ("rule", "read", "said"),
    [
        ("four outcomes", "15.1", ("undecided", "beyond")),
        ("four outcomes", "14.9", ("undecided", "within")),
        ("simple", "15.1", ("beyond", None)),
        ("simple", "14.9", ("within", None)),
    ],
)
def test_the_methods_rule_decides(tmp_path: Path, rule: str, read: str, said: tuple[str, str | None]) -> None:
    drops = Drops(tmp_path, "drop")
    path = tmp_path / "reports/methods/drop/1.yml"
    path.write_text(path.read_text() + f"rule: {rule}\n")
    drops.read("lug", "A", PAIR % (read, read))
    found = against(drops, "at most", "15 mV")
    assert (found.outcome, found.leaning) == said


def test_one_piece_beyond_decides_whatever_the_mean(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "drop")
    for letter, read in zip("ABC", ("12.0", "12.1", "16.0"), strict=True):
        drops.read("lug", letter, PAIR % (read, read))
    found = against(drops, "at most", "15 mV")
    assert [piece.outcome for piece in found.pieces] == ["within", "within", "beyond"]
    assert (found.outcome, found.share_beyond) == ("beyond", None)


@pytest.mark.parametrize(
    ("read", "kind", "outcome"),
    [
        ("drop mV | current A\n>200 | 30.0", "at most", "beyond"),
        ("drop mV | current A\n>200 | 30.0", "at least", "within"),
        # The other way round it is over the range below −200 mV.
        (OUT % (">200", "<-200"), "at most", "beyond"),
        (OUT % ("<10", ">-10"), "at most", "within"),
        (OUT % ("<10", ">-10"), "at least", "beyond"),
        # One way only: nothing says what their mean lies past.
        (OUT % (">200", "-190"), "at most", "undecided"),
        # How large the current was is not known, or was not the method's.
        ("drop mV | current A\n>200 | >60", "at most", "undecided"),
        ("drop mV | current A\n>200 | 20.0", "at most", "undecided"),
        # It ends short of the limit.
        ("drop mV | current A\n>12 | 30.0", "at most", "undecided"),
    ],
)
def test_past_a_meters_range(tmp_path: Path, read: str, kind: str, outcome: str) -> None:
    drops = Drops(tmp_path, "drop")
    drops.read("lug", "A", read)
    found = against(drops, kind, "15 mV")
    (piece,) = found.pieces
    assert (piece.outcome, piece.probability) == (outcome, None)


def test_past_the_range_the_lead_is_taken_off_too(tmp_path: Path) -> None:
    """Of 200 mV at 30 A some 14 mV lie on 100 mm of 4 mm²: 190 mV are not exceeded for sure."""
    leads = "{length: 100 mm, within: 3 mm, conductor: 4 mm2 class 5}"
    bare, with_lead = Drops(tmp_path / "a", "drop"), Drops(tmp_path / "b", "drop", leads=leads)
    for drops, outcome in ((bare, "beyond"), (with_lead, "undecided")):
        drops.read("lug", "A", "drop mV | current A\n>200 | 30.0")
        assert against(drops, "at most", "190 mV").outcome == outcome


def test_a_value_past_the_range(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "resistance")
    drops.read("lug", "A", "over 20 mohm")
    assert against(drops, "at most", "0.5 mohm").outcome == "beyond"


def test_programs_are_told_in_volts(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "drop")
    drops.read("lug", "A", PAIR % ("14.0", "14.0"))
    drops.report += LIMIT % ("at most", "drop", "15 mV")
    measures = report_as_data(drops.finding())["measures"]
    assert isinstance(measures, list)
    (limit,) = measures[0]["figures"][0]["limits"]
    assert (limit["kind"], limit["limit"], limit["outcome"]) == ("at most", pytest.approx(0.015), "within")
    assert limit["specimens"][0]["value"] == pytest.approx(0.014)
