"""Styles and scripts as they are sent: shorter, and the same to a browser."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.host.lean import JOINED, KINDS, SHEETS, join_sheets, lean, make_lean
from generator.pages.locate import templates

ASSETS = templates() / "theme" / "assets"
OURS = sorted(each for each in ASSETS.iterdir() if each.suffix in KINDS)


def bare(text: str) -> str:
    return re.sub(r"\s+", "", re.sub(r"^\s*/\*.*?\*/\s*$", "", text, flags=re.DOTALL | re.MULTILINE))


@pytest.mark.parametrize("path", OURS, ids=lambda path: path.name)
def test_nothing_but_comments_and_blanks_goes(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert bare(lean(text)) == bare(text)
    assert len(lean(text)) < len(text)
    # Indentation inside a text would be lost, so that no text of ours runs over lines.
    assert all(line.count("`") % 2 == 0 for line in text.splitlines())


def test_what_stands_beside_code_stays() -> None:
    text = "a {\n  /* why */\n  b: c; /* beside */\n\n\n  d: url('/*x*/');\n}\n"
    assert lean(text) == "a {\nb: c; /* beside */\nd: url('/*x*/');\n}\n"


def test_what_a_bench_put_in_place_of_ours_is_left_alone(tmp_path: Path) -> None:
    ours, site = tmp_path / "ours", tmp_path / "site"
    for folder in (ours, site):
        folder.mkdir()
    for name in ("a.css", "b.css"):
        (ours / name).write_text("a {\n  b: c;\n}\n", encoding="utf-8")
    (site / "a.css").write_text("a {\n  b: c;\n}\n", encoding="utf-8")
    (site / "b.css").write_text("/* mine */\na {\n  b: d;\n}\n", encoding="utf-8")
    make_lean(ours, site)
    assert (site / "a.css").read_text(encoding="utf-8") == "a {\nb: c;\n}\n"
    assert (site / "b.css").read_text(encoding="utf-8").startswith("/* mine */\n")


def test_the_style_sheets_are_sent_as_one_in_their_order(tmp_path: Path) -> None:
    for name in reversed(SHEETS):
        (tmp_path / name).write_text(f"{name}\n", encoding="utf-8")
    (tmp_path / "other.css").write_text("other\n", encoding="utf-8")
    for _ in range(2):
        join_sheets(tmp_path)
        assert (tmp_path / JOINED).read_text(encoding="utf-8") == "report.css\npages.css\npaper.css\n"
        assert sorted(each.name for each in tmp_path.iterdir()) == ["other.css", JOINED]


def test_every_style_sheet_of_ours_is_joined() -> None:
    assert sorted(SHEETS) == sorted(each.name for each in OURS if each.suffix == ".css")
