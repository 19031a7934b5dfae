"""What the pages of a method are given: its index, its versions, one version whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages import addresses
from generator.pages.cautions import Cautions, cautions
from generator.pages.electrical import ElectricalRule, electrical_rules
from generator.pages.format import Both, Span, as_printed, condition, quantity, span, times
from generator.pages.measured_by import HeatingView, OtherMeasure, heating_views, other_measures
from generator.records.bench import Bench, Report
from generator.records.quantity import Range
from generator.records.schema.method import ConditionSpec, Method, Point, Toleranced


@dataclass(frozen=True)
class Condition:
    """What must be so: a quantity with its tolerance, a range, or a text; the others are None."""

    name: str
    value: Both | None
    within: Both | None
    span: Span | None
    text: Both | None


@dataclass(frozen=True)
class PointView:
    """A place where a temperature is read."""

    name: str
    where: str
    held_by: str
    wire: Both | None
    reads_low: Both


@dataclass(frozen=True)
class VersionLink:
    """A link to a version."""

    number: int
    title: str
    link: Markup


@dataclass(frozen=True)
class ReportLink:
    """A link to a report that uses it, and whether that was withdrawn."""

    question: str
    link: Markup
    withdrawn: bool = False


@dataclass(frozen=True)
class VersionRow:
    """A version in the list of a method."""

    anchor: Markup
    link: VersionLink
    changes: str
    used: tuple[ReportLink, ...]


@dataclass(frozen=True)
class MethodView:
    """A method: its newest title and purpose, its versions newest first, and where it stands in the index."""

    anchor: Markup
    link: Markup
    title: str
    purpose: str
    newest: int
    versions: tuple[VersionRow, ...]


@dataclass(frozen=True)
class VersionView:
    """Everything that `pages/method-version.md.jinja` is given.

    Attributes:
        id: Id of the method.
        number: The version.
        title: Its title.
        latest: The newest version, where that is another one; None else.
        method: Link to the method's own page.
        purpose, apparatus, changes: As the record says; empty without.
        cautions: Those of its hazards, and its own.
        conditions: What must be so.
        conditioning: What is done to each piece before its first run; empty where nothing is.
        schedule: Times of the readings; empty without.
        points: Where temperatures are read.
        stop_limit: Where a run is stopped; None without.
        control: What is run first and last of a day without an item; empty without.
        heating: Its measures of rise.
        electrical: Its measures of drop, resistance, impedance and power.
        others: Its other measures.
        rule: The rule of decision against a limit.
        reference: The air that temperatures are told for, and why; None without.
        comparable: Earlier versions whose results may stand beside its own.
        apart: Earlier versions whose results may not.
        steps: Id and text of each.
        cannot_show: What the test cannot show.
        used: Reports with runs by this version.
    """

    id: str
    number: int
    title: str
    latest: VersionLink | None
    method: Markup
    purpose: str
    apparatus: str
    changes: str
    cautions: Cautions
    conditions: tuple[Condition, ...]
    conditioning: str
    schedule: str
    points: tuple[PointView, ...]
    stop_limit: Both | None
    control: str
    heating: tuple[HeatingView, ...]
    electrical: tuple[ElectricalRule, ...]
    others: tuple[OtherMeasure, ...]
    rule: str
    reference: tuple[Both, str] | None
    comparable: tuple[int, ...]
    apart: tuple[int, ...]
    steps: tuple[tuple[Markup, str], ...]
    cannot_show: tuple[str, ...]
    used: tuple[ReportLink, ...]


def version_view(bench: Bench, method: Method, withdrawn: frozenset[str] = frozenset()) -> VersionView:
    """From a version's record to what its page is given; `withdrawn` has the ids of reports that are."""
    here = addresses.version(method.id, method.version)
    versions = bench.methods[method.id]
    newest = max(versions)
    earlier = sorted(number for number in versions if number < method.version)
    reference = method.reference_ambient
    return VersionView(
        id=method.id,
        number=method.version,
        title=method.title,
        latest=version_link(here, versions[newest]) if newest != method.version else None,
        method=addresses.markdown_link(here, addresses.method(method.id)),
        purpose=method.purpose or "",
        apparatus=as_printed(method.apparatus or ""),
        changes=method.changes or "",
        cautions=cautions([method]),
        conditions=conditions_of(method),
        conditioning=as_printed(method.conditioning or ""),
        schedule=times(method.schedule) if method.schedule else "",
        points=tuple(_point(name, point) for name, point in method.points.items()),
        stop_limit=quantity(method.stop_limit) if method.stop_limit else None,
        control=(method.control or "").replace("-", " "),
        heating=heating_views(method),
        electrical=electrical_rules(method),
        others=other_measures(method),
        rule=method.rule,
        reference=(quantity(reference.value), reference.because) if reference else None,
        comparable=tuple(number for number in earlier if number in method.comparable_with),
        apart=tuple(number for number in earlier if number not in method.comparable_with),
        steps=tuple((addresses.anchor(step.id), as_printed(step.text)) for step in method.steps),
        cannot_show=method.cannot_show,
        used=used_in(here, bench.reports, method, withdrawn),
    )


def method_view(
    bench: Bench, method_id: str, here: str, withdrawn: frozenset[str] = frozenset()
) -> MethodView:
    """A method as seen from an address; `withdrawn` has the ids of reports that are."""
    versions = bench.methods[method_id]
    newest = versions[max(versions)]
    rows = tuple(
        VersionRow(
            addresses.anchor(f"version-{number}"),
            version_link(here, versions[number]),
            versions[number].changes or "",
            used_in(here, bench.reports, versions[number], withdrawn),
        )
        for number in sorted(versions, reverse=True)
    )
    return MethodView(
        addresses.anchor(f"method-{method_id}"),
        addresses.markdown_link(here, addresses.method(method_id)),
        newest.title,
        newest.purpose or "",
        newest.version,
        rows,
    )


def version_link(here: str, method: Method) -> VersionLink:
    """A Markdown link to a version."""
    there = addresses.version(method.id, method.version)
    return VersionLink(method.version, method.title, addresses.markdown_link(here, there))


def used_in(
    here: str, reports: Mapping[str, Report], method: Method, withdrawn: frozenset[str]
) -> tuple[ReportLink, ...]:
    """Reports with a run by this version, in order of their ids."""
    return tuple(
        ReportLink(
            report.record.question, addresses.markdown_link(here, addresses.report(key)), key in withdrawn
        )
        for key, report in sorted(reports.items())
        if any((run.method, run.version) == (method.id, method.version) for run in report.runs.values())
    )


def conditions_of(method: Method) -> tuple[Condition, ...]:
    """What a method asks of the conditions."""
    return tuple(_condition(name, spec) for name, spec in method.conditions.items())


def _condition(name: str, spec: ConditionSpec) -> Condition:
    told = name.replace("-", " ")
    if isinstance(spec, Toleranced):
        return Condition(told, quantity(spec.value), quantity(spec.within), None, None)
    if isinstance(spec, Range):
        return Condition(told, None, None, span(spec), None)
    return Condition(told, None, None, None, condition(spec))


def _point(name: str, point: Point) -> PointView:
    wire = quantity(point.wire) if point.wire else None
    return PointView(name, point.where, point.held_by, wire, quantity(point.reads_low_by_at_most))
