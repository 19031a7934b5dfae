"""Methods that promise more than their schedule and the meters of their runs can hold."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.evaluation.checks import checked
from generator.fault import Doubt, count_line, in_order, message
from generator.records.bench import Bench, load
from tests.evaluation.small import METHOD, Small, table
from tests.evaluation.test_noises import DROPS, METER, ONE

COARSE = """\
name: pocket thermometer
ranges:
  - {quantity: temperature, from: -50 degC, to: 200 degC, accuracy: "±1 degC", resolution: 1 degC, repeatability: 0.5 degC}
calibrated: never
"""  # noqa: E501
SILENT = """\
name: thermometer that says nothing of its noise
ranges:
  - {quantity: temperature, from: -50 degC, to: 200 degC, accuracy: "±1 degC"}
calibrated: never
"""
HALF_HOUR = ", settled: {change: 2 K, over: 30 min}"


def method(stated: str, schedule: str = "0 30 60") -> str:
    whole = (METHOD % "@").replace(", settled: {over: 60 min}@", stated)
    return whole.replace("schedule: 0 30 60", f"schedule: {schedule}")


def bench_of(folder: Path, stated: str, *, drops: bool = False, probe: str = "logger/CH2") -> Bench:
    """A bench of one run, checked."""
    small = Small(folder)
    small.write("instruments/meter.yml", METER)
    small.write("instruments/pocket.yml", COARSE)
    small.write("instruments/silent.yml", SILENT)
    small.write("methods/heat/1.yml", stated)
    small.run("kelda", "A", DROPS if drops else table(36.0))
    small.finish()
    path = folder / "reports/r/runs/run-001.yml"
    text = path.read_text(encoding="utf-8").replace("logger/CH2", probe)
    if drops:
        text = text.replace("current: clamp", "current: clamp, drop: meter")
    path.write_text(text, encoding="utf-8")
    return checked(load(folder))


def told(bench: Bench) -> list[str]:
    """What a check tells of faults, to someone who stands in the bench."""
    texts = [message(each, bench.root) for each in bench.faults]
    return "\n".join([*texts, count_line(bench.faults, bench.left_out)]).splitlines()


def test_a_steady_meter_holds_what_the_method_promises(tmp_path: Path) -> None:
    bench = bench_of(tmp_path, method(HALF_HOUR))
    assert told(bench) == ["no faults"]
    assert bench == load(tmp_path)


def test_a_change_that_noise_reaches_is_refused(tmp_path: Path) -> None:
    # By hand: 1 K of resolution and 0.5 K of repeatability make a reading good to 0.577 K, its air is good to
    # 0.104 K: together 0.587 K. Two readings 30 min apart tell the change over 30 min to √2 · 0.587 = 0.83 K.
    bench = bench_of(tmp_path, method(HALF_HOUR), probe="pocket")
    assert told(bench) == [
        (
            "reports/methods/heat/1.yml:7:74: measures.1.settled.change: too small to be told from noise: the"
            " readings of the last 30 min give the change with a standard uncertainty of 0.83 K (0.59 K a"
            " reading in the run r/run-001); it needs four times that, found '2 K'"
        ),
        "    accepted: at least 3.4 K, a window with more readings, a steadier meter",
        "   7 | ... , at: 60 min, point: body, settled: {change: 2 K, over: 30 min}}",
        "     |                                                  ^",
        "1 fault; 1 record left out until mended",
    ]


def test_what_is_said_to_do_does(tmp_path: Path) -> None:
    for folder, change, faults in (("least", "3.4 K", 0), ("less", "3.3 K", 1), ("interval", "5.9 degF", 1)):
        stated = method(HALF_HOUR.replace("2 K", change))
        assert len(bench_of(tmp_path / folder, stated, probe="pocket").faults) == faults
    more = method(HALF_HOUR, f"0 {' '.join(map(str, range(30, 61, 2)))}")
    assert not bench_of(tmp_path / "more", more, probe="pocket").faults


def test_a_difference_in_fahrenheit_is_told_in_fahrenheit(tmp_path: Path) -> None:
    # 0.83 K are 1.5 °F as a difference; four times that are 5.98.
    bench = bench_of(tmp_path, method(HALF_HOUR.replace("2 K", "4 degF")), probe="pocket")
    assert "a standard uncertainty of 1.5 °F (1.1 °F a reading in the run r/run-001)" in bench.faults[0].what
    assert bench.faults[0].accepted[0] == "at least 6.0 °F"


def test_a_default_that_noise_reaches_is_refused_at_its_measure(tmp_path: Path) -> None:
    bench = bench_of(tmp_path, method(", settled: {over: 30 min}"), probe="pocket")
    assert bench.faults[0].what.startswith("2 K where left out: too small to be told from noise")
    assert bench.faults[0].path == "measures.1.settled.change"
    assert (bench.faults[0].place.line, bench.faults[0].found) == (7, None)


def test_an_allowance_that_noise_reaches_is_refused(tmp_path: Path) -> None:
    # By hand: the drop is good to 0.104 mV of 42.0 mV, 0.25 %; the current to 0.104 A of 30 A, 0.35 %; the
    # temperature to 0.104 K, 0.03 %: together 0.43 %. Two readings half an hour apart tell the slope to
    # √2 · 0.43 % / 0.5 h = 1.2 % an hour.
    bench = bench_of(tmp_path, method(HALF_HOUR + ", worsening: 2.0 % per hour"), drops=True)
    assert told(bench) == [
        (
            "reports/methods/heat/1.yml:7:105: measures.1.worsening: too small to be told from noise: the"
            " readings from 20 min on give the slope of the resistance with a standard uncertainty of 1.2 %"
            " per hour (0.43 % a reading in the run r/run-001); it needs twice that, found '2.0 % per hour'"
        ),
        "    accepted: at least 2.5 % per hour, more readings from 20 min on, a steadier meter",
        "   7 | ... settled: {change: 2 K, over: 30 min}, worsening: 2.0 % per hour}",
        "     |                                                      ^",
        "1 fault; 1 record left out until mended",
    ]
    by_hand = math.sqrt(2) * math.hypot(ONE * 1e-3 / 0.042, ONE / 30, 0.003 * ONE / (1 + 0.003 * 36)) / 0.5
    assert 2 * by_hand == pytest.approx(0.0242, abs=0.0001)


def test_an_allowance_is_held_against_runs_with_drops_alone(tmp_path: Path) -> None:
    assert not bench_of(tmp_path, method(HALF_HOUR + ", worsening: 0.1 % per hour")).faults


def test_drops_that_come_too_early_to_tell_anything_are_doubted(tmp_path: Path) -> None:
    bench = bench_of(tmp_path, method(", settled: {over: 60 min}", "0 10 60"), drops=True)
    assert told(bench) == ["no faults"]
    found = next(each for each in bench.doubts if each.path == "schedule")
    assert found.what == "fewer than two readings from 20 min on, so no run can tell a part that gets worse"
    assert found in in_order(bench.doubts)


def test_without_runs_or_a_stated_noise_nothing_is_said_of_them(tmp_path: Path) -> None:
    small = Small(tmp_path / "none")
    small.write("methods/heat/1.yml", method(HALF_HOUR.replace("2 K", "0.01 K")))
    assert not checked(load(tmp_path / "none")).faults
    stated = method(HALF_HOUR)
    bench = bench_of(tmp_path / "silent", stated, probe="silent")
    assert not bench.faults


def test_the_run_with_the_least_steady_meters_is_named_once(tmp_path: Path) -> None:
    small = Small(tmp_path)
    small.write("instruments/pocket.yml", COARSE)
    small.write("methods/heat/1.yml", method(HALF_HOUR))
    for specimen in "ABC":
        small.run("kelda", specimen, table(36.0))
    small.finish()
    for name in ("run-002", "run-003"):
        path = tmp_path / f"reports/r/runs/{name}.yml"
        path.write_text(path.read_text(encoding="utf-8").replace("logger/CH2", "pocket"), encoding="utf-8")
    bench = checked(load(tmp_path))
    assert len(bench.faults) == 1
    assert "in the run r/run-002)" in bench.faults[0].what


def test_they_stand_among_the_faults_of_the_records_in_order(tmp_path: Path) -> None:
    bench = bench_of(tmp_path, method(HALF_HOUR), probe="pocket")
    for name, text in (("items/zeta.yml", "colour: red\n"), ("bench.yml", "format: 1\n")):
        (tmp_path / "reports" / name).write_text(text, encoding="utf-8")
    both = checked(load(tmp_path))
    files = [each.place.file.name for each in both.faults]
    assert files == sorted(files, key=("bench.yml", "zeta.yml", "1.yml").index)
    assert "1.yml" in files
    assert both.faults == in_order(both.faults)
    assert both.left_out == len(set(files))
    assert len(bench.faults) == 1


def test_doubts_stay_doubts(tmp_path: Path) -> None:
    bench = bench_of(tmp_path, method(", settled: {over: 60 min}", "0 10 60"), drops=True)
    assert all(isinstance(each, Doubt) for each in bench.doubts)
    assert not any(isinstance(each, Doubt) for each in bench.faults)
