"""What a meter states, in the budget of a figure."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.evaluation.findings import RunFinding
from tests.evaluation.small import Small, table

HANDBOOK = """\
name: clamp meter
ranges:
  - {quantity: current, from: 0 A, to: 60 A, accuracy: "±(2.5 % + 5 digits)", resolution: 0.01 A}
calibrated: never
"""


def run_of(small: Small) -> RunFinding:
    return small.rise().items[0].pieces[0].runs[0]


def test_the_stated_error_of_a_clamp_in_a_rise(tmp_path: Path) -> None:
    # Common practice for "% + digits": 30.0 A, ± (2.5 % + 5 digits of 0.01 A) is ± 0.80 A; of a rise in
    # proportion to the square of the current that is ± 2 · 0.80/30 = 5.3 %.
    small = Small(tmp_path)
    small.write("instruments/clamp.yml", HANDBOOK)
    small.run("kelda", "A", table(40.0, current="30.00"))
    run = run_of(small)
    assert run.budget is not None
    widths = {
        part: math.sqrt(3)
        * math.hypot(
            *(row.contribution for row in run.budget.rows if row.label.startswith(f"clamp: {part},"))
        )
        for part in ("gain", "offset")
    }
    assert widths["gain"] == pytest.approx(40.0 * 2 * 0.75 / 30)
    assert widths["offset"] == pytest.approx(40.0 * 2 * 0.05 / 30)
    assert sum(widths.values()) / 40.0 == pytest.approx(0.053, abs=0.0005)


def test_a_range_s_own_last_digit_counts_not_the_one_that_was_written(tmp_path: Path) -> None:
    small = Small(tmp_path)
    small.write("instruments/clamp.yml", HANDBOOK)
    small.run("kelda", "A", table(40.0, current="30.0"))
    assert run_of(small).budget is not None
    offset = [row for row in run_of(small).budget.rows if "clamp: offset, common" in row.label]  # type: ignore[union-attr]
    whole = 5 * 0.01 / math.sqrt(3)
    assert offset[0].standard_uncertainty == pytest.approx(whole * math.sqrt(1 - 0.25**2))


def test_a_rise_goes_to_the_set_current_by_its_square(tmp_path: Path) -> None:
    small = Small(tmp_path)
    small.run("kelda", "A", table(40.0, current="29.9"))
    run = run_of(small)
    assert run.figure is not None
    assert run.figure.value == pytest.approx(40.0 * (30 / 29.9) ** 2)
    assert run.correction == pytest.approx(40.0 * ((30 / 29.9) ** 2 - 1))
