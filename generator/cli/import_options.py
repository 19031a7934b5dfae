"""The options of `provebook import`: texts as typed to what they say, or why they say nothing."""

from __future__ import annotations

import codecs
import re
from collections.abc import Callable, Iterable
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from generator.intake.meter.hints import Hints

Callback = Callable[[click.Context, click.Parameter, Any], Any]

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def column_pairs(example: str) -> Callback:
    """Reads `COLUMN=…`, given as often as wanted, into what is said of each column.

    Args:
        example: One that would do, for the message.
    """

    def read(_: click.Context, __: click.Parameter, values: Iterable[str]) -> dict[str, str]:
        found: dict[str, str] = {}
        for value in values:
            column, sign, said = value.rpartition("=")
            if not (sign and column.strip() and said.strip()):
                raise click.BadParameter(f"{value!r} says nothing of a column; write it as {example}")
            if column in found:
                raise click.BadParameter(f"{column!r} is said twice")
            found[column.strip()] = said.strip()
        return found

    return read


def day(_: click.Context, __: click.Parameter, value: str | None) -> date | None:
    """Reads `2026-03-08`."""
    if value is None:
        return None
    try:
        if _DAY.fullmatch(value):
            return date.fromisoformat(value)
    except ValueError:
        raise click.BadParameter(f"{value!r}: there is no such day") from None
    raise click.BadParameter(f"{value!r} is no day; write year, month, day: 2026-03-08")


def seconds(_: click.Context, __: click.Parameter, value: str | None) -> Decimal | None:
    """Reads `30 s` or `5 min` into seconds, above nought."""
    found = _time(value)
    if found is not None and found <= 0:
        raise click.BadParameter(f"{value!r}: a time above nought is needed")
    return found


def from_start(_: click.Context, __: click.Parameter, value: str | None) -> Decimal | None:
    """Reads `0 s`, `90 s` or `-30 s` into seconds from the start of a run."""
    if value is not None and value.startswith(("-", "\N{MINUS SIGN}")):
        later = _time(value[1:])
        return None if later is None else -later
    return _time(value)


def _time(value: str | None) -> Decimal | None:
    if value is None:
        return None
    from generator.records.quantity import QuantityError, parse_quantity  # noqa: PLC0415

    try:
        found = parse_quantity(value, "time")
    except QuantityError as error:
        accepted = f"; as {' or '.join(error.accepted)}" if error.accepted else ", as 30 s or 5 min"
        raise click.BadParameter(f"{value!r}: {error.what}{accepted}") from None
    if found.bound:
        raise click.BadParameter(f"{value!r}: one time is needed, no bound")
    return Decimal(repr(found.si)).normalize()


def time_unit(_: click.Context, __: click.Parameter, value: str | None) -> str | None:
    """Reads a unit of time."""
    from generator.records.units import TIME, find_unit, offered  # noqa: PLC0415

    if value is not None and find_unit(value, TIME) is None:
        raise click.BadParameter(f"{value!r} is no unit of time; one of {', '.join(offered(TIME))}")
    return value


def encoding(_: click.Context, __: click.Parameter, value: str | None) -> str | None:
    """Reads the name of an encoding."""
    if value is not None:
        try:
            codecs.lookup(value)
        except LookupError:
            what = f"{value!r} is no encoding that is known here; as utf-8, cp1252, cp932, utf-16-le"
            raise click.BadParameter(what) from None
    return value


def zone(_: click.Context, __: click.Parameter, value: str | None) -> str | None:
    """Reads a zone, or an offset from UTC."""
    if value is not None:
        from generator.intake.meter.series import Unreadable  # noqa: PLC0415
        from generator.intake.meter.zones import zone_of  # noqa: PLC0415

        try:
            zone_of(value)
        except Unreadable:
            what = f"{value!r} is no zone that is known here; as Europe/Berlin, or +01:00"
            raise click.BadParameter(what) from None
    return value


def hint_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Puts the options on a command that say what a file does not say itself."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


_OPTIONS = (
    click.option(
        "--map",
        "columns",
        multiple=True,
        metavar='"COLUMN=WHAT"',
        callback=column_pairs('"CH3=temperature@body"'),
        help="A column of the file, by name or number, to a column of the run, as temperature@body, ambient, "
        "current, drop; of a sitting as okvarn-ih30:A@body; time for the time. As often as wanted.",
    ),
    click.option(
        "--unit",
        "units",
        multiple=True,
        metavar='"COLUMN=UNIT"',
        callback=column_pairs('"CH3=degC"'),
        help="The unit of a column whose unit the file does not say.",
    ),
    click.option(
        "--date-order",
        type=click.Choice(("dmy", "mdy", "ymd")),
        help="How dates are written, where 3/8 may be March or August.",
    ),
    click.option("--zone", callback=zone, help="The zone of its clock: Europe/Berlin, or +01:00."),
    click.option(
        "--run-date",
        callback=day,
        metavar="YYYY-MM-DD",
        help="The day of the first reading, where the file has times of day alone.",
    ),
    click.option("--interval", callback=seconds, metavar='"30 s"', help="From one reading to the next."),
    click.option("--time-unit", callback=time_unit, help="Unit of a time that is a plain number: s, min, h."),
    click.option(
        "--by",
        metavar="COLUMN",
        help="The column that says whose reading a row is, where a row is one reading.",
    ),
    click.option("--sheet", help="The sheet of a workbook."),
    click.option(
        "--encoding", callback=encoding, help="Encoding of the file: utf-8, cp1252, cp932, utf-16-le."
    ),
    click.option("--delimiter", metavar="SIGN", help="What parts the cells: one sign, or tab."),
    click.option("--decimal", type=click.Choice(("point", "comma")), help="The decimal sign."),
)


def hints_of(options: dict[str, Any]) -> Hints:
    """What was said, as the reader of meters' files takes it."""
    from generator.intake.meter.hints import Hints  # noqa: PLC0415

    return Hints(**{("interval_s" if key == "interval" else key): value for key, value in options.items()})
