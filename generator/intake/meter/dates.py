"""Which order of day and month a table's dates have: one for all rows, never guessed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from generator.intake.meter.find import Block
from generator.intake.meter.hints import DateOrder
from generator.intake.meter.stamps import Stamp, day_of, orders_of

_FORMAT = re.compile(r"[dmyjta]{1,4}([-/. ])[dmyjta]{1,4}\1[dmyjta]{2,4}(?:[ T].*)?", re.IGNORECASE)


@dataclass(frozen=True)
class Order:
    """In what order a table's dates are read, and who said so."""

    order: DateOrder
    told_by: Literal["file", "hint"]


def order_of(block: Block, place: int, stamps: Sequence[Stamp], hint: DateOrder | None) -> Order:
    """The order of a column of dates.

    Args:
        block: The table; a format may stand between the column's name and its first date.
        place: The column of dates, from 0.
        stamps: The stamp of each row.
        hint: What a person says.

    Raises:
        Unreadable: No order fits all rows, the hint does not, or several do and nothing settles which.
    """
    open_orders = orders_of(stamps[0].shape)
    if hint and hint not in open_orders:
        what = f"the dates are written in the order {open_orders[0]}, the hint says {hint}"
        raise block.refuse(block.rows[0], place, what, ("leave --date-order out",))
    if hint:
        _fitting(block, place, stamps, (hint,))
        return Order(hint, "hint" if len(open_orders) > 1 else "file")
    told = next((order for row in block.labels if (order := _format(row.cells[place])) in open_orders), None)
    fitting = _fitting(block, place, stamps, (told,) if told else open_orders)
    if len(fitting) > 1:
        readings = [f"--date-order {order} ({day_of(stamps[0].parts, order)})" for order in fitting]
        raise block.refuse(block.rows[0], place, f"the date may be {_days(stamps[0], fitting)}", readings)
    return Order(fitting[0], "file")


def _fitting(
    block: Block, place: int, stamps: Sequence[Stamp], orders: Sequence[DateOrder]
) -> tuple[DateOrder, ...]:
    left = tuple(orders)
    first: dict[tuple[str, str, str], int] = {}
    for line, stamp in enumerate(stamps):
        first.setdefault(stamp.parts, line)
    for parts, line in first.items():
        fits = tuple(order for order in left if day_of(parts, order) is not None)
        if not fits:
            told = f"in the order {left[0]}" if len(left) == 1 else "in any one order with the other rows"
            raise block.refuse(block.rows[line], place, f"there is no such day {told}")
        left = fits
    return left


def _days(stamp: Stamp, orders: Sequence[DateOrder]) -> str:
    days: list[date | None] = [day_of(stamp.parts, order) for order in orders]
    return " or ".join(str(day) for day in days)


def _format(label: str) -> DateOrder | None:
    """The order that a format says: `dd/MM/yyyy HH:mm`."""
    found = _FORMAT.fullmatch(label.strip())
    if found is None:
        return None
    letters = "".join(
        {"d": "d", "t": "d", "m": "m", "y": "y", "j": "y", "a": "y"}[part[0]]
        for part in label.casefold().split(" ")[0].split("t")[0].split(found[1])
        if part
    )
    return letters if letters in {"dmy", "mdy", "ymd"} else None  # type: ignore[return-value]
