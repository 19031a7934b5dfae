from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.schema.base import FileRecord
from generator.records.schema.days import Day, PartDay, Price
from generator.records.schema.fields import (
    Above,
    Address,
    Emissivity,
    FileName,
    FromOne,
    Id,
    PartId,
    PieceId,
    RunName,
    Text,
    TimeCode,
    Truth,
    Whole,
)
from generator.records.schema.measured import (
    AnyQuantity,
    End,
    QuantityName,
    RangeOrText,
    Width,
    WidthOrPercent,
    WidthOrUnknown,
)
from generator.records.schema.references import (
    Binding,
    Bound,
    ColumnKey,
    Count,
    CountOf,
    LastedTo,
    MethodRef,
    MethodVersion,
    RunKeyText,
    split_run_key,
)
from generator.records.source import read_text


class Sample(FileRecord):
    text: Text | None = None
    id_: Id | None = None
    piece: PieceId | None = None
    part: PartId | None = None
    run: RunName | None = None
    whole: Whole | None = None
    from_one: FromOne | None = None
    above: Above | None = None
    emissivity: Emissivity | None = None
    truth: Truth | None = None
    address: Address | None = None
    file: FileName | None = None
    code: TimeCode | None = None
    day: Day | None = None
    part_day: PartDay | None = None
    price: Price | None = None
    method: MethodVersion | None = None
    bound: Bound | None = None
    column: ColumnKey | None = None
    run_key: RunKeyText | None = None
    count: Count | None = None
    any_: AnyQuantity | None = None
    condition: RangeOrText | None = None


def read(key: str, written: str) -> Any:
    """The value that is read, or the words against it."""
    root = read_text(f"{key}: {written}\n", Path("/b/a.yml")).root
    assert root is not None, written
    found = Sample.from_nodes(root, "a")
    if isinstance(found, Sample):
        name = {"id": "id_", "any": "any_"}.get(key, key.replace("-", "_"))
        return getattr(found, name)
    return found[0].what


@pytest.mark.parametrize(
    ("key", "written", "value"),
    [
        ("text", "no", "no"),
        ("text", "1.10", "1.10"),
        ("text", "0510210600", "0510210600"),
        ("text", '"clamp #3"', "clamp #3"),
        ("text", "2026-03-08", "2026-03-08"),
        ("id", "okvarn-ih30", "okvarn-ih30"),
        ("id", "30", "30"),
        ("piece", "A", "A"),
        ("piece", "1", "1"),
        ("part", "CH3", "CH3"),
        ("run", "okvarn-a", "okvarn-a"),
        ("run", "2026-03-09/okvarn-ih30:A", "2026-03-09/okvarn-ih30:A"),
        ("run", "2026-03-09/control", "2026-03-09/control"),
        ("whole", "0", 0),
        ("from-one", "12", 12),
        ("emissivity", "0.95", 0.95),
        ("above", "2", 2.0),
        ("truth", "true", True),
        ("truth", "false", False),
        ("address", "https://slipway.example/a?b=c", "https://slipway.example/a?b=c"),
        ("file", "photos/lever.jpg", "photos/lever.jpg"),
        ("code", '"1:23"', "1:23"),
        ("code", '"1:02:03"', "1:02:03"),
        ("method", "closed-box-heating/2", MethodRef("closed-box-heating", 2)),
        ("bound", "clamp-2", Binding("clamp-2")),
        ("bound", "logger-1/CH3", Binding("logger-1", "CH3")),
        ("bound", "logger-1/CH3 with k7", Binding("logger-1", "CH3", "k7")),
        ("column", "temperature@body", "temperature@body"),
        ("run-key", "okvarn-ih30:A", "okvarn-ih30:A"),
        ("run-key", "control", "control"),
        ("count", "0 of 50", CountOf(0, 50)),
        ("count", "broke at 1200", LastedTo(1200, failed=True)),
        ("count", "over 2000", LastedTo(2000, failed=False)),
        ("condition", "closed box 2 l", "closed box 2 l"),
        ("condition", "4 mm2 class 5", "4 mm2 class 5"),
        ("condition", "switched from 5 A to 10 A", "switched from 5 A to 10 A"),
    ],
)
def test_taken(key: str, written: str, value: object) -> None:
    found = read(key, written)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(
    ("key", "written", "told"),
    [
        ("id", "Okvarn", "not an id: small letters, digits and hyphens, 40 at most"),
        ("id", "a_b", "not an id"),
        ("id", "a" * 41, "not an id"),
        ("piece", "no. 1", "not the id of a piece"),
        ("run", "../other", "not the id of a run"),
        ("whole", "1.0", "not a whole number"),
        ("whole", "012", "not a whole number"),
        ("whole", "1_000", "not a whole number"),
        ("whole", "-3", "not a whole number"),
        ("whole", "１２", "not a whole number"),
        ("from-one", "0", "a number from 1 on is expected"),
        ("emissivity", '"0,95"', "not a number; write a decimal point"),
        ("emissivity", "0", "an emissivity is above 0 and at most 1, as 0.95"),
        ("emissivity", "95", "an emissivity is above 0 and at most 1, as 0.95"),
        ("above", "1e3", "not a number"),
        ("above", "-2", "a number above nought is needed"),
        ("truth", "yes", "true or false is expected, without quotes"),
        ("truth", "True", "true or false is expected, without quotes"),
        ("truth", '"true"', "true or false is expected, without quotes"),
        ("address", "slipway.example", "not a full web address; write it with https://"),
        ("address", "javascript:alert(1)", "not a full web address"),
        ("file", "../../etc/passwd", "a file's name is expected"),
        ("file", "/etc/passwd", "a file's name is expected"),
        ("file", "C:\\photos\\a.jpg", "a file's name is expected"),
        ("code", '"1:75"', "not a time code"),
        ("day", "08.03.2026", "may be two days; write year, month and day"),
        ("day", "2026-13-01", "there is no day 2026-13-01"),
        ("day", "2026-03", "not a date"),
        ("price", "4.80", "not a price"),
        ("method", "closed-box-heating/0", "not a method with its version"),
        ("method", "closed-box-heating/2.0", "not a method with its version"),
        ("bound", "logger 1/CH3", "not an instrument's id"),
        ("bound", "logger-1/CH3 and k7", "not an instrument's id"),
        ("column", "Temperature", "not a column's name"),
        ("run-key", "okvarn-ih30", "not a run of a sitting"),
        ("count", "3", "not a count"),
        ("count", "51 of 50", "more counted than there were"),
        ("count", "0 of 0", "nothing was counted"),
        ("count", "over 0", "nothing was counted"),
        ("count", "1200", "not a count"),
        ("any", "30", "a number without a unit"),
        ("condition", "28 to 18 degC", "the range does not end above where it begins"),
        ("condition", "18 to 28 parsec", "no unit known here"),
    ],
)
def test_refused(key: str, written: str, told: str) -> None:
    assert told in read(key, written)


