"""What stands before the table: settings as written, and those that readings rest on by names of ours."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from generator.intake.meter.grid import Row
from generator.intake.meter.numbers import Sign, digits
from generator.intake.meter.stamps import stamp_of
from generator.intake.meter.unit_words import unit_of

_INTERVAL = (
    r"(?:(?:sample|sampling|logging|log|recording|record|scan|measuring|measurement)[ _-]*)?"
    r"(?:interval|period)|サンプル間隔|記録間隔|(?:mess|abtast|aufzeichnungs|speicher)?intervall|intervalle.*"
)
_KEYS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), name)
    for pattern, name in (
        (_INTERVAL, "interval"),
        (r"(?:sample|sampling|logging|scan)[ _-]*rate|samplerate|abtastrate", "rate"),
        (r"emissivity|emissionsgrad|émissivité|放射率|ε", "emissivity"),
        (r"refl.*temp.*|refl.*", "reflected-temperature"),
        (r"distance|object distance|abstand|entfernung|距離", "distance"),
        (r"(?:relative )?humidity|rel\.? hum.*", "humidity"),
        (r"atmospheric temp.*|atmosphere.*", "atmospheric-temperature"),
        (r"(?:external )?(?:optics|window).*transmission|transmission", "transmission"),
        (r"(?:measurement|temperature|measuring|camera)?[ _-]*range|messbereich", "range"),
        (r"thermocouple(?: type)?|thermoelement|tc type", "thermocouple"),
    )
)
_THERMOCOUPLE = re.compile(r"\bTC_([BEJKNRST])\b|\btype ([BEJKNRST])\b", re.IGNORECASE)
_AMOUNT = re.compile(r"([+-]?[\d.,]+)\s*(\D.*)?", re.ASCII)
_SPAN = re.compile(r"([+-]?[\d.,]+)\s*(?:to|\.\.+|…|bis|[-–~])\s*([+-]?[\d.,]+)\s*(\D+)", re.ASCII)
_DAYS = re.compile(r"(\d{1,3}):(\d\d):(\d\d):(\d\d)", re.ASCII)
_CLOCK = re.compile(r"(\d{1,3}):(\d\d):(\d\d)", re.ASCII)


def metadata(before: Sequence[Row]) -> tuple[tuple[str, str], ...]:
    """Pairs of name and text, in order; a line without a name has an empty one."""
    pairs: list[tuple[str, str]] = []
    for row in before:
        cells = [cell for cell in row.cells if cell]
        if not cells:
            continue
        cells[0] = cells[0].lstrip("#;!/ ") or cells[0]
        pairs += _pairs(cells)
    return tuple(pairs)


def _pairs(cells: list[str]) -> list[tuple[str, str]]:
    if len(cells) == 1:
        name, colon, text = cells[0].partition(": ")
        return [(name, text.strip())] if colon else [(cells[0].rstrip(":"), "")]
    if not any(sign.isalpha() for sign in cells[0]):
        return [("", " ".join(cells))]
    starts = [place for place, cell in enumerate(cells) if cell.endswith(":")] or [0]
    starts = starts if starts[0] == 0 else [0, *starts]
    ends = [*starts[1:], len(cells)]
    return [
        (cells[start].rstrip(": "), " ".join(cells[start + 1 : end]))
        for start, end in zip(starts, ends, strict=True)
    ]


def settings(before: Sequence[Row], sign: Sign) -> tuple[tuple[str, str], ...]:
    """Settings that belong to the readings, under our names, amounts as a record has them: `20.0 degC`.

    One that the file states twice and differently is left out.
    """
    found: dict[str, set[str]] = {}
    for name, text in metadata(before):
        for key, value in _known(name, text, sign):
            found.setdefault(key, set()).add(value)
    for row in before:
        for cell in row.cells:
            if kind := _THERMOCOUPLE.search(cell):
                found.setdefault("thermocouple", set()).add((kind[1] or kind[2]).upper())
        if lasted := _lasted(row):
            found.setdefault("duration", set()).add(lasted)
    return tuple((key, next(iter(values))) for key, values in found.items() if len(values) == 1)


def _known(name: str, text: str, sign: Sign) -> list[tuple[str, str]]:
    key = next((key for pattern, key in _KEYS if pattern.fullmatch(name.strip(" :"))), "")
    if not key or not text:
        return []
    if key == "range":
        return _range(text, sign)
    if key in {"interval", "rate"}:
        seconds = _seconds(text, sign, key)
        return [("interval", f"{seconds:f} s")] if seconds else []
    return [(key, _amount(text, sign))]


def _amount(text: str, sign: Sign) -> str:
    found = _AMOUNT.fullmatch(text)
    number = digits(found[1], sign) or digits(found[1], ".") if found else None
    unit = unit_of(found[2]) if found and found[2] else None
    if found is None or number is None or (found[2] and unit is None):
        return text
    return f"{number} {unit.typed}" if unit else number


def _range(text: str, sign: Sign) -> list[tuple[str, str]]:
    found = _SPAN.fullmatch(text)
    unit = unit_of(found[3].strip()) if found else None
    if found is None or unit is None:
        return [("range", text)]
    ends = [digits(found[place], sign) or digits(found[place], ".") for place in (1, 2)]
    return [
        (key, f"{end} {unit.typed}")
        for key, end in zip(("range-lower", "range-upper"), ends, strict=True)
        if end
    ]


def _seconds(text: str, sign: Sign, key: str) -> Decimal | None:
    if clock := _CLOCK.fullmatch(text):
        return Decimal(int(clock[1]) * 3600 + int(clock[2]) * 60 + int(clock[3])) or None
    found = _AMOUNT.fullmatch(text)
    number = digits(found[1], sign) or digits(found[1], ".") if found else None
    unit = unit_of(found[2]) if found and found[2] else None
    if number is None or unit is None or unit.quantity != ("time" if key == "interval" else "frequency"):
        return None
    amount = Decimal(number) * Decimal(int(unit.times)) / Decimal(int(unit.over))
    if amount <= 0:
        return None
    exact = amount if key == "interval" else 1 / amount
    return exact.normalize() if key == "rate" else exact


def _lasted(row: Row) -> str:
    """How long a recording lasted, where days, hours, minutes and seconds stand beside its start and end."""
    stamps = [
        stamp for cell in row.cells if (stamp := stamp_of(cell)) and stamp.shape.date and stamp.shape.clock
    ]
    days = next((found for cell in row.cells if (found := _DAYS.fullmatch(cell))), None)
    if days is None or len(stamps) != 2 or stamps[0].parts != stamps[1].parts:
        return ""
    seconds = sum(int(part) * size for part, size in zip(days.groups(), (86400, 3600, 60, 1), strict=True))
    return f"{seconds} s" if stamps[1].seconds - stamps[0].seconds == seconds else ""
