"""A point that reads low by nothing is doubted where a probe touches it, not where a camera sees it."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.bench import load
from tests.evaluation.small import Small, table

CAMERA = """\
name: camera
ranges:
  - {quantity: temperature, from: -20 degC, to: 150 degC, accuracy: "±2 degC", resolution: 0.1 degC, repeatability: 0.1 degC}
infrared: {reflected: set}
calibrated: never
"""  # noqa: E501


def doubts(bench: Small) -> list[str]:
    bench.finish()
    return [each.path for each in load(bench.root).doubts if "leads heat away" in each.what]


@pytest.mark.parametrize(("by", "doubted"), [("logger/CH2", True), ("camera", False), ("", True)])
def test_what_no_probe_touches_is_not_doubted(tmp_path: Path, by: str, doubted: bool) -> None:
    bench = Small(tmp_path)
    bench.write("instruments/camera.yml", CAMERA)
    if by:
        bench.run("part", "A", table(40.0))
        run = tmp_path / "reports/r/runs/run-001.yml"
        run.write_text(run.read_text().replace("body: logger/CH2", f"body: {by}"))
    assert doubts(bench) == (["points.body.reads-low-by-at-most"] if doubted else [])


def test_one_probe_among_cameras_is_enough(tmp_path: Path) -> None:
    bench = Small(tmp_path)
    bench.write("instruments/camera.yml", CAMERA)
    for letter in "AB":
        bench.run("part", letter, table(40.0))
    run = tmp_path / "reports/r/runs/run-001.yml"
    run.write_text(run.read_text().replace("body: logger/CH2", "body: camera"))
    assert doubts(bench) == ["points.body.reads-low-by-at-most"]
