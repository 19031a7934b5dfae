"""Characters that look like others, each variant through the grammars that use the table."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.lookalikes import code_point, foreign, plain
from generator.records.quantity import parse_quantity

MINUS = "\u2212\u2010\u2011\u2012\u2013\ufe63\uff0d"
SPACES = "\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\u205f\u3000\t"


@pytest.mark.parametrize("sign", MINUS)
def test_minus(sign: str) -> None:
    assert parse_quantity(f"{sign}5.2 degC").value == -5.2
    assert parse_quantity(f"1e{sign}3 A").value == 0.001


@pytest.mark.parametrize("sign", SPACES)
def test_spaces(sign: str) -> None:
    assert parse_quantity(f"5{sign}mm2").si == 5e-6
    assert parse_quantity(f"{sign}5 A{sign}").value == 5.0


@pytest.mark.parametrize("micro", "\u00b5\u03bc")
@pytest.mark.parametrize("ohm", "\u2126\u03a9")
def test_micro_and_ohm(micro: str, ohm: str) -> None:
    """NFC unites the ohms and not the micros; NFKC would make 2 of the power in mm² too."""
    found = parse_quantity(f"5 {micro}{ohm}", "resistance")
    assert (found.si, found.unit.symbol) == (5e-6, "µΩ")
    assert parse_quantity(f"5 M{ohm}").si == 5e6, "the case of the letter before it is kept"


@pytest.mark.parametrize("degree", "\u00b0\u00ba\u02da")
def test_degree(degree: str) -> None:
    assert parse_quantity(f"20 {degree}C").si == 20.0
    assert parse_quantity(f"20{degree} C").si == 20.0
    assert parse_quantity(f"45{degree}", "angle").unit.symbol == "°"


def test_a_power_never_joins_the_digits_before_it() -> None:
    assert plain("4 mm\u00b2") == "4 mm^2"
    assert plain("4\u00b2") == "4^2"


@given(st.text(st.characters(codec="ascii"), max_size=40))
def test_plain_text_is_left_as_it_is(text: str) -> None:
    assert plain(text) == text.replace("\t", " ").strip()
    assert foreign(text) == ""


@given(st.characters(min_codepoint=0x80))
def test_every_other_character_is_either_known_or_named(sign: str) -> None:
    named = foreign(sign)
    if named:
        assert named.startswith(f"U+{ord(sign):04X}")
        assert plain(f"x{sign}x") == f"x{sign}x"
    else:
        assert plain(f"x{sign}x").isascii() or sign in "±€£"


def test_a_code_point_is_told_with_its_name() -> None:
    assert code_point("\u00a0") == "U+00A0 (no-break space)"
    assert code_point("\x00") == "U+0000"
    assert unicodedata.name("\u0421").lower() in code_point("\u0421")
