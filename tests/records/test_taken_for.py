"""Signs that are read as others: understood, and told once as a doubt; in a key they are a fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.lookalikes import code_point, taken_for
from generator.records.schema.item import Item
from generator.records.source import read_text
from tests.records.laid import REPORT, RUN, changed, good, laid, whats

MINUS = "\u2212\u2010\u2011\u2012\u2013\ufe63\uff0d"
SPACES = "\u2002\u2003\u2007\u2009\u200a\u202f\u205f\u3000"
DEGREES = {"\u00ba": "C", "\u02da": "C", "\u2103": ""}
PROPER = "5 µΩ 5 μΩ 20 °C 4 mm² 2 m³ 1.2 N·m ±5 £4 €5"


@pytest.mark.parametrize("sign", MINUS)
def test_a_minus_of_print_or_of_a_telephone(tmp_path: Path, sign: str) -> None:
    bench = changed(tmp_path, "instruments/logger-1.yml", ("from: -50 degC", f"from: {sign}50 degC"))
    assert bench.faults == ()
    assert whats(bench.doubts) == [f"ranges.1.from: {code_point(sign)} is read as '-'"]
    low = bench.instruments["logger-1"].ranges[0].from_
    assert low is not None
    assert low.si == -50.0


@pytest.mark.parametrize("sign", DEGREES)
def test_a_degree_that_is_another_sign(tmp_path: Path, sign: str) -> None:
    bench = changed(tmp_path, "instruments/logger-1.yml", ("to: 200 degC", f"to: 200 {sign}{DEGREES[sign]}"))
    assert bench.faults == ()
    assert len(bench.doubts) == 1
    assert bench.instruments["logger-1"].ranges[0].to.si == 200.0


@pytest.mark.parametrize("sign", SPACES)
def test_a_space_of_another_width(tmp_path: Path, sign: str) -> None:
    bench = changed(tmp_path, "instruments/logger-1.yml", ("to: 200 degC", f"to: 200{sign}degC"))
    assert bench.faults == ()
    assert whats(bench.doubts) == [f"ranges.1.to: {code_point(sign)} is read as a plain space"]


@pytest.mark.parametrize("sign", [*MINUS, *DEGREES, *SPACES, "\u00a0", "\u200b"])
def test_in_a_key_it_is_a_fault(sign: str) -> None:
    """A key is never guessed; one with a hyphen of another kind is told with the right one."""
    source = read_text(
        f"maker: x\nmodel: y\nalso{sign}sold-as: []\nspecimens: {{A: {{got: sent}}}}\n", Path("/b/i.yml")
    )
    found = Item.from_nodes(source.root, "i") if source.root is not None else source.faults
    assert isinstance(found, tuple)
    assert [each.place.line for each in found] == [3]
    if sign in MINUS:
        assert found[0].what == "unknown key; did you mean 'also-sold-as'?"


def test_the_trades_own_signs_are_what_was_meant() -> None:
    assert list(taken_for(PROPER)) == []
    assert list(taken_for("plain 5 A\t6")) == []


def test_each_sign_is_told_once_where_it_stands_first() -> None:
    assert [at for at, _ in taken_for("\u22121 \u20132 \u22123")] == [0, 3]


def test_prose_and_reasons_are_left_alone(tmp_path: Path) -> None:
    run = good(
        RUN, ("! lid open", "! lid open – for a minute"), ("place: workshop", "place: Cork – the shed")
    )
    assert laid(tmp_path, {RUN: run}).doubts == ()


def test_a_table_tells_each_sign_once(tmp_path: Path) -> None:
    run = good(RUN, ("21.2 ", "\u22121.2 "), ("21.3 ", "\u22121.3 "))
    assert whats(laid(tmp_path, {RUN: run}).doubts) == [
        "readings: U+2212 (minus sign) is read as '-'; and 1 more like it"
    ]


def test_a_file_of_readings_too(tmp_path: Path) -> None:
    name = f"{REPORT}/runs/veldrun-b.csv"
    bench = laid(tmp_path, {name: good(name, ("0;21.1", "0;\u22121.1"))})
    assert [(each.place.file.name, each.place.line, each.place.column) for each in bench.doubts] == [
        ("veldrun-b.csv", 2, 3)
    ]
