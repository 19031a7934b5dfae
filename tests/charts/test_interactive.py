"""The live chart, from the still's description: what plotly is given; one whole chart held in a file."""

from __future__ import annotations

import dataclasses
import itertools
import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import plotly.graph_objects as plotly
import pytest

from generator.charts.description import HeatingChart, Limit, Name, heating_chart
from generator.charts.interactive import SIZES, live
from generator.charts.looks import DASHES, ITEMS, look_of
from generator.charts.series import Fitted
from generator.evaluation.ends import End, SettledRise
from generator.evaluation.statements import LimitFinding
from generator.pages.render import data_block
from tests.charts.test_still import NAMES, chart
from tests.pages.factory import HOLDERS, ROOT, item, measure, run

GOLDEN = Path(__file__).with_name("heating.json")
STYLES = "".join(
    (ROOT / "site_templates/theme/assets" / name).read_text(encoding="utf-8")
    for name in ("report.css", "pages.css")
)


def leads(made: dict[str, Any]) -> list[dict[str, Any]]:
    return [trace for trace in made["data"] if "customdata" in trace]


def texts(tree: Any, key: str = "") -> Iterator[tuple[str, str]]:
    """Key and value of every text in it."""
    if isinstance(tree, dict):
        for name, each in tree.items():
            yield from texts(each, name)
    elif isinstance(tree, list | tuple):
        for each in tree:
            yield from texts(each, key)
    elif isinstance(tree, str):
        yield key, tree


def limited() -> HeatingChart:
    """With a limit of 105 °C in air of 50 °C."""
    said = (LimitFinding(0, "temperature", 105.0, 50.0, (), "undecided", None),)
    items = tuple(dataclasses.replace(each, limits=said) for each in HOLDERS.items)
    return heating_chart("t", dataclasses.replace(HOLDERS, items=items), NAMES)


def settled(why_not: str | None = None) -> HeatingChart:
    """One piece whose readings lie on a curve from 1 K to 31 K with a time constant of 10 min."""
    curve = Fitted(1.0, 31.0, 10.0, 0.0, 60.0)
    rises: dict[float, float | None] = {minute: curve.at(minute) for minute in (0.0, 10.0, 20.0, 40.0, 60.0)}
    end = End("settled", None, None, SettledRise(31.0, 30.0, 33.0, 600.0, 1.0, why_not), None, 0.025, 900.0)
    one = run("r/a", "cool", "A", rises, end=end)
    two = run("r/b", "cool", "B", rises, end=end)
    return heating_chart(
        "t", measure(item("cool", 0, one, two), item("single", 1, one)), NAMES, schedule=(), within=30
    )


def test_the_chart_is_the_one_that_was_looked_at() -> None:
    made = json.dumps(live(chart()), ensure_ascii=False, indent=1)
    assert made + "\n" == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.parametrize("described", [chart(), limited(), settled()], ids=["holders", "limit", "fitted"])
def test_plotly_knows_every_key_and_value(described: HeatingChart) -> None:
    made = live(described)
    figure = plotly.Figure({"data": made["data"], "layout": made["layout"]})
    assert len(figure.data) == len(made["data"])


@pytest.mark.parametrize("described", [chart(), limited(), settled()], ids=["holders", "limit", "fitted"])
def test_axes_hold_numbers_alone_and_say_that_they_are_linear(described: HeatingChart) -> None:
    made = live(described)
    for axis in (made["layout"]["xaxis"], made["layout"]["yaxis"]):
        assert axis["type"] == "linear"
        assert axis["exponentformat"] == "none"
        assert len(axis["tickvals"]) == len(axis["ticktext"])
    for trace in made["data"]:
        assert len(trace["x"]) == len(trace["y"])
        assert trace["mode"] == "markers" or trace["connectgaps"] is False
        for value in (*trace["x"], *trace["y"]):
            assert value is None or (isinstance(value, int | float) and math.isfinite(value))
    assert not {"bdata", "dtype", "template"} & {key for key, _ in texts(made)}
    assert json.loads(json.dumps(made, allow_nan=False)) == made


def test_a_missing_reading_leaves_a_gap() -> None:
    cool = next(trace for trace in leads(live(chart())) if trace["name"] == "Tessvik T30")
    assert cool["x"] == [0, None, 60]
    assert cool["y"] == [0, None, 29]
    assert cool["customdata"][1] is None


