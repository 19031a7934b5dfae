"""A small bench on disk for the pages beside reports: the example's, with stocks, names, a second report."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from generator.intake.new_bench import new_bench
from generator.pages.locate import templates

RUN = """\
method: {method}
item: {item}
specimen: {piece}
date: {date}
instruments: {{temperature@body: thermometer-1/CH2, ambient: thermometer-1/CH1, current: clamp-1}}
conditions: {{conductor: 1.5 mm2 class 5, enclosure: closed box 1 l, air-measured: beside the box}}
readings: |
  time min | temperature@body degC | ambient degC | current A
{rows}
"""

TIMES = (0, 5, 10, 15, 20, 25, 30)
SHAPE = (0.0, 0.65, 0.86, 0.95, 0.98, 0.99, 1.0)
"""How far of its rise a part has come at each time: a curve that levels off, by hand."""

STOCKED = """\
maker: Halvenor
model: C2
what: two-way lever connector
also-sold-as:
  - {name: Brindlow L2, since: 2025-11, evidence: the same mould number}
ratings:
  - {limit: current, value: 16 A, standing: claimed, source: printed on the body,
     condition: at 40 degC of air}
stocks:
  since-march: {name: as sold since March 2026, since: 2026-03, tell-by: "grey lever, code 26"}
specimens:
  A: {got: bought, from: hardware shop, date: 2026-01-08, paid: 5.50 EUR, pack: 10, marks: C2,
      lot: L7, mass: 2.1 g}
  B: {got: bought, from: hardware shop, date: 2026-01-08, paid: 5.50 EUR, pack: 10, marks: C2}
  C: {got: sent, from: Halvenor, date: 2026-03-02, stock: since-march}
  D: {got: bought, from: web shop, date: 2026-03-04, paid: 0.60 EUR, stock: since-march}
  E: {got: bought, from: web shop, date: 2026-03-04, paid: 0.60 EUR, stock: since-march}
"""
"""An item with two stocks; piece E is never tested."""

SHELVED = """\
maker: Abbotry
model: Z9
specimens:
  A: {got: lent, from: a friend}
"""
"""An item that no report has."""

COMPARISON = """\
comparison:
  version: 2
  columns:
    - {method: connector-heating, measure: rise, title: Hotter than the air after 30 min at 10 A}
    - {method: connector-pull, measure: pull}
"""

PULL = """\
title: Pull-out force of a connector
hazard: [mechanical]
conditions: {conductor: 1.5 mm2 class 5}
measures:
  - {id: opened, name: Openings that held, kind: count, what: openings after which the lever did not hold}
  - {id: pull, name: Pull-out force, kind: scalar, quantity: force, better: higher}
cannot-show: [a load that hangs for years]
"""

LATER = """\
question: Is the connector with the grey lever as cool?
initiative: own
main: rise
measures: [rise]
items: [halvenor-c2]
limits:
  - {kind: rise, value: 45 K, point: body, standing: claimed, source: the maker's page}
opinions:
  - {item: halvenor-c2, text: The grey lever feels solid., basis: [halvenor-c]}
"""


def heating(item: str, piece: str, rise: float, **more: str) -> str:
    """A run that rises by so many K in 30 minutes, the air at 20 °C."""
    said = {"method": "connector-heating/1", "date": "2026-03-10", **more}
    rows = [
        f"  {time} | {20 + share * rise:.1f} | 20.0 | 10.00" for time, share in zip(TIMES, SHAPE, strict=True)
    ]
    return RUN.format(item=item, piece=piece, rows="\n".join(rows), **said)


FILES = {
    "items/halvenor-c2.yml": STOCKED,
    "items/abbotry-z9.yml": SHELVED,
    "methods/connector-pull/1.yml": PULL,
    "grey-lever/report.yml": LATER,
    "grey-lever/runs/halvenor-c.yml": heating("halvenor-c2", "C", 17.0),
    "grey-lever/runs/halvenor-d.yml": heating("halvenor-c2", "D", 19.0),
}


def template(name: str) -> str:
    """A file of the example, by its place under reports/."""
    return (templates() / "example" / "reports" / name).read_text(encoding="utf-8")


def write(root: Path, files: Mapping[str, str] = FILES, settings: str = COMPARISON) -> Path:
    """Write the bench into a folder that is not there yet; returns the folder."""
    new_bench(root, ("bench", "example"))
    for name, content in files.items():
        path = root / "reports" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")
    with (root / "reports" / "bench.yml").open("a", encoding="utf-8") as bench:
        bench.write(settings)
    return root
