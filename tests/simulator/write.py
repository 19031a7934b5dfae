"""Writes the demonstration bench's runs: `python -m tests.simulator.write` (from the repository's top).

Only what holds simulated readings is written here; the rest of the bench is typed by hand.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from tests.simulator.bench import CABLE, HEATINGS, PULLS, REPORT, SITTING, TOOLS, Heating, Pull, Sitting
from tests.simulator.rig import Record

REPORTS = Path(__file__).parents[2] / "reports"
METHOD = "closed-box-heating/2"
PULL_METHOD = "pull-out/1"
CONDITIONS = "conditions: {conductor: 4 mm2 class 5, enclosure: closed box 2 l, air-measured: beside the box}"


def files() -> dict[str, str]:
    """Every file that holds simulated readings: path under `reports/` to text."""
    runs = {f"{REPORT}/runs/{each.name}.yml": run_text(each) for each in HEATINGS}
    runs |= {f"{REPORT}/runs/{each.name}.yml": pull_text(each) for each in PULLS}
    record = SITTING.record
    name = f"sittings/{SITTING.date}.yml"
    return {**runs, name: sitting_text(SITTING, record), f"sittings/{zero_name(SITTING)}": zero_text(record)}


def run_text(heating: Heating) -> str:
    """A run file as typed at the bench."""
    record = heating.record
    lines = [f"# {heating.remark}"] if heating.remark else []
    lines.append(f"method: {METHOD}")
    if heating.item == CABLE:
        lines.append("control: unbroken-cable")
    else:
        lines += [f"item: {heating.item}", f"specimen: {heating.specimen}"]
    lines += [f"date: {heating.date}", "place: workshop"]
    if heating.item != CABLE:
        lines.append(termination(heating.item))
    lines += [
        "instruments:",
        f"  temperature@body: logger-1/{heating.channel}",
        "  ambient: logger-1/CH1",
        "  current: clamp-2",
        *(f"  drop: {meter}" for meter in heating.meters),
        CONDITIONS,
        "readings: |",
        *(f"  {line}" for line in table(heating, record)),
        *events((*heating.events, *trims(record))),
        *stopped(record),
    ]
    if heating.deviations:
        lines += ["deviations:", *(f"  - {each}" for each in heating.deviations)]
    return "\n".join(lines) + "\n"


def pull_text(pull: Pull) -> str:
    """The run file of a pull."""
    lines = [
        f"method: {PULL_METHOD}",
        f"item: {pull.item}",
        f"specimen: {pull.specimen}",
        f"date: {pull.date}",
        "place: workshop",
        termination(pull.item),
        "instruments: {force: spring-scale-1}",
        "conditions: {conductor: 4 mm2 class 5}",
        f"values: {{pull: {pull.record.shown:.0f} N}}",
    ]
    return "\n".join(lines) + "\n"


def termination(item: str) -> str:
    """How the pieces of an item were fastened."""
    tool = TOOLS[item]
    quoted = f'"{tool}"' if "," in tool else tool
    return f"termination: {{number: 1, strip: 10 mm, tool: {quoted}}}"


def table(heating: Heating, record: Record) -> list[str]:
    """The readings, a row a reading; an excluded one with its reason."""
    air = [text if at % heating.air_each == 0 else "" for at, text in enumerate(digits(record.air))]
    columns = {
        "time min": [str(minute) for minute in record.minutes],
        "temperature@body degC": digits(record.bodies[0]),
        "ambient degC": air,
        "current A": digits(record.current),
    }
    if heating.meters:
        columns["drop mV"] = digits(record.drops[0])
    reasons = [heating.excluded.get(minute, "") for minute in record.minutes]
    return aligned(columns, reasons)


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
    """Readings as the meters show them; all of this bench have one decimal."""
    return [f"{value + 0.0:.1f}" for value in values]


def trims(record: Record) -> tuple[tuple[int, str], ...]:
    """When the current was set again."""
    return tuple((minute, "current set back to 30 A after the reading") for minute in record.trims)


def stopped(record: Record) -> list[str]:
    """Where the heating ended before its time; no lines where it did not."""
    if record.stopped is None:
        return []
    return [f"stopped: {{at: {record.stopped} min, because: stop limit}}"]


def events(noted: tuple[tuple[int, str], ...]) -> list[str]:
    """The events in order of time; no lines where there was none."""
    lines = [f"  - {{at: {minute} min, what: {what}}}" for minute, what in sorted(noted)]
    return ["events:", *lines] if lines else []


def zero_name(sitting: Sitting) -> str:
    """The file of a sitting's zero check."""
    return f"zero-{sitting.date}.csv"


def sitting_text(sitting: Sitting, record: Record) -> str:
    """The file of a sitting."""
    bodies = [f"{key}@body" for key in sitting.channels]
    readings = {
        "time min": [str(minute) for minute in record.minutes],
        "ambient degC": digits(record.air),
        "current A": digits(record.current),
        **{f"{head} degC": digits(row) for head, row in zip(bodies, record.bodies, strict=True)},
        **{f"{key} drop mV": digits(row) for key, row in zip(sitting.channels, record.drops, strict=True)},
    }
    noted = events(trims(record))
    lines = [
        "# One piece of each in series, each in a box of its own.",
        "# The bench meter goes from one to the next at each reading.",
        f"date: {sitting.date}",
        "place: workshop",
        "instruments: {current: clamp-2, ambient: logger-1/CH1}",
        CONDITIONS,
        "zero-check:",
        f"  pairs: {record.zero.shape[1]}",
        f"  columns: [ambient, {', '.join(bodies)}]",
        f"  table: {zero_name(sitting)}",
        "runs:",
    ]
    for key, channel in sitting.channels.items():
        lines += [
            f"  {key}:",
            f"    method: {METHOD}",
            f"    {termination(key.partition(':')[0])}",
            f"    temperature@body: logger-1/{channel}",
            "    drop: bench-meter-1",
            *(f"    {line}" for line in noted),
        ]
    lines += ["readings: |", *(f"  {line}" for line in aligned(readings, [""] * len(record.minutes)))]
    return "\n".join(lines) + "\n"


def zero_text(record: Record) -> str:
    """All probes side by side before the current was switched on, as the logger saved it."""
    heads = ["ambient degC", *(f"{key}@body degC" for key in SITTING.channels)]
    rows = zip(*(digits(channel) for channel in record.zero), strict=True)
    return "\n".join([",".join(heads), *(",".join(row) for row in rows)]) + "\n"


def main(root: Path = REPORTS) -> None:
    """Write them all, and take away runs that the plan no longer holds."""
    wanted = files()
    for path in (root / REPORT / "runs").glob("*.yml"):
        if path.relative_to(root).as_posix() not in wanted:
            path.unlink()
    for name, text in wanted.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text, encoding="utf-8", newline="\n")
    sys.stdout.write(f"wrote {len(wanted)} files under {root}\n")


if __name__ == "__main__":
    main()
