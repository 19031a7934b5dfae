"""What may stand on a page that nobody found: quantities of the records, numbers typed in a template."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterator
from pathlib import Path

import yaml

from generator.pages import format as written
from generator.records.quantity import QuantityError, parse_quantity, parse_range
from tests.site.lines import plain
from tests.site.shown import scalars

_READ = frozenset({"readings", "values"})
"""Keys of a run under which stands what was read."""

_FOUND = frozenset({"figures", "rests-on", "marks", "program"})
"""Keys of an edition under which stands what no one typed."""


def records(root: Path) -> Iterator[str]:
    """Every text of the records, what was read left out."""
    for path in sorted((root / "reports").rglob("*.yml")):
        loaded = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506  # all of it is text
        yield from scalars(loaded, without=_READ | _FOUND)


def texts(text: str) -> Iterator[str]:
    """How pages print a quantity or a range of a record."""
    for kind in ("", "interval"):
        with contextlib.suppress(QuantityError):
            yield from in_both(written.quantity(parse_quantity(text, kind)))
        with contextlib.suppress(QuantityError):
            found = parse_range(text, kind)
            yield from (*in_both(written.quantity(found.low)), *in_both(written.quantity(found.high)))


def typed(root: Path) -> Iterator[str]:
    """Numbers with a unit that are typed in a template: what the product itself says, no one's figure."""
    for path in sorted((root / "site_templates").rglob("*.jinja")):
        text = plain(path.read_text(encoding="utf-8").replace("&#160;", " "))
        yield from re.findall(r"(?<![\w.])\d+(?:\.\d+)? (?:°[CF]|[A-Za-zµΩ]+\b)", text)
        yield from re.findall(r"(?<![\w.])\d+\.\d+(?![\w.])", text)
        yield from re.findall(r"(?<![\w.])\d+(?:\.\d+)? ± \d+(?:\.\d+)?", text)
        for value, half_width in re.findall(
            r'"value(?:_us)?": "([\d.]+)", "half_width(?:_us)?": "([\d.]+)"', text
        ):
            yield f"{value} ± {half_width}"


def in_both(told: written.Both) -> Iterator[str]:
    """A quantity's texts."""
    yield from (plain(text) for text in (told.metric, told.us) if text)
