"""Reads a file to take away and finds columns of figures without a unit, a ± or a reason, or pieces."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence

from generator.records.units import UNITS

_US = ", in the US unit"
WIDTHS = {
    "value": ("half-width of its 95 % interval", "half-width of the value's 95 % interval"),
    "difference": ("half-width at the pair's level",),
    "rise (K)": ("half-width of its 95 % interval (K)",),
    "rise (°F)": ("half-width of its 95 % interval (°F)",),
    "over the control of the day": ("half-width of that",),
    "heat as read (W)": ("half-width of its 95 % interval (W)",),
    "settled rise (K)": ("settled rise, from (K)",),
    "settled rise (°F)": ("settled rise, from (°F)",),
    "heat over settled rise (W/K)": ("heat over settled rise, from (W/K)",),
    "share": ("lower end of its 95 % interval",),
}
"""What has a ± of its own, and in which column."""
ENDS = tuple(f"{of}, {end}" for of in ("settled rise", "heat over settled rise") for end in ("from", "to"))
"""Ends of an interval of unlike widths, with the unit in their head."""
SPANS = {"next piece from", "next piece to", "limit of 9 in 10 pieces"}
"""Ends of where other pieces lie: of a figure in their row, with its unit."""
BARE = {
    "p",
    "heating",
    "coverage factor",
    "k",
    "n",
    "pieces",
    "runs",
    "terminations",
    "its pieces",
    "pieces of the other",
}
BARE |= {"probability that it is kept", "share of pieces beyond, at most"}
BARE |= {
    "share",
    "cycles",
    "pack",
    "rate",
    "lower end of its 95 % interval",
    "upper end of its 95 % interval",
}
"""Numbers without a unit."""
SET = {"limit"}
"""What a record sets, in the unit of its row: no figure, so without a ±."""
MONEY = {"paid": "currency", "each": "currency", "each, turned": "turned into"}
IN_ANOTHER = {"surface seen (": "half-width of its 95 % interval (K)"}
"""Steps on the way to a figure, and the column with the ± that theirs is part of, as the words on columns say."""
COUNTED = ("pieces", "its pieces", "n", "run")
"""Columns that tell how many pieces a row rests on, or that it is of one run."""
REASONS = ("why not", "bound", "excluded because", "± known")


def faults(content: str, as_read: frozenset[str]) -> list[str]:
    """What is wrong with the columns and cells of a file.

    Args:
        content: Of the file.
        as_read: Heads of what was read, as its records have them.
    """
    rows = list(csv.DictReader(io.StringIO(content)))
    heads = list(rows[0]) if rows else []
    numeric = [head for head in heads if any(_is_number(row[head]) for row in rows) and head not in as_read]
    found = [fault for head in numeric for fault in _column(head, heads)]
    if not set(COUNTED) & set(heads):
        found.append("no pieces")
    return [*found, *dict.fromkeys(fault for row in rows for fault in _cells(row, numeric))]


def _column(head: str, heads: Sequence[str]) -> Iterator[str]:
    own = head.removesuffix(_US)
    unit_column = MONEY.get(own) or ("US unit" if head.endswith(_US) else "unit")
    figure = own in WIDTHS or own in SPANS or own.startswith(("half-width", "standard uncertainty", *ENDS))
    if own in BARE or own in {"date", "day", "year", "piece"}:
        pass
    elif own in MONEY or own in SET or (figure and not _unit_in(own)):
        if unit_column not in heads:
            yield f"{head}: no unit"
    elif not _unit_in(own):
        yield f"{head}: no unit"
    elif not figure and not own.startswith(("air (", "in air of (", "time (", *IN_ANOTHER)):
        yield f"{head}: neither read nor a figure with its ±"
    yield from (f"{head}: no ±" for part, of in IN_ANOTHER.items() if own.startswith(part) and of not in heads)
    if own in WIDTHS and not any(_us(width, head) in heads for width in WIDTHS[own]):
        yield f"{head}: no ±"


def _cells(row: Mapping[str, str], numeric: Sequence[str]) -> Iterator[str]:
    for head in numeric:
        own = head.removesuffix(_US)
        if not row[head]:
            if head == "value" and "why not" in row and row.get("piece") == "" and not row["why not"]:
                yield f"{head}: empty, and no reason"
            continue
        widths = [_us(each, head) for each in WIDTHS.get(own, ()) if _us(each, head) in row]
        if widths and not any(row[each] for each in widths) and not any(row.get(each) for each in REASONS):
            yield f"{head}: without its ±, and no reason"
        unit = MONEY.get(own) or ("US unit" if head.endswith(_US) else "unit")
        if (
            (own in MONEY or own in SPANS or own in WIDTHS)
            and own not in BARE
            and not _unit_in(own)
            and not row.get(unit)
        ):
            yield f"{head}: without its unit"
        if "pieces" in row and own in WIDTHS and own != "share" and not row["pieces"]:
            yield f"{head}: without its pieces"


def _us(width: str, head: str) -> str:
    return width + _US if head.endswith(_US) else width


def _unit_in(head: str) -> bool:
    last = head.rpartition(" ")[2].strip("()")
    return last in {each.symbol for each in UNITS} | {each.typed for each in UNITS} | {"W/K"}


def _is_number(cell: str) -> bool:
    return bool(re.fullmatch(r"[<>]?-?\d+(\.\d+)?(e-?\d+)?", cell))
