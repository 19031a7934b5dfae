"""What corrects a meter whose record was wrong: a new one beside it, taken by every run that took the old."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.fault import Fault, Place
from generator.intake.correcting import Otherwise, Planned, correct_run, free_name, resting_on, showing
from generator.intake.new_run import binding_text
from generator.records.bench import Bench
from generator.records.changes import Change, Drop, EditRefused, Insert, Put, meaning
from generator.records.drafts import Draft
from generator.records.edit import edited
from generator.records.nodes import Mapping, Sequence
from generator.records.selection import Runs
from generator.records.writer import OneLine


def correct_meter(planned: Planned, known: Runs, meter: str, what: Otherwise) -> str:
    """Plan the correction of a meter.

    A run that an edition rests on is corrected in turn, so that it takes the new meter; any other is changed
    in place.

    Args:
        planned: Where it is put.
        known: Every run of the bench.
        meter: Id of the meter.
        what: What is otherwise.

    Returns:
        The new meter's id.

    Raises:
        EditRefused: Its record cannot be changed by a program.
    """
    bench = planned.bench
    folder = bench.root / "reports" / "instruments"
    wanted = free_name(folder, _first(bench, meter), set())
    before = folder / f"{meter}.yml"
    says = _says(bench.instruments[meter].node, what, before)
    changes = (Put(("corrects",), meter), Put(("because",), what.because), *says)
    planned.new[folder / f"{wanted}.yml"] = edited(before.read_bytes(), before, changes).decode()
    hints = folder / f"{meter}.import.yml"
    if hints.is_file():
        planned.new[folder / f"{wanted}.import.yml"] = hints.read_bytes().decode()
    for draft in known.by_id.values():
        if draft.id not in known.corrected:
            _take(planned, draft, (meter, wanted), what.because)
    return wanted


def _first(bench: Bench, meter: str) -> str:
    """The meter that was wrong first, where this one corrects another."""
    seen: set[str] = set()
    while (before := bench.instruments[meter].corrects) in bench.instruments and before not in seen:
        seen.add(meter)
        meter = str(before)
    return meter


def _says(record: Mapping, what: Otherwise, path: Path) -> Iterator[Change]:
    """What changes in the meter's record; an entry of a list is written anew, with all its keys."""
    entries: dict[tuple[str, int], dict[str, object]] = {}
    for name, value in what.keys:
        key, *below = name.split(".")
        listed = record.get(key)
        if not isinstance(listed, Sequence):
            yield Put((key, *below), value)
            continue
        number = int(below[0]) - 1 if below and below[0].isdigit() else -1
        if not 0 <= number < len(listed) or len(below) != 2:
            raise EditRefused([_which(path, key, len(listed))])
        entry = entries.setdefault((key, number), {**_texts(listed[number])})
        entry[below[1]] = value
    for (key, number), entry in entries.items():
        yield Insert((key,), OneLine(entry), number)  # type: ignore[arg-type]
        yield Drop((key,), number + 1)


def _texts(node: object) -> dict[str, object]:
    said = meaning(node) if isinstance(node, Mapping) else {}
    return {key: each for key, each in said.items() if each is not None} if isinstance(said, dict) else {}


def _take(planned: Planned, draft: Draft, meters: tuple[str, str], because: str) -> None:
    """Let a run take the new meter where it took the old."""
    bench, (old, new) = planned.bench, meters
    named = {
        column: (bound, binding_text(bound.binding).replace(old, new, 1))
        for column, bound in draft.bound.items()
        if bound.binding.instrument == old
    }
    if not named:
        return
    shared = [bound for bound, _ in named.values() if draft.sitting and not bound.path.startswith("runs.")]
    if resting_on(bench, draft.id) or (shared and not draft.report and _kept(bench, draft.sitting)):
        keys = tuple((f"instruments.{column}", text) for column, (_, text) in named.items())
        report = draft.report or next(iter(showing(bench, draft.id)), "")
        if report:
            correct_run(planned, draft.id, report, Otherwise(because, keys))
        return
    for column, (bound, text) in named.items():
        own = draft.record.place_of().file
        path = ("instruments", column) if draft.report else tuple(bound.path.split("."))
        changes = planned.changes.setdefault(own, [])
        if Put(path, text) not in changes:
            changes.append(Put(path, text))


def _kept(bench: Bench, sitting: str) -> bool:
    """Whether an edition rests on some run of a sitting."""
    return any(run.sitting == sitting and resting_on(bench, run.id) for run in bench.runs.values())


def _which(path: Path, key: str, entries: int) -> Fault:
    what = f"`{key}` is a list; say which of its {entries}, and which key of that, as {key}.1.accuracy"
    return Fault(Place(path), key, what)
