"""A small bench of drops on disk: pairs of readings, single ones, values, or the drops of heating runs."""

from __future__ import annotations

import textwrap
from pathlib import Path

from generator.evaluation.findings import MeasureFinding
from tests.evaluation.small import Small

METER = """\
name: bench meter
ranges:
  - {quantity: voltage, from: -200 mV, to: 200 mV, accuracy: "±(0.5 % + 0.05 mV)", resolution: 0.1 mV, repeatability: 0.05 mV}
  - {quantity: resistance, from: 0 ohm, to: 20 mohm, accuracy: "±(1 % + 0.02 mohm)", resolution: 0.01 mohm, repeatability: 0.01 mohm}
calibrated: never
"""  # noqa: E501
CLAMP = """\
name: clamp meter
ranges:
  - {quantity: current, from: -60 A, to: 60 A, accuracy: "±(1 % + 0.2 A)", resolution: 0.1 A, repeatability: 0.05 A}
calibrated: never
"""  # noqa: E501
THERMOMETER = """\
name: thermometer
ranges:
  - {quantity: temperature, from: -20 degC, to: 150 degC, accuracy: "±1 degC", resolution: 0.1 degC, repeatability: 0.1 degC}
calibrated: never
"""  # noqa: E501
METHOD = """\
title: Drop across a joint
hazard: [extra-low voltage]
conditions: {{current: {{value: 30 A, within: 5 %}}}}
measures:
  - {{id: {kind}, kind: {kind}, supply: {supply}, leads: {leads}{more}}}
cannot-show: [ageing]
"""
REPORT = """\
question: Which loses least?
initiative: own
main: {kind}
measures: [{kind}]
items: [%s]
controls: [%s]
runs: all
"""


class Drops(Small):
    """A bench of one electrical measure, to be filled and evaluated."""

    def __init__(
        self, root: Path, kind: str, *, leads: str = "none", more: str = "", supply: str = "dc"
    ) -> None:
        super().__init__(root)
        self.kind = kind
        self.report = REPORT.format(kind=kind)
        self.write("instruments/meter.yml", METER)
        self.write("instruments/clamp.yml", CLAMP)
        self.write("instruments/thermometer.yml", THERMOMETER)
        self.write(
            "methods/drop/1.yml",
            METHOD.format(kind=kind, leads=leads, supply=supply, more=f", {more}" if more else ""),
        )

    def read(
        self, item: str, specimen: str, read: str, *, conditions: str = "", more: str = "", date: str = ""
    ) -> None:
        """One run of a piece, or of a control: a value with its unit, or a table of readings."""
        self.count += 1
        name = f"run-{self.count:03}"
        whose = "control: cable" if item == "control" else f"item: {item}\nspecimen: {specimen}"
        if item == "control":
            self.controls.append(name)
        else:
            self.items.setdefault(item, set()).add(specimen)
        table = "\n" in read
        meters = {"drop": "meter", "resistance": "meter", "current": "clamp", "ambient": "thermometer"}
        said = read.split("\n", maxsplit=1)[0] + conditions
        used = [key for key in meters if key in said or (key == self.kind and not table)]
        lines = [
            "method: drop/1",
            whose,
            f"date: {date or '2026-03-10'}",
            f"instruments: {{{', '.join(f'{key}: {meters[key]}' for key in used)}}}",
            *([f"conditions: {{{conditions}}}"] if conditions else []),
            f"readings: |\n{textwrap.indent(read, '  ')}" if table else f"values: {{{self.kind}: {read}}}",
        ]
        self.write(f"r/runs/{name}.yml", "\n".join(lines) + "\n" + more)

    def found(self) -> MeasureFinding:
        """The finding of the measure."""
        return self.finding().measure(self.kind)
