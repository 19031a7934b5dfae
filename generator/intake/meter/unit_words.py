"""Units as meters write them, in a name, a cell of their own or behind a number → the closed table's."""

from __future__ import annotations

import re
from functools import cache

from generator.intake.meter.series import Problem, Unreadable
from generator.records.grammar import QuantityError
from generator.records.header import QUANTITY_OF, parse_head
from generator.records.lookalikes import plain
from generator.records.units import TEMPERATURE, Unit, find_unit

# The half-width ring of Japanese code pages, its wide sister, and full-width letters and signs.
_WIDE = str.maketrans(
    {"\uff9f": "°", "\u309c": "°", **{chr(number): chr(number - 0xFEE0) for number in range(0xFF01, 0xFF5F)}}
)
_DEGREE = re.compile(r"(?:deg(?:ree)?s?|temp)[._ ]*\(?([CF])\)?|([CF])", re.IGNORECASE)
_DIRECT = re.compile(
    r"(?P<before>[mukM]?)(?P<base>[VA]) ?(?:DC|AC|RMS|AC\+DC)"
    r"|(?:DC|AC) ?(?P<before2>[mukM]?)(?P<base2>[VA])",
    re.IGNORECASE,
)
_HUMIDITY = re.compile(r"% ?RH|RH ?%", re.IGNORECASE)
_BRACKETED = re.compile(r"[(\[{]([^()\[\]{}]{1,20})[)\]}]")
_COMMA = re.compile(r",\s*([^,()\[\]]{1,20}?)\s*(?=[(\[]|$)")
_SLASH = re.compile(r"\S\s*/\s*([^\s/()\[\]]{1,12})$")
_SCALED = re.compile(r"(1|10+|0?\.0*1)\s*(?:x|\*|×)?\s*(\D.*)", re.ASCII)

# A bare last word is taken for a unit of these alone, and never if it is one letter: "min", "in" and "A" are
# names of columns and of probes as often as units.
_BARE = {TEMPERATURE, "voltage", "current", "resistance", "power", "force", "torque"}


@cache
def unit_of(text: str) -> Unit | None:
    """The unit that a text is, as meters write it: `degC`, `DEGREE F`, `ﾟC`, `C`, `VDC`, `ADC`, `mV`."""
    written = plain(text.translate(_WIDE)).strip(" .").removeprefix("in ")
    if not written or len(written) > 20:
        return None
    if found := find_unit(written):
        return found
    if degree := _DEGREE.fullmatch(written):
        letter = degree[1] or degree[2]
        if degree[1] or letter.isupper():
            return find_unit(f"deg{letter.upper()}")
    if direct := _DIRECT.fullmatch(written):
        prefix = direct["before"] or direct["before2"] or ""
        return find_unit(prefix + (direct["base"] or direct["base2"]).upper())
    return find_unit("%") if _HUMIDITY.fullmatch(written) else None


@cache
def units_in(name: str) -> tuple[Unit, ...]:
    """The units that a name holds: `T [°C]`, `Temp, °C (S/N 1)`, `I/A`, `Temperatur °C`, `drop mV`."""
    for pattern in (_BRACKETED, _COMMA, _SLASH):
        found = dict.fromkeys(unit for text in pattern.findall(name) if (unit := unit_of(text)))
        if found:
            return tuple(found)
    bare = _bare(name) or _ours(name)
    return (bare,) if bare else ()


def _bare(name: str) -> Unit | None:
    words = name.split()
    for count in (2, 1):
        text = " ".join(words[-count:])
        unit = unit_of(text) if len(words) > count or (count == 1 and len(words) == 1) else None
        if unit and unit.quantity in _BARE and len(text.strip("°")) + text.count("°") > 1:
            return unit
    return None


def _ours(name: str) -> Unit | None:
    """The unit of a heading as our own tables have it."""
    try:
        head = parse_head(name)
    except QuantityError:
        return None
    return head.unit if head.name in QUANTITY_OF else None


def unit_by_hint(column: str, text: str) -> tuple[Unit, int]:
    """The unit that a hint names, and by how many places the point of each number moves to the left.

    Args:
        column: The column, for the message.
        text: `degC`; `0.1 degC` where the file has whole tenths.

    Raises:
        Unreadable: It is none.
    """
    scaled = _SCALED.fullmatch(text.strip())
    unit = unit_of(scaled[2] if scaled else text)
    if unit is None:
        what = f"{column}: '{text}' is no unit known here"
        told = (f'--unit "{column}=degC"', f'--unit "{column}=0.1 degC" for whole tenths')
        raise Unreadable([Problem(0, 0, "", what, None, told)])
    if scaled is None:
        return unit, 0
    factor = scaled[1]
    return unit, len(factor.partition(".")[2]) if "." in factor else 1 - len(factor)
