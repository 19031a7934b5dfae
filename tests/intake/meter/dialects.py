"""Writers of series in the shapes of the twelve files: what was written is known to the last digit."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import openpyxl

from generator.intake.meter.hints import Hints

Values = tuple[Decimal | None, ...]


@dataclass(frozen=True)
class Drawn:
    """A series as drawn.

    Attributes:
        start: The first reading, to the second.
        times: Seconds since the start, rising from 0.
        columns: Two columns of values with one number of decimals each; None where there is no reading.
    """

    start: datetime
    times: tuple[Decimal, ...]
    columns: tuple[Values, Values]

    @property
    def stamps(self) -> list[datetime]:
        """When each reading was."""
        return [self.start + timedelta(microseconds=int(each * 1_000_000)) for each in self.times]

    def rows(self) -> list[tuple[datetime, Decimal | None, Decimal | None]]:
        """Stamp and values of each row."""
        return list(zip(self.stamps, *self.columns, strict=True))

    @property
    def step(self) -> Decimal:
        """The step, of series that have one."""
        return self.times[1] - self.times[0] if len(self.times) > 1 else Decimal(60)


@dataclass(frozen=True)
class Dialect:
    """One way to write a series.

    Attributes:
        write: The file's bytes.
        hints: What has to be said beside it.
        names: The columns that the two series stand in.
        steps: Steps in seconds that it can write; none where any in turn.
        exact: Whether the digits come back as written, with their last noughts.
        gaps: Whether it can write that there is no reading.
    """

    write: Callable[[Drawn], bytes]
    names: tuple[str, str]
    steps: tuple[str, ...] = ()
    hints: Callable[[Drawn], Hints] = field(default=lambda _: Hints())
    exact: bool = True
    gaps: bool = True


def text(value: Decimal | None, instead: str, sign: str = ".") -> str:
    return instead if value is None else str(value).replace(".", sign)


def joined(lines: Sequence[str], end: str) -> str:
    return end.join((*lines, ""))


def keys_and_units(drawn: Drawn) -> bytes:
    lines = ["Device,Fourway", 'Comment,"lid, closed"', "Operator,", f"Interval,{drawn.step},s", ""]
    lines += ["Date,Time,CH1,CH2", ",,degC,mV"]
    lines += [f"{at:%Y-%m-%d,%H:%M:%S},{text(a, 'OPEN')},{text(b, 'OPEN')}" for at, a, b in drawn.rows()]
    return b"\xef\xbb\xbf" + joined(lines, "\r\n").encode()


def quoted_elapsed(drawn: Drawn) -> bytes:
    lines = ['"","Ch 1 Ave. (°C)","Ch 2 Ave. (V)"']
    for since, a, b in zip(drawn.times, *drawn.columns, strict=True):
        minutes, second = divmod(int(since), 60)
        cells = (f"{minutes // 60:02d}:{minutes % 60:02d}:{second:02d}", text(a, "OL"), text(b, ""))
        lines.append(",".join(f'"{cell}"' for cell in cells))
    return joined(lines, "\n").encode()


def decimal_commas(drawn: Drawn) -> bytes:
    lines = ["Meßgerät;Prüfstand;;", "Datum;Uhrzeit;Temperatur °C;Spannungsfall mV;"]
    lines += [
        f"{at:%d.%m.%Y;%H:%M:%S};{text(a, '---', ',')};{text(b, '', ',')};" for at, a, b in drawn.rows()
    ]
    return joined([*lines, ""], "\r\n").encode("cp1252")


def bench_scan(drawn: Drawn) -> bytes:
    lines = [
        "Name:,drop,",
        "  Channel,Function,Range",
        "  101,DC V,100 mV",
        "",
        f"  Interval:,{drawn.step},s",
    ]
    lines += ["Scan,Time,101 (VDC),102 (C)"]
    for number, (at, a, b) in enumerate(drawn.rows(), 1):
        cells = ["+9.90000000E+37" if each is None else f"{each:+.8E}" for each in (a, b)]
        stamp = f"{at.month}/{at.day}/{at:%Y %H:%M:%S}:{at.microsecond // 1000:03d}"
        lines.append(",".join((str(number), stamp, *cells)))
    return joined(lines, "\r\n").encode()


def recording(drawn: Drawn) -> bytes:
    lines = ["3\tclamp\tRecording", "", "start\tmaximum\t\taverage\t\tother\t\tsamples\ttype"]
    for at, a, b in drawn.rows():
        if a is None or b is None:
            cells = ["9.99999999e+37", "ADC", "0", "ADC", "0", "VDC", "0", "INTERVAL"]
        else:
            cells = [str(a), "ADC", str(a), "ADC", str(b), "VDC", "30", "STABLE"]
        lines.append("\t".join((f"{at:%Y-%m-%d %H:%M:%S}", *cells)))
    return joined(lines, "\n").encode()


def card(drawn: Drawn) -> bytes:
    lines = ["Place,Date,Time,Value,Unit,Value,Unit"]
    for number, (at, a, b) in enumerate(drawn.rows(), 1):
        cells = (text(a, "OL"), "DEGREE F", text(b, "OL"), "DEGREE C")
        lines.append(",".join((str(number), f"{at:%y/%m/%d,%H:%M:%S}", *cells)))
    return joined(lines, "\r\n").encode()


def camera(drawn: Drawn) -> bytes:
    lines = ["Sequence,b.seq", "Emissivity,0.95", "Distance,0.30 m", "", "Frame,Time,Sp1 [°C],Ar1.Avg [°C]"]
    for number, (at, a, b) in enumerate(drawn.rows()):
        stamp = f"{at:%H:%M:%S}.{at.microsecond // 1000:03d}"
        lines.append(f"{1 + 60 * number},{stamp},{text(a, '>150.0')},{text(b, '***')}")
    return joined(lines, "\n").encode()


def minute_stamps(drawn: Drawn) -> bytes:
    lines = [
        "機種名,温度ロガーX",
        f"サンプル間隔,{drawn.step}s",
        "測定値",
        "番号,日付 時間,ms,CH1,CH2,Alarm1",
    ]
    lines += ["NO.,Time,ms,ﾟC,ﾟC,A1"]
    for number, (at, a, b) in enumerate(drawn.rows(), 1):
        stamp = f"{at.year}/{at.month}/{at.day} {at.hour}:{at:%M}"
        lines.append(f"{number},{stamp},0,{text(a, '  BURNOUT')},{text(b, '  BURNOUT')},LLLL")
    return joined(lines, "\r\n").encode("cp932")


def events(drawn: Drawn) -> bytes:
    lines = [
        '"Plot Title: bench"',
        '"#","Date Time, GMT+01:00","Temp, °C (S/N: 2, a)","Volt, V","Started","Button"',
    ]
    number = 0
    for at, a, b in drawn.rows():
        number += 1
        started = "Logged" if number == 1 else ""
        lines.append(f"{number},{at:%m/%d/%y %I:%M:%S %p},{text(a, 'ERR')},{text(b, 'ERR')},{started},")
        if number % 3 == 0:
            number += 1
            lines.append(f"{number},{at + timedelta(seconds=1):%m/%d/%y %I:%M:%S %p},,,,Logged")
    return b"\xef\xbb\xbf" + joined(lines, "\r\n").encode()


def wide_tabs(drawn: Drawn) -> bytes:
    lines = ["Temps\tSonde 1 [°C]\tSonde 2 [°C]\tRemarque"]
    for number, (at, a, b) in enumerate(drawn.rows()):
        remark = "déplacée" if number == 1 else ""
        lines.append(f"{at:%d/%m/%Y %H:%M:%S}\t{text(a, '----', ',')}\t{text(b, '----', ',')}\t{remark}")
    return joined(lines, "\r\n").encode("utf-16")


def midnight(drawn: Drawn) -> bytes:
    lines = ["Time;T1 (C);I (A)"]
    lines += [f"{at:%H:%M};{text(a, 'OL')};{text(b, 'OL')}" for at, a, b in drawn.rows()]
    lines += ["", "Average;52.2;30.0", f"Exported 07/08/2026 00:13 - {len(drawn.times)} records"]
    return joined(lines, "\n").encode()


def workbook(drawn: Drawn) -> bytes:
    book = openpyxl.Workbook()
    first = book.active
    assert first is not None
    first.title = "Info"
    first["A1"] = "Test rig"
    sheet = book.create_sheet("Data")
    sheet.append(["Series 1"])
    sheet.append(["Time", "T case [°C]", "Drop [mV]"])
    for number, (at, a, b) in enumerate(drawn.rows()):
        numbers = [None if each is None else float(each) for each in (a, b)]
        # Every fourth value is text, as a person types it.
        typed = text(a, "", ",") if number % 4 == 3 else ""
        sheet.append([at.replace(tzinfo=None), typed or numbers[0], numbers[1]])
        sheet.cell(sheet.max_row, 1).number_format = "hh:mm"
    sheet.append([])
    sheet.append(["checked"])
    kept = io.BytesIO()
    book.save(kept)
    return kept.getvalue()


def order(told: str) -> Callable[[Drawn], Hints]:
    return lambda _: Hints(date_order=told)  # type: ignore[arg-type]


def on_day(drawn: Drawn) -> Hints:
    return Hints(run_date=date(drawn.start.year, drawn.start.month, drawn.start.day))


DIALECTS: dict[str, Dialect] = {
    "01": Dialect(keys_and_units, ("CH1", "CH2"), ("1", "30", "300")),
    "02": Dialect(quoted_elapsed, ("Ch 1 Ave. (°C)", "Ch 2 Ave. (V)"), ("1", "60", "7200")),
    "03": Dialect(decimal_commas, ("Temperatur °C", "Spannungsfall mV"), ("2", "300")),
    "04": Dialect(bench_scan, ("101 (VDC)", "102 (C)"), ("0.125", "60.25", "5"), order("mdy"), exact=False),
    "05": Dialect(recording, ("average", "other")),
    "06": Dialect(card, ("Value 1", "Value 2"), ("1", "300"), order("ymd")),
    "07": Dialect(camera, ("Sp1 [°C]", "Ar1.Avg [°C]"), ("0.02", "30")),
    "08": Dialect(minute_stamps, ("CH1", "CH2"), ("0.5", "7", "30", "60", "90")),
    "09": Dialect(events, ("Temp, °C (S/N: 2, a)", "Volt, V"), ("10", "900"), order("mdy")),
    "10": Dialect(wide_tabs, ("Sonde 1 [°C]", "Sonde 2 [°C]"), ("1", "120"), order("dmy")),
    "11": Dialect(midnight, ("T1 (C)", "I (A)"), ("60", "300"), on_day),
    "12": Dialect(
        workbook, ("T case [°C]", "Drop [mV]"), ("1", "300"), lambda _: Hints(sheet="Data"), exact=False
    ),
}

EARLIEST = datetime(2001, 1, 1, tzinfo=UTC)
