"""Which heating of its piece a figure is of, on pages, on a terminal, in files and in data."""

from __future__ import annotations

import csv
import io
import json

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.report import evaluate
from generator.pages.explain import explained
from generator.records.bench import Bench, load
from tests.evaluation.small import METHOD, Small, table
from tests.pages.rendered import parsed
from tests.pages.sites import made
from tests.site.every_column import faults


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    small = Small(tmp_path_factory.mktemp("heatings"))
    conditioned = METHOD.replace("schedule:", "conditioning: one hour at 30 A, not read\nschedule:")
    small.write("methods/heat/1.yml", conditioned % "")
    for letter in "AB":
        small.run("new", letter, table(40.0), date="2026-03-01")
    small.run("new", "A", table(44.0), date="2026-03-02")
    small.run("used", "A", table(46.0), more="heating: 3\n")
    small.finish()
    found = load(small.root)
    assert found.faults == ()
    return found


def pages(bench: Bench) -> dict[str, str]:
    return {page.uri: " ".join("".join(parsed(page).texts).split()) for page in made(bench).pages}


def test_pages_say_which_heating_counts(bench: Bench) -> None:
    told = pages(bench)
    report = told["r/r/index.md"]
    compared = (
        "Each piece stands by its first completed heating, and is held beside the same heating of the others"
    )
    assert compared in report
    assert "heating 2 of this piece: shown, not in the mean" in report
    assert "heating 3 of this piece: shown, not in the mean" in report
    assert "heated before: only the same heating of each piece is compared" in report
    assert "heated before: only the same heating of each piece is compared" in told["i/used/index.md"]
    assert "Method heat/1; heating 2 of this piece; shown, not in the mean" in told["r/r/1/how/new/index.md"]
    assert "The first completed heating of a piece counts" in told["m/heat/1/index.md"]
    assert (
        "Before its first run each piece is conditioned: one hour at 30 A, not read"
        in told["m/heat/1/index.md"]
    )


def test_data_terminal_and_file_say_it_too(bench: Bench) -> None:
    report = bench.reports["r"]
    finding = evaluate(bench, report)
    (measure,) = json.loads(json.dumps(report_as_data(finding)))["measures"]
    assert measure["heating"] == 1
    new, used = measure["figures"]
    assert sorted(new["specimens"][0]["heatings"].values()) == [1, 2]
    assert (list(used["specimens"][0]["heatings"].values()), used["why_not"]) == ([3], "other-heating")
    last = max(run.id for run in report.runs.values() if run.item == "new")
    assert "by heat/1, heating 2 of the piece" in explained(bench, report, finding.measure("rise"), last)
    (text,) = (each.content.decode() for each in made(bench).downloads if each.uri.endswith("results.csv"))
    rows = {(row["item"], row["piece"]): row for row in csv.DictReader(io.StringIO(text))}
    assert [rows[key]["heating"] for key in (("new", ""), ("new", "A"), ("used", "A"))] == ["1", "1", ""]
    assert faults(text, frozenset()) == []
