"""A meter's file read by options, by hints that were kept, and by the names of channels."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from generator.intake.importing.bind import by_channel
from generator.intake.importing.kept import Taken, hints_file, taken
from generator.intake.importing.refusals import AtFault, Refused
from generator.intake.importing.request import Request
from generator.intake.importing.target import Target
from generator.intake.meter.hints import Hints
from generator.intake.meter.reader import read_meter_file
from generator.intake.meter.series import MeterFile, Unreadable
from generator.records.nodes import Mapping as Keys
from generator.records.schema.imports import ImportHints
from generator.records.source import read as read_record


@dataclass(frozen=True)
class Understood:
    """A file as read, and by what.

    Attributes:
        file: The file.
        taken: Options and kept hints.
        meter: Whose file it is; empty where nothing says it.
        by_channel: Columns that were bound by the name of a channel, to ours.
    """

    file: MeterFile
    taken: Taken
    meter: str
    by_channel: Mapping[str, str]


def understood(request: Request, target: Target | None) -> Understood:
    """Read a file.

    Args:
        request: The file and what was said about it.
        target: Where its readings go; None for a look at it.

    Raises:
        Unreadable: The file does not say enough.
        Refused: It is not clear whose file it is, or a meter is none of the record's.
        AtFault: The kept hints are at fault.
    """
    meter = _meter(request, target)
    both = taken(request.options, _kept(request.root, meter), target, meter)
    file, used = _read(request, both)
    more = by_channel(file, target, meter, used.columns) if target is not None else {}
    again = replace(used, columns={**used.columns, **more})
    if file.time.kind == "clock without date" and target is not None and again.run_date is None:
        again = replace(again, run_date=target.record.date)
    if again != used:
        file = read_meter_file(request.data, request.name, again)
    return Understood(file, both, meter, more)


def _read(request: Request, both: Taken) -> tuple[MeterFile, Hints]:
    """With the columns that were kept; without them where this file has others."""
    said = both.hints
    full = replace(said, columns={**both.columns, **said.columns}, units={**both.units, **said.units})
    try:
        return read_meter_file(request.data, request.name, full), full
    except Unreadable:
        if full == said:
            raise
        return read_meter_file(request.data, request.name, said), said


def _meter(request: Request, target: Target | None) -> str:
    """Whose file it is: as said, by what its columns are, or the one whose files were read before."""
    meter = request.meter
    if target is None:
        return meter
    if meter and meter not in target.meters:
        what = f"'{meter}' reads no column of {target.id}"
        raise Refused(what, (f"--meter {each}" for each in target.meters))
    if meter:
        return meter
    labels = [label for label in request.options.columns.values() if label in target.bound]
    said = {target.bound[label].binding.instrument for label in labels}
    if said:
        return said.pop() if len(said) == 1 else ""
    known = [each for each in target.meters if request.root and hints_file(request.root, each).exists()]
    if len(known) > 1:
        what = f"hints are kept for {' and '.join(known)}; whose file is it?"
        raise Refused(what, (f"--meter {each}" for each in known))
    return known[0] if known else ""


def _kept(root: Path | None, meter: str) -> ImportHints | None:
    """The hints of a meter.

    Raises:
        AtFault: They are at fault.
        Refused: There is no such meter.
    """
    if root is None or not meter:
        return None
    path = hints_file(root, meter)
    if not path.with_name(f"{meter}.yml").exists():
        known = sorted(each.stem for each in path.parent.glob("*.yml") if "." not in each.stem)
        raise Refused(f"there is no instrument '{meter}'", (f"--meter {each}" for each in known))
    if not path.exists():
        return None
    source = read_record(path)
    if not isinstance(source.root, Keys):
        raise AtFault(source.faults)
    found = ImportHints.from_nodes(source.root, meter)
    if isinstance(found, ImportHints):
        return found
    raise AtFault(found)
