"""The pages beside reports and methods: items, the comparison, the glossary, the corrections policy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.pages import addresses
from generator.pages.cautions import Cautions
from generator.pages.compare import compare_view
from generator.pages.item import item_view
from generator.pages.render import Renderer
from generator.pages.report import contact
from generator.pages.results import Reported
from generator.pages.site import Page
from generator.records.bench import Bench


def item_pages(bench: Bench, reported: Sequence[Reported], renderer: Renderer) -> Iterator[Page]:
    """A page an item, dated by its newest run."""
    for key, item in sorted(bench.items.items()):
        view = item_view(bench, key, reported)
        slots = _caution(view.cautions, renderer) | {
            "found": renderer.fragment("fragments/item-found.html.jinja", item=view),
            "pieces": renderer.fragment("fragments/item-pieces.html.jinja", item=view),
        }
        for name, told in (
            ("ratings", view.ratings),
            ("prices", view.prices),
            ("results", view.results or view.older),
        ):
            if told:
                slots[name] = renderer.fragment(f"fragments/item-{name}.html.jinja", item=view)
        dates = [run.date.isoformat() for run in bench.standing if run.item == key]
        yield Page(
            addresses.source(addresses.item(key)),
            renderer.markdown("pages/item.md.jinja", item=view),
            slots,
            updated=max(dates, default=""),
            record=item.place_of().file,
        )


def compare_page(bench: Bench, reported: Sequence[Reported], renderer: Renderer, newest: str) -> Page:
    """The comparison of all items, of the date of the newest record."""
    view = compare_view(bench, reported)
    table = renderer.fragment("fragments/compare.html.jinja", view=view)
    markdown = renderer.markdown("pages/compare.md.jinja", view=view)
    slots = _caution(view.cautions, renderer) | {"table": table}
    return Page(addresses.source(addresses.COMPARE), markdown, slots, updated=newest)


def word_pages(bench: Bench, renderer: Renderer) -> Iterator[Page]:
    """The glossary and the corrections policy, which rest on no record."""
    glossary = renderer.markdown(
        "pages/glossary.md.jinja",
        corrections=addresses.markdown_link(addresses.GLOSSARY, addresses.CORRECTIONS),
    )
    columns = renderer.fragment("fragments/columns.html.jinja")
    yield Page(addresses.source(addresses.GLOSSARY), glossary, {"columns": columns})
    corrections = renderer.markdown(
        "pages/corrections.md.jinja",
        reviewer=bench.settings.reviewer,
        contact=contact(bench.settings.contact),
        glossary=addresses.markdown_link(addresses.CORRECTIONS, addresses.GLOSSARY),
    )
    yield Page(addresses.source(addresses.CORRECTIONS), corrections)


def _caution(known: Cautions | None, renderer: Renderer) -> dict[str, str]:
    """The caution line; none on a page without a method."""
    if known is None:
        return {}
    line = renderer.fragment("fragments/caution.html.jinja", cautions=known, anchor="cautions")
    return {"caution": line}
