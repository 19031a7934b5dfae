"""What corrects a published run or a meter: new records beside the old, and drafts that name them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path, PurePosixPath

from generator.intake.names import id_from
from generator.records.bench import Bench, Report
from generator.records.changes import Change, Drop, Insert
from generator.records.edit import edited
from generator.records.schemas import FOLDER, line_for
from generator.records.selection import ALL
from generator.records.store import Write
from generator.records.writer import scalar


@dataclass(frozen=True)
class Otherwise:
    """What was wrong and what is otherwise.

    Attributes:
        because: What was wrong.
        keys: Keys joined by dots, each with its value; an empty one takes the key away.
        left_out: Times with a unit or numbers of rows, each with why that reading counts for nothing.
    """

    because: str
    keys: tuple[tuple[str, str], ...] = ()
    left_out: tuple[tuple[str, str], ...] = ()


@dataclass
class Planned:
    """Records that are to be written together.

    Attributes:
        bench: The records, without faults.
        new: New files with their texts.
        changes: Files that are there, with what changes in them.
        corrected: Id of each corrected run to that of its correction.
    """

    bench: Bench
    new: dict[Path, str] = field(default_factory=dict)
    changes: dict[Path, list[Change]] = field(default_factory=dict)
    corrected: dict[str, str] = field(default_factory=dict)

    def writes(self) -> tuple[Write, ...]:
        """What is to be written.

        Raises:
            EditRefused: A file that is there cannot be changed by a program.
        """
        made = [Write(path, text.encode()) for path, text in self.new.items()]
        for path, changes in self.changes.items():
            before = path.read_bytes()
            made.append(Write(path, edited(before, path, changes), before))
        return tuple(made)


def resting_on(bench: Bench, run: str) -> dict[str, tuple[int, ...]]:
    """The editions that rest on a run, by their report."""
    found = {
        report.id: tuple(number for number, each in sorted(report.editions.items()) if run in each.runs)
        for _, report in sorted(bench.reports.items())
    }
    return {report: numbers for report, numbers in found.items() if numbers}


def showing(bench: Bench, run: str) -> tuple[str, ...]:
    """The reports that rest on a run now, in order of their ids."""
    return tuple(name for name, report in sorted(bench.reports.items()) if run in report.runs)


def correct_run(planned: Planned, run: str, report: str, what: Otherwise, name: str = "") -> str:
    """Plan the correction of a run.

    Args:
        planned: Where it is put.
        run: Its id.
        report: Id of the report that the correction stands in.
        what: What is otherwise.
        name: Its id there; made from that of the run where left empty.

    Returns:
        The correction's id.
    """
    bench = planned.bench
    above, _, own = run.partition("/")
    named = own if above == report else run
    folder = bench.root / "reports" / report / "runs"
    first, _, made = bench.runs[run].made_as.partition("/")
    base = made if first == report else id_from(first, *made.split(":"))
    taken = {each.stem for each in planned.new if each.parent == folder}
    wanted = name or free_name(folder, base, taken)
    place = PurePosixPath("reports", report, "runs", f"{wanted}.yml")
    line = line_for(place) if (bench.root / FOLDER).is_dir() else ""
    planned.new[bench.root / place] = line + correction_text(named, what)
    planned.corrected[run] = f"{report}/{wanted}"
    for each in bench.reports.values():
        _name_instead(planned, each, run, f"{report}/{wanted}")
    return f"{report}/{wanted}"


def free_name(folder: Path, name: str, taken: set[str]) -> str:
    """The first of `name-2`, `name-3` … that is free.

    Args:
        folder: Where it is to stand.
        name: Id of what was wrong first.
        taken: Names that are to be taken in it.
    """
    numbered = (f"{name[:36]}-{each}" for each in count(2))
    return next(each for each in numbered if each not in taken and not (folder / f"{each}.yml").exists())


def correction_text(corrects: str, what: Otherwise) -> str:
    """The text of a run that corrects another."""
    lines = [f"corrects: {scalar(corrects)}", f"because: {scalar(what.because)}"]
    lines += _tree(_nested(what.keys), 0)
    if what.left_out:
        lines.append("leave-out:")
        lines += [f"  - {{{_when(when)}, because: {scalar(because)}}}" for when, because in what.left_out]
    return "\n".join(lines) + "\n"


def _when(text: str) -> str:
    return f"row: {text}" if text.isdigit() else f"at: {scalar(text)}"


Tree = dict[str, "str | Tree"]


def _nested(keys: Iterable[tuple[str, str]]) -> Tree:
    made: Tree = {}
    for path, value in keys:
        *way, last = path.split(".")
        at = made
        for key in way:
            below = at.setdefault(key, {})
            at = below if isinstance(below, dict) else at
        at[last] = value
    return made


def _tree(keys: Mapping[str, str | Tree], indent: int) -> Iterator[str]:
    for key, value in keys.items():
        lead = f"{' ' * indent}{scalar(key)}:"
        if isinstance(value, dict):
            yield lead
            yield from _tree(value, indent + 2)
        else:
            yield f"{lead} {scalar(value)}" if value else lead


def _name_instead(planned: Planned, report: Report, run: str, correction: str) -> None:
    """Name a correction where a report names the corrected run."""
    record = report.record
    runs = () if record.runs == ALL else record.runs
    for key, names in (("runs", runs), ("controls", record.controls)):
        for number, name in enumerate(names):
            if run in {name, f"{report.id}/{name}"}:
                own = correction.removeprefix(f"{report.id}/")
                planned.changes.setdefault(record.place_of().file, []).extend(
                    (Insert((key,), own, number + 1), Drop((key,), number))
                )
