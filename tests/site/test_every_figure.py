"""No figure of the built demo stands without its unit, its ± or a reason for none, and its pieces; nothing promises.

Each check is tried on what was made wrong on purpose: a walk that finds nothing anywhere would prove nothing.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.records.bench import Bench, load
from tests.site.every_column import faults
from tests.site.every_figure import Fault, Walk
from tests.site.known import ROOT, ground

PLUS = re.compile(r'<span class="pm">[^<]*</span>(?:<span class="u">[^<]*</span>|[\d.]+)')
"""A ± with what follows it, as templates set it."""
FIGURE = re.compile(r"<b>(?P<value>[\d.]+)</b>")


@pytest.fixture(scope="module")
def walk() -> Walk:
    return Walk(ground(ROOT))


@pytest.fixture(scope="module")
def bench() -> Bench:
    return load(ROOT)


def own_pages() -> set[str]:
    """The reviewer's own writing."""
    return {path.stem for path in (ROOT / "reports" / "pages").glob("*.md")}


def generated(site: Path) -> list[Path]:
    """Every page that is made from records; of a report's two addresses with one content both."""
    return [path for path in sorted(site.rglob("index.html")) if path.parent.name not in own_pages()]


def test_no_figure_of_any_page_stands_alone(demo: Path, walk: Walk) -> None:
    kinds = set()
    seen: dict[str, list[Fault]] = {}
    for path in generated(demo):
        text = path.read_text(encoding="utf-8")
        content = text.partition("<article")[2]
        if content not in seen:
            seen[content] = walk.page(text)
        assert seen[content] == [], path.relative_to(demo)
        parts = path.relative_to(demo).parts
        kinds.add("how" if "how" in parts else parts[0])
    assert {"r", "i", "m", "how", "compare"} <= kinds


def test_the_walk_knows_figures_of_every_report(bench: Bench) -> None:
    """Else a report could be walked past, since nothing on it would be known."""
    found = ground(ROOT)
    assert len(found.known) > 100 * len(bench.reports)
    assert {"°C", "°F", "K", "N", "lbf"} <= found.units
    assert {each.half_width == "" for each in found.known} == {True, False}


def test_no_text_of_the_search_has_a_figure_alone(demo: Path, walk: Walk) -> None:
    documents = json.loads((demo / "search" / "documents.json").read_text("utf-8"))["docs"]
    texts = {
        each["location"]: re.sub(r"<[^>]+>", " ", html.unescape(each["text"]))
        for each in documents
        if each["location"].partition("/")[0] not in own_pages()
    }
    assert {place: found for place, text in texts.items() if (found := walk.text(text))} == {}
    assert any("±" in text for text in texts.values())


def as_read(bench: Bench) -> frozenset[str]:
    """Heads of columns as read, with the digits and the unit of the record."""
    tables = (run.readings for report in bench.reports.values() for run in report.runs.values())
    columns = (column for table in tables if table for column in table.columns)
    return frozenset(f"{column.head.label} {column.unit.typed}" for column in columns)


def test_no_column_of_any_file_stands_alone(demo: Path, bench: Bench) -> None:
    files = sorted(demo.rglob("data/*.csv"))
    assert {path.stem for path in files} >= {"results", "readings", "pairs", "counts", "prices"}
    found = {
        path.relative_to(demo).as_posix(): faults(path.read_text("utf-8"), as_read(bench)) for path in files
    }
    assert {place: each for place, each in found.items() if each} == {}


def bare_lines(output: str) -> list[str]:
    """Lines of figures on a terminal that lack their pieces, or that no head gives a unit."""
    found, unit = [], ""
    for line in output.splitlines():
        if not line.startswith(" ") and "(95 %)" in line:
            unit = line.partition(" (95 %)")[0].rpartition(", ")[2]
        told = re.search(
            r"n = \d+ (?:\(\d+ runs?\)|and \d+)|(?:n = \d+|n not known)  from|control \(\d+ runs?\)", line
        )
        if "±" in line and not (unit and told):
            found.append(line)
    return found


