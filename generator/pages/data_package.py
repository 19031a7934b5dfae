"""`datapackage.json`: what the tables of a parcel hold, by the Data Package standard, version 2.

Data Package, Data Resource, Table Dialect and Table Schema, version 2.0 (datapackage.org, 2024).
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Literal

from generator.pages.render import Renderer
from generator.pages.tables import REDUCED, RUN
from generator.pages.us_columns import AMOUNTS
from generator.records.schema.settings import Licence

NAME = "datapackage.json"

Type = Literal["string", "number", "integer", "date"]

_US = ", in the US unit"
_DATES = frozenset({"date", "day", "day of the rate"})
_INTEGERS = frozenset(
    {"pieces", "runs", "terminations", "its pieces", "pieces of the other", "k", "n", "pack", "heating"}
)
_NUMBERS = frozenset(
    {
        "coverage factor",
        "p",
        "share",
        "lower end of its 95 % interval",
        "upper end of its 95 % interval",
        "cycles",
        "rate",
        "probability that it is kept",
        "share of pieces beyond, at most",
    }
)
_MONEY = {"paid": "currency", "each": "currency", "each, turned": "turned into"}


@dataclass(frozen=True)
class Field:
    """A column.

    Attributes:
        name: Its heading.
        type: What its cells are; empty ones are missing.
        unit: Its unit; empty without one, or where it stands in another column.
        unit_in: The column that names the unit of each row; empty without.
    """

    name: str
    type: Type
    unit: str = ""
    unit_in: str = ""


@dataclass(frozen=True)
class Resource:
    """A table."""

    name: str
    path: str
    size: int
    hash: str
    fields: tuple[Field, ...]


@dataclass(frozen=True)
class Package:
    """What the description is made of.

    Attributes:
        report: Id of the report.
        edition: Number of the edition.
        day: ISO date of publishing.
        question: What the report asks.
        reviewer: Who made it.
        mail: Their address of mail; empty where another way is given.
        page: Address of the edition's page; empty where the bench has none.
        source: The edition's own file, by its name beside this one.
        demonstration: Whether the data are invented.
        resources: The tables.
        licence: Under which it may be used; None where the bench names none.
    """

    report: str
    edition: int
    day: str
    question: str
    reviewer: str
    mail: str
    page: str
    source: str
    demonstration: bool
    resources: tuple[Resource, ...]
    licence: Licence | None = None


def resources(tables: Mapping[str, bytes]) -> tuple[Resource, ...]:
    """The tables of a parcel.

    Args:
        tables: File's name in the parcel to its bytes.
    """
    return tuple(
        Resource(
            name.rpartition("/")[2].removesuffix(".csv"),
            name,
            len(content),
            f"sha256:{sha256(content).hexdigest()}",
            tuple(_fields(content)),
        )
        for name, content in sorted(tables.items())
    )


def data_package(package: Package, renderer: Renderer) -> bytes:
    """The description as JSON, its words from the templates."""
    told = json.loads(renderer.text("text/datapackage.json.jinja", package=package))
    return (json.dumps(told, indent=2, ensure_ascii=False) + "\n").encode()


def _fields(content: bytes) -> Iterator[Field]:
    heads, *rows = csv.reader(io.StringIO(content.decode(), newline=""))
    for at, head in enumerate(heads):
        cells = [row[at] for row in rows if row[at]]
        unit, unit_in = _unit(head, heads)
        yield Field(head, _type(head, cells, numeric=bool(unit or unit_in)), unit, unit_in)


def _unit(head: str, heads: Sequence[str]) -> tuple[str, str]:
    """The unit of a column, and the column that names it."""
    last = head.rpartition(" ")[2]
    own = head.removesuffix(_US)
    if last.startswith("(") and last.endswith(")"):
        return last[1:-1], ""
    if head in _MONEY and _MONEY[head] in heads:
        return "", _MONEY[head]
    if own in AMOUNTS and "unit" in heads:
        return "", "unit" if head == own else "US unit"
    return (last, "") if head in _as_read(heads) else ("", "")


def _as_read(heads: Sequence[str]) -> Sequence[str]:
    """The columns of a table of readings that are headed as in the records, `drop mV`."""
    behind = len(RUN)
    return (
        heads[behind : heads.index(REDUCED[0])]
        if tuple(heads[:behind]) == RUN and REDUCED[0] in heads
        else ()
    )


def _type(head: str, cells: Sequence[str], *, numeric: bool) -> Type:
    """What cells are: a column of figures in which one is a bound, `>150.0`, is one of texts."""
    if head in _DATES:
        return "date"
    if not (numeric or head in _NUMBERS or head in _INTEGERS) or not all(map(_is_number, cells)):
        return "string"
    return "integer" if head in _INTEGERS else "number"


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
