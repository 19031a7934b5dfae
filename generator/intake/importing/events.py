"""What a file tells beside its readings, as events of the runs that they are of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from generator.intake.importing.bind import Pair
from generator.intake.importing.sheet import in_unit, unit_for
from generator.intake.importing.target import Target
from generator.intake.meter.series import MeterEvent, MeterFile
from generator.records.changes import Insert
from generator.records.schema.run import RunBody
from generator.records.schema.sitting import Sitting


def events(
    file: MeterFile, pairs: Sequence[Pair], target: Target, start: Decimal
) -> tuple[list[Insert], int]:
    """The events that come in, each where its time belongs, and how many came before the first reading.

    Args:
        file: The file.
        pairs: Which of its columns go where: in a sitting events are of the runs whose own columns come in,
            or of all of them where only shared ones do.
        target: The record.
        start: When the file's first reading was, s from the start of the run.
    """
    known = [replace(each, elapsed_s=each.elapsed_s + start) for each in file.events]
    during = [each for each in known if each.elapsed_s >= 0]
    record = target.record
    found: list[Insert] = []
    if isinstance(record, Sitting):
        own = dict.fromkeys(pair.slot.owner for pair in pairs if pair.slot.owner)
        for owner in own or record.runs:
            found += _into(record.runs[owner], ("runs", owner, "events"), during)
    else:
        found += _into(record, ("events",), during)
    return found, len(file.events) - len(during)


def _into(body: RunBody, path: tuple[str, ...], during: Sequence[MeterEvent]) -> Iterator[Insert]:
    known = [(float(each.at.si), each.what) for each in body.events]
    for each in sorted(during, key=lambda event: event.elapsed_s):
        if (float(each.elapsed_s), each.text) in known:
            continue
        at = sum(when <= float(each.elapsed_s) for when, _ in known)
        yield Insert(path, {"at": told_time(each.elapsed_s), "what": each.text}, at)
        known.insert(at, (float(each.elapsed_s), each.text))


def told_time(seconds: Decimal) -> str:
    """A time as a record says it: `35 min`, `62.5 s`."""
    unit = unit_for([seconds])
    return f"{in_unit(seconds, unit)} {unit.typed}"
