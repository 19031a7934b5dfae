"""The history of a report: its editions with what each changed, its figures over them, its controls."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages import addresses
from generator.pages.cautions import Cautions
from generator.pages.changes import Listed, listed
from generator.pages.control import ControlView, control_fragment, control_views
from generator.pages.past import Told
from generator.pages.past_views import EditionView
from generator.pages.render import Renderer
from generator.pages.results import Reported
from generator.pages.retests import RetestView, retest_view
from generator.pages.site import Page
from generator.records.bench import Bench


@dataclass(frozen=True)
class HistoryView:
    """Everything that `pages/history.md.jinja` is given.

    Attributes:
        latest: The newest edition.
        editions: All of them, newest first.
        withdrawn: Whether the newest withdraws the report.
        demonstration: Whether the data are invented.
        cautions: Those of its methods.
        retests: Its figures over the editions; None where none was told anew.
        title: Name of the measure that answers its question.
        controls: Control charts of the method that does.
        report: Link to the report.
        changes: Link to the page of changes.
        corrections: Link to what is done about mistakes.
    """

    latest: EditionView
    editions: tuple[Listed, ...]
    withdrawn: bool
    demonstration: bool
    cautions: Cautions
    retests: RetestView | None
    title: str
    controls: tuple[ControlView, ...]
    report: Markup
    changes: Markup
    corrections: Markup


def history_pages(
    bench: Bench, told: Sequence[Told], reported: Sequence[Reported], renderer: Renderer
) -> Iterator[Page]:
    """A page a report that has an edition, dated by its newest one."""
    for each in told:
        here = addresses.history(each.report.id)
        view = _view(bench, each, reported, here)
        yield Page(
            addresses.source(here),
            renderer.markdown("pages/history.md.jinja", view=view),
            _slots(view, renderer),
            updated=view.latest.day.iso,
            record=each.report.record.place_of().file,
        )


def _view(bench: Bench, told: Told, reported: Sequence[Reported], here: str) -> HistoryView:
    controls = control_views(bench, reported, told.method, here) if told.method else []
    return HistoryView(
        told.latest,
        listed(reversed(told.editions), here),
        told.withdrawn,
        bench.settings.demonstration,
        told.cautions,
        retest_view(told),
        told.title,
        tuple(controls),
        addresses.markdown_link(here, addresses.report(told.report.id)),
        addresses.markdown_link(here, addresses.CHANGES),
        addresses.markdown_link(here, addresses.CORRECTIONS),
    )


def _slots(view: HistoryView, renderer: Renderer) -> dict[str, str]:
    slots: dict[str, str] = {
        "caution": renderer.fragment(
            "fragments/caution.html.jinja", cautions=view.cautions, anchor=addresses.anchor("cautions")
        ),
        "editions": renderer.fragment("fragments/history.html.jinja", editions=view.editions),
    }
    if view.retests is not None:
        strips = view.retests.drawn
        svgs = [
            renderer.fragment(
                "charts/retests.svg.jinja",
                view=view.retests,
                strip=strip,
                first=strip is strips[0],
                last=strip is strips[-1],
            )
            for strip in strips
        ]
        slots["retests"] = renderer.fragment("fragments/retests.html.jinja", view=view.retests, svgs=svgs)
    for number, control in enumerate(view.controls, 1):
        slots[f"control-{number}"] = control_fragment(control, renderer)
    return slots
