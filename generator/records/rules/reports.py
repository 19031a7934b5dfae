"""Reports: measures, items, runs and controls that exist and fit one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.fault import Doubt, Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.rules import limits
from generator.records.rules.common import absent, twice
from generator.records.schema.method import Method
from generator.records.schema.report import ReportRecord
from generator.records.selection import ALL, Runs, controls_of, runs_of, waits


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """Everything that report.yml can be wrong in."""
    for record in library.reports.values():
        broken = _some_unread(record, library)
        used = runs_of(record, known, library)
        methods = _methods((*used, *controls_of(record, known)), library)
        yield from _runs(record, known, library)
        yield from _controls(record, known, library)
        yield from _items(record, used, known, library, incomplete=broken)
        if methods is not None and not broken:
            waiting = waits(used)
            yield from _begun(record, used, library) if waiting else _measures(record, methods, library)
            yield from () if waiting and not used else limits.fit(record, methods)
        yield from _itself(record)


def _some_unread(record: ReportRecord, library: Library) -> bool:
    """Whether the form of some run that the report may rest on is at fault."""
    own = f"{record.id}/"
    return any(
        kind == "sittings" or (kind == "runs" and name.startswith(own)) for kind, name in library.broken
    )


def _may_be_tested(record: ReportRecord, item: str, known: Runs, library: Library) -> bool:
    """Whether a sitting has a run of the item whose method, and so its measures, are not to be had."""
    sat = known.by_item.get(item, ()) if record.runs == ALL else ()
    refs = (each.body.method for each in sat)
    return any(library.method(ref.id, ref.version) is None for ref in refs)


def _methods(used: tuple[Draft, ...], library: Library) -> dict[str, list[Method]] | None:
    """The methods of the runs by id, each with the versions used; None where one of them is not to be had."""
    found: dict[str, list[Method]] = {}
    for draft in used:
        method = library.method(draft.body.method.id, draft.body.method.version)
        if method is None:
            return None
        if method not in found.setdefault(method.id, []):
            found[method.id].append(method)
    return found


def _runs(record: ReportRecord, known: Runs, library: Library) -> Iterator[Fault]:
    if record.runs == ALL:
        return
    for number, name in enumerate(record.runs):
        found = known.find(record.id, name)
        if found is None:
            yield from _no_run(record, ("runs", number), name, known, library)
        elif found.control:
            what = "this is a control run; name it under `controls`"
            yield record.fault(("runs", number), what, name)
    for number, name in twice(record.runs):
        yield record.fault(("runs", number), "named twice", name)


def _no_run(
    record: ReportRecord, path: tuple[str, int], name: str, known: Runs, library: Library
) -> Iterator[Fault]:
    sitting = name.partition("/")[0]
    broken = library.is_broken("runs", f"{record.id}/{name}") or library.is_broken("runs", name)
    if broken or library.is_broken("sittings", sitting):
        return
    own = [each.id.partition("/")[2] for each in known.by_report.get(record.id, ())]
    others = [each for each in known.by_id if not each.startswith(f"{record.id}/")]
    near = own if "/" not in name else others
    yield absent("there is no run", name, near, record.place_of(*path), record.path_of(*path))


def _controls(record: ReportRecord, known: Runs, library: Library) -> Iterator[Fault]:
    for number, name in enumerate(record.controls):
        found = known.find(record.id, name)
        if found is None:
            yield from _no_run(record, ("controls", number), name, known, library)
        elif not found.control:
            what = f"this run is of {found.item} and no control; a control says `control` with a name"
            yield record.fault(("controls", number), what, name)
    named = {each.id for each in controls_of(record, known)}
    for draft in known.by_report.get(record.id, ()):
        if draft.control and not draft.item and draft.id not in named:
            what = f"a control run that `controls` of {record.id} does not name; the report leaves it out"
            yield draft.body.doubt(("control",), what, draft.control)


def _items(
    record: ReportRecord, used: tuple[Draft, ...], known: Runs, library: Library, *, incomplete: bool
) -> Iterator[Fault]:
    tested = {draft.item for draft in used}
    for number, name in enumerate(record.items):
        place, path = record.place_of("items", number), record.path_of("items", number)
        if name not in library.items:
            if not library.is_broken("items", name):
                yield absent("there is no item", name, sorted(library.items), place, path)
        elif (
            name not in tested
            and not incomplete
            and not waits(used)
            and not _may_be_tested(record, name, known, library)
        ):
            what = "no run of this report is of this item yet; add its runs, or take it out"
            yield Doubt(place, path, what, name)
    for number, name in twice(record.items):
        yield record.fault(("items", number), "named twice", name)
    for draft in used:
        if draft.item and draft.item not in record.items and draft.item in library.items:
            what = f"{record.id}/report.yml does not name this item under `items`"
            yield draft.body.fault(("item",), what, draft.item, record.items)


def _measures(record: ReportRecord, methods: Mapping[str, list[Method]], library: Library) -> Iterator[Fault]:
    holders: dict[str, list[str]] = {}
    for name, versions in methods.items():
        for measure in dict.fromkeys(each.id for method in versions for each in method.measures):
            holders.setdefault(measure, []).append(name)
    for number, name in enumerate(record.measures):
        path = ("measures", number)
        if name in holders and len(holders[name]) > 1:
            several = " and ".join(holders[name])
            yield record.fault(path, f"measured by {several}; a report needs one method for it", name)
        elif name not in holders and name in _measured(library):
            what = "no run of this report measures this yet; add its runs, or take it out"
            yield record.doubt(path, what, name)
        elif name not in holders:
            what = "no method of this report's runs has a measure"
            yield absent(what, name, holders, record.place_of(*path), record.path_of(*path))


def _measured(library: Library) -> tuple[str, ...]:
    """What the methods of the bench measure."""
    methods = (method for versions in library.methods.values() for method in versions.values())
    return tuple(dict.fromkeys(each.id for method in methods for each in method.measures))


def _begun(record: ReportRecord, used: tuple[Draft, ...], library: Library) -> Iterator[Fault]:
    """A report that has no readings yet measures what some method of the bench measures."""
    known = _measured(library)
    unread = any(kind == "methods" for kind, _ in library.broken)
    for number, name in enumerate(record.measures):
        path = ("measures", number)
        if name not in known and not unread:
            yield absent(
                "no method has a measure", name, known, record.place_of(*path), record.path_of(*path)
            )
    if not used:
        what = "this report has no run yet, and so no page; begin one with: provebook new run"
        yield record.doubt((), what)


def _itself(record: ReportRecord) -> Iterator[Fault]:
    """What report.yml alone can be wrong in: told whatever is at fault elsewhere."""
    for number, name in twice(record.measures):
        yield record.fault(("measures", number), "named twice", name)
    if record.main not in record.measures:
        yield record.fault(("main",), "not among the report's measures", record.main, record.measures)
    yield from limits.form(record)
    yield from _words(record)


def _words(record: ReportRecord) -> Iterator[Fault]:
    """Choice and opinions are about items of the report."""
    if record.choice is not None and record.choice not in record.items:
        yield record.fault(("choice",), "not among the report's items", record.choice, record.items)
    if record.choice is not None and record.because is None:
        yield record.fault(("because",), "missing: why you would choose it")
    if record.because is not None and record.choice is None:
        yield record.fault(("because",), "a reason, and no `choice` that it is for")
    for opinion in record.opinions:
        if opinion.item is not None and opinion.item not in record.items:
            yield opinion.fault(("item",), "not among the report's items", opinion.item, record.items)
