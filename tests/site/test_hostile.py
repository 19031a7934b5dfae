"""Text in a record comes out as text on every page that it reaches."""

from __future__ import annotations

import html
import json
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

import pytest

from generator.host.build import build
from generator.records.bench import load
from tests.site import hostile

REACHING = {
    "r/r1/index.html": """
        reviewer contact disclosure maker-one maker-two model what method-title caution question because
        opinion shop marks event deviation addition logger clamp cannot run-opinion air-measured laboratory
        older-title older-how older-meter older-published
    """,
    "r/r1/1/index.html": "question because opinion maker-one",
    "r/r1/1/how/one/index.html": "maker-one question caution",
    "i/one/index.html": "maker-one model what shop marks caution older-title older-how older-meter older-published",
    "compare/index.html": "maker-one maker-two",
    "m/index.html": "method-title purpose",
    "m/heat/1/index.html": "method-title purpose apparatus caution where held-by step cannot",
    "index.html": "reviewer question",
}
"""Page to the marks of texts that it shows."""


@dataclass
class Seen(HTMLParser):
    """What a browser would make of a page, as far as it matters here."""

    texts: list[str] = field(default_factory=list)
    tags: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.texts.append(data)

    @property
    def text(self) -> str:
        return "".join(self.texts).replace("\u00a0", " ")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("hostile") / "bench"
    hostile.write(root)
    faults = load(root).faults
    assert faults == (), [(each.place.file.name, each.path, each.what) for each in faults]
    return build(root, drafts=True)


def seen(page: Path) -> Seen:
    found = Seen()
    found.feed(page.read_text(encoding="utf-8"))
    found.close()
    return found


@pytest.mark.parametrize("name", sorted(REACHING))
def test_each_text_is_read_as_it_was_written(site: Path, name: str) -> None:
    told = " ".join(seen(site / name).text.split())
    missing = [
        mark for mark in REACHING[name].split() if " ".join(f"{mark} {hostile.ALL}".split()) not in told
    ]
    assert missing == []


def test_no_text_became_markup(site: Path) -> None:
    pages = sorted(site.rglob("*.html"))
    assert len(pages) > 5
    for page in pages:
        found = seen(page)
        for tag, attributes in found.tags:
            assert tag not in {"i", "iframe", "object", "embed", "del", "s"}, (page, tag)
            assert tag != "style", page
            assert tag != "script" or attributes.get("src") or attributes.get("type") == "application/json", (
                page
            )
            assert tag != "img" or attributes.get("src") != "u", page
            assert not (attributes.get("href") or "").lower().startswith("javascript"), page
            assert "big" not in (attributes.get("class") or "").split(), page
        assert " 49 " not in found.text, f"{page}: a template in a text was filled"


def test_titles_and_descriptions_hold_it_too(site: Path) -> None:
    found = seen(site / "r/r1/index.html")
    descriptions = [attributes.get("content") or "" for tag, attributes in found.tags if tag == "meta"]
    assert any("question" in each for each in [found.text, *descriptions])


def test_what_a_live_chart_is_drawn_from_holds_texts_and_runs_none(site: Path) -> None:
    (script,) = sorted((site / "r/r1/1/charts").glob("*.js"))
    text = script.read_text("utf-8")
    assert not set("<>&\u2028\u2029") & set(text)
    assert text.startswith("document.currentScript.made={")
    made = json.loads(text.removeprefix("document.currentScript.made=").removesuffix(";"))
    names = {html.unescape(each["name"]) for each in made["data"] if "name" in each}
    assert f"maker-one {hostile.ALL}" in {name.rpartition(" model")[0] for name in names}
