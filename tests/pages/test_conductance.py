"""Heat over settled rise as pages, files and a terminal tell it."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.report import evaluate
from generator.pages.explain import explained
from generator.records.bench import load
from tests.evaluation.test_electrical import heated
from tests.pages.rendered import parsed
from tests.pages.sites import site_of
from tests.site.every_column import faults


@pytest.fixture(scope="module", params=[150, 20])
def bench(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, bool]:
    """A bench with a run that settles and one whose settled rise may not be told."""
    root = tmp_path_factory.mktemp("heat")
    heated(root, 30.0, 0.1, last=request.param)
    return root, request.param == 150


def test_card_derivation_and_glossary_tell_it(bench: tuple[Path, bool]) -> None:
    root, settles = bench
    pages = {page.uri: " ".join("".join(parsed(page).texts).split()) for page in site_of(root).pages}
    report, way = pages["r/r/index.md"], pages["r/r/1/how/holder/index.md"]
    assert "Heat for each degree, once settled" in report
    assert "Of one run each: not averaged, not ranked." in report
    if settles:
        assert "0.0588 W for each °C (0.0504 to 0.0639)" in report
        assert "0.0327 W for each °F (0.0280 to 0.0355)" in report
        assert "→ 0.0588 W/K (0.0504 to 0.0639 W/K, 95 %" in way
    else:
        assert "none: no settled rise may be told of the run" in report
        assert "Heat over settled rise: none is told, since no settled rise may be told of the run" in way
    assert "Runs of one part at two currents should agree on it" in pages["glossary/index.md"]


def test_the_terminal_and_the_data_tell_it(bench: tuple[Path, bool]) -> None:
    root, settles = bench
    records = load(root)
    report = records.reports["r"]
    finding = evaluate(records, report)
    told = explained(records, report, finding.measure("power"), next(iter(report.runs)))
    assert ("0.0588 W/K (0.0504 to 0.0639 W/K" if settles else "none is told") in told
    data = json.loads(json.dumps(report_as_data(finding)))
    (power,) = (each for each in data["measures"] if each["measure"] == "power")
    (found,) = power["figures"][0]["specimens"][0]["heat_per_kelvin"]
    assert (found["run"], found["heating"], found["unit"]) == (next(iter(report.runs)), "rise", "W/K")
    assert (found["interval"] is None) == (found["why_not"] is not None) == (not settles)
    (rise,) = (each for each in data["measures"] if each["measure"] == "rise")
    assert rise["figures"][0]["specimens"][0]["heat_per_kelvin"] == []


def test_the_file_tells_it(bench: tuple[Path, bool]) -> None:
    root, settles = bench
    (text,) = (each.content.decode() for each in site_of(root).downloads if each.uri.endswith("heat.csv"))
    (row,) = csv.DictReader(io.StringIO(text))
    assert row["piece"] == "A"
    assert float(row["heat as read (W)"]) > 0
    assert (
        (row["heat over settled rise (W/K)"] == "") == (row["why not"] == "no-settled-rise") == (not settles)
    )
    if settles:
        ends = [float(row[f"heat over settled rise, {end} (W/K)"]) for end in ("from", "to")]
        assert ends == pytest.approx([0.0504, 0.0639], abs=1e-4)
    assert faults(text, frozenset()) == []
