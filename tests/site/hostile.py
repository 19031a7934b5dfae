"""A bench whose every text is made to break a page."""

from __future__ import annotations

import json
from pathlib import Path

TEXTS = (
    "<script>alert(1)</script>",
    "| a | b",
    "**x**",
    "[x](javascript:1)",
    "</script>",
    'A&B <i> "2,5" $1 $2',
    "{{ 7*7 }} {% raw %} {: .big }",
    "# x",
    "1. y ~~z~~ `q` ![i](u)",
    "::: note",
    "<!-- c --> <style>*{}</style>",
    "&lt;b&gt; &#60; \\*",
)
"""What stands in turn in the texts of the bench."""

ALL = " ¦ ".join(TEXTS)
"""All of them in one text."""


def text(mark: str) -> str:
    """A hostile text in double quotes as YAML (and JSON) write them, with a mark to find it by."""
    return json.dumps(f"{mark} {ALL}", ensure_ascii=False)


def write(root: Path) -> None:
    """Write the bench into a folder."""
    for name, content in FILES.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")


STRUCK = text("struck").strip('"').replace("!", "").replace("|", "")
"""A reason in a table, where bars part the cells."""


def _run(item: str, specimen: str, rise: float) -> str:
    whose = "control: cable" if not item else f"item: {item}\nspecimen: {specimen}"
    return f"""\
method: heat/1
{whose}
date: 2026-03-01
place: {text("run-place")}
termination: {{number: 1, strip: 10 mm, tool: {text("tool")}}}
instruments: {{temperature@body: logger/CH2, ambient: logger/CH1, current: clamp}}
conditions: {{enclosure: {text("enclosure")}, air-measured: {text("air-measured")}}}
readings: |
  time min | temperature@body degC | ambient degC | current A
  0        | 20.0                  | 20.0         | 30.0
  30       | {20 + rise * 0.9:.1f} | 20.0         | 30.0 ! {STRUCK}
  45       | {20 + rise * 0.98:.1f} | 20.0         | 30.0
  60       | {20 + rise:.1f} | 20.0         | 30.0
events: [{{at: 40 min, what: {text("event")}}}]
deviations: [{text("deviation")}]
additions: [{text("addition")}]
made-by: {text("made-by")}
opinions: [{{text: {text("run-opinion")}, basis: [{text("run-basis")}]}}]
"""


def _item(maker: str) -> str:
    return f"""\
maker: {text(maker)}
model: {text("model")}
what: {text("what")}
notes: {text("item-notes")}
ratings:
  - {{limit: current, value: 30 A, standing: claimed, source: {text("rating")},
     condition: {text("rating-if")}}}
specimens:
  A: {{got: bought, from: {text("shop")}, date: 2026-02-01, paid: 4.80 EUR, marks: {text("marks")},
      condition: {text("receipt")}, chosen: {text("chosen")}, lot: {text("lot")}}}
  B: {{got: sent, from: {text("sender")}, date: 2026-02-02}}
"""


FILES = {
    "mkdocs.yml": f"""\
site_name: {text("site")}
docs_dir: reports/pages
theme: {{name: material}}
plugins: [provebook]
""",
    "reports/bench.yml": f"""\
format: 1
reviewer: {text("reviewer")}
contact: {text("contact")}
disclosure: {text("disclosure")}
reference-ambient: {{value: 50 degC, because: {text("locker")}}}
demonstration: true
""",
    "reports/older/sheet.yml": f"""\
title: {text("older-title")}
method: {text("older-how")}
results:
  - {{item: one, date: 2021, measure: rise, value: 40 K, uncertainty: unknown, pieces: 1,
     meter: {text("older-meter")}, published: {text("older-published")}}}
""",
    "reports/pages/about.md": "# About\n\nPlain.\n",
    "reports/instruments/logger.yml": f"""\
name: {text("logger")}
maker: {text("logger-maker")}
notes: {text("logger-notes")}
ranges: [{{quantity: temperature, from: -50 degC, to: 200 degC, accuracy: ±0.5 degC, resolution: 0.1 degC}}]
probes: {{k1: type K class 1, k2: type K class 1}}
channels: {{CH1: k1, CH2: k2}}
calibrated: never
""",
    "reports/instruments/clamp.yml": f"""\
name: {text("clamp")}
ranges: [{{quantity: current, from: 0 A, to: 60 A, accuracy: ±1 %, resolution: 0.1 A}}]
calibrations: [{{date: 2025-06-01, by: {text("laboratory")}, certificate: {text("certificate")}}}]
""",
    "reports/methods/heat/1.yml": f"""\
title: {text("method-title")}
purpose: {text("purpose")}
apparatus: {text("apparatus")}
hazard: [extra-low voltage]
cautions: [{text("caution")}]
conditions: {{current: {{value: 30 A, within: 2 %}}, enclosure: {text("enclosure")}}}
schedule: 0 30 45 60 min
points: {{body: {{where: {text("where")}, held-by: {text("held-by")}, reads-low-by-at-most: 1 K}}}}
measures:
  - {{id: rise, name: {text("measure")}, kind: heating, at: 60 min, point: body, settled: {{over: 30 min}}}}
steps: [{{id: read, text: {text("step")}}}]
cannot-show: [{text("cannot")}]
""",
    "reports/items/one.yml": _item("maker-one"),
    "reports/items/two.yml": _item("maker-two"),
    "reports/r1/report.yml": f"""\
question: {text("question")}
initiative: {text("initiative")}
main: rise
measures: [rise]
items: [one, two]
controls: [cable]
choice: two
because: {text("because")}
opinions: [{{item: one, text: {text("opinion")}, basis: [{text("basis")}]}}]
notes: {text("report-notes")}
""",
    "reports/r1/runs/cable.yml": _run("", "", 14.0),
    "reports/r1/runs/one-a.yml": _run("one", "A", 40.0),
    "reports/r1/runs/one-b.yml": _run("one", "B", 42.0),
    "reports/r1/runs/two-a.yml": _run("two", "A", 60.0),
    "reports/r1/runs/two-b.yml": _run("two", "B", 61.0),
}
