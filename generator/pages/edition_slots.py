"""What stands on a report's page round the content of its edition: all that a later edition may change."""

from __future__ import annotations

from dataclasses import dataclass

from generator import __version__
from generator.evaluation.findings import ReportFinding
from generator.history.figures import figures_of, published
from generator.history.moved import Drift, drifts
from generator.history.shelf import Shelf, Told
from generator.pages import addresses
from generator.pages.changed import changed_since
from generator.pages.render import Renderer
from generator.pages.report import ReportView
from generator.pages.standing import Standing, notice, permanent, rows


@dataclass(frozen=True)
class Cited:
    """How an edition is cited; `address` is empty where the bench does not say where its site stands."""

    reviewer: str
    question: str
    standing: Standing
    address: str


def cited_as(shelf: Shelf, view: ReportView) -> Cited:
    """How the edition of a page is cited."""
    there = permanent(shelf.bench, view.id, view.edition)
    return Cited(view.reviewer, view.question, view.standing, there)


def drifted(told: Told, finding: ReportFinding) -> tuple[Drift, ...]:
    """Published figures of an edition that would be printed otherwise now; none of a draft."""
    if told.edition is None:
        return ()
    was = tuple(published(each) for each in told.edition.figures)
    return tuple(each for each in drifts(was, figures_of(finding)) if each.printed)


def edition_slots(
    shelf: Shelf, told: Told, view: ReportView, finding: ReportFinding, *, here: str, renderer: Renderer
) -> dict[str, str]:
    """The fragments of a page that are not of its edition: what is said of others and since a video."""
    now = shelf.records.reports[view.id]
    above = notice(shelf.records, now, told, here)
    last = told.edition is not None and told.number == max(now.editions)
    since = changed_since(shelf.records, now, view.names, view.answering) if last else None
    return {
        "notice": renderer.fragment("fragments/notice.html.jinja", n=above) if above else "",
        "changed": renderer.fragment("fragments/changed.html.jinja", changed=since) if since else "",
        "editions": renderer.fragment(
            "fragments/edition-rows.html.jinja",
            rows=rows(now, told, here),
            history=addresses.link(here, addresses.history(view.id)),
            drifts=drifted(told, finding),
            version=__version__,
        ),
    }
