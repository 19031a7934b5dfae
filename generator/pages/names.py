"""What readers call items and controls in one report."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from generator.charts.description import Name
from generator.records.schema.item import Item

LONGEST = 11
"""The most characters of an item's name at a line's end: what a phone of 360 px holds with its figure."""

LONGEST_ALONE = 14
"""The same of a control, which stands there without a figure."""


def names_of(items: Mapping[str, Item], controls: tuple[str, ...]) -> dict[str, Name]:
    """Full and short names by id.

    The short name is the maker's where that tells the item from the report's others, else the whole.

    Args:
        items: The report's items by id.
        controls: Ids of its controls, which are words joined by hyphens.
    """
    makers = Counter(item.maker for item in items.values())
    names = {
        key: Name(item.title, cut(item.maker if makers[item.maker] == 1 else item.title))
        for key, item in items.items()
    }
    told = {key: key.replace("-", " ") for key in controls}
    return names | {key: Name(name, cut(name, LONGEST_ALONE)) for key, name in told.items()}


def cut(name: str, longest: int = LONGEST) -> str:
    """A name, shortened where it is longer than a chart has room for."""
    return name if len(name) <= longest else f"{name[: longest - 1].rstrip()}…"


def spoken_name(name: Name) -> str:
    """The shortest name that is whole, for sentences."""
    return name.full if name.short.endswith("…") else name.short
