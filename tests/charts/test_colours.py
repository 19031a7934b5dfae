"""The colours of items, as anyone sees them: on both papers, and to eyes that lack a kind of cone.

What is held: to normal and to dichromatic sight any two items of a chart differ by 15 units of
CIE 1976 (L*, a*, b*) and more (our choice, no source). In grey, and beside the soft colour of controls and of
items beyond the sixth, colour alone does not tell them apart: there marker and dash do, and the name at the
line's end.
"""

from __future__ import annotations

import itertools
import re

import pytest

from generator.charts.looks import CONTROL, ITEMS, OTHERS
from tests.pages.factory import ROOT

STYLE = (ROOT / "site_templates/theme/assets/report.css").read_text(encoding="utf-8")
APART = 15.0

Vector = tuple[float, float, float]

# G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A Physiologically-based Model for Simulation of Color
# Vision Deficiency, IEEE Transactions on Visualization and Computer Graphics 15 (2009), severity 1.0, for
# linear RGB.
SIGHT: dict[str, tuple[Vector, Vector, Vector]] = {
    "normal": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def palettes() -> dict[str, dict[str, str]]:
    """Colours by role, of light and of dark; each stands once."""
    told = re.findall(r"--(light|dark)-(paper|soft|ink|s[1-6]): (#[0-9a-f]{6});", STYLE)
    return {shade: {role: colour for of, role, colour in told if of == shade} for shade in ("light", "dark")}


PALETTES = palettes()


def linear(colour: str) -> Vector:
    """Channels of sRGB as light (IEC 61966-2-1)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return red, green, blue


def seen(colour: str, sight: str) -> Vector:
    light = linear(colour)
    red, green, blue = (
        min(max(sum(one * other for one, other in zip(row, light, strict=True)), 0.0), 1.0)
        for row in SIGHT[sight]
    )
    return red, green, blue


def lab(light: Vector) -> Vector:
    """CIE 1976 L*, a*, b* under D65 (IEC 61966-2-1, CIE 15)."""
    red, green, blue = light
    x = (0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047
    y = 0.2126729 * red + 0.7151522 * green + 0.0721750 * blue
    z = (0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883
    a, b, c = (
        each ** (1 / 3) if each > (6 / 29) ** 3 else each / (3 * (6 / 29) ** 2) + 4 / 29 for each in (x, y, z)
    )
    return 116 * b - 16, 500 * (a - b), 200 * (b - c)


def difference(one: str, other: str, sight: str) -> float:
    pair = zip(lab(seen(one, sight)), lab(seen(other, sight)), strict=True)
    return float(sum((left - right) ** 2 for left, right in pair) ** 0.5)


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.2, relative luminance)."""
    low, high = sorted(
        0.2126 * red + 0.7152 * green + 0.0722 * blue for red, green, blue in map(linear, (one, other))
    )
    return (high + 0.05) / (low + 0.05)


def test_the_arithmetic_gives_what_is_known() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert lab(linear("#ffffff")) == pytest.approx((100.0, 0.0, 0.0), abs=0.02)
    # sRGB's own red, green and blue in L*, a*, b*, as tables of IEC 61966-2-1 under D65 have them
    assert lab(linear("#ff0000")) == pytest.approx((53.24, 80.09, 67.20), abs=0.02)
    assert lab(linear("#00ff00")) == pytest.approx((87.73, -86.18, 83.18), abs=0.02)
    assert lab(linear("#0000ff")) == pytest.approx((32.30, 79.19, -107.86), abs=0.02)
    for sight, rows in SIGHT.items():  # grey stays grey to every eye
        assert [sum(row) for row in rows] == pytest.approx([1, 1, 1], abs=2e-6), sight


def test_light_and_dark_are_read() -> None:
    assert PALETTES["light"] != PALETTES["dark"]
    assert all(len(each) == 9 for each in PALETTES.values())


@pytest.mark.parametrize("sight", SIGHT)
@pytest.mark.parametrize("palette", PALETTES)
def test_any_two_items_keep_a_distance(palette: str, sight: str) -> None:
    colours = [PALETTES[palette][look.role] for look in ITEMS]
    assert min(difference(*pair, sight) for pair in itertools.combinations(colours, 2)) >= APART


@pytest.mark.parametrize("palette", PALETTES)
def test_each_mark_stands_off_its_paper(palette: str) -> None:
    colours = PALETTES[palette]
    for look in (*ITEMS, CONTROL, OTHERS):
        assert contrast(colours[look.role], colours["paper"]) >= 3, look


def test_in_grey_marker_and_dash_tell_them_apart() -> None:
    assert len({look.marker for look in ITEMS}) == len({look.dash for look in ITEMS}) == len(ITEMS)
    assert all(look.dash not in {CONTROL.dash, "none"} and look.marker != "none" for look in ITEMS)
    assert CONTROL.dash != OTHERS.dash
