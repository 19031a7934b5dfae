"""Every link of a built site leads somewhere, and every page is led to."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from generator.host.build import build
from tests.host import samples
from tests.host.conftest import Make
from tests.host.links import faults


def test_the_frame_of_a_page_holds_no_dead_link(bench: Path, make: Make) -> None:
    made = samples.site(2)
    links = "".join(f"- [{page.uri}]({page.uri})\n" for page in made.pages if page.uri.startswith("r/"))
    front = samples.page("index.md", "Reports", f"# Reports\n\n{links}", template="front.html")
    make(replace(made, pages=(front, *(page for page in made.pages if page.uri != "index.md"))))
    assert faults(build(bench)) == []


def test_dead_links_anchors_and_lost_pages_are_found(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "lost").mkdir()
    (tmp_path / "index.html").write_text('<a href="a/#x">a</a><a href="gone/">b</a><a href="a.csv">c</a>')
    (tmp_path / "a" / "index.html").write_text('<p id="y"><p id="y"><a href="..">up</a><a href="#z">z</a>')
    (tmp_path / "lost" / "index.html").write_text("")
    assert faults(tmp_path) == [
        "/: no #x on /a/",
        "/: no gone/",
        "/: no a.csv",
        "/a/: id 'y' twice",
        "/a/: no #z on /a/",
        "/lost/: no link leads here",
    ]
