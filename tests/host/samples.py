"""Hand-made sites and benches for the tests of the host."""

from __future__ import annotations

from pathlib import Path

from generator.pages.site import Download, Page, Site

MKDOCS = """\
site_name: The Slipway Bench
site_url: https://slipway-bench.example/
docs_dir: reports/pages
theme:
  name: material
plugins:
  - provebook
"""

ABOUT = "# About this bench\n\nOne person, one bench. [The reports](../index.md) come first.\n".replace(
    "../index.md", "index.md"
)

FRAGMENT = '<svg viewBox="0 0 9 9">\n\n\t<text>a * b * c</text>\n\n    <path d="M0 0"/>\n</svg>\n'
"""Blank lines, a tab, an indent and asterisks: each would mean something to Markdown."""


def page(uri: str, title: str, body: str, *, template: str = "report.html", **more: object) -> Page:
    head = f"---\ntemplate: {template}\ntitle: {title!r}\n---\n"
    return Page(uri, f"{head}\n{body}", **more)  # type: ignore[arg-type]


def report(number: int) -> Page:
    body = (
        "# Which 30 A in-line fuse holder stays coolest in a closed box?\n\n"
        "Tessvik T30 stayed coolest, about 28 °C above the air.\n\n"
        '<div data-slot="curves"></div>\n\n'
        "## How they heated {#heated}\n\nThe [method](../../m/closed-box-heating/index.md).\n"
    )
    return page(
        f"r/holders-{number:04}/index.md",
        f"Fuse holders {number:04}",
        body,
        slots={"curves": FRAGMENT},
        updated="2026-03-14",
    )


def site(reports: int = 1, *, demonstration: bool = True) -> Site:
    pages = [
        page("index.md", "Reports", "# Latest reports\n\n[Method](m/index.md)\n", template="front.html"),
        page("m/index.md", "Methods", "# Methods\n\n[Closed box](closed-box-heating/index.md)\n"),
        page("m/closed-box-heating/index.md", "Closed box", "# Heating in a closed box\n\nSteps.\n"),
        *map(report, range(1, reports + 1)),
    ]
    return Site(
        title="The Slipway Bench",
        pages=tuple(sorted(pages, key=lambda each: each.uri)),
        downloads=(Download("r/holders-0001/1/data/readings.csv", b"time min,ambient degC\r\n0,21.2\r\n"),),
        demonstration=demonstration,
        newest="2026-09-02",
    )


def bench(folder: Path, settings: str = MKDOCS) -> Path:
    """The files of a bench: settings, one record, one hand-written page."""
    pages = folder / "reports" / "pages"
    pages.mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(settings, encoding="utf-8")
    (folder / "reports" / "bench.yml").write_text("format: 1\n", encoding="utf-8")
    (pages / "about.md").write_text(ABOUT, encoding="utf-8")
    return folder
