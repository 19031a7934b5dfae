"""Older results: a table, as pasted out of a spreadsheet, is read as the list that says the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.fault import Fault
from generator.records.schema.older import OlderBatch, OlderResult
from generator.records.source import read_text

HEAD = "title: From my sheet\nmethod: As it came\nresults: "
LISTED = """
  - {item: veldrun-v30, date: 2022, measure: rise, value: 39 K, uncertainty: unknown, at: 60 min,
     air: 21 degC}
  - {item: okvarn-ih30, date: 2022-05-03, measure: rise, value: over 60 K, uncertainty: unknown, pieces: 2}
  - {item: okvarn-ih30, date: 2022-05, measure: rise, value: 41.5 K, uncertainty: 4 K, meter: "probe!"}
"""
BARS = """|
  date       | item        | measure | value K | ± K     | air degC | minutes | pieces | meter
  2022       | veldrun-v30 | rise    | 39      | unknown | 21       | 60      |        |
  2022-05-03 | okvarn-ih30 | rise    | over 60 | ± unknown |        |         | 2      |
  2022-05    | okvarn-ih30 | rise    | 41.5    | ±4      |          |         |        | probe!
"""
OWN_UNITS = """|
  measure | item        | at   | date       | value     | uncertainty | air     | meter  | pieces
  rise    | veldrun-v30 | 1 h  | 2022       | 39 K      | unknown     | 21 degC |        |
  rise    | okvarn-ih30 |      | 2022-05-03 | over 60 K | unknown     |         |        | 2
  rise    | okvarn-ih30 |      | 2022-05    | 41.5 K    | 4 degC      |         | probe! |
"""


def read(text: str) -> OlderBatch | tuple[Fault, ...]:
    root = read_text(HEAD + text, Path("/bench/reports/older/sheet.yml")).root
    assert root is not None
    return OlderBatch.from_nodes(root, "sheet")


def sound(text: str) -> tuple[OlderResult, ...]:
    found = read(text)
    assert isinstance(found, OlderBatch), found
    return found.results


def said(result: OlderResult) -> tuple[object, ...]:
    width = result.uncertainty if isinstance(result.uncertainty, str) else result.uncertainty.si
    measured = (result.value.si, result.value.bound, result.value.decimals, width)
    beside = (result.air and result.air.si, result.at and result.at.si, result.pieces, result.meter)
    return (result.item, str(result.date), result.measure, *measured, *beside)


@pytest.mark.parametrize(
    "table", [BARS, OWN_UNITS, BARS.replace("|\n", "\x00\n", 1).replace("|", "\t").replace("\x00", "|")]
)
def test_a_table_says_what_the_list_says(table: str) -> None:
    assert [said(each) for each in sound(table)] == [said(each) for each in sound(LISTED)]


def test_not_known_is_a_value_and_a_blank_is_none() -> None:
    assert [each.uncertainty == "unknown" for each in sound(BARS)] == [True, True, False]
    found = read(BARS.replace("| ±4  ", "|     "))
    assert isinstance(found, tuple)
    assert [each.what for each in found] == ["missing: half-width at 95 %, or `unknown`"]


def test_a_result_knows_the_line_and_column_of_its_cells() -> None:
    batch = read(BARS)
    assert isinstance(batch, OlderBatch)
    place = batch.place_of("results", 2, "value")
    assert (place.line, place.text[place.column - 1 :][:4]) == (7, "41.5")
    assert batch.path_of("results", 2, "value") == "results.3.value"


def test_faults_of_form_and_of_cells_are_told_at_once_and_alike_ones_once() -> None:
    rows = [f"  2022 | okvarn-ih30 | rise | {number},5 | unknown" for number in range(40, 60)]
    table = "\n".join(["|", "  date | item | measure | value K | ±", *rows, "  2022 | okvarn-ih30", ""])
    found = read(table)
    assert isinstance(found, tuple)
    lines = sorted({each.place.line for each in found})
    assert lines == [5, 6, 7, 25]
    assert [each.what for each in found][-1].endswith("and 17 more like it")


def test_a_degree_sign_that_looks_like_another_is_a_doubt_at_its_cell() -> None:
    batch = read(BARS.replace("39      |", "39      |", 1).replace("air degC", "air ºC"))
    assert isinstance(batch, OlderBatch)
    assert batch.results[0].air is not None
    assert batch.results[0].air.si == 21.0
