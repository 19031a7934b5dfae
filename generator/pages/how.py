"""The pages that tell how the figures of an item were worked out, and the links to them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.evaluation.findings import ItemFinding, MeasureFinding, ReportFinding
from generator.pages import addresses
from generator.pages.cautions import Cautions
from generator.pages.derivation import item_way
from generator.pages.disclosure import Disclosure
from generator.pages.render import Renderer
from generator.pages.report import ReportView
from generator.pages.site import Page
from generator.pages.standing import Standing
from generator.pages.tallied_ways import tally_ways
from generator.pages.ways import ItemWay, TallyWay

_FRAGMENT = {ItemWay: "fragments/way.html.jinja", TallyWay: "fragments/tally-way.html.jinja"}

CONTROL = "control"
"""The controls' page; no item may have this id."""


@dataclass(frozen=True)
class MeasurePart:
    """One measure on the page: its title and its anchor."""

    title: str
    anchor: Markup


@dataclass(frozen=True)
class HowView:
    """Everything that `pages/how.md.jinja` is given."""

    name: str
    title: str
    question: str
    report: Markup
    take: Markup
    demonstration: bool
    standing: Standing
    measures: tuple[MeasurePart, ...]
    heats: bool
    disclosure: Disclosure
    cautions: Cautions


@dataclass(frozen=True)
class HowLink:
    """A link to the page of an item."""

    id: str
    name: str
    link: Markup


def how_links(view: ReportView, finding: ReportFinding, here: str) -> tuple[HowLink, ...]:
    """The links from a page of a report to how the figures of each item were worked out."""
    return tuple(
        HowLink(item, name, addresses.link(here, addresses.how(view.id, view.edition, item)))
        for item, name in _told(view, finding)
    )


def how_pages(view: ReportView, finding: ReportFinding, renderer: Renderer) -> Iterator[Page]:
    """A page an item, one for all controls."""
    for item, name in _told(view, finding):
        ways = [way for measure in finding.measures for way in _ways(view, measure, item)]
        yield _page(view, item, name, (*ways, *tally_ways(finding, item, name)), renderer)


def _told(view: ReportView, finding: ReportFinding) -> Iterator[tuple[str, str]]:
    """Id and name of every item that has findings, the controls as one behind them."""
    known = {item.item for measure in finding.measures for item in measure.items if item.pieces}
    known |= {row.id for each in view.tallied for row in each.rows}
    yield from ((card.id, card.name) for card in view.cards if card.id in known)
    controls = [item.item for measure in finding.measures for item in measure.controls]
    if controls:
        yield CONTROL, ", ".join(dict.fromkeys(view.names[each] for each in controls))


def _ways(view: ReportView, measure: MeasureFinding, item: str) -> Iterator[ItemWay]:
    items: list[ItemFinding] = [each for each in measure.items if each.item == item and each.pieces]
    yield from (item_way(measure, each, view.names[each.item]) for each in items)
    if item == CONTROL and measure.controls:
        made = [item_way(measure, each, view.names[each.item]) for each in measure.controls]
        runs = tuple(run for way in made for run in way.runs)
        yield replace(made[0], runs=runs, steps=(), result=None, rows=(), whole=False)


def _page(
    view: ReportView, item: str, name: str, ways: Sequence[ItemWay | TallyWay], renderer: Renderer
) -> Page:
    here = addresses.how(view.id, view.edition, item)
    edition = addresses.edition(view.id, view.edition)
    titles = {part.measure: part.title for part in (*view.parts, *view.tallied)}
    parts = tuple(
        MeasurePart(titles.get(way.measure, way.measure), addresses.anchor(way.measure)) for way in ways
    )
    told = HowView(
        name,
        f"{name}: how its figures were worked out",
        view.question,
        addresses.markdown_link(here, edition),
        addresses.markdown_link(here, edition, "take"),
        view.demonstration,
        view.standing,
        parts,
        view.heats,
        view.disclosure,
        view.cautions,
    )
    slots = {
        "caution": renderer.fragment(
            "fragments/caution.html.jinja", cautions=view.cautions, anchor="_cautions"
        )
    }
    slots |= {
        f"way-{number}": renderer.fragment(_FRAGMENT[type(way)], way=way)
        for number, way in enumerate(ways, 1)
    }
    return Page(
        addresses.source(here),
        renderer.markdown("pages/how.md.jinja", how=told),
        {name: str(html) for name, html in slots.items()},
        updated=view.date.iso if view.date else "",
        listed=False,
    )
