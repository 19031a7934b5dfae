"""Bytes of a meter's file → text, by what the file shows, then by the hint, else by trying and telling."""

from __future__ import annotations

import codecs
from dataclasses import dataclass
from pathlib import Path

from generator.intake.meter.series import MeterWarning, Problem, Unreadable
from generator.records.signs import refused

MOST_BYTES = 40_000_000
"""Eight channels, read once a second for five days, come to less than this."""

TRIED = ("cp1252", "cp932")
"""What a file without a mark that is no UTF-8 is tried as, each whole."""

KNOWN = (
    "utf-8", "utf-16-le", "utf-16-be", "cp1252", "cp932", "iso8859-1", "iso8859-15", "cp1250", "cp1251",
    "cp1253", "cp1254", "cp437", "cp850", "shift_jis", "euc_jp", "gb18030", "gbk", "big5", "cp949", "euc_kr",
    "mac-roman", "koi8-r", "utf-16", "ascii",
)  # fmt: skip
"""Encodings that a hint may name, as Python calls them."""

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)


@dataclass(frozen=True)
class Decoded:
    """One way to read the bytes.

    Attributes:
        text: The whole text, its mark left out.
        encoding: As Python calls it, with what showed it: `utf-8 with mark`.
        warnings: What should be told of the choice.
    """

    text: str
    encoding: str
    warnings: tuple[MeterWarning, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines without their ends."""
        return tuple(line.removesuffix("\r") for line in self.text.split("\n"))


def decodings(data: bytes, hint: str | None) -> tuple[Decoded, ...]:
    """The ways to read the bytes of a text file: one, or those of `TRIED` that give a text.

    Args:
        data: The whole file.
        hint: The encoding that a person names, if any.

    Raises:
        Unreadable: There is none, or the hint does not fit.
    """
    named = _named(hint) if hint else ""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            text = _strictly(data[len(mark) :], encoding)
            other = named and named != encoding and not (named == "utf-16" and encoding != "utf-8")
            return (_checked(Decoded(text, f"{encoding} with mark", _not_needed(named if other else ""))),)
    if b"\0" in data and not named.startswith("utf-16"):
        what = "the file holds null bytes: it is no text, or it is UTF-16 without its mark"
        raise Unreadable([Problem(0, 0, "", what, None, ("--encoding utf-16-le", "--encoding utf-16-be"))])
    if named.startswith("utf-16"):
        return (_checked(Decoded(_strictly(data, named), named)),)
    if data.isascii():
        return (_checked(Decoded(data.decode("ascii"), "ascii")),)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        return (_checked(Decoded(_strictly(data, named), named)),) if named else _tried(data)
    return (_checked(Decoded(text, "utf-8", _not_needed("" if named == "utf-8" else named))),)


def _tried(data: bytes) -> tuple[Decoded, ...]:
    found = []
    for encoding in TRIED:
        try:
            warning = MeterWarning("encoding tried", texts=(encoding,))
            found.append(_checked(Decoded(data.decode(encoding), encoding, (warning,))))
        except (UnicodeDecodeError, Unreadable):
            continue
    if not found:
        raise Unreadable([_undecodable(data, "utf-8")])
    return tuple(found)


def _named(hint: str) -> str:
    try:
        name = codecs.lookup(hint.strip()).name
    except LookupError:
        name = ""
    if name not in KNOWN:
        what = f"'{hint}' is no encoding known here"
        raise Unreadable([Problem(0, 0, "", what, None, tuple(f"--encoding {each}" for each in KNOWN[:5]))])
    return name


def _not_needed(named: str) -> tuple[MeterWarning, ...]:
    return (MeterWarning("encoding hint not needed", texts=(named,)),) if named else ()


def _strictly(data: bytes, encoding: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError:
        raise Unreadable([_undecodable(data, encoding)]) from None


def _undecodable(data: bytes, encoding: str) -> Problem:
    try:
        data.decode(encoding)
    except UnicodeDecodeError as error:
        begin = data[: error.start].decode(encoding, "replace")
        line = begin.count("\n") + 1
        column = len(begin) - (begin.rfind("\n") + 1) + 1
        text = begin[begin.rfind("\n") + 1 :] + "\ufffd"
        what = f"byte 0x{data[error.start]:02X} is not {encoding.upper()}"
        told = tuple(f"--encoding {each}" for each in KNOWN[3:5])
        return Problem(line, column, text, what, None, told)
    raise AssertionError(encoding)


def _checked(decoded: Decoded) -> Decoded:
    """The same, if no sign in it stands for one that was lost, and none hides or moves the others.

    Raises:
        Unreadable: There is such a sign.
    """
    lines = decoded.lines
    fault = refused(decoded.text, lines, Path())
    if fault is not None:
        raise Unreadable([Problem(fault.place.line, fault.place.column, fault.place.text, fault.what)])
    if "\ufffd" in decoded.text:
        number = next(index for index, line in enumerate(lines) if "\ufffd" in line)
        what = "U+FFFD stands where a character was lost; fetch the file from the meter anew"
        raise Unreadable([Problem(number + 1, lines[number].index("\ufffd") + 1, lines[number], what)])
    return decoded
