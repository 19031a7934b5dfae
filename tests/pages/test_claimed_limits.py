"""A figure that a maker prints is no limit: nowhere is anyone within it or over it."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Sequence
from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.report import evaluate
from generator.history.figures import figures_of
from generator.pages.explain import explained
from generator.records.bench import load
from tests.evaluation.pulls import Pulls
from tests.evaluation.small import BENCH
from tests.pages.rendered import parsed
from tests.pages.sites import made
from tests.site.every_column import faults

COMPARED = BENCH + "comparison:\n  version: 1\n  columns:\n    - {method: pull-out, measure: pull}\n"
LIMIT = "  - {kind: %s, measure: pull, value: 200 N, standing: %s, source: the box}\n"
NEVER = re.compile(
    r"(?:within|over|below|beyond|keeps?|kept) (?:the|a|its) limit|the limit is kept|too close to call",
    re.I,
)
LIES = {"within": "below", "beyond": "above"}


def bench(root: Path, limits: Sequence[tuple[str, str]]) -> Pulls:
    """Pieces on both sides of 200 N and near it, one item with some pieces beyond, one of a single piece."""
    pulls = Pulls(root)
    pulls.write("bench.yml", COMPARED)
    for item, values in (
        ("low", "150 152 149"),
        ("high", "250 255 251"),
        ("near", "199 201 200"),
        ("some", "150 250"),
        ("one", "160"),
    ):
        for letter, value in zip("ABC", values.split(), strict=False):
            pulls.pull(item, letter, f"{value} N")
    pulls.report += "limits:\n" + "".join(LIMIT % each for each in limits)
    pulls.finish()
    return pulls


@pytest.mark.parametrize("kind", ["at most", "at least"])
def test_no_page_holds_a_makers_figure_for_a_limit(tmp_path: Path, kind: str) -> None:
    records = load(bench(tmp_path, [(kind, "claimed")]).root)
    assert records.faults == ()
    pages = {page.uri: " ".join("".join(parsed(page).texts).split()) for page in made(records).pages}
    read = [uri for uri in pages if uri.startswith(("r/", "i/", "compare"))]
    for uri in read:
        assert NEVER.findall(pages[uri]) == [], uri
    for uri in ("r/r/index.md", "compare/index.md"):
        for words in ("Above", "Below", "Not told apart from"):
            assert f"{words} the figure the maker prints" in pages[uri], uri
        assert f"({kind} 200 N" in pages["compare/index.md"]
    side = "above" if kind == "at most" else "below"
    assert f"1 of 2 pieces {side} the figure the maker prints" in pages["r/r/index.md"]
    assert "probability that it lies" in pages["r/r/1/how/low/index.md"]


def test_the_same_of_a_limit_is_called_one(tmp_path: Path) -> None:
    """Else the words above would be looked for in vain everywhere."""
    records = load(bench(tmp_path, [("at most", "reviewer's own")]).root)
    pages = {page.uri: " ".join("".join(parsed(page).texts).split()) for page in made(records).pages}
    for uri in ("r/r/index.md", "compare/index.md", "i/high/index.md"):
        assert NEVER.search(pages[uri]), uri
    assert "1 of 2 pieces over the limit" in pages["r/r/index.md"]


def test_terminal_data_and_edition_tell_the_side(tmp_path: Path) -> None:
    records = load(bench(tmp_path, [("at most", "claimed")]).root)
    report = records.reports["r"]
    finding = evaluate(records, report)
    pull = finding.measure("pull")
    told = explained(records, report, pull, next(iter(report.runs)))
    assert NEVER.search(told) is None
    data = json.loads(json.dumps(report_as_data(finding)))
    (measure,) = data["measures"]
    said = {each["item"]: each["limits"][0]["against_makers_figure"] for each in measure["figures"]}
    assert said == {
        "low": "below",
        "high": "above",
        "near": "not told apart",
        "some": "above",
        "one": "below",
    }
    assert {each["limits"][0]["standing"] for each in measure["figures"]} == {"claimed"}
    kept = {each.item: each.outcome for each in figures_of(finding)}
    assert kept == said


def test_another_limit_decides_what_an_item_is_called(tmp_path: Path) -> None:
    """The maker prints 200 N at most; the reviewer's own limit is that much at least."""
    records = load(bench(tmp_path, [("at most", "claimed"), ("at least", "reviewer's own")]).root)
    data = json.loads(json.dumps(report_as_data(evaluate(records, records.reports["r"]))))
    (measure,) = data["measures"]
    outcomes = {each["item"]: each["outcome"] for each in measure["figures"]}
    assert outcomes == {
        "low": "beyond",
        "high": "within",
        "near": "undecided",
        "some": "beyond",
        "one": "beyond",
    }


def test_the_file_holds_every_piece_against_every_limit(tmp_path: Path) -> None:
    limits = [("at most", "claimed"), ("at least", "reviewer's own")]
    records = load(bench(tmp_path, limits).root)
    (text,) = (each.content.decode() for each in made(records).downloads if each.uri.endswith("limits.csv"))
    assert faults(text, frozenset()) == []
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == 2 * (5 + 3 + 3 + 3 + 2 + 1)
    of = {(row["item"], row["piece"], row["kind"]): row for row in rows}
    assert of["high", "", "at most"]["outcome"] == "above"
    assert of["high", "", "at least"]["outcome"] == "within"
    # Three pieces, none of them beyond: the exact upper bound, 1 − 0.025^(1/3) (Clopper and Pearson).
    share = float(of["high", "", "at least"]["share of pieces beyond, at most"])
    assert share == pytest.approx(1 - 0.025 ** (1 / 3), rel=1e-5)
    assert of["high", "", "at least"]["why not"] == "held piece by piece"
    piece = of["low", "A", "at least"]
    assert (piece["value"], piece["unit"], piece["outcome"], piece["pieces"]) == ("150.0", "N", "beyond", "1")
    assert float(piece["half-width of its 95 % interval"]) > 2
    assert float(piece["probability that it is kept"]) < 0.001
    assert float(piece["limit, in the US unit"]) == pytest.approx(200 / 4.4482216152605, rel=1e-5)
