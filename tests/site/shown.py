"""Reads a built page as its reader sees it in one system of units or in the other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import yaml

from generator.pages.format import as_printed
from generator.records.quantity import QuantityError, parse_quantity, parse_range
from tests.pages.rendered import VOID

METRIC, US = "metric", "us"
_SYSTEMS = {
    "in-metric": METRIC,
    "metric": METRIC,
    "also-metric": METRIC,
    "in-us": US,
    "us": US,
    "also-us": US,
}
_NB = "\N{NO-BREAK SPACE}"
# `in` and single letters are words too: as units they hang on to their number by a space that does not break.
_SIGNS = {
    METRIC: re.compile(rf"°C|\d[{_NB} ](?:K|N|N·m|mm²?|cm²?|kg)(?![\w·/²])|\d{_NB}(?:m|g|l)(?![\w·/²])"),
    US: re.compile(rf"°F|\d[{_NB} ](?:AWG|lbf(?:·in|·ft)?|in[²³])(?!\w)|\d{_NB}(?:in|ft|oz|lb)(?!\w)"),
}
_UNIT = re.compile(r"°[CF]|(?<!\w)(?:N·m|N|lbf·in|lbf|mm|in|g|oz|kg|lb|l|m|ft)(?![\w·])")


@dataclass(frozen=True)
class Text:
    """A piece of text of a page.

    Attributes:
        data: As it stands.
        system: The system in which alone it is shown; empty where it is shown in both.
        other: Whether it is left out where a reader has chosen.
        beside: Whether it stands beside a conductor's name, or is that name.
        kelvins: Whether it stands among data in K.
    """

    data: str
    system: str
    other: bool
    beside: bool
    kelvins: bool

    def shown(self, system: str) -> bool:
        """Whether a reader who chose a system sees it."""
        return not self.other and self.system in {"", system}

    def bare(self, said: list[str]) -> list[str]:
        """Units that are shown to those who chose the other system, what the reviewer wrote left out."""
        if self.kelvins or self.beside:
            return []
        data = self.data
        for each in said:
            data = data.replace(each, "")
        return [
            found[0]
            for system, sign in _SIGNS.items()
            if self.system != system
            for found in sign.finditer(data)
        ]


class _Read(HTMLParser):
    """The texts of a page's content in order, and its attributes that are read aloud or by machines."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.texts: list[Text] = []
        self.attributes: list[tuple[str, str]] = []
        self._open: list[tuple[str, frozenset[str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.attributes += [(name, given[name]) for name in ("alt", "title", "aria-label") if name in given]
        if tag == "meta" and given.get("name") == "description":
            self.attributes.append(("description", given["content"]))
        if tag not in VOID:
            self._open.append((tag, frozenset(given.get("class", "").split())))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        tags = {tag for tag, _ in self._open}
        if "article" not in tags or "script" in tags:
            return
        classes = [each for _, found in self._open for each in found]
        system = next((_SYSTEMS[each] for each in reversed(classes) if each in _SYSTEMS), "")
        other = not {"other", "paren"}.isdisjoint(classes)
        if "other" in classes and system:
            system = US if system == METRIC else METRIC
        beside = not {"as-named", "also-us", "also-metric"}.isdisjoint(classes)
        self.texts.append(Text(data, system, other, beside, "budget" in classes))


def texts_of(page: Path) -> list[Text]:
    """The texts of a page's content."""
    read = _Read()
    read.feed(page.read_text(encoding="utf-8"))
    read.close()
    return read.texts


def attributes_of(page: Path) -> list[tuple[str, str]]:
    """Name and value of what is read aloud or by machines."""
    read = _Read()
    read.feed(page.read_text(encoding="utf-8"))
    read.close()
    return read.attributes


def units_in(text: str) -> set[str]:
    """The systems whose units stand in a text."""
    return {system for system, sign in _SIGNS.items() if sign.search(text)}


def written(reports: Path) -> list[str]:
    """Every text of the records in which units stand among words, as pages print it, the longest first."""
    found: set[str] = set()
    for path in sorted(reports.rglob("*.yml")):
        loaded = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506  # all of it is text
        found |= {as_printed(each) for each in scalars(loaded) if not _is_quantity(each)}
        if path.parent.name == "items":
            # Piece K of a model R6 is no 6 K.
            found |= {f"{loaded['model']} {letter}" for letter in loaded["specimens"]}
    return sorted((each for each in found if units_in(each)), key=len, reverse=True)


def words_shown(texts: list[Text], system: str) -> str:
    """What a reader who chose a system sees, without numbers and units."""
    seen = (each for each in texts if each.shown(system) and not each.beside)
    text = "".join(_UNIT.sub(" ", each.data) if each.system else each.data for each in seen)
    return " ".join(re.sub(r"[−\d.±]*\d[−\d.±\s]*|[.±]", " ", text).split())


def scalars(node: Any, without: frozenset[str] = frozenset()) -> Iterator[str]:
    """Every text of a record as loaded, but those under some keys."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, dict):
        for key, each in node.items():
            if key not in without:
                yield from scalars(each, without)
    else:
        for each in node:
            yield from scalars(each, without)


def _is_quantity(text: str) -> bool:
    for parse in (parse_quantity, parse_range):
        try:
            parse(text)
        except QuantityError:
            continue
        return True
    return False
