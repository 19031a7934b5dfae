"""One unit of a figure through its budget and its steps, whichever prefix suits its size."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.pages.explain import explained
from generator.pages.in_unit import electric, in_unit
from generator.pages.shown import shown
from generator.records.bench import load
from tests.evaluation.drops import Drops
from tests.pages.rendered import parsed
from tests.pages.sites import site_of

LEADS = "{length: 100 mm, within: 3 mm, per-metre: 4.7 mohm/m, per-metre-within: 0.1 mohm/m}"
SI = re.compile(r"\d\s(?:V|Ω|Ω/m)\b(?!·)")
"""A number in V or Ω; W stands for itself."""
KINDS = [
    ("drop", "62.0", "mV"),
    ("resistance", "62.0", "mΩ"),
    ("power", "62.0", "W"),
    ("resistance", "0.62", "µΩ"),
]


def bench(root: Path, kind: str, drop: str) -> Drops:
    leads = "none" if drop == "0.62" else LEADS
    drops = Drops(root, kind, leads=leads)
    current = "30.0"
    if drop == "0.62":
        drops.write(
            "instruments/meter.yml",
            (root / "reports/instruments/meter.yml").read_text().replace("0.05 mV", "0.0005 mV"),
        )
        drop = "0.0062"
    drops.read("holder", "A", f"drop mV | current A\n{drop} | {current}")
    drops.finish()
    return drops


@pytest.mark.parametrize(("kind", "drop", "unit"), KINDS)
def test_no_step_and_no_row_falls_back_to_another_prefix(
    tmp_path: Path, kind: str, drop: str, unit: str
) -> None:
    drops = bench(tmp_path, kind, drop)
    records = load(drops.root)
    report = records.reports["r"]
    measure = evaluate(records, report).measure(kind)
    assert shown(measure).unit == unit
    way = explained(records, report, measure, next(iter(report.runs)))
    assert SI.findall(way) == []
    assert f"± {'0.' if unit != 'µΩ' else ''}" in way
    page = next(page for page in site_of(drops.root).pages if page.uri == "r/r/index.md")
    assert SI.findall("".join(parsed(page).texts)) == []
    prefix = electric(shown(measure)).prefix
    assert f"{prefix}V at 30" in way
    assert f"{prefix}Ω" in way


@pytest.mark.parametrize(("kind", "drop", "unit"), KINDS)
def test_each_row_times_its_sensitivity_makes_the_whole(
    tmp_path: Path, kind: str, drop: str, unit: str
) -> None:
    """GUM 5.1.2: the squares of all of them add up to that of the figure, in whichever unit."""
    drops = bench(tmp_path, kind, drop)
    records = load(drops.root)
    measure = evaluate(records, records.reports["r"]).measure(kind)
    (item,) = in_unit(shown(measure), measure).items
    (plain,) = measure.items
    assert item.budget is not None
    assert item.figure is not None
    assert plain.figure is not None
    assert item.budget.unit == item.figure.unit == unit
    whole = math.sqrt(
        math.fsum((row.sensitivity * row.standard_uncertainty) ** 2 for row in item.budget.rows)
    )
    assert whole == pytest.approx(item.figure.standard_uncertainty, rel=1e-9)
    assert item.figure.value == pytest.approx(plain.figure.value * shown(measure).factor, rel=1e-12)
    run = item.pieces[0].runs[0]
    assert run.budget is not None
    assert run.budget.unit == unit
    assert {row.unit for row in run.budget.rows}.isdisjoint({"V", "Ω", "Ω/m"})
