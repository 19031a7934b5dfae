"""No figure that programs are told stands without unit, ± or reason, and pieces; pages tell the same."""

from __future__ import annotations

import copy
import html
import json
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.beside_as_data import beside_as_data
from generator.evaluation.findings import ReportFinding
from generator.evaluation.report import evaluate
from generator.pages.shown import shown
from generator.records.bench import Bench, load
from tests.site.known import ROOT
from tests.site.lines import plain

FIGURES = ("value", "difference")
"""Keys of numbers that are figures."""
WIDTHS = ("interval", "half_width")
REASONS = ("why_not", "bound", "why_no_half_width")
"""Why a figure has no ±."""
PIECES = ("n", "pieces", "specimen", "specimens", "run")
"""What says on how many pieces a figure rests, or that it is of one run."""


def faults(found: object, above: Mapping[str, Any], path: str = "") -> Iterator[str]:
    """Figures without a unit, a ± or a reason, or pieces; what stands above them counts for them."""
    if isinstance(found, list):
        for number, each in enumerate(found):
            yield from faults(each, above, f"{path}[{number}]")
    if not isinstance(found, dict):
        return
    here = {**above, **{key: each for key, each in found.items() if each is not None}}
    for key in FIGURES:
        if isinstance(found.get(key), int | float):
            if not any(isinstance(found.get(each), list | float) for each in WIDTHS) and not any(
                found.get(each) for each in REASONS
            ):
                yield f"{path}.{key}: no ±"
            if not here.get("unit"):
                yield f"{path}.{key}: no unit"
            if not any(each in here for each in PIECES):
                yield f"{path}.{key}: no pieces"
        elif key in found and not found.get("why_not") and not found.get("outcome"):
            yield f"{path}.{key}: none, and no reason"
    # A table of pieces says nothing of what stands beside it.
    below = {key: here[key] for key in ("unit", *PIECES) if key in here}
    for key, each in found.items():
        yield from faults(each, below, f"{path}.{key}")


@pytest.fixture(scope="module")
def bench() -> Bench:
    return load(ROOT)


@pytest.fixture(scope="module")
def findings(bench: Bench) -> dict[str, ReportFinding]:
    return {key: evaluate(bench, report) for key, report in bench.reports.items()}


@pytest.fixture(scope="module")
def told(bench: Bench, findings: dict[str, ReportFinding]) -> dict[str, dict[str, Any]]:
    """What `results --json` prints of each report."""
    return {
        key: json.loads(
            json.dumps({**report_as_data(found), **beside_as_data(bench, bench.reports[key], findings)})
        )
        for key, found in findings.items()
    }


def without_prices(data: dict[str, Any]) -> dict[str, Any]:
    """All but money and the number of all pieces of the report, which is of no figure."""
    return {key: each for key, each in data.items() if key not in {"prices", "pieces"}}


def test_no_figure_of_any_report_stands_alone(told: dict[str, dict[str, Any]]) -> None:
    for key, data in told.items():
        assert list(faults(without_prices(data), {})) == [], key
    assert sum("interval" in json.dumps(each) for each in told.values()) == len(told)


WRONG: tuple[tuple[str, Callable[[dict[str, Any]], object]], ...] = (
    (
        "no unit",
        lambda data: [data["measures"][0].pop("unit"), data["measures"][0]["figures"][0].pop("unit")],
    ),
    ("no ±", lambda data: data["measures"][0]["figures"][0].pop("interval")),
    ("no ±", lambda data: data["measures"][0]["pairs"][0].pop("half_width")),
    ("no pieces", lambda data: data["measures"][0]["pairs"][0].pop("pieces")),
    (
        "none, and no reason",
        lambda data: data["measures"][0]["figures"][0].update(value=None, why_not=None, outcome=None),
    ),
)


@pytest.mark.parametrize(("what", "change"), WRONG)
def test_what_is_made_wrong_is_found(
    told: dict[str, dict[str, Any]], what: str, change: Callable[[dict[str, Any]], object]
) -> None:
    seen = set()
    for data in told.values():
        changed = copy.deepcopy(without_prices(data))
        if changed["measures"] and changed["measures"][0]["pairs"]:
            change(changed)
            seen |= {each.rpartition(": ")[2] for each in faults(changed, {})}
    assert what in seen


def test_pages_tell_what_programs_are_told(
    demo: Path, bench: Bench, told: dict[str, dict[str, Any]], findings: dict[str, ReportFinding]
) -> None:
    """Each item's figure and each pair's gap, rounded as pages round, stand on the page of the report."""
    tried = 0
    last = {key: each.editions[max(each.editions)] for key, each in bench.reports.items() if each.editions}
    standing = [key for key in told if key in last and last[key].reason != "withdrawal"]
    for key, data in ((each, told[each]) for each in standing):
        pages = [demo / "r" / key / "index.html", *sorted(demo.glob(f"r/{key}/*/index.html"))]
        page = next(path for path in pages if path.is_file()).read_text(encoding="utf-8")
        text = " ".join(plain(html.unescape(re.sub(r"<[^>]+>", "", page))).split())
        for measure in data["measures"]:
            unit = shown(findings[key].measure(measure["measure"]))
            for figure in (each for each in measure["figures"] if each["value"] is not None):
                low, high = figure["interval"]
                printed = unit.plus(figure["value"], (high - low) / 2)
                assert f"{printed.value} ± {printed.half_width}" in text, (
                    key,
                    measure["measure"],
                    figure["item"],
                )
                tried += 1
            for pair in measure["pairs"]:
                gap = unit.gap(pair["difference"], pair["half_width"])
                assert f"{gap.value} ± {gap.half_width}" in text, (key, pair["first"], pair["second"])
    assert tried > 10