def test_no_figure_on_a_terminal_stands_alone(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    for report in bench.reports:
        done = CliRunner().invoke(main, ["results", report], catch_exceptions=False)
        assert "±" in done.output
        assert bare_lines(done.output) == []
        assert bare_lines(re.sub(r"n = \d+", "", done.output)) != []
        assert bare_lines(done.output.replace("(95 %)", "")) != []


# ---- The same, of what was made wrong ----


def without(text: str, found: re.Match[str], instead: str = "") -> str:
    """A text with one place of it replaced."""
    return text[: found.start()] + instead + text[found.end() :]


def pages_of(demo: Path, *kinds: str) -> list[str]:
    """The shortest page with figures of each kind, so that it may be read many times."""
    found = []
    for kind in kinds:
        pages = (path.read_text(encoding="utf-8") for path in sorted(demo.glob(kind)))
        found.append(min((page for page in pages if PLUS.search(page)), key=len))
    return found


def test_each_lost_plus_minus_is_found(demo: Path, walk: Walk) -> None:
    """Of a page of every kind the ± of each figure in turn; of the long report every so many."""
    tried = 0
    for page in pages_of(
        demo, "i/*/index.html", "compare/index.html", "m/*/index.html", "r/*/[1-9]/index.html"
    ):
        places = list(PLUS.finditer(page))
        for place in places[:: max(len(places) // 8, 1)]:
            assert walk.page(without(page, place)), page[place.start() - 200 : place.end()]
            tried += 1
    assert tried > 20


def test_each_other_number_is_found(demo: Path, walk: Walk) -> None:
    """A figure that the evaluation did not find."""
    for page in pages_of(demo, "i/*/index.html", "compare/index.html"):
        for place in list(FIGURE.finditer(page))[:6]:
            changed = walk.page(without(page, place, f"<b>9{place['value']}</b>"))
            assert "no figure of the evaluation" in {each.what for each in changed}


WRONG: tuple[tuple[str, str, Callable[[str], str]], ...] = (
    ("no unit", "compare/index.html", lambda page: re.sub(r'(<span class="unit">)[^\n]*?(</span></span>)', r"\1\2", page)),
    ("no pieces", "compare/index.html", lambda page: re.sub(r"mean of \d+[\s\u00a0]*(?:&#160;)?pieces", "mean", page)),
    ("no pieces", "r/*/[1-9]/index.html", lambda page: re.sub(r"\(\d+ and \d+ pieces\)", "", page)),
    ("no pieces", "r/*/[1-9]/index.html", lambda page: page.replace("piece", "part")),
    ("no reason for no ±", "r/*/[1-9]/index.html", lambda page: page.replace("95 times in 100", "as a rule")),
    ("no reason for no ±", "r/*/[1-9]/index.html", lambda page: page.replace("of freedom", "")),
    ("promises", "i/*/index.html", lambda page: page.replace("</h1>", "</h1><p>It is safe.</p>", 1)),
    ("promises", "i/*/index.html", lambda page: page.replace('<p class="stock">', '<p class="stock" title="Approved">', 1)),
    ("no ±", "i/*/index.html", lambda page: page.replace("</h1>", "</h1><p>5 pieces ran at 41.7\u00a0°C.</p>", 1)),
    ("no ±", "m/*/index.html", lambda page: page.replace("</h1>", "</h1><p>5 pieces held 411\u00a0N.</p>", 1)),
    ("spoken, and nowhere told with its ±", "i/*/index.html", lambda page: page.replace("</h1>", "</h1><p>1 piece, about 999\u00a0°C.</p>", 1)),
)  # fmt: skip


@pytest.mark.parametrize(("what", "kind", "change"), WRONG)
def test_what_is_made_wrong_is_found(
    demo: Path, walk: Walk, what: str, kind: str, change: Callable[[str], str]
) -> None:
    told = set()
    for page in sorted((path.read_text("utf-8") for path in demo.glob(kind)), key=len)[:12]:
        changed = change(page)
        if changed != page:
            told |= {each.what for each in walk.page(changed)}
        if what in told:
            break
    assert what in told


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (lambda text: text.replace(",unit,", ",in,", 1), "value: no unit"),
        (lambda text: text.replace("half-width of its 95 % interval", "off"), "value: no ±"),
        (lambda text: text.replace(",pieces,runs,", ",a,b,", 1), "no pieces"),
        (lambda text: text.replace(",stopped,", ",,"), "value: empty, and no reason"),
        (lambda text: text.replace("piece apart", "time constant").replace(",below,", ",below,7.5", 1), "time constant: no unit"),
    ],
)  # fmt: skip
def test_what_is_made_wrong_in_a_file_is_found(demo: Path, change: Callable[[str], str], fault: str) -> None:
    told = set()
    for path in sorted(demo.rglob("data/results.csv")):
        text = path.read_text("utf-8")
        assert faults(text, frozenset()) == []
        told |= set(faults(change(text), frozenset()))
    assert any(each.startswith(fault) for each in told)
