"""One more edition of one report changes its own pages and those that list it, and no other byte of the site."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from generator.host.build import build
from tests.history.benches import REPORT, amended, edited, published, tree

LISTING = re.compile(
    r"index\.html|changes/index\.html|changes\.xml|sitemap\.xml|search/.*"
    rf"|r/{REPORT}/(?:\d+/|history/)?(?:.*)"
    r"|compare/index\.html|i/(?:halvenor-c2|quorsby-q2)/index\.html|m/(?:connector-heating/(?:1/)?)?index\.html"
)
"""The front, changes, their feed, the map and the search; the report's own; what tells its results elsewhere."""


def test_no_other_page_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    bench = amended(tmp_path / "b")
    before = tree(build(bench))
    more = shutil.copytree(bench, tmp_path / "more", ignore=shutil.ignore_patterns("site"))
    monkeypatch.chdir(more)
    edited(more / f"reports/{REPORT}/report.yml", ("choice: quorsby-q2", "choice: halvenor-c2"))
    sources = tree(more)
    done = published(REPORT, "--reason", "correction", "--summary", "Back.", "--date", "2026-06-01")
    assert done.exit_code == 0, done.output
    assert set(tree(more)) - set(sources) == {f"reports/{REPORT}/editions/4.yml"}
    after = tree(build(more))
    changed = {name for name in before.keys() | after.keys() if before.get(name) != after.get(name)}
    assert [name for name in sorted(changed) if not LISTING.fullmatch(name)] == []
    assert {"changes/index.html", "changes.xml", f"r/{REPORT}/history/index.html"} <= changed
    grey = [name for name in after if name.startswith("r/grey-lever/")]
    assert grey
    assert not changed & set(grey)
