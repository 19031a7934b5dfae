"""The templates over the theme: few, known, without scripts in the page, and the colours that were agreed."""

from __future__ import annotations

import hashlib
import re
from importlib.util import find_spec
from pathlib import Path

import pytest

from generator.host.build import build

THEME = find_spec("material")
assert THEME is not None
OURS = Path(__file__).parents[2] / "site_templates" / "theme"
THEIRS = Path(str(THEME.origin)).parent / "templates"

REPLACED = {
    "404.html": "80c93494b5432b1bcdf292caeb67a0653c45b37372f49e08ad4a70ca695a7495",
    "main.html": "9948b55a7bc979c35825df99baba9e6971fca4eb298dea3cdde61e990a2de5e0",
    "partials/footer.html": "50c2a75f013b7b03fb97f381860c77df8fd5d13d68f90d3281754b68f69ec894",
    "partials/header.html": "8cf3fb15bcf969ff596649616fd99366b3c31c08d57a86d05308efc16d8fa75f",
    "partials/javascripts/base.html": "d6113712bc4deb30b4bd810ee0dfc28b6f04d2f88cc0016c0f1766eac7b762b6",
    "partials/javascripts/content.html": "3722e156f0f6339de39fbbfc178b6e401d1a4fb890f189ac5b80c2504bda7dcf",
    "partials/javascripts/palette.html": "8790389765ea6036effddba548b15093bb05bdc75624eaeaf8b13f3c24be4ab5",
}
"""SHA-256 of each of the theme's own files that one of ours stands before, as of mkdocs-material 9.8.2.

Where one differs after an upgrade, read what changed and carry over what matters, then write the new one.
"""


def test_at_most_eight_files_of_the_theme_are_replaced_and_each_is_known() -> None:
    ours = {path.relative_to(OURS).as_posix() for path in OURS.rglob("*") if path.is_file()}
    both = {name for name in ours if (THEIRS / name).is_file()}
    assert both == set(REPLACED)
    assert len(both) <= 8


@pytest.mark.parametrize("name", sorted(REPLACED))
def test_the_replaced_file_is_as_it_was_when_ours_was_written(name: str) -> None:
    assert hashlib.sha256((THEIRS / name).read_bytes()).hexdigest() == REPLACED[name]


# --- what a page may hold ------------------------------------------------------------------------------


def test_no_script_stands_in_a_page(bench: Path) -> None:
    for path in sorted(build(bench).rglob("*.html")):
        text = path.read_text(encoding="utf-8")
        scripts = re.findall(r"<script\b([^>]*)>(.*?)</script>", text, re.S)
        live = "charts.js" in text
        assert len(scripts) == 4 + live, path
        assert live == ("kind-report" in text)
        for attributes, body in scripts:
            assert 'type="application/json"' in attributes or (" src=" in attributes and not body), path
        assert not re.search(r"<[^>]*\s(on[a-z]+=|href=\"javascript:)", text), path


def test_addresses_elsewhere_are_names_of_formats_and_our_own(bench: Path) -> None:
    known = ("https://slipway-bench.example/", "http://www.w3.org/", "http://www.sitemaps.org/")
    site = build(bench)
    for path in sorted(each for each in site.rglob("*") if each.suffix in {".html", ".css", ".svg", ".xml"}):
        for address in re.findall(r"(?:https?:)?//[^\s\"'<>)]+", path.read_text(encoding="utf-8")):
            assert address.startswith(known), f"{path}: {address}"


# --- colours -------------------------------------------------------------------------------------------

CSS = (OURS / "assets" / "report.css").read_text(encoding="utf-8")
NAMES = ["paper", "panel", "ink", "soft", "link", "edge", "rule", "limit", "s1", "s2", "s3", "s4", "s5", "s6"]


def numbers(scheme: str) -> dict[str, str]:
    """The colours of light or dark; the limit's is the ink's."""
    found = dict(re.findall(rf"--{scheme}-([a-z0-9]+): (#[0-9a-f]{{6}});", CSS))
    assert f"--{scheme}-limit: var(--{scheme}-ink);" in CSS
    return {**found, "limit": found["ink"]}


LIGHT = numbers("light")
DARK = numbers("dark")


def block(selector: str, after: str = "") -> dict[str, str]:
    start = CSS.index(selector, CSS.index(after))
    text = CSS[CSS.index("{", start) + 1 : CSS.index("}", start)]
    return dict(re.findall(r"--([a-z0-9]+): var\(--([a-z0-9-]+)\);", text))


def test_the_colours_are_those_agreed() -> None:
    agreed = {
        "paper": ("#ffffff", "#12191e"),
        "panel": ("#f1f4f6", "#1b252c"),
        "ink": ("#16222b", "#e7edf1"),
        "soft": ("#4a5964", "#a9b7c1"),
        "link": ("#0b5f73", "#7cc7da"),
        "edge": ("#71818c", "#728591"),
        "rule": ("#c7d1d8", "#33424d"),
    }
    assert {name: (LIGHT[name], DARK[name]) for name in agreed} == agreed
    assert [LIGHT[f"s{number}"] for number in range(1, 7)] == (
        ["#332288", "#cc6677", "#117733", "#999933", "#aa4499", "#882255"]
    )
    assert [DARK[f"s{number}"] for number in range(1, 7)] == (
        ["#88ccee", "#cc6677", "#44aa99", "#999933", "#aa4499", "#ddcc77"]
    )


