"""Quantities of records in both systems of units: as written in one, converted in the other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.pages.format import Both, Span, condition, plus, quantity, span, temperature_plus
from generator.pages.render import Renderer
from generator.records.quantity import parse_quantity, parse_range
from tests.pages.factory import ROOT
from tests.pages.rendered import Parsed

NB = "\N{NO-BREAK SPACE}"
MACROS = Renderer(ROOT)._fragments.from_string(  # the templates' own environment
    '{% from "words/units.jinja" import both, span, within, told %}'
    "{% if kind == 'both' %}{{ both(a) }}{% elif kind == 'span' %}{{ span(a) }}"
    "{% elif kind == 'told' %}{{ told(a) }}{% else %}{{ within(a, b) }}{% endif %}"
)


def said(kind: str, a: object, b: object = None) -> str:
    return Parsed(MACROS.render(kind=kind, a=a, b=b)).text


@pytest.mark.parametrize(
    ("written", "metric", "us"),
    [
        # By the exact inch, pound and standard gravity (NIST SP 811, appendix B).
        ("388 N", "388 N", "87.2 lbf"),
        ("50 lbf", "222 N", "50 lbf"),
        ("0.25 mm", "0.25 mm", "0.0098 in"),
        ("30 mm", "30 mm", "1.18 in"),
        ("25.4 mm", "25.4 mm", "1.000 in"),
        ("12 in", "305 mm", "12 in"),
        ("1 m", "1 m", "3.3 ft"),
        ("1.2 N m", "1.2 N·m", "10.6 lbf·in"),
        ("18 in-lb", "2.0 N·m", "18 lbf·in"),
        ("250 g", "250 g", "8.82 oz"),
        ("2 l", "2 l", "122 in³"),
        ("over 500 N", ">500 N", ">112.4 lbf"),
        ("0 N", "0 N", "0.0 lbf"),
        # An interval takes no offset, a point of temperature does.
        ("50 K", "50 °C", "90 °F"),
        ("5 K/h", "5 °C/h", "9.0 °F/h"),
        ("110 degC", "110 °C", "230 °F"),
        ("71.5 degF", "21.9 °C", "71.5 °F"),
    ],
)
def test_a_quantity_is_as_written_in_its_own_system_and_converted_in_the_other(
    written: str, metric: str, us: str
) -> None:
    told = quantity(parse_quantity(written))
    assert (told.metric.replace(NB, " "), told.us.replace(NB, " "), told.named) == (metric, us, "")
    assert said("both", told) == f"{metric} ({us})"


def test_a_difference_that_is_written_in_fahrenheit_stays_so() -> None:
    assert quantity(parse_quantity("2 degF", "interval")) == Both(f"1.1{NB}°C", f"2{NB}°F")


@pytest.mark.parametrize("written", ["30 A", "12.0 V", "45 mohm", "60 min", "2 %", "3 W"])
def test_what_is_the_same_to_everyone_is_told_once(written: str) -> None:
    assert quantity(parse_quantity(written)).us == ""


def test_a_conductor_keeps_its_name_and_has_the_other_system_beside_it() -> None:
    """ASTM B258: 12 AWG is 3.31 mm²; of 4 mm² the nearest gauge, which is another conductor, is 11."""
    metric, us = quantity(parse_quantity("4 mm2")), quantity(parse_quantity("12 AWG"))
    assert said("both", metric) == f"4{NB}mm² (about 11{NB}AWG)".replace(NB, " ")
    assert said("both", us) == f"12{NB}AWG (3.31{NB}mm²)".replace(NB, " ")
    assert said("both", quantity(parse_quantity("2/0 AWG"))) == "2/0 AWG (67.4 mm²)"
    assert said("both", quantity(parse_quantity("300 mm2"))) == "300 mm²"


def test_a_condition_is_as_written_with_its_conductor_told_beside_it() -> None:
    assert said("both", condition("4 mm2 class 5")) == "4 mm² class 5 (about 11 AWG)"
    assert said("both", condition("12 AWG stranded")) == "12 AWG stranded (3.31 mm²)"
    assert said("both", condition("closed box 2 l")) == "closed box 2 l"
    assert said("both", condition("4 mm2x of nothing")) == "4 mm2x of nothing"


def test_a_range_and_a_tolerance_have_the_other_system_once() -> None:
    assert said("span", span(parse_range("18 to 28 degC"))) == "18 to 28 °C (64 to 82 °F)"
    assert span(parse_range("1 to 6 mm2")) == Span("1", f"6{NB}mm²", "17", f"9{NB}AWG", "metric")
    assert said("span", span(parse_range("1 to 6 mm2"))) == "1 to 6 mm² (about 17 to 9 AWG)"
    assert said("span", span(parse_range("6 to 300 mm2"))) == "6 to 300 mm²"
    force, off = (quantity(parse_quantity(each)) for each in ("50 N", "2 %"))
    assert said("within", force, off) == "50 N ± 2 % (11.2 lbf ± 2 %)"
    current, off = (quantity(parse_quantity(each)) for each in ("30 A", "2 %"))
    assert said("within", current, off) == "30 A ± 2 %"


@given(st.floats(-200, 5000), st.floats(0.01, 500))
def test_a_figure_is_converted_first_and_rounded_by_itself(value: float, half_width: float) -> None:
    """GUM 7.2.6 in each unit: two digits of its own ±, the value to the same place."""
    for unit, factor in (("K", 1.8), ("N", 1 / 4.4482216152605)):
        told = plus(value, half_width, unit)
        for number, width, scale in (
            (told.value, told.half_width, 1.0),
            (told.value_us, told.half_width_us, factor),
        ):
            _, _, after = width.partition(".")
            digits = width.replace(".", "").lstrip("0")
            place = 10.0 ** -len(after) if after else 10.0 ** (len(digits) - 2)
            assert len(digits.rstrip("0") or "0") <= 2
            assert float(width) == pytest.approx(half_width * scale, abs=0.5001 * place)
            assert float(number.replace("−", "-")) == pytest.approx(value * scale, abs=0.5001 * place)


@given(st.floats(-50, 300), st.floats(0.01, 50))
def test_a_temperature_s_plus_minus_takes_no_offset(celsius: float, half_width: float) -> None:
    told = temperature_plus(celsius, half_width)
    assert float(told.half_width_us) == pytest.approx(1.8 * half_width, rel=0.06)
    assert told.half_width_us == plus(0.0, half_width, "K").half_width_us
