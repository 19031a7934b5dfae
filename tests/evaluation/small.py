"""A small bench on disk, so that a test shows its whole input on one screen."""

from __future__ import annotations

import textwrap
from pathlib import Path

from generator.evaluation.findings import MeasureFinding, ReportFinding
from generator.evaluation.report import evaluate
from generator.records.bench import load

LOGGER = """\
name: four-channel logger
ranges:
  - {quantity: temperature, from: -50 degC, to: 200 degC, accuracy: "±(0.5 % + 0.5 degC)", resolution: 0.1 degC, repeatability: 0.1 degC}
probes: {k1: type K class 1, k2: type K class 1, k3: type K class 1}
channels: {CH1: k1, CH2: k2, CH3: k3}
calibrated: never
"""  # noqa: E501
CLAMP = """\
name: clamp meter
ranges:
  - {quantity: current, from: 0 A, to: 60 A, accuracy: "±(1.5 % + 3 digits)", resolution: 0.1 A, repeatability: 0.1 A}
calibrated: never
"""  # noqa: E501
METHOD = """\
title: Heating at 30 A
hazard: [extra-low voltage]
conditions: {current: {value: 30 A, within: 2 %%}}
schedule: 0 30 60 min
points: {body: {where: side, held-by: cement, reads-low-by-at-most: 0 K}}
measures:
  - {id: rise, kind: heating, at: 60 min, point: body, settled: {over: 60 min}%s}
steps: [{id: read, text: Read.}]
cannot-show: [ageing]
tau: {value: 15 min, within: 10 min, because: heated rigs like it}
"""
BENCH = "format: 1\nreviewer: The Slipway Bench\ncontact: bench@example.org\ndemonstration: true\n"
ITEM = "maker: %s\nmodel: X\nspecimens:\n%s"
REPORT = """\
question: Which stays coolest?
initiative: own
main: rise
measures: [rise]
items: [%s]
controls: [%s]
runs: all
"""
RUN = """\
method: heat/%s
%s
date: %s
instruments: {temperature@body: logger/%s, ambient: logger/CH1, current: clamp}
readings: |
%s
"""


def table(rise: float, ambient: float = 20.0, current: str = "30.0", last: str = "") -> str:
    """Three readings that reach `rise` at 60 min; `last` takes the place of the last temperature."""
    rows = [
        "time min | temperature@body degC | ambient degC | current A",
        f"0 | {ambient:.1f} | {ambient:.1f} | {current}",
        f"30 | {ambient + rise * 0.9:.1f} | {ambient:.1f} | {current}",
        f"60 | {last or f'{ambient + rise:.1f}'} | {ambient:.1f} | {current}",
    ]
    return "\n".join(rows)


class Small:
    """A bench to be filled with runs and evaluated."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.items: dict[str, set[str]] = {}
        self.count = 0
        self.controls: list[str] = []
        self.report = REPORT
        self.write("bench.yml", BENCH)
        self.write("instruments/logger.yml", LOGGER)
        self.write("instruments/clamp.yml", CLAMP)
        self.write("methods/heat/1.yml", METHOD % "")

    def write(self, name: str, text: str) -> None:
        path = self.root / "reports" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def run(
        self,
        item: str,
        specimen: str,
        readings: str,
        *,
        channel: str = "CH2",
        date: str = "2026-03-01",
        more: str = "",
        version: int = 1,
    ) -> None:
        """One run of a piece; `control` as the item makes a control run."""
        self.count += 1
        whose = "control: cable" if item == "control" else f"item: {item}\nspecimen: {specimen}"
        if item == "control":
            self.controls.append(f"run-{self.count:03}")
        else:
            self.items.setdefault(item, set()).add(specimen)
        text = RUN % (version, whose, date, channel, textwrap.indent(readings, "  "))
        if "ambient" not in readings:
            text = text.replace(", ambient: logger/CH1", "")
        self.write(f"r/runs/run-{self.count:03}.yml", text + more)

    def finish(self, **stocks: str) -> None:
        """Write items and report; `stocks` gives the stock of a specimen, by `item_specimen`."""
        for item, letters in self.items.items():
            pieces = "".join(
                f"  {letter}: {{got: bought, date: 2026-01-02"
                + (f", stock: {stocks[f'{item}_{letter}']}" if f"{item}_{letter}" in stocks else "")
                + "}\n"
                for letter in sorted(letters)
            )
            text = ITEM % (item.title(), pieces)
            if any(key.startswith(f"{item}_") for key in stocks):
                text += "stocks: {new: {name: as sold since May}}\n"
            self.write(f"items/{item}.yml", text)
        self.write("r/report.yml", self.report % (", ".join(self.items), ", ".join(self.controls)))

    def finding(self, **stocks: str) -> ReportFinding:
        """Load and evaluate; the records must be sound."""
        self.finish(**stocks)
        return self.evaluated()

    def evaluated(self) -> ReportFinding:
        """Evaluate what is on disk; the records must be sound."""
        bench = load(self.root)
        assert bench.faults == (), [
            f"{each.place.file.name}: {each.path}: {each.what}" for each in bench.faults
        ]
        return evaluate(bench, bench.reports["r"])

    def rise(self, **stocks: str) -> MeasureFinding:
        """The finding of the rise."""
        return self.finding(**stocks).measure("rise")
