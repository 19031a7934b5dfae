"""The index that every page fetches holds no document."""

from __future__ import annotations

import json
from pathlib import Path

from generator.host.search import defer_index

WHOLE = {"config": {"lang": ["en"], "separator": "[\\s\\-]+"}, "docs": [{"location": "", "title": "\u00b1"}]}


def test_documents_move_out_of_the_index(tmp_path: Path) -> None:
    (tmp_path / "search").mkdir()
    written = json.dumps(WHOLE).encode()
    (tmp_path / "search" / "search_index.json").write_bytes(written)

    defer_index(tmp_path)

    assert (tmp_path / "search" / "documents.json").read_bytes() == written
    stub = json.loads((tmp_path / "search" / "search_index.json").read_bytes())
    assert stub == {"config": WHOLE["config"], "docs": []}


def test_a_site_without_search_is_left_alone(tmp_path: Path) -> None:
    defer_index(tmp_path)
    assert list(tmp_path.iterdir()) == []