def test_light_the_device_s_dark_and_the_reader_s_dark_are_the_same_names() -> None:
    assert block(":root,") == {name: f"light-{name}" for name in NAMES}
    dark = {name: f"dark-{name}" for name in NAMES}
    assert block(":root {", "@media screen and (prefers-color-scheme: dark)") == dark
    assert block('body[data-md-color-scheme="slate"]') == dark


LITERAL = re.compile(r"(?<![&\w])#[0-9a-fA-F]{3,8}\b|\b(?:rgb|hsl|hwb|lab|lch|oklab|oklch|color)a?\(")
NAMED = re.compile(
    r"(?:color|fill|stroke|background|border|outline|shadow)[a-z-]*[:=]\s*[^;{}>\n]*?(?<![-\w])"
    r"(?:white|black|gr[ae]y|silver|red|blue|green|navy|teal|orange|yellow|purple|brown)(?![-\w])"
)


def test_no_colour_stands_anywhere_else() -> None:
    # A drawing that stands alone can ask no style sheet; its colours are the light ones all the same.
    icon = (OURS / "assets" / "favicon.svg").read_text(encoding="utf-8")
    assert {each.lower() for each in re.findall(r"#[0-9A-Fa-f]{6}", icon)} == {LIGHT["ink"], LIGHT["paper"]}
    read = 0
    for path in sorted(OURS.parent.rglob("*")):
        if path.suffix not in {".css", ".js", ".html", ".jinja"} or "starters" in path.parts:
            continue
        text = path.read_text(encoding="utf-8")
        if path.name == "report.css":
            text = re.sub(r"--(?:light|dark)-[a-z0-9]+: #[0-9a-f]{6};", "", text)
        found = [each.group() for each in (*LITERAL.finditer(text), *NAMED.finditer(text))]
        assert found == [], path
        read += 1
    assert read > 80


def test_what_finds_a_colour_finds_one() -> None:
    for text in ("color: #fff;", 'fill="#16222B"', "a: rgba(0, 0, 0, 0.5)", "background: 0 0 white"):
        assert LITERAL.search(text) or NAMED.search(text)
    for text in ("26&#160;%", "color: var(--ink)", 'href="#limit"', "stroke: currentcolor", 'content: "#"'):
        assert not LITERAL.search(text)
        assert not NAMED.search(text)


def test_series_colours_are_of_the_published_scheme() -> None:
    # Paul Tol, Colour Schemes, SRON/EPS/TN/09-002, issue 3.2 (2021), figure of the scheme "muted".
    muted = {
        "#332288",
        "#88ccee",
        "#44aa99",
        "#117733",
        "#999933",
        "#ddcc77",
        "#cc6677",
        "#882255",
        "#aa4499",
    }
    for scheme in (LIGHT, DARK):
        series = [scheme[f"s{number}"] for number in range(1, 7)]
        assert len(set(series)) == 6
        assert set(series) <= muted


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 (definition of "relative luminance")."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2 (definition of "contrast ratio")."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_text_and_marks_stand_out(scheme: dict[str, str]) -> None:
    # WCAG 2.2: 1.4.3 asks 4.5 for text, 1.4.11 asks 3 for what is needed to understand.
    for text in ("ink", "soft", "link"):
        for ground in ("paper", "panel"):
            assert contrast(scheme[text], scheme[ground]) >= 4.5
    for mark in ("edge", "limit", "s1", "s2", "s3", "s4", "s5", "s6"):
        assert contrast(scheme[mark], scheme["paper"]) >= 3


def test_contrast_is_computed_as_published() -> None:
    # WCAG 2.2: black on white is 21 to 1. #777777 on white, 4.48 to 1, is a value often printed; from memory.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_forced_colours_leave_no_colour_of_ours() -> None:
    start = CSS.index("@media (forced-colors: active)")
    named = dict(re.findall(r"--([a-z0-9]+): (\w+);", CSS[start : CSS.index("\n}\n", start)]))
    assert named.keys() == set(NAMES)
    assert set(named.values()) <= {"Canvas", "CanvasText", "LinkText"}


def test_the_page_for_missing_addresses_says_what_to_do(bench: Path) -> None:
    text = (build(bench) / "404.html").read_text(encoding="utf-8")
    assert "No page has this address" in text
    assert "All reports</a>" in text


def test_the_search_dialog_has_a_name(bench: Path) -> None:
    text = (build(bench) / "index.html").read_text(encoding="utf-8")
    (dialog,) = re.findall(r'<[^>]*role="dialog"[^>]*>', text)
    assert 'aria-label="Search"' in dialog
    assert 'aria-modal="true"' in dialog


def test_a_printed_sheet_bears_its_number_and_no_style_stands_in_a_page(bench: Path) -> None:
    paper = (OURS / "assets" / "paper.css").read_text(encoding="utf-8")
    assert 'counter(page) " of " counter(pages)' in paper
    for path in sorted(build(bench).rglob("*.html")):
        assert "<style" not in path.read_text(encoding="utf-8")
