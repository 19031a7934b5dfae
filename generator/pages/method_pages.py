"""The pages of methods: their index, each method, each version."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.pages import addresses
from generator.pages.control import ControlView, control_views
from generator.pages.method import method_view, version_view
from generator.pages.render import Renderer
from generator.pages.results import Reported
from generator.pages.site import Page
from generator.records.bench import Bench
from generator.records.schema.method import Method


def method_pages(bench: Bench, reported: Sequence[Reported], renderer: Renderer) -> Iterator[Page]:
    """Every page of every method, dated by the newest run by it."""
    dates = _dates_of_use(bench)
    index = addresses.METHODS
    views = tuple(method_view(bench, key, index) for key in sorted(bench.methods))
    markdown = renderer.markdown("pages/methods.md.jinja", methods=views)
    yield Page(addresses.source(index), markdown, updated=max(dates.values(), default=""))
    for key, versions in sorted(bench.methods.items()):
        here = addresses.method(key)
        view = method_view(bench, key, here)
        newest = max((dates.get((key, number), "") for number in versions), default="")
        charts = control_views(bench, reported, key, here)
        yield Page(
            addresses.source(here),
            renderer.markdown("pages/method.md.jinja", method=view, charts=charts),
            {f"control-{number}": _control(each, renderer) for number, each in enumerate(charts, 1)},
            updated=newest,
        )
        for number in sorted(versions):
            yield _version_page(bench, versions[number], renderer, dates.get((key, number), ""))


def _control(view: ControlView, renderer: Renderer) -> str:
    svg = renderer.fragment("charts/control.svg.jinja", view=view) if view.drawing is not None else ""
    return renderer.fragment("fragments/control.html.jinja", view=view, svg=svg)


def _version_page(bench: Bench, method: Method, renderer: Renderer, updated: str) -> Page:
    view = version_view(bench, method)
    here = addresses.version(method.id, method.version)
    caution = renderer.fragment(
        "fragments/caution.html.jinja", cautions=view.cautions, anchor=addresses.anchor("_cautions")
    )
    markdown = renderer.markdown(
        "pages/method-version.md.jinja", v=view, demonstration=bench.settings.demonstration
    )
    return Page(
        addresses.source(here),
        markdown,
        {"caution": caution},
        updated=updated,
        record=method.place_of().file,
    )


def _dates_of_use(bench: Bench) -> dict[tuple[str, int], str]:
    """The day of the newest run by each version of each method."""
    dates: dict[tuple[str, int], str] = {}
    for run in bench.runs.values():
        key = (run.method, run.version)
        dates[key] = max(dates.get(key, ""), run.date.isoformat())
    return dates
