"""The header of a readings table."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.header import QUANTITY_OF, Head, parse_head
from generator.records.quantity import QuantityError
from generator.records.units import offered


@pytest.mark.parametrize(
    ("text", "name", "point", "owner", "unit"),
    [
        ("time min", "time", "", "", ("time", "min")),
        ("ambient degC", "ambient", "", "", ("temperature", "°C")),
        ("ambient °C", "ambient", "", "", ("temperature", "°C")),
        ("temperature@body degF", "temperature", "body", "", ("temperature", "°F")),
        ("drop mV", "drop", "", "", ("voltage", "mV")),
        ("drop µV", "drop", "", "", ("voltage", "µV")),
        ("torque N m", "torque", "", "", ("torque", "N·m")),
        ("resistance mΩ", "resistance", "", "", ("resistance", "mΩ")),
        ("rise K", "rise", "", "", ("interval", "K")),
        ("pull-out N", "pull-out", "", "", ("force", "N")),
        ("drift % per hour", "drift", "", "", ("rate", "% per hour")),
        ("okvarn-ih30:A@body degC", "temperature", "body", "okvarn-ih30:A", ("temperature", "°C")),
        ("okvarn-ih30:A degC", "temperature", "", "okvarn-ih30:A", ("temperature", "°C")),
        ("okvarn-ih30:A drop mV", "drop", "", "okvarn-ih30:A", ("voltage", "mV")),
        ("control@body degC", "temperature", "body", "control", ("temperature", "°C")),
        ("control drop mV", "drop", "", "control", ("voltage", "mV")),
        ("temperature@body\u00a0degC", "temperature", "body", "", ("temperature", "°C")),
    ],
)
def test_a_head(text: str, name: str, point: str, owner: str, unit: tuple[str, str]) -> None:
    head = parse_head(text)
    assert (head.name, head.point, head.owner) == (name, point, owner)
    assert (head.quantity, head.unit.symbol) == unit


@pytest.mark.parametrize(
    ("text", "what", "accepted"),
    [
        ("ambient", "ambient: the unit is missing", ("ambient degC", "ambient degF")),
        ("ambient C", "ambient: 'C' is no unit for this; did you mean 'degC'?", ("degC", "degF")),
        (
            "ambient K",
            "ambient: 'K' is no unit for this; it is a unit of a difference of temperatures",
            ("degC", "degF"),
        ),
        ("current V", "current: 'V' is no unit for this; it is a unit of voltage", ("A", "mA", "uA", "kA")),
        ("current zz", "current: 'zz' is no unit for this", ("A", "mA", "uA", "kA")),
        ("ambient (degC)", "the unit stands behind the name without brackets", ("ambient degC",)),
        ("ambient [°C]", "the unit stands behind the name without brackets", ("ambient degC",)),
        ("time clock", "a time of day; write the minutes since the current came on", ("time min",)),
        ("time h:mm", "a time of day; write the minutes since the current came on", ("time min",)),
        ("okvarn-ih30:A mV", "say what was read in mV of okvarn-ih30:A", ("okvarn-ih30:A drop mV",)),
        (
            "temperature@ degC",
            "after '@' a point of the method is expected, not ''",
            ("temperature@body degC",),
        ),
    ],
)
def test_what_is_no_head(text: str, what: str, accepted: tuple[str, ...]) -> None:
    with pytest.raises(QuantityError) as raised:
        parse_head(text)
    assert (raised.value.what, raised.value.accepted) == (what, accepted)


def test_a_name_in_capitals_is_not_taken_but_guessed_at() -> None:
    with pytest.raises(QuantityError, match="'Ambient' is no name of a column; did you mean 'ambient'\\?"):
        parse_head("Ambient degC")
    with pytest.raises(QuantityError) as raised:
        parse_head("Temp. degC")
    assert raised.value.what == "'Temp.' is no name of a column"
    assert raised.value.accepted == (*QUANTITY_OF, "a measure's id")


@given(
    st.sampled_from(["", "okvarn-ih30:A", "control", "veldrun-v30:B2"]),
    st.sampled_from(sorted(QUANTITY_OF)),
    st.sampled_from(["", "body", "terminal-1"]),
    st.data(),
)
def test_a_label_names_its_column_and_reads_back(
    owner: str, name: str, point: str, data: st.DataObject
) -> None:
    symbol = data.draw(st.sampled_from(offered(QUANTITY_OF[name])))
    at = f"@{point}" if point else ""
    short = owner and name == "temperature"
    text = f"{owner}{at}" if short else f"{owner}{at} {name}" if owner else f"{name}{at}"
    head = parse_head(f"{text} {symbol}")
    assert (head.owner, head.name, head.point) == (owner, name, point)
    assert parse_head(f"{head.label} {symbol}") == head


@given(st.text(max_size=40))
def test_any_text_is_a_head_or_told_apart(text: str) -> None:
    told = ""
    try:
        head = parse_head(text)
    except QuantityError as error:
        told = error.what
    else:
        assert isinstance(head, Head)
        told = head.label
    assert told
