"""Quantities as people type them, and each wrong form refused with the right one."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from generator.records.quantity import (
    Quantity,
    QuantityError,
    Range,
    parse_quantity,
    parse_range,
    parse_times,
)
from generator.records.units import QUANTITIES, UNITS, Unit


def refused(text: str, quantity: str = "") -> QuantityError:
    with pytest.raises(QuantityError) as raised:
        parse_quantity(text, quantity)
    assert raised.value.what == str(raised.value)
    return raised.value


@pytest.mark.parametrize(
    ("text", "quantity", "value", "symbol", "si"),
    [
        ("30 A", "current", 30.0, "A", 30.0),
        ("30A", "", 30.0, "A", 30.0),
        ("4 mm2", "area", 4.0, "mm²", 4e-6),
        ("4 mm²", "", 4.0, "mm²", 4e-6),
        ("71.5 °F", "temperature", 71.5, "°F", 39.5 * 5 / 9),
        ("212 degF", "", 212.0, "°F", 100.0),
        ("-40 °F", "temperature", -40.0, "°F", -40.0),
        ("20 ℃", "", 20.0, "°C", 20.0),
        ("2 degC", "interval", 2.0, "K", 2.0),
        ("2 degC", "temperature", 2.0, "°C", 2.0),
        ("9 °F", "interval", 9.0, "°F", 5.0),
        ("1.5 K", "", 1.5, "K", 1.5),
        ("38.6 mV", "voltage", 38.6, "mV", 0.0386),
        ("5 mΩ", "", 5.0, "mΩ", 0.005),
        ("5 MΩ", "", 5.0, "MΩ", 5e6),
        ("388 N", "force", 388.0, "N", 388.0),
        ("1.2 N·m", "torque", 1.2, "N·m", 1.2),
        ("10 lbf in", "torque", 10.0, "lbf·in", 1.1298482902761669),
        ("2 %", "ratio", 2.0, "%", 0.02),
        ("2.5 % per hour", "rate", 2.5, "% per hour", 2.5 / 360000),
        ("3 K/h", "temperature rate", 3.0, "K/h", 3 / 3600),
        ("0.00393 /K", "temperature coefficient", 0.00393, "/K", 0.00393),
        ("2 l", "volume", 2.0, "l", 0.002),
        ("90 s", "time", 90.0, "s", 90.0),
        ("60 min", "time", 60.0, "min", 3600.0),
        ("1e3 A", "current", 1000.0, "A", 1000.0),
        (".5 A", "current", 0.5, "A", 0.5),
        ("+5 A", "current", 5.0, "A", 5.0),
        ("−5.2 °C", "temperature", -5.2, "°C", -5.2),
        ("–5.2 ºC", "temperature", -5.2, "°C", -5.2),
        ("20\u00a0°C", "temperature", 20.0, "°C", 20.0),
        ("20\u202f˚C", "temperature", 20.0, "°C", 20.0),
    ],
)
def test_a_number_with_its_unit(text: str, quantity: str, value: float, symbol: str, si: float) -> None:
    found = parse_quantity(text, quantity)
    assert (found.text, found.value, found.unit.symbol, found.bound) == (text, value, symbol, "")
    assert found.si == pytest.approx(si, rel=1e-15)


def test_point_or_difference_is_decided_by_what_is_asked() -> None:
    """A catalogue once printed a rise of 30 °C as 86 °F; it is 54 °F."""
    assert parse_quantity("30 degC", "interval").magnitude_in("degF") == pytest.approx(54.0)
    assert parse_quantity("30 degC", "temperature").magnitude_in("degF") == pytest.approx(86.0)
    assert parse_quantity("30 degC").quantity == "temperature"
    with pytest.raises(QuantityError, match="'mV' is no unit of a difference of temperatures"):
        parse_quantity("2 K").magnitude_in("mV")


@pytest.mark.parametrize(
    ("celsius", "kelvin", "fahrenheit"),
    # SI brochure and NIST SP 811 (from memory).
    [(-40, 233.15, -40), (0, 273.15, 32), (20, 293.15, 68), (100, 373.15, 212)],
)
def test_points_of_temperature(celsius: float, kelvin: float, fahrenheit: float) -> None:
    point = parse_quantity(f"{celsius} degC", "temperature")
    assert point.magnitude_in("degF") == pytest.approx(fahrenheit, abs=1e-9)
    assert parse_quantity(f"{fahrenheit} degF", "temperature").si == pytest.approx(celsius, abs=1e-9)
    assert point.si + 273.15 == pytest.approx(kelvin)


@given(st.lists(st.floats(-40, 300), min_size=2, max_size=6))
def test_a_mean_of_points_and_a_rise_do_not_mind_the_scale(celsius: list[float]) -> None:
    """A difference of two readings in °F is × 5/9 without 32; a mean may be converted before or after."""
    shown = [1.8 * each + 32 for each in celsius]
    read = [parse_quantity(f"{each:.12f} degF", "temperature").si for each in shown]
    assert sum(read) / len(read) == pytest.approx((sum(shown) / len(shown) - 32) * 5 / 9, abs=1e-9)
    assert read[1] - read[0] == pytest.approx((shown[1] - shown[0]) * 5 / 9, abs=1e-9)


def test_a_pound_force_is_not_the_rounded_one_of_a_table() -> None:
    """NIST SP 811: 1 lbf = 4.448222 N. UL 486E, as makers quote it, has 50 N for 11.5 lbf: 51.15."""
    assert parse_quantity("1 lbf", "force").si == pytest.approx(4.4482216, abs=5e-8)
    assert parse_quantity("11.5 lbf", "force").si == pytest.approx(51.15, abs=0.005)


@pytest.mark.parametrize(
    ("text", "value", "symbol", "si"),
    [
        ("1 h 30 min", 90.0, "min", 5400.0),
        ("1h30min", 90.0, "min", 5400.0),
        ("1 h 30 min 15 s", 5415.0, "s", 5415.0),
        ("2 d 6 h", 54.0, "h", 194400.0),
        ("2 min 7.5 s", 127.5, "s", 127.5),
        ("5:30 min", 330.0, "s", 330.0),
        ("5:30 h", 330.0, "min", 19800.0),
        ("0:30 min", 30.0, "s", 30.0),
        ("1:02:03 h", 3723.0, "s", 3723.0),
    ],
)
def test_a_time_of_several_parts(text: str, value: float, symbol: str, si: float) -> None:
    found = parse_quantity(text, "time")
    assert (found.text, found.value, found.unit.symbol, found.si) == (text, value, symbol, si)


@pytest.mark.parametrize("text", ["10:30", "5:00", "09:30", "0:30", "1:30:00"])
def test_a_bare_clock_has_two_readings_and_both_are_offered(text: str) -> None:
    error = refused(text, "time")
    first, second = text.split(":")[:2]
    assert error.what == f"'{text}' can be read in two ways"
    assert error.accepted == (
        f"{int(first)}:{second} min (minutes and seconds)",
        f"{int(first)} h {int(second)} min",
    )


@pytest.mark.parametrize(
    ("text", "gauge", "area"),
    [
        ("12 AWG", 12, 3.30877),
        ("AWG 12", 12, 3.30877),
        ("12awg", 12, 3.30877),
        ("1/0 AWG", 0, 53.4751),
        ("4/0 AWG", -3, 107.2193),
    ],
)
def test_gauges(text: str, gauge: float, area: float) -> None:
    """Areas by the formula of ASTM B258; those of 1/0 and 4/0 from 0.46 in and the ratio 92^(1/39)."""
    found = parse_quantity(text, "area")
    assert found.value == gauge
    assert found.si * 1e6 == pytest.approx(area, rel=2e-6)


def test_4_0_is_less_by_twice_three_steps() -> None:
    four, one = (parse_quantity(f"{n}/0 AWG").si for n in (4, 1))
    assert four / one == pytest.approx(92 ** (6 / 39), rel=1e-12)
    assert four * 4 / math.pi == pytest.approx((0.46 * 0.0254) ** 2, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "bound", "value", "decimals"),
    [
        ("over 150 degC", ">", 150.0, 0),
        (">150.0 degC", ">", 150.0, 1),
        ("under 0.1 mV", "<", 0.1, 1),
        ("< 0.10 mV", "<", 0.1, 2),
        ("150 degC", "", 150.0, 0),
    ],
)
def test_bounds(text: str, bound: str, value: float, decimals: int) -> None:
    found = parse_quantity(text)
    assert (found.bound, found.value, found.decimals) == (bound, value, decimals)


@pytest.mark.parametrize(
    ("text", "decimals", "last"),
    [
        ("41.0 A", 1, 0.1),
        ("41 A", 0, 1.0),
        ("1.10 mV", 2, 1e-5),
        ("1.5e3 A", -2, 100.0),
        ("1e-3 A", 3, 0.001),
        ("20.5 °F", 1, 0.1 * 5 / 9),
        ("5:30 min", 0, 1.0),
    ],
)
def test_the_last_digit_is_kept(text: str, decimals: int, last: float) -> None:
    found = parse_quantity(text)
    assert found.decimals == decimals
    assert found.last_digit == pytest.approx(last, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "quantity", "what", "accepted"),
    [
        ("20,5 °C", "temperature", "a decimal comma; write 20.5 degC", ()),
        ("1,000 A", "current", "a decimal comma; write 1.000 A", ()),
        ("over 20,5 °C", "", "a decimal comma; write 20.5 degC", ()),
        ("20", "temperature", "a number without a unit", ("20 degC", "20 degF")),
        ("1e3", "current", "a number without a unit", ("1e3 A", "1e3 mA", "1e3 uA", "1e3 kA")),
        ("1_000 A", "", "an underscore inside a number; write the digits alone", ()),
        ("38 000 N", "force", "a space inside a number; write the digits alone", ()),
        ("38\u202f000 N", "force", "a space inside a number; write the digits alone", ()),
        ("0x10 A", "", "a number in another base; write it with the digits 0 to 9", ()),
        ("5. A", "", "digits are missing after the point", ()),
        ("12² A", "", "a number still to be worked out; write the result", ()),
        ("9**9**9**2 A", "", "a number still to be worked out; write the result", ()),
        ("inf A", "", "no number; over range is written 'over 150 degC'", ()),
        ("nan", "current", "no number; over range is written 'over 150 degC'", ()),
        ("OL", "current", "no number; over range is written 'over 150 degC'", ()),
        ("5:00 A", "current", "a clock; write one number with its unit", ()),
        ("1 h 30", "time", "the last part of the time is without a unit; write '1 h 30 min'", ()),
        ("30 A ± 2 %", "current", "one value is wanted here, without ±", ()),
        ("18 to 28 degC", "temperature", "one value is wanted here, not a range", ()),
        ("20 C", "temperature", "'C' is not the unit here; did you mean 'degC'?", ("degC", "degF")),
        ("30 V", "current", "'V' is a unit of voltage, not of current", ("A", "mA", "uA", "kA")),
        ("30 zz", "current", "'zz' is no unit known here", ("A", "mA", "uA", "kA")),
        ("1 min 2 h", "time", "the parts of a time go from the larger to the smaller", ("1 h 30 min",)),
        ("1.5 h 30 min", "time", "only the last part of a time may have a point", ("1 h 30 min",)),
        ("warm", "temperature", "not a number with its unit", ("30 degC", "30 degF")),
        ("", "temperature", "the value is missing", ()),
        ("\u201c30 A\u201d", "current", "curly quotes are part of the value; take them out", ()),
    ],
)
def test_a_wrong_form_is_refused_with_the_right_one(
    text: str, quantity: str, what: str, accepted: tuple[str, ...]
) -> None:
    error = refused(text, quantity)
    assert (error.what, error.accepted) == (what, accepted)


def test_kelvin_is_for_differences() -> None:
    error = refused("293 K", "temperature")
    assert error.what == "a temperature is not given in kelvin here; a difference of temperatures is"
    assert error.accepted == ("degC", "degF")


@pytest.mark.parametrize("text", ["1e400 A", "9.9E+37 V", "-9.9E37 °C", "1" * 31 + " A"])
def test_what_no_bench_measures_is_refused(text: str) -> None:
    assert "number" in refused(text).what


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("20 \u0421", "U+0421 (cyrillic capital letter es)"),
        ("\uff12\uff10 A", "U+FF12 (fullwidth digit two)"),
        ("2\u0665 A", "U+0665 (arabic-indic digit five)"),
        ("20\u200b A", "U+200B (zero width space)"),
        ("\u00bd h", "U+00BD (vulgar fraction one half)"),
        ("20\u066b5 A", "U+066B (arabic decimal separator)"),
    ],
)
def test_an_unknown_look_alike_is_named(text: str, told: str) -> None:
    assert refused(text).what == f"a character that looks like another: {told}; type it again"


def test_a_long_text_is_not_looked_into() -> None:
    assert refused("9" * 1000 + " A").what == "longer than 80 characters; a number and its unit are wanted"


def test_asking_for_a_quantity_that_there_is_not_is_a_fault_of_the_code() -> None:
    with pytest.raises(KeyError):
        parse_quantity("1 A", "currant")


@given(
    st.sampled_from([unit for unit in UNITS if unit.symbol != "AWG"]),
    st.decimals(-99999, 99999, allow_nan=False, places=3),
    st.sampled_from(["", " ", "\u00a0", "\u202f"]),
    st.booleans(),
)
def test_what_is_written_reads_back(unit: Unit, number: object, space: str, printed: bool) -> None:
    symbol = unit.symbol if printed else unit.typed
    found = parse_quantity(f"{number}{space}{symbol}", unit.quantity)
    assert found.value == float(str(number))
    assert found.decimals == 3
    assert found.si == unit.to_si(float(str(number)))
    assert found.magnitude_in(symbol) == pytest.approx(found.value)


def read_or_told(text: str, quantity: str) -> str:
    """What a text is told to be, or what is wrong with it."""
    try:
        found = parse_quantity(text, quantity)
    except QuantityError as error:
        return error.what
    assert math.isfinite(found.si)
    return found.quantity if quantity in ("", found.quantity) else ""


@given(st.text(max_size=90), st.sampled_from(["", *QUANTITIES]))
@example("-", "")
@example("/0 AWG", "area")
@example("±", "time")
def test_any_text_is_a_quantity_or_told_apart(text: str, quantity: str) -> None:
    assert read_or_told(text, quantity)


@given(st.text("0123456789.,:+-eExX_ hminsdegCFKAWG/%±ovt>", max_size=20), st.sampled_from(["", *QUANTITIES]))
def test_any_text_of_its_own_signs_is_a_quantity_or_told_apart(text: str, quantity: str) -> None:
    assert read_or_told(text, quantity)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("18 to 28 degC", 18.0, 28.0),
        ("-50 degC to 200 degC", -50.0, 200.0),
        ("−50 to −10 °C", -50.0, -10.0),
        ("32 to 212 °F", 0.0, 100.0),
        ("32 degF to 100 degC", 0.0, 100.0),
    ],
)
def test_ranges(text: str, low: float, high: float) -> None:
    found = parse_range(text, "temperature")
    assert isinstance(found, Range)
    assert found.low.si == pytest.approx(low)
    assert found.high.si == pytest.approx(high)
    assert found.holds((low + high) / 2)
    assert not found.holds(high + 1)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("28 to 18 degC", "the range does not end above where it begins"),
        ("18 to 18 degC", "the range does not end above where it begins"),
        ("18 to over 28 degC", "a range has two plain ends"),
        ("18 degC", "not a range"),
        ("18-28 degC", "not a range"),
        ("18 to 28", "a range without a unit"),
        ("18,5 to 28 degC", "a decimal comma; write 18.5"),
        ("over 18 to 28 degC", "a range has two plain ends"),
        ("18 A to 28 degC", "'A' is a unit of current, not of temperature"),
        ("1 to 2 to 3 degC", "one value is wanted here, not a range"),
    ],
)
def test_what_is_no_range(text: str, what: str) -> None:
    with pytest.raises(QuantityError) as raised:
        parse_range(text, "temperature")
    assert raised.value.what == what


def test_a_schedule_is_read_in_its_unit() -> None:
    times = parse_times("0 2 5 10 15 20 25 30 40 45 50 55 60 min")
    assert all(isinstance(each, Quantity) for each in times)
    assert [each.si for each in times[:4]] == [0.0, 120.0, 300.0, 600.0]
    assert (len(times), times[-1].si, times[-1].text) == (13, 3600.0, "60 min")


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("0 2 5", "the unit is missing after '5'"),
        ("0 2 2 min", "the times must rise; 2 min comes after 2 min"),
        ("0 5 2 min", "the times must rise; 2 min comes after 5 min"),
        ("0, 2, 5 min", "'0,' is no number"),
        ("0 2,5 5 min", "a decimal comma; write 2.5 min"),
        ("0 two min", "'two' is no number"),
        ("min", "there are no times"),
        ("0 5 A", "the unit is missing after 'A'"),
    ],
)
def test_what_is_no_schedule(text: str, what: str) -> None:
    with pytest.raises(QuantityError) as raised:
        parse_times(text)
    assert (raised.value.what, raised.value.accepted) == (what, ("0 2 5 10 15 60 min",))
