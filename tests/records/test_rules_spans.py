from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.laid import RUN, changed, good, laid, whats


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        ("60.8", None),
        ("199.9", None),
        ("200.1", "above the range of 'logger-1', which ends at 200 degC: write >200"),
        (">200.0", None),
        ("-50.0", None),
        ("-50.1", "below the range of 'logger-1', which begins at -50 degC: write <-50"),
    ],
)
def test_a_reading_past_the_range(tmp_path: Path, cell: str, told: str | None) -> None:
    bench = changed(tmp_path, RUN, ("| 62.6 ", f"| {cell} "))
    assert [each.what for each in bench.faults] == ([told] if told else [])


def test_a_reading_at_the_very_end_of_the_range_may_have_been_clipped(tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, ("| 62.6 ", "| 200.0 "))
    assert bench.faults == ()
    assert whats(bench.doubts) == [
        "readings: the very end of the range of 'logger-1'; if it was over range, write >200.0"
    ]


def test_the_widest_of_several_ranges_counts(tmp_path: Path) -> None:
    name = "instruments/logger-1.yml"
    wider = "  - {quantity: temperature, to: 600 degC, accuracy: ±2 degC, resolution: 1 degC}\nprobes:"
    files: dict[str, str | None] = {
        name: good(name, ("probes:", wider)),
        RUN: good(RUN, ("| 62.6 ", "| 320 ")),
    }
    assert laid(tmp_path, files).faults == ()


def test_ranges_and_readings_may_have_other_units(tmp_path: Path) -> None:
    name = "instruments/meter-1.yml"
    assert changed(tmp_path / "fine", name, ("to: 200 mV", "to: 0.0413 V")).faults == ()
    assert len(changed(tmp_path / "not", name, ("to: 200 mV", "to: 0.0412 V")).faults) == 1