def test_days_and_prices_keep_what_was_written() -> None:
    assert str(read("day", "2026-03-08")) == "2026-03-08"
    assert str(read("part-day", "2021-05")) == "2021-05"
    assert str(read("price", "4.80 EUR").amount) == "4.80"


def test_an_empty_optional_key_is_no_value() -> None:
    assert read("day", "") == "no value here; a date, as 2026-03-08 is expected"


@pytest.mark.parametrize(
    ("text", "item", "piece"), [("okvarn-ih30:A", "okvarn-ih30", "A"), ("control", None, None)]
)
def test_split_run_key(text: str, item: str | None, piece: str | None) -> None:
    key = split_run_key(text)
    assert (str(key), key.item, key.specimen) == (text, item, piece)


class Like(FileRecord):
    quantity: QuantityName | None = None
    value: AnyQuantity | None = None
    end: End | None = None
    width: Width | None = None
    share: WidthOrPercent | None = None
    known: WidthOrUnknown | None = None


def like(text: str) -> Like | str:
    root = read_text(text, Path("/b/a.yml")).root
    assert root is not None
    found = Like.from_nodes(root, "a")
    return found if isinstance(found, Like) else found[0].what


def test_of_a_range_of_temperatures_ends_are_points_and_widths_are_differences() -> None:
    found = like("quantity: temperature\nend: 212 degF\nwidth: 9 degF\nknown: 1.8 degF\n")
    assert isinstance(found, Like)
    assert found.end is not None
    assert found.end.si == pytest.approx(100.0)
    assert found.width is not None
    assert found.width.si == pytest.approx(5.0)


def test_a_tolerance_follows_the_value_or_is_a_share_of_it() -> None:
    found = like("value: 30 A\nshare: 2 %\n")
    assert isinstance(found, Like)
    assert found.share is not None
    assert found.share.quantity == "ratio"
    assert found.share.si == pytest.approx(0.02)
    assert like("value: 30 A\nshare: 0.5 V\n") == "'V' is a unit of voltage, not of current"


def test_an_uncertainty_may_be_unknown_in_that_word_alone() -> None:
    found = like("value: 48 K\nknown: unknown\n")
    assert isinstance(found, Like)
    assert found.known == "unknown"
    assert like("value: 48 K\nknown: '?'\n") == "not a number with its unit"


def test_an_unknown_uncertainty_may_be_written_with_its_sign() -> None:
    found = like("value: 48 K\nknown: ± unknown\n")
    assert isinstance(found, Like)
    assert found.known == "unknown"


def test_a_faulty_quantity_brings_no_second_fault_for_what_follows_it() -> None:
    root = read_text("quantity: temparature\nend: 150 degC\nwidth: 0.1 degC\n", Path("/b/a.yml")).root
    assert root is not None
    found = Like.from_nodes(root, "a")
    assert isinstance(found, tuple)
    assert [each.path for each in found] == ["quantity"]


@given(st.text(min_size=1, max_size=30))
def test_any_text_in_any_field_is_taken_or_refused_in_words(text: str) -> None:
    quoted = "'" + text.replace("'", "''") + "'"
    for key in Sample.spelt():
        root = read_text(f"{key}: {quoted}\n", Path("/b/a.yml")).root
        if root is None:
            continue
        found = Sample.from_nodes(root, "a")
        if isinstance(found, tuple):
            assert all(each.what and each.place.line for each in found)
