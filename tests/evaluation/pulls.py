"""A small bench of pulls on disk: one quantity a run, typed as a value or as readings without time."""

from __future__ import annotations

import textwrap
from pathlib import Path

from generator.evaluation.findings import MeasureFinding
from tests.evaluation.small import Small

SCALE = """\
name: spring scale
ranges:
  - {quantity: force, from: 0 N, to: 500 N, accuracy: "±(1 % + 2 N)", resolution: 2 N, repeatability: 1 N}
calibrated: never
"""
METHOD = """\
title: Pull-out force
hazard: [mechanical]
conditions: {conductor: 4 mm2 class 5}
measures:
  - {id: pull, kind: scalar, quantity: force, better: higher%s}
cannot-show: [vibration]
"""
REPORT = """\
question: Which holds its cable best?
initiative: own
main: pull
measures: [pull]
items: [%s]
controls: [%s]
runs: all
"""


class Pulls(Small):
    """A bench of pull-out runs, to be filled and evaluated."""

    def __init__(self, root: Path, more: str = "") -> None:
        super().__init__(root)
        self.report = REPORT
        self.write("instruments/scale.yml", SCALE)
        self.method(METHOD % more)

    def method(self, text: str, version: int = 1) -> None:
        """Write a version of the method."""
        self.write(f"methods/pull-out/{version}.yml", text)

    def pull(
        self, item: str, specimen: str, value: str, *, more: str = "", termination: int = 0, version: int = 1
    ) -> None:
        """One run of a piece: a value with its unit, or a table of readings."""
        self.count += 1
        name = f"run-{self.count:03}"
        whose = "control: cable" if item == "control" else f"item: {item}\nspecimen: {specimen}"
        if item == "control":
            self.controls.append(name)
        else:
            self.items.setdefault(item, set()).add(specimen)
        table = "\n" in value
        lines = [
            f"method: pull-out/{version}",
            whose,
            "date: 2026-03-10",
            f"instruments: {{{value.split(maxsplit=1)[0] if table else 'force'}: scale}}",
            *([f"termination: {{number: {termination}}}"] if termination else []),
            f"readings: |\n{textwrap.indent(value, '  ')}" if table else f"values: {{pull: {value}}}",
        ]
        self.write(f"r/runs/{name}.yml", "\n".join(lines) + "\n" + more)

    def found(self, **stocks: str) -> MeasureFinding:
        """The finding of the pull."""
        return self.finding(**stocks).measure("pull")
