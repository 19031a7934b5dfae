"""One more edition of one report changes its own pages and those that list it, and no other byte of the site."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.host.build import build
from tests.history.benches import REPORT, amended, edited, published, tree

LISTING = {
    "index.html",
    "changes/index.html",
    "changes.xml",
    "sitemap.xml",
    "search/documents.json",
    "compare/index.html",
    "i/halvenor-c2/index.html",
    "i/quorsby-q2/index.html",
    f"r/{REPORT}/index.html",
    f"r/{REPORT}/history/index.html",
    *(f"r/{REPORT}/{number}/index.html" for number in (1, 2, 3)),
}
"""The front, changes, their feed, the map and the search; what tells its results elsewhere; the report's own address, its
history, and the notice on each older edition."""


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
    assert {name for name in before if after.get(name) != before[name]} == LISTING
    new = set(after) - set(before)
    assert f"r/{REPORT}/4/index.html" in new
    assert [name for name in sorted(new) if not name.startswith(f"r/{REPORT}/4/")] == []
