"""What no part can have felt, and what looks odd and may be so; the faults' words stand in bad/."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.rules.heat import GRAM_OF_PLASTIC, LEAST_JUMP
from tests.records.laid import REPORT, RUN, changed, good, laid, whats

HEAD = """method: closed-box-heating/2
item: okvarn-ih30
specimen: A
date: 2026-03-12
instruments: {temperature@body: logger-1/CH3, ambient: logger-1/CH1, current: clamp-2, drop: meter-1}
conditions: {air-measured: beside the box}
readings: |
  time min | temperature@body degC | ambient degC | current A | drop mV
"""
LAST = "  60 | 130 | 21 | 30.0 | 40.0\n"


def faults(folder: Path, *rows: str, head: str = HEAD) -> list[str]:
    text = head + "".join(f"  {row}\n" for row in rows) + LAST
    return whats(laid(folder, {f"{REPORT}/runs/extra.yml": text}).faults)


def test_the_heat_of_a_gram_is_the_bound(tmp_path: Path) -> None:
    # 30 A and 40 mV are 1.2 W: 0.8 K/s in 1.5 J/K, so 96 K in two minutes (common practice, no source).
    assert pytest.approx(96.0) == 120.0 * 30.0 * 0.040 / GRAM_OF_PLASTIC
    (tmp_path / "a").mkdir()
    assert faults(tmp_path / "a", "0 | 21 | 21 | 30.0 | 40.0", "2 | 116 | 21 | 30.0 | 40.0") == []
    told = faults(tmp_path, "0 | 21 | 21 | 30.0 | 40.0", "2 | 118 | 21 | 30.0 | 40.0")
    assert len(told) == 1
    assert "97 K in 120 s, and 1.2 W of current and drop" in told[0]


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        (
            ("0 | 21 | 21 | 30.0 | 10.0", "2 | 68 | 21 | 30.0 | 10.0"),
            "a step below the least that is looked at",
        ),
        (
            ("0 | 21 | 21 | 30.0 | 10.0", "2 | 130 | 21 | 30.0 | 90.0"),
            "the drop had grown by the second reading",
        ),
        (("0 | 21 | 21 | 30.0 | 10.0", "2 | 130 | 21 | 30.0 |"), "the drop was not read"),
        (("0 | 21 | 21 |      | 10.0", "2 | 130 | 21 | 30.0 | 10.0"), "the current was not read"),
        (("0 | 21 | 21 | 30.0 | 10.0", "2 | >130 | 21 | 30.0 | 10.0"), "over range is no value"),
        (("0 | 21 | 21 | 30.0 | 10.0", "2 | 130 | 100 | 30.0 | 10.0"), "the air itself grew hot"),
        (("0 | 21 | 21 | 30.0 | 10.0", "2 | 130 | 21 | 30.0 | 10.0 ! a slip"), "the row is excluded"),
        (("0 | 131 | 21 | 30.0 | 10.0", "2 | 21 | 21 | 30.0 | 10.0"), "it cooled, as after a pause"),
    ],
)
def test_what_may_be_so(tmp_path: Path, rows: tuple[str, ...], why: str) -> None:
    assert LEAST_JUMP > 68 - 21
    assert faults(tmp_path, *rows) == [], why


def test_in_an_overload_test_the_cable_may_heat_the_part(tmp_path: Path) -> None:
    method = "methods/closed-box-heating/2.yml"
    run = HEAD + "  0 | 21 | 21 | 30.0 | 10.0\n  2 | 130 | 21 | 30.0 | 10.0\n" + LAST
    files: dict[str, str | None] = {f"{REPORT}/runs/extra.yml": run}
    (tmp_path / "a").mkdir()
    assert len(laid(tmp_path / "a", files).faults) == 1
    files[method] = good(method, ("[extra-low voltage]", "[extra-low voltage, overload]"))
    assert laid(tmp_path, files).faults == ()


def test_a_control_is_not_looked_at(tmp_path: Path) -> None:
    head = HEAD.replace("item: okvarn-ih30\nspecimen: A\n", "control: unbroken-cable\n")
    assert faults(tmp_path, "0 | 21 | 21 | 30.0 | 1.0", "2 | 130 | 21 | 30.0 | 1.0", head=head) == []


@pytest.mark.parametrize(("cell", "fine"), [("999", True), ("1001", False), (">1001", True)])
def test_hotter_than_molten(tmp_path: Path, cell: str, fine: bool) -> None:
    wide = good("instruments/logger-1.yml", ("to: 200 degC", "to: 1300 degC"))
    run = good(RUN, ("| 62.6 ", f"| {cell} "), ("| 41.3", "|"))
    told = whats(laid(tmp_path, {"instruments/logger-1.yml": wide, RUN: run}).faults)
    assert ([each.split(",")[0] for each in told] == []) is fine


def test_an_excluded_row_may_be_hotter(tmp_path: Path) -> None:
    wide = good("instruments/logger-1.yml", ("to: 200 degC", "to: 1300 degC"))
    run = good(RUN, ("| 60.8 ", "| 1060.8 "))
    assert laid(tmp_path, {"instruments/logger-1.yml": wide, RUN: run}).faults == ()


def test_degrees_fahrenheit_are_converted_first(tmp_path: Path) -> None:
    wide = good("instruments/logger-1.yml", ("to: 200 degC", "to: 1300 degC"))
    text = HEAD.replace("temperature@body degC", "temperature@body degF")
    run = f"{text}  0 | 70 | 21 | 30.0 | 40.0\n  60 | 1800 | 21 | 30.0 | 40.0\n"
    files: dict[str, str | None] = {"instruments/logger-1.yml": wide, f"{REPORT}/runs/extra.yml": run}
    assert laid(tmp_path, files).faults == ()


def test_a_slip_of_the_point_in_a_run_that_was_fine(tmp_path: Path) -> None:
    told = changed(tmp_path, RUN, ("  10       | 49.2 ", "  2        | 149.2 ")).faults
    assert [(each.place.line, each.found) for each in told] == [(12, "149.2")]


def test_what_lies_past_the_meters_range_is_told_once(tmp_path: Path) -> None:
    told = changed(tmp_path, RUN, ("| 62.6 ", "| 1962.6")).faults
    assert [each.what.split(",")[0] for each in told] == ["above the range of 'logger-1'"]
