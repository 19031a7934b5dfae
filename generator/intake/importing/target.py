"""The run or sitting that readings are to go into, and what reads each of its columns."""

from __future__ import annotations

from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path

from generator.intake.importing.refusals import AtFault, Refused
from generator.records.header import Head
from generator.records.library import Library, fill
from generator.records.schema.references import Binding
from generator.records.schema.run import RunRecord
from generator.records.schema.sitting import Sitting
from generator.records.source import read
from generator.records.tree import RecordFile, survey
from generator.records.units import UNITS


@dataclass(frozen=True)
class Slot:
    """A column that a record has a meter for.

    Attributes:
        label: As a table's header names it, without its unit: `temperature@body`, `okvarn-ih30:A drop`.
        name: What it holds: `temperature`, `drop`.
        owner: Whose it is in a sitting; empty where shared, and in a run.
        binding: What reads it.
    """

    label: str
    name: str
    owner: str
    binding: Binding


@dataclass(frozen=True)
class Target:
    """Where readings go.

    Attributes:
        id: `<report>/<run>`, or a sitting's id.
        path: The record's file.
        record: The record.
        bound: Its columns by their labels, in the order of the record.
        library: Every sound record of the bench.
    """

    id: str
    path: Path
    record: RunRecord | Sitting
    bound: dict[str, Slot]
    library: Library = field(repr=False)

    @property
    def meters(self) -> tuple[str, ...]:
        """Ids of the instruments that read its columns, each once."""
        return tuple(dict.fromkeys(each.binding.instrument for each in self.bound.values()))


def find_target(root: Path, name: str) -> Target:
    """The run or sitting of that name.

    Args:
        root: The folder of the bench.
        name: `<report>/<run>`, the run alone where one report has it, a sitting's id, or the record's path.

    Raises:
        Refused: There is none, or several.
        AtFault: Its form is at fault.
    """
    tree = survey(root / "reports")
    able = {_id(each): each for each in tree.records if each.kind in {"runs", "sittings"}}
    file = able[_named(name, able, root)]
    library, faults, _ = fill(tree.records, tree.csv, tree.meant)
    record = _record(library, file)
    if record is None:
        own = [each for each in faults if each.place.file == file.path]
        raise AtFault(own or read(file.path).faults)
    return Target(_id(file), file.path, record, _bound(record), library)


def _id(file: RecordFile) -> str:
    return f"{file.report}/{file.name}" if file.report else file.name


def _named(name: str, able: dict[str, RecordFile], root: Path) -> str:
    path = (Path.cwd() / name).resolve()
    found = [key for key, file in able.items() if key == name or file.path.resolve() == path]
    found = found or [key for key in able if key.rpartition("/")[2] == name]
    if len(found) == 1:
        return found[0]
    if found:
        raise Refused(f"{name!r} is more than one run", (f"--into {each}" for each in sorted(found)))
    short = {key.rpartition("/")[2]: key for key in able}
    near = get_close_matches(name, [*able, *short], n=3, cutoff=0.5)
    known = dict.fromkeys(short.get(each, each) for each in near) or sorted(able)[:12]
    what = f"no run or sitting {name!r} in {(root / 'reports').name}/"
    raise Refused(what if able else f"{what}, and none at all yet", (f"--into {each}" for each in known))


def _record(library: Library, file: RecordFile) -> RunRecord | Sitting | None:
    if file.kind == "sittings":
        return library.sittings.get(file.name)
    return library.runs.get(file.report, {}).get(file.name)


def _bound(record: RunRecord | Sitting) -> dict[str, Slot]:
    slots = [_slot(key, binding) for key, binding in record.instruments.items()]
    if isinstance(record, Sitting):
        for owner, run in record.runs.items():
            slots += [_slot(key, binding, owner) for key, binding in run.own.items()]
    return {each.label: each for each in slots}


def _slot(key: str, binding: Binding, owner: str = "") -> Slot:
    name, _, point = key.partition("@")
    return Slot(Head(name, UNITS[0], point, owner).label, name, owner, binding)
