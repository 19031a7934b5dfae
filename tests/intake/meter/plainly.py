"""A second, plain way to read the twelve files, which shares no code with the reader: what each cell says.

It knows each file's encoding, delimiter and stamps beforehand, splits lines by hand, and takes a cell for a
number by a pattern of its own. So it can say what a file whose bytes were changed says now.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import ClassVar

_NUMBER = re.compile(r"[+-]?[0-9]*\.?[0-9]+([eE][+-]?[0-9]+)?")
_TOO_LARGE = Decimal("1e30")


@dataclass(frozen=True)
class Plain:
    """What is known of one of the files beforehand.

    Attributes:
        encoding: Its encoding, as Python calls it.
        sign: What parts its cells.
        stamp: The format of its time, of the cells of `at` joined by a space.
        at: The cells of the time, from 0.
        comma: Whether its decimal sign is a comma.
    """

    encoding: str
    sign: str
    stamp: str
    at: tuple[int, ...]
    comma: bool = False
    open: ClassVar[list[str]] = ["a quote is open"]

    def lines(self, data: bytes) -> list[str]:
        return [line.rstrip("\r") for line in data.decode(self.encoding).split("\n")]

    def rows(self, data: bytes) -> dict[int, tuple[list[str], int]]:
        """Each row by the line where it begins: its cells, and the line where it ends."""
        lines = self.lines(data)
        found, line = {}, 1
        while line <= len(lines):
            end = line
            while self.cells("\n".join(lines[line - 1 : end])) == self.open and end < len(lines):
                end += 1
            found[line] = (self.cells("\n".join(lines[line - 1 : end])), end)
            line = end + 1
        return found

    def cells(self, line: str) -> list[str]:
        """The cells of a line; a quote at a cell's begin opens it, the next closes it, two are one."""
        cells, quoted, cell = [], False, ""
        for sign in line:
            if sign == '"' and (quoted or not cell):
                quoted = not quoted
            elif sign == self.sign and not quoted:
                cells.append(cell.strip())
                cell = ""
            else:
                cell += sign
        return self.open if quoted else [*cells, cell.strip()]

    def number(self, cell: str) -> Decimal | None:
        """The number that a cell says; None where it says none, or one that no meter reads."""
        # A dash that a code page has in place of the minus sign.
        cell = cell.replace("\u2013", "-").replace("\u2212", "-")
        written = cell.replace(",", ".") if self.comma and cell.count(",") == 1 else cell
        if not _NUMBER.fullmatch(written) or (self.comma and "." in cell):
            return None
        value = Decimal(written)
        return value if abs(value) < _TOO_LARGE else None

    def time(self, cells: list[str]) -> Decimal | None:
        """Seconds of the row's time since a day long ago; None where it has none."""
        try:
            when = datetime.strptime(" ".join(cells[place] for place in self.at), self.stamp)  # noqa: DTZ007
        except (ValueError, IndexError):
            return None
        since = when - datetime(1900, 1, 1)  # noqa: DTZ001
        return Decimal(since.days * 86400 + since.seconds) + Decimal(since.microseconds) / 1_000_000


PLAINLY = {
    "01": Plain("utf-8-sig", ",", "%Y-%m-%d %H:%M:%S", (0, 1)),
    "02": Plain("utf-8", ",", "%H:%M:%S", (0,)),
    "03": Plain("cp1252", ";", "%d.%m.%Y %H:%M:%S", (0, 1), comma=True),
    "04": Plain("utf-8", ",", "%m/%d/%Y %H:%M:%S:%f", (1,)),
    "05": Plain("utf-8", "\t", "%Y-%m-%d %H:%M:%S", (0,)),
    "06": Plain("utf-8", ",", "%y/%m/%d %H:%M:%S", (1, 2)),
    "07": Plain("utf-8", ",", "%H:%M:%S.%f", (1,)),
    "08": Plain("cp932", ",", "%Y/%m/%d %H:%M", (1,)),
    "09": Plain("utf-8-sig", ",", "%m/%d/%y %I:%M:%S %p", (1,)),
    "10": Plain("utf-16", "\t", "%d/%m/%Y %H:%M:%S", (0,), comma=True),
    "11": Plain("utf-8", ";", "%H:%M", (0,)),
}

_STATED = re.compile(r"サンプル間隔,\s*([0-9.]+)\s*s")


def elapsed(key: str, text: list[str], times: list[Decimal]) -> list[Decimal]:
    """Seconds since the first row, by each file's own rule.

    Args:
        key: The file.
        text: Its lines.
        times: What the rows say, in order.
    """
    if key == "08":
        stated = next(found for line in text if (found := _STATED.match(line)))
        return [Decimal(stated[1]) * number for number in range(len(times))]
    days, told = 0, []
    for number, time in enumerate(times):
        if key in {"07", "11"} and number and times[number - 1] - time > 43200:
            days += 1
        told.append(time + days * 86400)
    return [time - told[0] for time in told]


UNITS: dict[str, Callable[[str], bool]] = {
    "degC": lambda text: re.search(r"(?:°|º|ﾟ|deg ?|DEGREE |\(|\[|^)\s*C\b", text, re.IGNORECASE) is not None,
    "degF": lambda text: re.search(r"(?:°|º|ﾟ|deg ?|DEGREE |\(|\[|^)\s*F\b", text, re.IGNORECASE) is not None,
    "V": lambda text: re.search(r"(?<![mkuM])V(?:[DA]C)?\b", text) is not None,
    "mV": lambda text: "mV" in text,
    "A": lambda text: re.search(r"A(?:[DA]C)?\b", text) is not None,
    "K": lambda text: "K" in text,
}
"""How a file may say each unit."""


def says_unit(spellings: tuple[str, ...], text: str) -> bool:
    """Whether a text says a unit, in one of the files' ways or as it is spelled."""
    return any(each in text or (each in UNITS and UNITS[each](text)) for each in spellings)
