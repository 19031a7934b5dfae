"""Items that stopped stand behind those that completed: by share of their pieces, then by time."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.findings import MeasureFinding
from tests.evaluation.small import Small, table


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def stop(small: Small, item: str, letter: str, at: int) -> None:
    text = "\n".join(table(60.0).splitlines()[:2])
    small.run(item, letter, text, more=f"stopped: {{at: {at} min, because: smoke}}\n")


def stands(finding: MeasureFinding) -> dict[str, tuple[int, int] | None]:
    return {
        item.item: None if item.place is None else (item.place.first, item.place.last)
        for item in finding.items
    }


def test_by_share_then_by_time(small: Small) -> None:
    for letter in "AB":
        small.run("tessvik", letter, table(40.0))
        small.run("veldrun", letter, table(80.0))
    # One of two, late and early; two of two.
    small.run("okvarn", "A", table(40.0))
    stop(small, "okvarn", "B", 20)
    small.run("pallsto", "A", table(40.0))
    stop(small, "pallsto", "B", 25)
    stop(small, "grenlo", "A", 29)
    stop(small, "grenlo", "B", 29)
    assert stands(small.rise()) == {
        "tessvik": (1, 1),
        "veldrun": (2, 2),
        "pallsto": (3, 3),
        "okvarn": (4, 4),
        "grenlo": (5, 5),
    }


def test_alike_they_share_a_range(small: Small) -> None:
    for letter in "AB":
        small.run("tessvik", letter, table(40.0))
    stop(small, "okvarn", "A", 20)
    stop(small, "grenlo", "A", 20)
    finding = small.rise()
    assert stands(finding) == {"tessvik": (1, 1), "okvarn": (2, 3), "grenlo": (2, 3)}
    assert finding.items[0].place is not None
    assert finding.items[0].place.best


def test_over_range_is_as_stopped_and_never_within(small: Small) -> None:
    for letter in "AB":
        small.run("tessvik", letter, table(40.0))
    small.run("okvarn", "A", table(40.0))
    small.run("okvarn", "B", table(40.0, last=">150.0"))
    small.finish()
    limit = (
        "limits:\n  - {kind: rise, value: 60 K, point: body, standing: reviewer's own, source: the cable}\n"
    )
    report = small.root / "reports/r/report.yml"
    report.write_text(report.read_text(encoding="utf-8") + limit, encoding="utf-8")
    finding = small.evaluated().measure("rise")
    assert stands(finding) == {"tessvik": (1, 1), "okvarn": (2, 2)}
    assert finding.items[1].limits[0].pieces[1].outcome == "undecided"
    assert finding.items[1].limits[0].outcome == "undecided"


def test_a_single_piece_without_a_spread_has_no_place(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(60.0))
    assert stands(small.rise()) == {"tessvik": None, "veldrun": None}
