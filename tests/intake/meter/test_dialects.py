"""Any series, written in any of the twelve shapes, comes back without loss."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from generator.intake.meter.reader import read_meter_file
from tests.intake.meter.dialects import DIALECTS, EARLIEST, Dialect, Drawn, Values


def values(count: int, places: int) -> st.SearchStrategy[Values]:
    """Values below the camera's range, with a fixed number of decimals; now and then none."""
    whole = st.integers(-200 * 10**places, 1499 * 10 ** (places - 1))
    number = whole.map(lambda each: Decimal(each).scaleb(-places))
    one = st.one_of(number, number, number, st.none())
    return st.lists(one, min_size=count, max_size=count).map(tuple)


@st.composite
def drawn(draw: st.DrawFn, dialect: Dialect) -> Drawn:
    count = draw(st.integers(2, 9))
    start = EARLIEST + timedelta(seconds=draw(st.integers(0, 900_000_000)))
    if dialect.steps:
        step = Decimal(draw(st.sampled_from(dialect.steps)))
        times = tuple(step * number for number in range(count))
    else:
        steps = draw(st.lists(st.integers(1, 90), min_size=count - 1, max_size=count - 1))
        times = tuple(Decimal(sum(steps[:number])) for number in range(count))
    columns = (draw(values(count, draw(st.integers(1, 2)))), draw(values(count, draw(st.integers(1, 2)))))
    return Drawn(start, times, columns)


@pytest.mark.parametrize("key", DIALECTS)
@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_there_and_back(key: str, data: st.DataObject) -> None:
    dialect = DIALECTS[key]
    series = data.draw(drawn(dialect))
    # Of a sheet in which nothing was ever read there is no table to find.
    assume(any(value is not None for column in series.columns for value in column))
    file = read_meter_file(dialect.write(series), "drawn", dialect.hints(series))
    assert file.elapsed_s == series.times
    if file.time.first is not None:
        wanted = series.start.replace(second=0) if key in {"08", "11"} else series.start
        assert file.time.first.replace(tzinfo=None) == wanted.replace(tzinfo=None)
    told = {(each.line, each.column) for each in file.not_readings}
    for name, written in zip(dialect.names, series.columns, strict=True):
        column = file.column(name)
        assert column.unit is not None
        # A row of averages is one of no samples where one of the two was drawn as none.
        lost = [key == "05" and None in pair for pair in zip(*series.columns, strict=True)]
        wanted_values = [None if gone else value for value, gone in zip(written, lost, strict=True)]
        found = [None if value is None else Decimal(value) for value in column.values]
        assert found == wanted_values
        if dialect.exact:
            assert list(column.values) == [None if value is None else str(value) for value in wanted_values]
        for line, value in zip(file.lines, column.values, strict=True):
            assert value is not None or told & {(line, name), (None, name)}
