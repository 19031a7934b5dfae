"""Runs that correct others: one that is there, with what was wrong of it, and each run is corrected once."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.corrections import Written
from generator.records.drafts import Draft, row_of
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.instrument import Instrument
from generator.records.schema.report import ReportRecord
from generator.records.schema.run import LeftOut, RunRecord
from generator.records.selection import ALL, Runs
from generator.records.table import Table
from generator.records.units import TIME


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """What is wrong with corrections, and reports that rest on runs that were corrected."""
    yield from _without_a_run(library, known)
    by_corrected: dict[str, str] = {}
    for name, written in sorted(library.written.items()):
        if written.why:
            continue
        if (other := by_corrected.setdefault(written.corrects, name)) != name:
            what = f"{other} corrects this run already; correct that one, or delete one of the two"
            yield _fault(written, what)
        yield from _where(written, library)
    for draft in known.by_id.values():
        if isinstance(draft.record, RunRecord):
            yield from _itself(draft, draft.record)
    for report in library.reports.values():
        yield from _listed(report, known)
    for meter in library.instruments.values():
        yield from _meter(meter, library)


def _meter(meter: Instrument, library: Library) -> Iterator[Fault]:
    """A meter that stands for another is told of one that is there, and why."""
    known = [name for name in sorted(library.instruments) if name != meter.id]
    if meter.corrects is None and meter.because is not None:
        what = "for a meter whose record corrects another's, which `corrects` names; leave it out"
        yield meter.fault_of_key(("because",), what)
    elif meter.corrects is not None and meter.because is None:
        yield meter.fault(("because",), "missing: what was wrong with the record that this one corrects")
    elif (
        meter.corrects is not None
        and meter.corrects not in known
        and not library.is_broken("instruments", meter.corrects)
    ):
        place, path = meter.place_of("corrects"), meter.path_of("corrects")
        yield absent("there is no other instrument", meter.corrects, known, place, path)


def _without_a_run(library: Library, known: Runs) -> Iterator[Fault]:
    """Corrections of nothing, and those that correct themselves in the end, told at the first."""
    told: set[str] = set()
    for name, written in sorted(library.written.items()):
        report, said = name.partition("/")[0], written.named
        if written.why == "absent":
            own = [each.id.partition("/")[2] for each in known.by_report.get(report, ())]
            near = [*known.by_id] if "/" in said else own
            yield absent("there is no run", said.text, near, said.place, said.path)
        elif written.why == "round" and name not in told:
            way = [name]
            while (way[-1] in library.written) and (after := library.written[way[-1]].corrects) != name:
                way.append(after)
            told |= set(way)
            through = f" by way of {', '.join(way[1:])}" if way[1:] else ""
            yield _fault(written, f"this run corrects itself{through}; name the run that was wrong")


def _fault(written: Written, what: str) -> Fault:
    return Fault(written.named.place, written.named.path, what, written.named.text)


def _where(written: Written, library: Library) -> Iterator[Fault]:
    """A correction stands beside what it corrects; that of a sitting's run in a report that shows it."""
    report, above = written.run.partition("/")[0], written.corrects.partition("/")[0]
    if above != report and above not in library.sittings:
        yield _fault(written, f"a run of {above}; its correction has its place at {above}/runs/")


def _itself(draft: Draft, record: RunRecord) -> Iterator[Fault]:
    own = [each for each in ("because", "leave_out") if record.corrects is None and getattr(record, each)]
    for key in own:
        way = "write `! reason` behind its row" if key == "leave_out" else "leave it out"
        what = f"for a run that corrects another, which `corrects` names; {way}"
        yield record.fault_of_key((key,), what)
    if own or record.corrects is None:
        return
    if record.because is None:
        yield record.fault(("because",), "missing: what was wrong with the run that this one corrects")
    if not draft.corrections[0].changed:
        what = "nothing is otherwise than in the run that this one corrects; say what, or delete this file"
        yield record.fault(("corrects",), what, record.corrects)
    for number, each in enumerate(record.leave_out):
        yield from _left_out(record, number, each, draft.table)


def _left_out(record: RunRecord, number: int, each: LeftOut, table: Table | None) -> Iterator[Fault]:
    path = ("leave_out", number)
    if (each.at is None) == (each.row is None):
        yield record.fault(path, "one of the two says which reading: `at`, its time, or `row`, its number")
    elif table is not None and row_of(table, each) is None:
        times = table.column(TIME)
        if each.at is not None and times is None:
            what = "these readings have no times; say `row`, from 1"
            yield record.fault((*path, "at"), what, each.at.text)
        elif each.at is not None:
            known = tuple(f"{cell.text} {times.unit.typed}" for cell in times.cells if cell) if times else ()
            yield record.fault((*path, "at"), "no row was read at this time", each.at.text, known)
        else:
            what = f"the table has {table.rows} rows"
            yield record.fault((*path, "row"), what, str(each.row))
    elif table is None:
        yield record.fault(path, "the run has no table of readings; say `values` otherwise")


def _listed(record: ReportRecord, known: Runs) -> Iterator[Fault]:
    """A report that names runs names the correcting one in place of the corrected, and not both."""
    runs = () if record.runs == ALL else record.runs
    for key, names in (("runs", runs), ("controls", record.controls)):
        found = {draft.id for name in names if (draft := known.find(record.id, name)) is not None}
        for number, name in enumerate(names):
            draft = known.find(record.id, name)
            if draft is None or draft.id not in known.corrected:
                continue
            after = known.latest(draft).id
            if found & set(_after(draft.id, known)):
                what = (
                    "its correction is named, too, so that its readings would count twice; take this one out"
                )
                yield record.fault((key, number), what, name)
            else:
                told = after.removeprefix(f"{record.id}/")
                yield record.doubt((key, number), f"this run was corrected; name {told} in its place", name)


def _after(name: str, known: Runs) -> Iterator[str]:
    while name in known.corrected:
        name = known.corrected[name]
        yield name
