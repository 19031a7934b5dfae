"""The pages of methods: their index, each method, each version."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.pages import addresses
from generator.pages.cautions import cautions
from generator.pages.control import control_fragment, control_views
from generator.pages.disclosure import Disclosure, disclosure
from generator.pages.method import MethodView, VersionView, method_view, version_view
from generator.pages.render import Renderer
from generator.pages.results import Reported
from generator.pages.site import Page
from generator.records.bench import Bench
from generator.records.schema.method import Method


def method_pages(bench: Bench, reported: Sequence[Reported], renderer: Renderer) -> Iterator[Page]:
    """Every page of every method, dated by the newest run by it.

    Args:
        bench: The records.
        reported: Its reports, without those that were withdrawn.
        renderer: For the words.
    """
    withdrawn = frozenset(bench.reports) - {each.report.id for each in reported}
    dates = _dates_of_use(bench)
    index = addresses.METHODS
    views = tuple(method_view(bench, key, index, withdrawn) for key in sorted(bench.methods))
    markdown = renderer.markdown("pages/methods.md.jinja", methods=views)
    yield Page(addresses.source(index), markdown, updated=max(dates.values(), default=""))
    for key, versions in sorted(bench.methods.items()):
        here = addresses.method(key)
        view = method_view(bench, key, here, withdrawn)
        newest = max((dates.get((key, number), "") for number in versions), default="")
        yield Page(addresses.source(here), *_method(bench, reported, view, key, renderer), updated=newest)
        for number in sorted(versions):
            view_of = version_view(bench, versions[number], withdrawn)
            yield _version_page(bench, view_of, versions[number], renderer, dates.get((key, number), ""))


def _method(
    bench: Bench, reported: Sequence[Reported], view: MethodView, key: str, renderer: Renderer
) -> tuple[str, dict[str, str]]:
    """The text of a method's page and its slots: with results on it, cautions and disclosure come first."""
    charts = control_views(bench, reported, key, addresses.method(key))
    warned = cautions(tuple(bench.methods[key].values()))
    markdown = renderer.markdown(
        "pages/method.md.jinja",
        method=view,
        charts=charts,
        cautions=warned,
        disclosure=_disclosure(bench, key),
        demonstration=bench.settings.demonstration,
    )
    slots = {f"control-{number}": control_fragment(each, renderer) for number, each in enumerate(charts, 1)}
    if charts:
        anchor = addresses.anchor("_cautions")
        slots["caution"] = renderer.fragment("fragments/caution.html.jinja", cautions=warned, anchor=anchor)
    return markdown, slots


def _disclosure(bench: Bench, key: str) -> Disclosure:
    """How the pieces were had that were tested by a method."""
    tested: dict[str, set[str]] = {}
    for run in bench.standing:
        if run.method == key and run.item:
            tested.setdefault(run.item, set()).add(run.specimen)
    pieces = {item: sorted(letters) for item, letters in sorted(tested.items())}
    return disclosure({item: bench.items[item] for item in pieces}, pieces, "own", "")


def _version_page(bench: Bench, view: VersionView, method: Method, renderer: Renderer, updated: str) -> Page:
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
    for run in bench.standing:
        key = (run.method, run.version)
        dates[key] = max(dates.get(key, ""), run.date.isoformat())
    return dates
