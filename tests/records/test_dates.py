"""Dates: ISO 8601 alone, and every other order of day and month asked about."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.dates import PartialDate, parse_date, parse_month_or_year
from generator.records.quantity import QuantityError

DAYS = st.dates(date(1900, 1, 1), date(2199, 12, 31))


@given(DAYS)
def test_a_day_reads_back(day: date) -> None:
    assert parse_date(day.isoformat()) == day
    whole = parse_month_or_year(day.isoformat())
    assert (whole.year, whole.month, whole.day) == (day.year, day.month, day.day)
    assert str(whole) == day.isoformat()


@given(DAYS, st.sampled_from("/.-"))
def test_another_order_is_never_guessed(day: date, sign: str) -> None:
    text = f"{day.day:02d}{sign}{day.month:02d}{sign}{day.year}"
    with pytest.raises(QuantityError) as raised:
        parse_date(text)
    assert day.isoformat() in raised.value.accepted
    two = day.day <= 12 and day.day != day.month
    assert len(raised.value.accepted) == 1 + two
    assert ("may be two days" in raised.value.what) == two


@pytest.mark.parametrize(
    ("text", "what", "accepted"),
    [
        ("2026-3-8", "month and day have two digits", ("2026-03-08",)),
        (
            "08/03/2026",
            "'08/03/2026' may be two days; write year, month and day",
            ("2026-03-08", "2026-08-03"),
        ),
        (
            "08.03.2026",
            "'08.03.2026' may be two days; write year, month and day",
            ("2026-03-08", "2026-08-03"),
        ),
        (
            "13/02/2026",
            "'13/02/2026' is not how a date is written here; write year, month and day",
            ("2026-02-13",),
        ),
        ("2026-02-30", "there is no day 2026-02-30", ("2026-03-08",)),
        ("2026-13-01", "there is no day 2026-13-01", ("2026-03-08",)),
        ("0026-03-08", "there is no day 0026-03-08", ("2026-03-08",)),
        ("2026-03-08T10:00", "a date is wanted, without the time of day", ("2026-03-08",)),
        ("2026-03-08T10:00+01:00", "a date is wanted, without the time of day", ("2026-03-08",)),
        ("2026-03-08 10:00Z", "a date is wanted, without the time of day", ("2026-03-08",)),
        ("8 March 2026", "not a date: year, month and day", ("2026-03-08",)),
        ("20260308", "not a date: year, month and day", ("2026-03-08",)),
        ("2026", "not a date: year, month and day", ("2026-03-08",)),
    ],
)
def test_what_is_no_date(text: str, what: str, accepted: tuple[str, ...]) -> None:
    with pytest.raises(QuantityError) as raised:
        parse_date(text)
    assert (raised.value.what, raised.value.accepted) == (what, accepted)


def test_dashes_from_a_phone_are_taken() -> None:
    assert parse_date("2026\u201103\u201108") == date(2026, 3, 8)


@pytest.mark.parametrize(
    ("text", "found", "told"),
    [
        ("2021", PartialDate(2021), "2021"),
        ("2021-05", PartialDate(2021, 5), "2021-05"),
        ("2021-05-03", PartialDate(2021, 5, 3), "2021-05-03"),
    ],
)
def test_a_month_or_a_year_will_do_for_an_older_result(text: str, found: PartialDate, told: str) -> None:
    assert parse_month_or_year(text) == found
    assert str(found) == told


@pytest.mark.parametrize("text", ["2021-13", "2021-00", "05/2021", "21", "May 2021", "2021-02-30"])
def test_what_is_neither_month_nor_year(text: str) -> None:
    with pytest.raises(QuantityError) as raised:
        parse_month_or_year(text)
    assert "2026" in raised.value.accepted


def test_dates_of_any_precision_sort_by_time() -> None:
    days = [parse_month_or_year(text) for text in ("2021-05", "2020", "2021-05-03", "2021")]
    assert [str(each) for each in sorted(days)] == ["2020", "2021", "2021-05", "2021-05-03"]
