"""One cell of a readings table: a number, a bound, or told apart."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.fault import Place
from generator.records.cells import Cell, read_cell
from generator.records.quantity import QuantityError
from generator.records.units import Unit, find_unit

PLACE = Place(Path("/bench/reports/run.yml"), 12, 3)


def unit(symbol: str) -> Unit:
    found = find_unit(symbol)
    assert found is not None
    return found


def cell(text: str, symbol: str = "degC") -> Cell:
    return read_cell(text, unit(symbol), PLACE)


@pytest.mark.parametrize(
    ("text", "symbol", "value", "bound", "decimals"),
    [
        ("21.4", "degC", 21.4, "", 1),
        ("21.40", "degC", 21.4, "", 2),
        ("21", "degC", 21.0, "", 0),
        (">150.0", "degC", 150.0, ">", 1),
        ("> 150.0", "degC", 150.0, ">", 1),
        ("<0.1", "mV", 0.0001, "<", 1),
        ("38.6", "mV", 0.0386, "", 1),
        ("212", "degF", 100.0, "", 0),
        ("-5.2", "degC", -5.2, "", 1),
        ("−5.2", "degC", -5.2, "", 1),
        ("+5", "degC", 5.0, "", 0),
        (".5", "A", 0.5, "", 1),
        ("3.01E+01", "A", 30.1, "", 1),
        ("5", "min", 300.0, "", 0),
    ],
)
def test_a_reading(text: str, symbol: str, value: float, bound: str, decimals: int) -> None:
    found = cell(text, symbol)
    assert found == Cell(text, pytest.approx(value, rel=1e-15), bound, decimals, PLACE)  # type: ignore[arg-type]


OVER = "a reading over range is written with the range's end: >150.0"


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("39,9", "a decimal comma? write 39.9"),
        (">39,9", "a decimal comma? write >39.9"),
        ("5:00", "a clock; write one number, counted from the start"),
        ("10:30:00", "a clock; write one number, counted from the start"),
        ("OL", OVER),
        ("O.L", OVER),
        ("0L", OVER),
        ("OVER", OVER),
        ("BURNOUT", OVER),
        ("inf", OVER),
        ("9.9E37", OVER),
        ("9.90000E+37", OVER),
        ("-9.9E37", OVER),
        ("1e999", OVER),
        ("----", f"{OVER}; no reading is an empty cell"),
        ("--.-", f"{OVER}; no reading is an empty cell"),
        ("nan", "no reading is an empty cell"),
        ("n/a", "no reading is an empty cell"),
        ("-", "no reading is an empty cell"),
        ("?", "no reading is an empty cell"),
        ("21.4 °C", "a number alone is expected; the unit stands in the header"),
        ("21.4C", "a number alone is expected; the unit stands in the header"),
        ("5.", "not a number"),
        ("1.2.3", "not a number"),
        ("# note", "not a number"),
        ("over 150", "not a number"),
        ("2\uff11", "a character that looks like another: U+FF11 (fullwidth digit one); type it again"),
    ],
)
def test_what_is_no_reading(text: str, what: str) -> None:
    with pytest.raises(QuantityError) as raised:
        cell(text)
    assert raised.value.what == what


@given(st.decimals(-9999, 9999, places=2), st.sampled_from(["degC", "degF", "mV", "A", "min", "N"]))
def test_a_number_reads_back_with_its_digits(number: object, symbol: str) -> None:
    found = cell(str(number), symbol)
    assert found.value == unit(symbol).to_si(float(str(number)))
    assert found.decimals == 2


@given(st.text(max_size=40))
def test_any_text_is_a_reading_or_told_apart(text: str) -> None:
    told = text
    try:
        assert math.isfinite(cell(text).value)
    except QuantityError as error:
        told = error.what
    assert told