def test_steps_of_time_are_equal_whatever_the_clock_did() -> None:
    """Minutes since the start: a night in which clocks are set back is one like any other."""
    rises: dict[float, float | None] = {float(minute): 0.1 * minute for minute in range(0, 181, 30)}
    made = live(heating_chart("t", measure(item("cool", 0, run("r/a", "cool", "A", rises))), NAMES))
    assert leads(made)[0]["x"] == [0, 30, 60, 90, 120, 150, 180]


def test_ranges_and_ticks_are_the_still_s() -> None:
    described, made = chart(), live(chart())
    assert made["layout"]["xaxis"]["range"] == pytest.approx([described.x.low, described.x.high], abs=5e-4)
    assert made["layout"]["yaxis"]["range"] == pytest.approx([described.y.low, described.y.high], abs=5e-4)
    assert made["units"]["metric"]["tickvals"] == made["layout"]["yaxis"]["tickvals"] == [0, 20, 40, 60, 80]


def test_both_systems_of_units_are_in_it_and_a_rise_has_no_offset() -> None:
    """50 K are a difference of 90 °F: ticks at 0, 50, 100, 150 °F stand at that over 1.8 K."""
    made = live(chart())
    assert made["units"]["us"]["ticktext"] == ["0", "50", "100", "150"]
    assert made["units"]["us"]["tickvals"] == pytest.approx([0, 27.778, 55.556, 83.333])
    assert made["units"]["us"]["factor"] == 1.8
    cool = next(trace for trace in leads(made) if trace["name"] == "Tessvik T30")
    assert cool["customdata"][2] == [
        "60",
        "29.0\u202f±\u202f1.0",
        "52.2\u202f±\u202f1.8",
    ]
    fifty = measure(item("cool", 0, run("r/a", "cool", "A", {0: 0.0, 60: 50.0})))
    told = leads(live(heating_chart("t", fifty, NAMES)))[0]["customdata"][1]
    assert told[1].startswith("50.0")
    assert told[2].startswith("90.0")


def test_every_colour_is_a_role_that_the_style_sheet_has() -> None:
    for described in (chart(), limited(), settled()):
        colours = {value for key, value in texts(live(described)) if key.endswith("color")}
        roles = {each.removeprefix("var(--").removesuffix(")") for each in colours - {"rgba(0,0,0,0)"}}
        assert roles >= {"s1", "paper", "soft", "rule", "edge", "ink"}
        assert all(f"--{role}: " in STYLES for role in roles)


def test_dashes_are_the_style_sheet_s() -> None:
    for dash, lengths in DASHES.items():
        found = re.search(rf"\.line\.{dash} \{{\s*stroke-dasharray: ([\d ]+);", STYLES)
        assert (found[1] if found else "") == " ".join(map(str, lengths)), dash


def test_every_item_has_its_marker_size() -> None:
    assert {look.marker for look in ITEMS} == set(SIZES)
    assert look_of(6).marker == "none"


def test_one_piece_is_hollow_and_a_mean_is_filled() -> None:
    marks = {trace["name"]: trace["marker"] for trace in leads(live(chart())) if "marker" in trace}
    assert (marks["Tessvik T30"]["color"], marks["Tessvik T30"]["line"]["color"]) == (
        "var(--s1)",
        "var(--paper)",
    )
    assert (marks["Veldrun V30"]["color"], marks["Veldrun V30"]["line"]["color"]) == (
        "var(--paper)",
        "var(--s2)",
    )


def test_bands_pieces_control_and_the_cross_are_in_it() -> None:
    made = live(chart())
    bands = [trace for trace in made["data"] if trace.get("fill") == "toself"]
    assert [trace["fillcolor"] for trace in bands] == ["var(--s2)", "var(--s3)"]
    thin = [trace for trace in made["data"] if trace.get("opacity") == 0.45]
    assert [trace["line"]["color"] for trace in thin] == ["var(--s1)", "var(--s1)"]
    control = next(trace for trace in leads(made) if trace["name"] == "plain cable")
    assert (control["mode"], control["line"]["dash"]) == ("lines", "10px,5px")
    cross = next(trace for trace in made["data"] if trace.get("marker", {}).get("symbol") == "x-thin")
    assert (cross["x"], cross["y"]) == ([30], [80])


