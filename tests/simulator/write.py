"""Writes the demonstration bench's runs: `python -m tests.simulator.write` (from the repository's top).

Only what holds simulated readings, or corrects them, is written here; editions are published by
`tests.simulator.publish`, the rest of the bench is typed by hand.
"""

from __future__ import annotations

import sys
from pathlib import Path

from generator.intake.correcting import correction_text
from tests.simulator import bench, crimped, handling, older, sockets, terminals
from tests.simulator.bench import Pull
from tests.simulator.crimped import Passed
from tests.simulator.lines import aligned, digits, events, stopped, termination, trims
from tests.simulator.populations import CABLE
from tests.simulator.rig import Record
from tests.simulator.setups import Heating, Sitting
from tests.simulator.sockets import Push

REPORTS = Path(__file__).parents[2] / "reports"
PULL_METHOD = "pull-out/1"
PUSH_METHOD = "plug-insertion/1"


def files() -> dict[str, str]:
    """Every file that holds simulated readings or corrects them: path under `reports/` to text."""
    heatings = {bench.REPORT: (*bench.HEATINGS, *bench.AGAIN), sockets.REPORT: (sockets.EARLIER,)}
    runs = {
        name(report, each.name): run_text(each) for report, several in heatings.items() for each in several
    }
    runs |= {
        name(bench.REPORT, bench.standing(run)): correction_text(run, what)
        for run, what in bench.CORRECTED.items()
    }
    runs |= {name(bench.REPORT, each.name): pull_text(each) for each in bench.PULLS}
    runs |= {name(sockets.REPORT, each.name): push_text(each) for each in sockets.PUSHED}
    runs |= {name(sockets.WORN, each.name): push_text(each) for each in sockets.PUSHED_WORN}
    runs |= {name(terminals.REPORT, each.name): passed_text(each) for each in crimped.PASSED}
    sat = {}
    for sitting in (bench.SITTING, *sockets.SITTINGS):
        record = sitting.record
        sat[f"sittings/{sitting.date}.yml"] = sitting_text(sitting, record)
        sat[f"sittings/{zero_name(sitting)}"] = zero_text(sitting, record)
    sat |= {f"sittings/{date}.yml": handling_text(date) for date in handling.SITTINGS}
    sat[f"sittings/{terminals.DATE}.yml"] = crimps_text()
    return {**runs, **sat, older.NAME: older.sheet()}


def name(report: str, run: str) -> str:
    """Where a run's file lies under `reports/`."""
    return f"{report}/runs/{run}.yml"


