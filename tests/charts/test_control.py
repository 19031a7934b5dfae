"""The control chart: where its results and limits stand, and one whole drawing, held byte for byte."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from markupsafe import Markup

from generator.analysis.control import individuals
from generator.charts.control import ControlDrawing, control_drawing
from generator.charts.scales import near_scale
from generator.pages.control import ControlRow, ControlView
from generator.pages.format import day, plus
from generator.pages.render import Renderer
from tests.pages.factory import ROOT

FLOW = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 62.1)
GOLDEN = Path(__file__).with_name("control.svg")


def drawing(unit: str = "K") -> ControlDrawing:
    limits = individuals(FLOW)
    assert limits is not None
    return control_drawing(FLOW, limits, unit)


def drawn() -> str:
    rows = tuple(
        ControlRow(day(f"2026-03-{number:02}"), plus(each, 1.0, "K"), False, "", Markup("../"))
        for number, each in enumerate(FLOW, 1)
    )
    view = ControlView("c", "plain cable", "Hotter than the air", True, rows, None, drawing())
    return Renderer(ROOT).fragment("charts/control.svg.jinja", view=view)


def test_the_drawing_is_the_one_that_was_looked_at() -> None:
    assert drawn() == GOLDEN.read_text(encoding="utf-8")


def test_it_is_well_formed_and_uses_only_its_own_marks() -> None:
    root = ET.fromstring(drawn())  # noqa: S314  # our own
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert len(ids) == len(set(ids))
    used = {(each.get("href") or "").removeprefix("#") for each in root.iter("use")}
    assert used <= set(ids)


def test_every_result_stands_within_the_box_in_its_order() -> None:
    found = drawing()
    assert len(found.within) == 9
    assert [x for x, _ in found.beyond] == ["95.00%"]
    across = [float(x.rstrip("%")) for x, _ in found.within]
    assert across == sorted(across)
    assert all(0 < float(y.rstrip("%")) < 100 for _, y in found.within)
    upper, lower = (float(each.rstrip("%")) for each in found.limits)
    assert upper < float(found.centre.rstrip("%")) < lower


def test_what_is_in_one_unit_alone_has_one_axis() -> None:
    assert drawing("A").y_ticks_us == ()
    assert (drawing("K").unit, drawing("K").unit_us) == ("°C", "°F")


@pytest.mark.parametrize("values", [(5.0,), (0.0, 0.0), (-3.0, 9.0), (1e-3, 1.1e-3), (1e6, 2e6)])
def test_a_near_scale_holds_its_values(values: tuple[float, ...]) -> None:
    scale = near_scale(values)
    assert scale.low < min(values)
    assert max(values) < scale.high
    assert all(scale.low <= tick <= scale.high for tick in scale.ticks)
