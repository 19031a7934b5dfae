"""The noise of a run's readings, known without evaluating it, and the same from the evaluation."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.analysis.uncertainty import Ledger
from generator.evaluation.instruments import Indication, uncertain
from generator.evaluation.noises import resistance_noise, rise_noise
from generator.records.bench import Bench, load
from generator.records.run import Run
from tests.evaluation.small import Small, table

ONE = math.hypot(0.1 / math.sqrt(12), 0.1)
"""Of a reading with a resolution and a repeatability of 0.1 in its unit."""

METER = """\
name: bench meter
ranges:
  - {quantity: voltage, from: 0 V, to: 600 mV, accuracy: "±(0.5 % + 2 digits)", resolution: 0.1 mV, repeatability: 0.1 mV}
calibrated: never
"""  # noqa: E501
DROPS = """\
time min | temperature@body degC | ambient degC | current A | drop mV
0  | 20.0 | 20.0 | 30.0 | 38.0
30 | 52.0 | 20.1 | 30.0 | 41.0
60 | 56.0 | 20.2 | 30.0 | 42.0
"""


def bench_of(folder: Path, readings: str, more: str = "") -> tuple[Bench, Run]:
    small = Small(folder)
    small.write("instruments/meter.yml", METER)
    small.run("kelda", "A", readings, more=more)
    small.finish()
    path = folder / "reports/r/runs/run-001.yml"
    text = path.read_text(encoding="utf-8")
    if "drop" in readings:
        path.write_text(text.replace("current: clamp", "current: clamp, drop: meter"), encoding="utf-8")
    bench = load(folder)
    assert bench.faults == ()
    return bench, bench.runs["r/run-001"]


def test_a_rise_has_the_noise_of_both_of_its_probes(tmp_path: Path) -> None:
    bench, run = bench_of(tmp_path, table(36.0))
    assert rise_noise(bench, run, "body") == pytest.approx(ONE * math.sqrt(2))
    assert rise_noise(bench, run, "elsewhere") is None


def test_the_noise_is_that_of_the_evaluation(tmp_path: Path) -> None:
    bench, run = bench_of(tmp_path, DROPS)
    ledger = Ledger()

    def number(column: str, quantity: str, value: float) -> float:
        read = uncertain(ledger, bench, run, Indication(column, quantity, value, 0.1, 2))
        return math.hypot(
            *(each.contribution for each in ledger.components(read) if each.input.scope == "reading")
        )

    hot, air = number("temperature@body", "temperature", 56.0), number("ambient", "temperature", 20.2)
    assert rise_noise(bench, run, "body") == pytest.approx(math.hypot(hot, air), rel=1e-12)
    drop, current = number("drop", "voltage", 0.042), number("current", "current", 30.0)
    # ln R₂₀ = ln ΔV − ln I − ln(1 + α(T − 20 °C)), α = 0.003 /K.
    by_hand = math.hypot(drop / 0.042, current / 30.0, 0.003 * hot / (1 + 0.003 * 36))
    assert resistance_noise(bench, run, "body") == pytest.approx(by_hand, rel=1e-12)


def test_a_row_without_one_of_the_three_is_not_the_last(tmp_path: Path) -> None:
    bench, run = bench_of(tmp_path, DROPS.replace("| 42.0", "|"))
    hot = 0.003 * ONE / (1 + 0.003 * 32)
    assert resistance_noise(bench, run, "body") == pytest.approx(
        math.hypot(ONE * 1e-3 / 0.041, ONE / 30.0, hot), rel=1e-12
    )


def test_without_drops_nothing_is_said_of_the_resistance(tmp_path: Path) -> None:
    bench, run = bench_of(tmp_path, table(36.0))
    assert resistance_noise(bench, run, "body") is None


def test_air_read_once_by_hand_adds_no_noise(tmp_path: Path) -> None:
    readings = DROPS.replace(" | ambient degC", "").replace("| 20.0 | 30.0", "| 30.0")
    readings = readings.replace("| 20.1 ", "").replace("| 20.2 ", "")
    bench, run = bench_of(tmp_path, readings, "conditions: {ambient: 20.0 degC}\n")
    assert run.ambient_mode == "single value"
    assert rise_noise(bench, run, "body") == pytest.approx(ONE)
