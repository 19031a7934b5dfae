"""A page as readers get it: Markdown with the host's extensions, fragments in their slots."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

import markdown
import yaml

from generator.host.settings import EXTENSIONS
from generator.host.slots import fill
from generator.pages.site import Page

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


@dataclass
class Element:
    """One element: its tag, its attributes, the text inside it."""

    tag: str
    attributes: dict[str, str]
    texts: list[str] = field(default_factory=list)
    inside: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """All text inside, on one line."""
        return " ".join("".join(self.texts).split())


class Parsed(HTMLParser):
    """The elements of a page in order, and its text."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self._open: list[Element] = []
        self.texts: list[str] = []
        self.outside: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(
            tag, {name: value or "" for name, value in attrs}, inside=tuple(e.tag for e in self._open)
        )
        self.elements.append(element)
        if tag not in VOID:
            self._open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if self._open and self._open[-1].tag == tag:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        while self._open:
            if self._open.pop().tag == tag:
                return

    def handle_data(self, data: str) -> None:
        within = {element.tag for element in self._open}
        if "script" not in within:  # a block of data is no text
            self.texts.append(data)
            if "svg" not in within:
                self.outside.append(data)
        for element in self._open:
            element.texts.append(data)

    @property
    def text(self) -> str:
        """All text of the page, on one line."""
        return " ".join("".join(self.texts).split())

    @property
    def prose(self) -> str:
        """The text outside of drawings, on one line."""
        return " ".join("".join(self.outside).split())

    @property
    def shape(self) -> list[tuple[str, tuple[str, ...]]]:
        """Tag and attributes' names of each element, in order."""
        return [(each.tag, tuple(each.attributes)) for each in self.elements]

    def all(self, tag: str, **attributes: str) -> list[Element]:
        """Elements of a tag whose attributes hold these words."""
        return [
            each
            for each in self.elements
            if each.tag == tag
            and all(
                word in each.attributes.get(name.rstrip("_"), "").split() for name, word in attributes.items()
            )
        ]


def split(page: Page) -> tuple[dict[str, str], str]:
    """A page's front matter and its Markdown."""
    _, head, body = page.markdown.split("---\n", 2)
    loaded = yaml.safe_load(head)
    assert isinstance(loaded, dict)
    return loaded, body


def html_of(page: Page) -> str:
    """A page's content as the host makes it."""
    names = list(EXTENSIONS)
    settings = {name: values for name, values in EXTENSIONS.items() if values}
    made = markdown.markdown(split(page)[1], extensions=names, extension_configs=settings)
    return fill(made, page.slots)


def parsed(page: Page) -> Parsed:
    """A page's content, parsed."""
    return Parsed(html_of(page))
