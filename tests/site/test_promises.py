"""Built pages of the demo as a reader's browser gets them: no word that promises, cautions before figures."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from tests.pages.rendered import Element, Parsed
from tests.pages.test_words import BARRED, DENIAL

ROOT = Path(__file__).parents[2]
READ = {"alt", "title", "aria-label", "placeholder", "content", "value", "data-name"}
"""Attributes that are read aloud, shown or quoted."""
HOLDS = {"figure", "steps", "answer", "tallied"}
"""Classes of what tells a result."""
LICENCES = re.compile(r"(^|/)LICEN[CS]E|\.LICENSE\.txt$")


@pytest.fixture(scope="module")
def pages(demo: Path) -> dict[str, Parsed]:
    found = sorted(demo.rglob("*.html"))
    return {path.relative_to(demo).as_posix(): Parsed(path.read_text(encoding="utf-8")) for path in found}


def test_no_text_and_no_attribute_of_a_built_page_promises(pages: dict[str, Parsed]) -> None:
    assert len(pages) > 20
    for address, page in pages.items():
        told = [each.attributes for each in page.elements if "http-equiv" not in each.attributes]
        read = [value for each in told for name, value in each.items() if name in READ]
        text = " ".join([page.text, *read]).replace(DENIAL, "")
        assert BARRED.findall(text) == [], address


def test_nothing_else_that_is_made_of_records_promises(demo: Path) -> None:
    kinds = {".csv", ".json", ".xml", ".txt", ".yml"}
    made = [path for path in sorted(demo.rglob("*")) if path.suffix in kinds or path.parent.name == "charts"]
    told = [path for path in made if path.is_file() and not LICENCES.search(path.as_posix())]
    assert {"results.csv", "documents.json", "sitemap.xml"} <= {path.name for path in told}
    for path in told:
        text = " ".join(html.unescape(path.read_text(encoding="utf-8")).split()).replace(DENIAL, "")
        assert BARRED.findall(text) == [], path.relative_to(demo)


@pytest.mark.parametrize(
    "command", [["results", "fuse-holders-30a"], ["explain", "2026-02-24-cable-1", "rise"], ["check"]]
)
def test_no_command_promises(command: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    done = CliRunner().invoke(main, command, catch_exceptions=False)
    assert done.exit_code == 0
    assert done.output
    assert BARRED.findall(" ".join(done.output.split()).replace(DENIAL, "")) == []


def at(page: Parsed, names: set[str]) -> int | None:
    def holds(each: Element) -> bool:
        return not names.isdisjoint(each.attributes.get("class", "").split())

    return next((place for place, each in enumerate(page.elements) if holds(each)), None)


def test_of_every_page_with_a_result_caution_and_disclosure_come_first(pages: dict[str, Parsed]) -> None:
    """In the order of the document, which is what is read aloud, printed and quoted."""
    kinds = set()
    for address, page in pages.items():
        result = at(page, HOLDS)
        if result is None:
            continue
        for name in ("caution", "disclosure"):
            place = at(page, {name})
            assert place is not None, (address, name)
            assert place < result, (address, name)
        kinds.add("how" if "/how/" in address else address.partition("/")[0])
    assert kinds == {"compare", "how", "i", "m", "r"}
