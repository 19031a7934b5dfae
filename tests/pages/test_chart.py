"""What is said beside a chart, and its table."""

from __future__ import annotations

import dataclasses

from generator.charts.description import HeatingChart, heating_chart
from generator.charts.series import Place
from generator.evaluation.findings import MeasureFinding
from generator.evaluation.statements import LimitFinding
from generator.pages.chart import ChartView, chart_view, told
from generator.pages.format import Plus
from generator.pages.render import Renderer
from tests.charts.test_interactive import limited, settled
from tests.charts.test_still import NAMES, chart
from tests.pages.factory import HOLDERS, ROOT, item, measure, run
from tests.pages.rendered import Parsed


def view(found: MeasureFinding = HOLDERS) -> ChartView:
    return chart_view(heating_chart("t", found, NAMES, schedule=(0, 1800, 3600), stops={"r/stops-a": 2040.0}))


def test_the_table_has_every_line_and_every_time() -> None:
    made = view()
    assert [(each.name, each.pieces, each.control) for each in made.columns] == [
        ("Tessvik T30", 2, False),
        ("Veldrun V30", 1, False),
        ("Grenlo 30 A", 1, False),
        ("plain cable", 0, True),
    ]
    assert [row.minutes for row in made.rows] == ["0", "30", "60"]
    assert made.rows[1].cells[0] is None
    assert made.rows[2].cells[0] == Plus("29.0", "1.0", "52.2", "1.8", "°C", "°F", rise=True)


def test_a_place_without_an_interval_has_one_decimal() -> None:
    assert told(Place(0, 12.34, None)) == Plus("12.3", "", "22.2", "", "°C", "°F", rise=True)


def test_the_facts_say_what_is_drawn() -> None:
    facts = view().facts
    assert (facts.thin, facts.hollow, facts.struck, facts.gaps) == (True, True, False, True)
    assert facts.coolest is not None
    assert facts.hottest is not None
    assert (facts.coolest.name, facts.hottest.name, facts.between) == ("Tessvik T30", "Veldrun V30", 0)
    assert [(each.name, each.at) for each in facts.stopped] == [("Grenlo 30", "34")]


def keyed(found: HeatingChart) -> str:
    html = Renderer(ROOT).fragment(
        "fragments/heating.html.jinja", view=chart_view(found), svg="", data="rise.js"
    )
    return Parsed(html.partition('class="note">Bands')[2].partition("</p>")[0]).text


def test_the_key_tells_the_limit_and_the_air_that_it_is_told_for() -> None:
    """105 °C are 221 °F and 50 °C are 122 °F: temperatures take the offset."""
    assert "The heavy line: the limit, 105 °C (221 °F) in air of 50 °C (122 °F)." in keyed(limited())
    assert "limit" not in keyed(chart())


def test_the_key_tells_a_limit_on_the_rise_without_offset() -> None:
    """55 K are a difference of 99 °F."""
    said = (LimitFinding(0, "rise", 55.0, None, (), "within", None),)
    found = measure(dataclasses.replace(HOLDERS.items[0], limits=said))
    assert "the limit, 55 °C (99 °F) above the air." in keyed(heating_chart("t", found, NAMES))


def test_the_key_tells_a_curve_through_the_readings() -> None:
    assert "Thin lines: each piece, as the curve through its readings where one can be given." in keyed(
        settled()
    )
    alone = dataclasses.replace(
        settled(), lines=tuple(line for line in settled().lines if line.kind == "single")
    )
    assert "Thin lines: the curve through the readings." in keyed(alone)


def described(found: MeasureFinding) -> str:
    made = view(found)
    html = Renderer(ROOT).fragment("fragments/heating.html.jinja", view=made, svg="", data="rise.js")
    return Parsed(html.partition("<figcaption>")[2].partition("</p>")[0]).text


def test_the_sentence_is_made_from_the_figures() -> None:
    assert described(HOLDERS) == (
        "After 60 min at 30 A, Tessvik T30 (2 pieces) was 29.0 ± 1.0 °C (52.2 ± 1.8 °F) above the air"
        " and Veldrun V30 (1 piece) 31.0 ± 1.0 °C (55.8 ± 1.8 °F)."
        " Grenlo 30 A was stopped at 34 min."
    )


def test_the_sentence_of_one_figure_and_of_none() -> None:
    alone = measure(HOLDERS.items[0])
    assert described(alone) == (
        "After 60 min at 30 A, Tessvik T30 (2 pieces) was 29.0 ± 1.0 °C (52.2 ± 1.8 °F) above the air."
    )
    none = measure(dataclasses.replace(HOLDERS.items[2]))
    assert described(none).startswith("No figure could be given; the readings are shown as they are.")


def test_the_sentence_counts_those_between() -> None:
    runs = [run(f"r/{n}", name, "A", {0: 0.0, 60: 20.0 + n}) for n, name in enumerate(NAMES)]
    four = measure(*(item(each.item, n, each) for n, each in enumerate(runs)))
    assert described(four).endswith(" Two more lay between.")
    assert described(measure(*four.items[:3])).endswith(" One more lay between.")


def test_a_mean_is_given_only_where_all_were_read() -> None:
    html = Renderer(ROOT).fragment("fragments/heating.html.jinja", view=view(), svg="", data="rise.js")
    cells = [each.text for each in Parsed(html).all("td")]
    assert cells.count("not all read") == 2
    assert "29.0 ± 1.0 52.2 ± 1.8" in cells
