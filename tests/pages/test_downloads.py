"""Files to take away: numbers as numbers, texts guarded, a unit in every heading."""

from __future__ import annotations

import csv
import io
import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.rounding import rounded
from generator.evaluation.report import evaluate
from generator.pages.downloads import pairs, readings, results, table
from generator.pages.tables import PAIRS, RESULTS, RUN
from tests.pages.factory import demo, demo_site
from tests.pages.newest import newest

FINDING = evaluate(demo(), demo().reports["fuse-holders-30a"])
RUNS = demo().reports["fuse-holders-30a"].runs


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode("utf-8"), newline="")))


def test_a_text_that_a_spreadsheet_would_run_is_guarded_and_a_number_is_not() -> None:
    assert table(("a", "b"), [("=1+1", -0.3), ("@x", 1e-7)]) == b"a,b\r\n'=1+1,-0.3\r\n'@x,1e-07\r\n"


@given(st.lists(st.tuples(st.text(), st.floats(allow_nan=False, allow_infinity=False)), max_size=5))
def test_what_is_written_reads_back(cells: list[tuple[str, float]]) -> None:
    content = table(("text", "number"), cells).decode("utf-8")
    read = list(csv.reader(io.StringIO(content, newline="")))[1:]
    for (text, number), (text_read, number_read) in zip(cells, read, strict=True):
        assert text_read in {text, f"'{text}"}
        assert not text_read.startswith(("=", "+", "-", "@"))
        assert float(number_read) == number


def test_headings_name_the_unit_of_what_has_one() -> None:
    heads = list(rows(readings(FINDING, RUNS))[0])
    bare = {*RUN, "excluded because", "measure", "bound", "unit", "US unit"}
    own = [head for head in heads if head not in bare and not head.startswith(("value", "half-width of the"))]
    assert own[:5] == ["time min", "temperature@body degC", "ambient degC", "current A", "drop mV"]
    assert all(re.search(r"\((°C|°F|K)\)$| (min|degC|A|mV)$", head) for head in own)
    assert "unit" in RESULTS
    assert "unit" in PAIRS


def test_every_reading_of_every_run_is_there() -> None:
    found = rows(readings(FINDING, RUNS))
    made = [
        run for m in FINDING.measures for i in (*m.items, *m.controls) for p in i.pieces for run in p.runs
    ]
    # A drop is made of the readings that the rise is: they are the same rows.
    measured = {
        run.run: max(len(each.readings) + len(each.values) for each in made if each.run == run.run)
        for run in made
    }
    assert len(found) == sum(measured.values())
    assert {row["run"] for row in found} == set(measured)
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\d", row["date"]) for row in found)
    assert [row["excluded because"] for row in found if row["excluded because"]] == [
        "jaw of the clamp not shut"
    ]


def test_results_are_those_of_the_pages() -> None:
    found = rows(results(FINDING))
    means = {(row["measure"], row["item"]): row for row in found if not row["piece"]}
    rise, drop, pull = FINDING.measures
    assert [item.item for item in rise.items if item.figure is None] == ["grenlo-30"]
    for measure in (rise, drop, pull):
        for item in measure.items:
            row = means[measure.measure, item.item]
            if item.figure is None:
                assert row["value"] == ""
                continue
            assert abs(float(row["value"]) - item.figure.value) < 1e-3
            assert row["unit"] == measure.unit
            assert int(row["pieces"]) == item.n
    assert (rise.unit, drop.unit, pull.unit) == ("K", "V", "N")
    assert sum(row["control"] == "yes" for row in found) == len(rise.controls) + len(drop.controls)


def test_a_value_is_a_row_with_its_measure_and_its_unit() -> None:
    found = [row for row in rows(readings(FINDING, RUNS)) if row["measure"]]
    assert {(row["measure"], row["unit"]) for row in found} == {("drop", "V"), ("pull", "N")}
    assert all(row["value"] or row["bound"] for row in found)
    (row,) = (each for each in found if each["run"].endswith("2026-03-11-pull-tessvik-a"))
    assert (row["value"], row["time min"], row["rise (K)"]) == ("376.0", "", "")
    assert 4.0 < float(row["half-width of the value's 95 % interval"]) < 10.0


def test_the_live_chart_s_numbers_are_those_of_the_files() -> None:
    """Each point of the one item with one piece is a reading; each mean at the mark is a result."""
    files = {each.uri: each.content.decode() for each in demo_site().downloads if each.uri[-4:] != ".zip"}
    script = files[newest(files, "fuse-holders-30a") + "charts/rise.js"].removeprefix(
        "document.currentScript.made="
    )
    lines = {each["name"]: each for each in json.loads(script.removesuffix(";"))["data"] if "name" in each}
    alone = lines["Pallsto F-30"]
    mine = [
        (float(row["time min"]), float(row["rise (K)"]))
        for row in rows(readings(FINDING, RUNS))
        if row["item"] == "pallsto-f30" and row["rise (K)"]
    ]
    assert len(mine) > 8
    assert list(zip(alone["x"], alone["y"], strict=True)) == [
        (time, pytest.approx(rise, abs=0.0051)) for time, rise in mine
    ]
    told = {
        row["item"]: row for row in rows(results(FINDING)) if row["measure"] == "rise" and not row["piece"]
    }
    for item, name in (("tessvik-t30", "Tessvik T30"), ("okvarn-ih30", "Okvarn IH30")):
        figure = rounded(float(told[item]["value"]), float(told[item]["half-width of its 95 % interval"]))
        _, metric, _ = lines[name]["customdata"][-1]
        assert metric.replace("\N{NARROW NO-BREAK SPACE}", " ") == (
            f"{figure.value_text} ± {figure.uncertainty_text}"
        )


def test_pairs_say_what_is_shown() -> None:
    found = rows(pairs(FINDING))
    assert {row["difference shown"] for row in found} == {"yes", "no", "not known"}
    assert len(found) == sum(len(measure.pairs) for measure in FINDING.measures)
    assert {(row["measure"], row["unit"]) for row in found} == {("rise", "K"), ("drop", "V"), ("pull", "N")}
