"""A reviewer's own words, colours and footer over the demo's bench, without a line of Python."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.host.build import BuildRefused, build

ROOT = Path(__file__).parents[2]
SETTINGS = """\
site_name: Mine
docs_dir: reports/pages
extra_css:
  - own.css
theme:
  name: material
  custom_dir: own
plugins:
  - provebook
"""
SHEET = ":root { --light-link: #6a1b4d; }\n"


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """The demo's records, with one file each of words, theme and style of the reviewer's own."""
    shutil.copytree(ROOT / "reports", tmp_path / "reports")
    (tmp_path / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    (tmp_path / "reports/pages/own.css").write_text(SHEET, encoding="utf-8")
    for folder, name in (("site_templates", "words/standing.jinja"), ("own", "partials/footer.html")):
        (tmp_path / folder / name).parent.mkdir(parents=True)
    words = (ROOT / "site_templates/words/standing.jinja").read_text(encoding="utf-8")
    assert "The answer has changed" in words
    mine = words.replace("The answer has changed", "What we say now differs")
    (tmp_path / "site_templates/words/standing.jinja").write_text(mine, encoding="utf-8")
    (tmp_path / "own/partials/footer.html").write_text("<footer>Tea is at four.</footer>\n", encoding="utf-8")
    return tmp_path


def test_words_colours_and_footer_of_one_s_own_are_shown(bench: Path) -> None:
    site = build(bench)
    page = (site / "r/fuse-holders-30a/1/index.html").read_text(encoding="utf-8")
    assert "What we say now differs" in page
    assert "The answer has changed" not in page
    assert "<footer>Tea is at four.</footer>" in page
    # The last sheet of two with the same selector wins.
    assert page.index("assets/site.css") < page.index("own.css")
    assert (site / "own.css").read_text(encoding="utf-8") == SHEET
    assert "--link: var(--light-link);" in (site / "assets/site.css").read_text(encoding="utf-8")


def test_a_word_file_that_can_t_be_filled_is_told_by_file_and_line(bench: Path) -> None:
    own = bench / "site_templates/words/standing.jinja"
    text = own.read_text(encoding="utf-8").replace("What we say now differs", "{{ n.nobody }}")
    own.write_text(text, encoding="utf-8")
    line = text[: text.index("n.nobody")].count("\n") + 1
    with pytest.raises(BuildRefused, match=rf"site_templates/words/standing\.jinja:{line}:\d+: .*nobody"):
        build(bench)


def test_a_partial_that_can_t_be_read_is_told_by_file_and_line(bench: Path) -> None:
    (bench / "own/partials/footer.html").write_text("<footer>\n{% if %}\n</footer>\n", encoding="utf-8")
    with pytest.raises(BuildRefused, match=r"^own/partials/footer\.html:2:1: this template can't be filled: "):
        build(bench)
