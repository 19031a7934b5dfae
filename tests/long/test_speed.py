"""How long the evaluation of a report takes: `pytest tests/long/test_speed.py -s` tells the figures.

No time is held against a limit: it is told beside that of plain arithmetic in the same process, and what is
held is that the work grows with the runs and not faster.
"""

from __future__ import annotations

import cProfile
import math
import pstats
import sys
from collections.abc import Callable
from pathlib import Path
from time import process_time

import pytest

from generator.evaluation.report import evaluate
from generator.records.bench import Bench, load
from tests.evaluation.small import METHOD, Small

TIMES = (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)
STATED = (
    (METHOD % "")
    .replace("schedule: 0 30 60 min", f"schedule: {' '.join(map(str, TIMES))} min")
    .replace(", settled: {over: 60 min}", "")
)
PIECES = "ABCD"


def bench_of(folder: Path, items: int) -> Bench:
    """A bench of four pieces of each item, thirteen readings a run, each a little other than the next."""
    small = Small(folder)
    small.write("methods/heat/1.yml", STATED)
    for item in range(items):
        for number, piece in enumerate(PIECES):
            rows = ["time min | temperature@body degC | ambient degC | current A"]
            for place, minute in enumerate(TIMES):
                air = 20.0 + 0.1 * ((place + number) % 3)
                rise = (40.0 + item + 0.4 * number) * -math.expm1(-minute / (9.0 + 0.3 * item))
                rows.append(f"{minute} | {air + rise:.1f} | {air:.1f} | {30.0 + 0.1 * (place % 2):.1f}")
            small.run(f"item-{item}", piece, "\n".join(rows))
    small.finish()
    return load(folder)


def least(work: Callable[[], object], times: int) -> float:
    """The least processor time of several goes, s."""
    taken = []
    for _ in range(times):
        before = process_time()
        work()
        taken.append(process_time() - before)
    return min(taken)


def plain() -> float:
    """A piece of plain arithmetic, a hundred thousand sums into a thousand places."""
    sums = dict.fromkeys(range(1000), 0.0)
    for number in range(100_000):
        sums[number % 1000] += 0.5 * number
    return math.fsum(sums.values())


def calls(bench: Bench) -> int:
    """Functions called by one evaluation: the same on every machine."""
    profile = cProfile.Profile()
    profile.runcall(evaluate, bench, bench.reports["r"])
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_twenty_four_runs_of_thirteen_readings(tmp_path: Path) -> None:
    few, many = bench_of(tmp_path / "few", 3), bench_of(tmp_path / "many", 6)
    report = many.reports["r"]
    evaluate(few, few.reports["r"])
    finding = evaluate(many, report)
    runs = [run for item in finding.measure("rise").items for piece in item.pieces for run in piece.runs]
    assert [len(run.readings) for run in runs] == [13] * 24
    assert all(run.figure is not None for run in runs)
    taken, beside = least(lambda: evaluate(many, report), 20), least(plain, 20)
    sys.stdout.write(
        f"\n24 runs of 13 readings: {1000 * taken:.0f} ms, {taken / beside:.2f} times the"
        f" {1000 * beside:.1f} ms of plain arithmetic; {calls(many)} calls, of 12 runs {calls(few)}\n"
    )
    # Pairs grow with the square of the items, from 3 to 15; all else with the runs.
    assert calls(many) == pytest.approx(2 * calls(few), rel=0.2)
