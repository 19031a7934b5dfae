"""The twelve files with a byte changed, or cut off anywhere: right values or a refusal, never wrong ones.

What is right is what the changed file says, told by a second reader that shares no code with the first; of a
line that is as it was, what it said before; of a file that was cut, what the whole one says.
"""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest

from generator.intake.meter.reader import read_meter_file
from generator.intake.meter.series import MeterFile, Unreadable
from generator.records.units import Unit
from tests.intake.meter.plainly import PLAINLY, Plain, elapsed, says_unit
from tests.intake.meter.test_reader import bytes_of, expected, hints_of, read

CHANGES = 310
CUTS = 130
BOOK = 160


@cache
def whole(key: str) -> MeterFile:
    return read(key)


def tried(key: str, data: bytes) -> MeterFile | None:
    """The file as read, or None where it is refused, which it must be with words."""
    told = expected_once(key)
    try:
        return read_meter_file(data, told["file"], hints_of(told))
    except Unreadable as error:
        refused = error
    assert refused.problems
    assert all(problem.what for problem in refused.problems)
    return None


expected_once = cache(expected)


def as_found(key: str, file: MeterFile) -> Plain:
    """What is known of the file beforehand, in the encoding that it was read in.

    A byte that is no UTF-8 makes a file one of no stated encoding; then what was tried and told is taken.
    """
    if any(each.kind == "encoding tried" for each in file.warnings):
        return replace(PLAINLY[key], encoding=file.encoding)
    return PLAINLY[key]


def says(key: str, file: MeterFile, data: bytes) -> None:
    """Hold what was read against what the bytes say."""
    plain = as_found(key, file)
    rows = {line: cells for line, (cells, _) in plain.rows(data).items()}
    header = [" ".join(cell.split()) for cell in rows[file.header_line]]
    below = rows[file.units_line] if file.units_line else []
    told = {(each.line, each.column) for each in file.not_readings}
    changed = {
        (each.columns[0], line)
        for each in file.warnings
        for line in each.lines
        if each.kind == "unit changes"
    }
    for column in file.columns:
        place = column.number - 1
        name = " ".join(column.name.split())
        assert name in {header[place], f"{header[place]} {name.rpartition(' ')[2]}"}
        for line, value in zip(file.lines, column.values, strict=True):
            if value is None:
                assert told & {(line, column.name), (None, column.name)}, (line, column.name)
            else:
                wanted = plain.number(rows[line][place])
                if (column.name, line) in changed:
                    wanted = other_scale(wanted, column.unit)
                assert Decimal(value) == wanted, (line, column.name, value)
        behind = rows[file.lines[0]][place + 1 : place + 2]
        said = (header[place], *below[place : place + 1], *behind)
        spelled = (column.unit.symbol, *column.unit.variants) if column.unit else ("",)
        assert any(says_unit(spelled, each) for each in said), said
    times = [plain.time(rows[line]) for line in file.lines]
    assert all(time is not None for time in times), times
    since = elapsed(key, plain.lines(data), [time for time in times if time is not None])
    assert list(file.elapsed_s) == since


def other_scale(value: Decimal | None, to: Unit | None) -> Decimal:
    """A temperature on the other scale, to three places."""
    assert value is not None
    assert to is not None
    told = value * 9 / 5 + 32 if to.typed == "degF" else (value - 32) * 5 / 9
    return told.quantize(Decimal("0.001"))


def nothing_is_dropped(key: str, file: MeterFile, data: bytes) -> None:
    """Hold that every row below the header was read, tells an event, or is told as left out."""
    plain = as_found(key, file)
    rows = plain.rows(data)
    wide = len([cell for cell in rows[file.header_line][0] if cell])
    known = {*file.lines, *file.ignored_lines, file.units_line, *(each.line for each in file.events)}
    for line, (cells, _) in rows.items():
        assert line <= file.header_line or line in known or not any(cells), (line, cells)
    for line in file.ignored_lines:
        cells, _ = rows[line]
        if plain.time(cells) is not None and len(cells) >= wide:
            assert line == max(rows)
            assert any(each.kind == "row cut off" for each in file.warnings)


def as_before(key: str, file: MeterFile, data: bytes) -> None:
    """Hold that lines which are as they were say what they said, or why not."""
    plain = PLAINLY[key]
    before, now = plain.lines(bytes_of(key)), as_found(key, file).lines(data)
    old = whole(key)
    told = {(each.line, each.column) for each in file.not_readings}
    for column in file.columns:
        same = next((each for each in old.columns if each.number == column.number), None)
        if same is None:
            continue
        values = dict(zip(old.lines, same.values, strict=True))
        for line, value in zip(file.lines, column.values, strict=True):
            if line <= len(before) and before[line - 1] == now[line - 1] and column.unit == same.unit:
                assert value == values.get(line) or (line, column.name) in told


@pytest.mark.parametrize("key", PLAINLY)
def test_a_changed_byte_gives_what_the_file_now_says_or_a_refusal(key: str) -> None:
    data = bytes_of(key)
    chance = random.Random(f"changed {key}")  # noqa: S311
    taken = 0
    for _ in range(CHANGES):
        at = chance.randrange(len(data))
        # Half of them bytes that matter to a table; the rest any.
        byte = (
            chance.choice(b'0123456789.,;:\t"-+/eE \r\nCFKVAm')
            if chance.random() < 0.5
            else chance.randrange(256)
        )
        changed = data[:at] + bytes([byte]) + data[at + 1 :]
        file = tried(key, changed)
        if file is None:
            continue
        taken += 1
        says(key, file, changed)
        nothing_is_dropped(key, file, changed)
        as_before(key, file, changed)
    assert taken > CHANGES // 20, "nearly all were refused: this tried nothing"


@pytest.mark.parametrize("key", PLAINLY)
def test_a_file_cut_off_gives_rows_of_the_whole_one_or_a_refusal(key: str) -> None:
    data, old = bytes_of(key), whole(key)
    chance = random.Random(f"cut {key}")  # noqa: S311
    truth = {
        (column.number, line): value
        for column in old.columns
        for line, value in zip(old.lines, column.values, strict=True)
    }
    times = dict(zip(old.lines, old.elapsed_s, strict=True))
    for at in sorted(chance.sample(range(len(data)), min(CUTS, len(data)))):
        file = tried(key, data[:at])
        if file is None:
            continue
        assert list(file.lines) == list(old.lines[: len(file.lines)])
        assert [times[line] for line in file.lines] == list(file.elapsed_s)
        for column in file.columns:
            found = [truth[column.number, line] for line in file.lines]
            assert list(column.values) == found, (at, column.name)
        nothing_is_dropped(key, file, data[:at])


def test_a_damaged_workbook_gives_what_it_gave_or_a_refusal() -> None:
    data, old = bytes_of("12"), whole("12")
    chance = random.Random("workbook")  # noqa: S311
    for number in range(BOOK):
        at = chance.randrange(len(data))
        changed = (
            data[:at] if number % 3 == 0 else data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]
        )
        file = tried("12", changed)
        assert file is None or (file.columns, file.elapsed_s) == (old.columns, old.elapsed_s)