def run_text(heating: Heating) -> str:
    """A run file as typed at the bench."""
    record = heating.record
    lines = [f"# {heating.remark}"] if heating.remark else []
    lines.append(f"method: {heating.setup.method}")
    if heating.item == CABLE:
        lines.append("control: unbroken-cable")
    else:
        lines += [f"item: {heating.item}", f"specimen: {heating.specimen}"]
    lines += [f"date: {heating.date}", "place: workshop"]
    if heating.item != CABLE:
        lines.append(termination(heating.item, heating.setup.strip))
    lines += [
        "instruments:",
        f"  temperature@{heating.setup.point}: {heating.meter}",
        "  ambient: logger-1/CH1",
        "  current: clamp-2",
        "  drop: bench-meter-1",
        f"conditions: {heating.setup.conditions}",
        *(heating.head.lines if heating.head is not None else ()),
        "readings: |",
        *(f"  {line}" for line in table(heating, record)),
        *events((*heating.events, *trims(record, heating.setup.current))),
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


def table(heating: Heating, record: Record) -> list[str]:
    """The readings, a row a reading; an excluded one with its reason."""
    air = [text if at % heating.air_each == 0 else "" for at, text in enumerate(digits(record.air))]
    columns = {
        "time min": [str(minute) for minute in record.minutes],
        f"temperature@{heating.setup.point} degC": digits(record.bodies[0]),
        "ambient degC": air,
        "current A": digits(record.current),
        "drop mV": digits(record.drops[0]),
    }
    reasons = [heating.excluded.get(minute, "") for minute in record.minutes]
    return aligned(columns, reasons)


def zero_name(sitting: Sitting) -> str:
    """The file of a sitting's zero check."""
    return f"zero-{sitting.date}.csv"


def sitting_text(sitting: Sitting, record: Record) -> str:
    """The file of a sitting."""
    setup = sitting.setup
    bodies = [f"{key}@{setup.point}" for key in sitting.channels]
    readings = {
        "time min": [str(minute) for minute in record.minutes],
        "ambient degC": digits(record.air),
        "current A": digits(record.current),
        **{f"{head} degC": digits(row) for head, row in zip(bodies, record.bodies, strict=True)},
        **{f"{key} drop mV": digits(row) for key, row in zip(sitting.channels, record.drops, strict=True)},
    }
    noted = events(trims(record, setup.current))
    lines = [
        *(f"# {remark}" for remark in sitting.remarks),
        f"date: {sitting.date}",
        "place: workshop",
        "instruments: {current: clamp-2, ambient: logger-1/CH1}",
        f"conditions: {setup.conditions}",
        "zero-check:",
        f"  pairs: {record.zero.shape[1]}",
        f"  columns: [ambient, {', '.join(bodies)}]",
        f"  table: {zero_name(sitting)}",
        "runs:",
    ]
    for key, channel in sitting.channels.items():
        lines += [
            f"  {key}:",
            f"    method: {setup.method}",
            f"    {termination(key.partition(':')[0], setup.strip)}",
            f"    temperature@{setup.point}: logger-1/{channel}",
            "    drop: bench-meter-1",
            *(f"    {line}" for line in noted),
        ]
    lines += ["readings: |", *(f"  {line}" for line in aligned(readings, [""] * len(record.minutes)))]
    return "\n".join(lines) + "\n"


def zero_text(sitting: Sitting, record: Record) -> str:
    """All probes side by side before the current was switched on, as the logger saved it."""
    heads = ["ambient degC", *(f"{key}@{sitting.setup.point} degC" for key in sitting.channels)]
    rows = zip(*(digits(channel) for channel in record.zero), strict=True)
    return "\n".join([",".join(heads), *(",".join(row) for row in rows)]) + "\n"


def push_text(push: Push) -> str:
    """The run file of a plug pushed in again and again."""
    lines = [
        f"method: {PUSH_METHOD}",
        f"item: {push.item}",
        "specimen: A",
        f"date: {push.date}",
        "place: workshop",
        "instruments: {force: push-gauge-1}",
        "conditions: {plug: the reference plug}",
        "readings: |",
        "  force N",
        *(f"  {shown:.1f}" for shown in push.record.shown),
    ]
    return "\n".join(lines) + "\n"


def passed_text(passed: Passed) -> str:
    """The run file of a current through a crimp, there and back."""
    cable = passed.item == crimped.CONTROL
    whose = [f"item: {passed.item}", f"specimen: {passed.specimen}"]
    columns = {
        "drop mV": digits(passed.shown.drop),
        "current A": digits(passed.shown.current),
        "ambient degC": digits(passed.shown.air),
    }
    lines = [
        f"method: {crimped.METHOD}",
        *([f"control: {passed.item}"] if cable else whose),
        f"date: {crimped.DATE}",
        "place: workshop",
        *([] if cable else [termination(passed.item, "8 mm")]),
        "instruments: {drop: bench-meter-1, current: clamp-2, ambient: logger-1/CH1}",
        "conditions: {conductor: 4 mm2 class 5}",
        "readings: |",
        *(f"  {line}" for line in aligned(columns, [""] * passed.shown.drop.size)),
    ]
    return "\n".join(lines) + "\n"


def handling_text(date: str) -> str:
    """The sitting in which holders were opened and looked at."""
    remark, handled = handling.SITTINGS[date]
    lines = [
        f"# {remark}",
        f"date: {date}",
        "place: workshop",
        "runs:",
    ]
    for each in handled:
        answer, note = each.reached
        seen = f", note: {note}" if note else ""
        lines += [
            f"  {each.key}:",
            f"    method: {handling.METHOD}",
            f"    counts: {{openings: {each.loose} of {handling.OPENINGS}}}",
            f"    observations: [{{check: probe-reaches-contact, answer: {answer}{seen}}}]",
        ]
    return "\n".join(lines) + "\n"


def crimps_text() -> str:
    """The sitting in which every crimp was looked at, tugged and pulled off."""
    lines = [
        "# One of each in turn, so that a tired hand is not one maker's fault.",
        f"date: {terminals.DATE}",
        "place: workshop",
        "instruments: {force: spring-scale-1}",
        "conditions: {conductor: 4 mm2 class 5}",
        "runs:",
    ]
    for each in terminals.CRIMPS:
        seen = "no, note: two strands lie beside the barrel" if each.bad else "yes"
        lines += [
            f"  {each.key}:",
            f"    method: {terminals.METHOD}",
            f"    {termination(each.item, '8 mm')}",
            f"    values: {{pull-off: {each.pulled.shown:.0f} N}}",
            f"    counts: {{tugs: {each.moved} of {terminals.TUGS}}}",
            f"    observations: [{{check: strands-inside, answer: {seen}}}]",
        ]
    return "\n".join(lines) + "\n"


def main(root: Path = REPORTS) -> None:
    """Write them all, and take away runs that the plan no longer holds."""
    wanted = files()
    for report in (bench.REPORT, sockets.REPORT, terminals.REPORT):
        for path in (root / report / "runs").glob("*.yml"):
            if path.relative_to(root).as_posix() not in wanted:
                path.unlink()
    for place, text in wanted.items():
        (root / place).parent.mkdir(parents=True, exist_ok=True)
        (root / place).write_text(text, encoding="utf-8", newline="\n")
    sys.stdout.write(f"wrote {len(wanted)} files under {root}\n")


if __name__ == "__main__":
    main()