def test_an_excluded_reading_is_struck() -> None:
    whole = run("r/a", "cool", "A", {0: 0.0, 30: 20.0, 60: 28.0})
    readings = list(whole.readings)
    readings[1] = dataclasses.replace(readings[1], excluded="the probe had come off")
    made = live(
        heating_chart(
            "t",
            measure(item("cool", 0, dataclasses.replace(whole, readings=tuple(readings)))),
            NAMES,
        )
    )
    struck = [trace for trace in made["data"] if trace["mode"] == "markers"]
    assert [trace["marker"]["symbol"] for trace in struck] == ["circle-open", "line-ne"]
    assert all((trace["x"], trace["y"]) == ([30], [20]) for trace in struck)


def test_a_limit_stands_as_far_up_as_it_lies_over_the_reference_air() -> None:
    made = live(limited())
    assert [(rule["y0"], rule["y1"]) for rule in made["layout"]["shapes"]] == [(55, 55)]
    assert made["units"]["metric"]["limits"] == ["55"]
    assert made["units"]["us"]["limits"] == ["99"]
    assert limited().limits == (Limit(55.0, 105.0, 50.0),)
    assert limited().y.high > 55


def test_a_limit_above_every_curve_is_still_in_the_picture() -> None:
    said = (LimitFinding(0, "rise", 200.0, None, (), "within", None),)
    cool = dataclasses.replace(HOLDERS.items[0], limits=said)
    described = heating_chart("t", measure(cool), NAMES)
    assert described.limits == (Limit(200.0, 200.0, None),)
    assert described.y.high > 200


def test_a_curve_through_the_readings_is_thin_and_takes_a_piece_s_place() -> None:
    made = live(settled())
    thin = [trace for trace in made["data"] if trace.get("opacity") == 0.45]
    assert [trace["line"]["color"] for trace in thin] == ["var(--s1)", "var(--s1)", "var(--s2)"]
    assert all(len(trace["x"]) == 17 for trace in thin)
    assert all((trace["y"][0], trace["x"][-1]) == (1, 60) for trace in thin)


def test_a_curve_that_may_not_be_printed_is_not_drawn() -> None:
    thin = [trace for trace in live(settled("lack-of-fit"))["data"] if trace.get("opacity") == 0.45]
    assert [len(trace["x"]) for trace in thin] == [5, 5]


def test_straight_lines_keep_close_to_the_curve() -> None:
    """Half of a time constant into it, and anywhere: within a two-hundred-and-fiftieth of its height."""
    curve = Fitted(2.0, 42.0, 11.0, 0.0, 60.0)
    places = [place for place in curve.places() if place]
    for one, other in itertools.pairwise(places):
        for part in (0.25, 0.5, 0.75):
            time = one.minutes + part * (other.minutes - one.minutes)
            chord = one.rise + part * (other.rise - one.rise)
            assert 0 <= curve.at(time) - chord < 40 / 500
    assert curve.at(11.0) == pytest.approx(2 + 40 * (1 - math.exp(-1)))


def test_names_are_text() -> None:
    hostile = 'A&B <i>"2,5" </script> $1 $2'
    made = live(heating_chart("t", HOLDERS, dict(NAMES, single=Name(hostile, hostile))))
    said = [value for _, value in texts(made) if "A&amp;B" in value]
    assert said == ['A&amp;B &lt;i&gt;"2,5" &lt;/script&gt; $1 $2'] * 2
    block = data_block({"name": hostile + "\u2028"})
    assert not set("<>&\u2028") & set(block)
    assert json.loads(block) == {"name": hostile + "\u2028"}


def test_what_has_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        data_block({"y": [math.nan]})


def test_a_curve_of_twenty_points_weighs_little() -> None:
    rises: dict[float, float | None] = {
        float(minute): 30.123 * (1 - math.exp(-minute / 11)) for minute in range(20)
    }
    made = live(heating_chart("t", measure(item("cool", 0, run("r/a", "cool", "A", rises))), NAMES))
    assert len(data_block(made).encode()) < 3000
