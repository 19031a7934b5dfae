"""A bench with one text in every field that a person writes freely, its editions' copies among them."""

from __future__ import annotations

import dataclasses
from typing import Any

from generator.records import nodes
from generator.records.bench import Bench, Report
from generator.records.schema.item import OtherName, Stock


def filled(bench: Bench, text: str) -> Bench:
    """The same bench with one text in every field that a person writes freely."""
    return dataclasses.replace(
        bench,
        settings=_with(bench.settings, reviewer=text, contact=text, disclosure=text),
        items={key: _item(item, text) for key, item in bench.items.items()},
        instruments={key: _instrument(each, text) for key, each in bench.instruments.items()},
        methods={
            key: {number: _method(method, text) for number, method in versions.items()}
            for key, versions in bench.methods.items()
        },
        reports={key: _report(report, text) for key, report in bench.reports.items()},
        runs={key: _run(run, text) for key, run in bench.runs.items()},
    )


def unpublished(bench: Bench) -> Bench:
    """The same bench with nothing published."""
    reports = {key: dataclasses.replace(report, editions={}) for key, report in bench.reports.items()}
    return dataclasses.replace(bench, reports=reports)


def _with(record: Any, **changed: Any) -> Any:
    return record.model_copy(update=changed)


def _item(item: Any, text: str) -> Any:
    said = dict.fromkeys(("from_", "marks", "condition", "chosen", "lot"), text)
    return _with(
        item,
        maker=text,
        model=text,
        what=text,
        notes=text,
        also_sold_as=(OtherName.model_construct(name=text, since=None, evidence=text),),
        ratings=tuple(_with(each, limit=text, source=text, condition=text) for each in item.ratings),
        stocks={
            key: Stock.model_construct(name=text, since=None, tell_by=text)
            for key in item.stocks or ("newer",)
        },
        specimens={letter: _with(each, **said) for letter, each in item.specimens.items()},
    )


def _instrument(instrument: Any, text: str) -> Any:
    return _with(
        instrument,
        name=text,
        maker=text,
        model=text,
        serial=text,
        calibrations=tuple(_with(each, by=text, certificate=text) for each in instrument.calibrations),
        checks=tuple(_with(each, what=text, found=text) for each in instrument.checks),
    )


def _method(method: Any, text: str) -> Any:
    reference = method.reference_ambient
    return _with(
        method,
        title=text,
        purpose=text,
        apparatus=text,
        changes=text,
        protection=text,
        cautions=(text,),
        cannot_show=(text,),
        conditions={key: text if isinstance(said, str) else said for key, said in method.conditions.items()},
        points={key: _with(point, where=text, held_by=text) for key, point in method.points.items()},
        measures=tuple(_with(each, name=text) for each in method.measures),
        reference_ambient=_with(reference, because=text) if reference else None,
        steps=tuple(_with(step, text=text) for step in method.steps),
    )


def _report(report: Report, text: str) -> Report:
    opinions = tuple(_with(each, text=text, basis=(text,)) for each in report.record.opinions)
    record = _with(
        report.record,
        question=text,
        initiative=text,
        because=text,
        notes=text,
        opinions=(*opinions, *(_with(each, item=None) for each in opinions[:1])),
    )
    return dataclasses.replace(
        report,
        record=record,
        runs={key: _run(run, text) for key, run in report.runs.items()},
        editions={number: _edition(edition, text) for number, edition in report.editions.items()},
    )


def _edition(edition: Any, text: str) -> Any:
    """An edition with the text in what was said of it, and in its copy of what keeps changing."""
    return _with(
        edition,
        summary=text if edition.summary else None,
        authorised_by=text,
        content={part: _copy(node, text) for part, node in edition.content.items()},
    )


def _copy(node: Any, text: str, key: str = "") -> Any:
    if isinstance(node, nodes.Mapping):
        made = nodes.Mapping(node.place, node.path)
        made.key_places.update(node.key_places)
        made.update({name: _copy(each, text, name) for name, each in node.items()})
        return made
    if isinstance(node, nodes.Sequence):
        listed = nodes.Sequence(node.place, node.path)
        listed.extend(_copy(each, text, key) for each in node)
        return listed
    return nodes.Scalar(text, node.place, node.path, "quoted") if key in _FREE else node


_FREE = {
    *("reviewer", "contact", "disclosure", "question", "because", "notes", "text", "basis", "maker", "model"),
    *("what", "evidence", "source", "condition", "tell-by", "from", "marks", "chosen", "lot", "name"),
    *("serial", "by", "certificate", "found", "title"),
}
"""Keys of a copy that hold what a person writes freely."""


def _run(run: Any, text: str) -> Any:
    return dataclasses.replace(
        run,
        place=text,
        deviations=(text,),
        additions=(text,),
        made_by=text,
        events=tuple(_with(each, what=text) for each in run.events),
        stopped=_with(run.stopped, note=text) if run.stopped else None,
        conditions={key: text if isinstance(said, str) else said for key, said in run.conditions.items()},
        corrections=tuple(_correction(each, text) for each in run.corrections),
    )


def _correction(correction: Any, text: str) -> Any:
    changed = (dataclasses.replace(each, was=text, now=text) for each in correction.changed)
    return dataclasses.replace(correction, because=text, changed=tuple(changed))
