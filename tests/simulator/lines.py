"""Lines of records that more than one kind of run has."""

from __future__ import annotations

import numpy as np

from tests.simulator.populations import TOOLS
from tests.simulator.rig import Record


def termination(item: str, strip: str = "10 mm") -> str:
    """How the pieces of an item were fastened."""
    tool = TOOLS[item]
    quoted = f'"{tool}"' if "," in tool else tool
    return f"termination: {{number: 1, strip: {strip}, tool: {quoted}}}"


def aligned(columns: dict[str, list[str]], reasons: list[str]) -> list[str]:
    """Columns side by side, parted by bars, with the reasons of excluded rows at their ends."""
    widths = {head: max(len(head), *map(len, cells)) for head, cells in columns.items()}
    rows = [
        list(columns),
        *([columns[head][row] for head in columns] for row in range(len(reasons))),
    ]
    lines = []
    for cells, reason in zip(rows, ["", *reasons], strict=True):
        line = " | ".join(cell.ljust(width) for cell, width in zip(cells, widths.values(), strict=True))
        lines.append(line.rstrip() + (f" ! {reason}" if reason else ""))
    return lines


def digits(values: np.typing.NDArray[np.float64]) -> list[str]:
    """Readings as the meters show them; all that are read in a table have one decimal."""
    return [f"{value + 0.0:.1f}" for value in values]


def trims(record: Record, current: float) -> tuple[tuple[int, str], ...]:
    """When the current was set again, A."""
    return tuple(
        (minute, f"current set back to {current:.0f} A after the reading") for minute in record.trims
    )


def events(noted: tuple[tuple[int, str], ...]) -> list[str]:
    """The events in order of time; no lines where there was none."""
    lines = [f"  - {{at: {minute} min, what: {what}}}" for minute, what in sorted(noted)]
    return ["events:", *lines] if lines else []


def stopped(record: Record) -> list[str]:
    """Where the heating ended before its time; no lines where it did not."""
    if record.stopped is None:
        return []
    return [f"stopped: {{at: {record.stopped} min, because: stop limit}}"]
