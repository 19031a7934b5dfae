"""A built page as lines of text, each with what stands around it, as readers of one system of units see it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

from tests.pages.rendered import VOID

_HIDDEN = {"metric": {"in-us", "us"}, "us": {"in-metric", "metric"}}
"""Classes that readers of a system do not see."""
_BLOCKS = {
    *("p", "li", "tr", "td", "th", "h1", "h2", "h3", "h4", "h5", "caption", "figcaption", "div", "section"),
    *("dt", "dd", "dl", "svg", "text", "title", "table", "thead", "tbody", "ul", "ol", "summary", "details"),
    *("figure", "button", "form", "option", "article"),
}
_CELLS = {"td", "th"}
_APART = "\x00"
"""Stands for a block within a line."""
_SAYS = ("data-name", "aria-label", "alt", "title")


@dataclass(eq=False)
class Node:
    """An element of a page; `parts` are its texts and the elements in it."""

    tag: str
    attributes: dict[str, str]
    parent: Node | None
    parts: list[Node | str] = field(default_factory=list)

    @property
    def classes(self) -> frozenset[str]:
        """Its classes."""
        return frozenset(self.attributes.get("class", "").split())

    def up(self) -> Iterator[Node]:
        """Itself and what it stands in, from the inside."""
        node: Node | None = self
        while node is not None:
            yield node
            node = node.parent

    def inside(self) -> Iterator[Node]:
        """Itself and every element in it, in order."""
        yield self
        for part in self.parts:
            if isinstance(part, Node):
                yield from part.inside()

    def shown(self, system: str) -> bool:
        """Whether readers of a system see it; what is printed for paper in the other system counts as seen."""
        if "other" in self.classes or any("other" in each.classes for each in self.up()):
            return True
        return _HIDDEN[system].isdisjoint(self.classes)

    @property
    def leads_on(self) -> bool:
        """Whether it leads to how a figure comes about, and names the figure alone."""
        target = self.attributes.get("href", "")
        return self.tag == "a" and ("how/" in target or "#budget-" in target)

    def text(self, system: str) -> str:
        """All text in it."""
        return plain(" ".join(self._texts(system, own=False)))

    def own(self, system: str) -> str:
        """The text of its own line: that of the blocks in it is left out."""
        return plain(" ".join(self._texts(system, own=True)))

    def _texts(self, system: str, *, own: bool) -> Iterator[str]:
        for part in self.parts:
            if isinstance(part, str):
                yield part
            elif part.tag not in {"script", "style"} and not part.leads_on and part.shown(system):
                yield _APART if own and part.tag in _BLOCKS else " ".join(part._texts(system, own=own))


@dataclass(frozen=True)
class Line:
    """A line of a page.

    Attributes:
        node: The block that it is the text of.
        text: The text, units of one system in it.
        system: `metric` or `us`.
        page: The page's whole text in that system.
    """

    node: Node
    text: str
    system: str
    page: str

    def within(self, tag: str, *classes: str) -> Node | None:
        """The nearest element of a tag and one of some classes that it stands in."""
        return next(
            (
                each
                for each in self.node.up()
                if each.tag == tag and (not classes or not each.classes.isdisjoint(classes))
            ),
            None,
        )

    @property
    def heads(self) -> str:
        """What is said over it: its row's and its column's head and the table's caption, or the bars' caption."""
        said = [self.node.attributes.get("data-head", "")]
        cell = next((each for each in self.node.up() if each.tag in _CELLS), None)
        table = self.within("table")
        if cell is not None and table is not None:
            said += [_head(cell, table, self.system), _caption(table, self.system)]
        bars = self.within("div", "bars")
        if bars is not None:
            said += [each.text(self.system) for each in bars.inside() if "caption" in each.classes]
        return "\n".join(filter(None, said))

    @property
    def around(self) -> str:
        """What may tell of how many pieces it is: its line, its row, its entry, its card, its drawing, its steps."""
        said = [self.text, self.heads]
        for each in self.node.up():
            if each.tag in {"tr", "li", "details", "figure"} or not each.classes.isdisjoint(
                {"bar", "card", "way"}
            ):
                said.append(each.text(self.system))
        return " ".join(said)

    @property
    def is_cell(self) -> bool:
        """Whether it is a cell of a table or an entry of a list of terms."""
        return self.node.tag in {"td", "dd"}

    @property
    def is_part_of_a_budget(self) -> bool:
        """Whether it tells of what a ± is made of; the figure and its pieces are said over it."""
        table, budget = self.within("table"), self.within("details", "budget")
        if table is not None:
            return "parts" in table.classes
        return budget is not None and self.within("summary") is None

    @property
    def is_working(self) -> bool:
        """Whether it is a step of a derivation, whose digits are not those that are told."""
        return self.within("ol", "steps") is not None

    @property
    def is_drawn(self) -> bool:
        """Whether it is a label in a drawing, which has its ± drawn and the table of its figures beside it."""
        return self.within("svg") is not None

    @property
    def has_another_unit(self) -> bool:
        """Whether it stands under a head that ends in a unit."""
        return bool(re.search(r", (?:%|[A-Za-zµΩ°]+)$", self.heads.partition("\n")[0]))

    @classmethod
    def alone(cls, text: str) -> Line:
        """A text that stands by itself."""
        return cls(Node("p", {}, None), plain(text), "metric", "")


class _Tree(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Node("root", {}, None)
        self._at = self.root
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = Node(tag, {name: value or "" for name, value in attrs}, self._at)
        self._at.parts.append(node)
        if tag not in VOID:
            self._at = node

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._at.parts.append(Node(tag, {name: value or "" for name, value in attrs}, self._at))

    def handle_endtag(self, tag: str) -> None:
        for each in self._at.up():
            if each.tag == tag and each.parent is not None:
                self._at = each.parent
                return

    def handle_data(self, data: str) -> None:
        self._at.parts.append(data)


def lines(html: str) -> list[Line]:
    """Every line of a page's content in each system; what is read aloud or quoted is a line of its own."""
    root = _Tree(html).root
    article = next(each for each in root.inside() if each.tag == "article")
    described = [each for each in root.inside() if each.attributes.get("name") == "description"]
    found = []
    for system in _HIDDEN:
        page = article.text(system)
        nodes = [each for each in article.inside() if all(up.shown(system) for up in each.up())]
        for node in nodes:
            texts = node.own(system).split(_APART) if node.tag in _BLOCKS else []
            texts += [plain(node.attributes[name]) for name in _SAYS if name in node.attributes]
            found += [Line(node, text.strip(), system, page) for text in texts if text.strip()]
        found += [Line(article, plain(each.attributes["content"]), system, page) for each in described]
    return found


def bare_figures(html: str) -> list[str]:
    """What is set as a figure and has no ±."""
    set_so = (each for each in _Tree(html).root.inside() if each.tag == "span" and "figure" in each.classes)
    return [text for each in set_so if "±" not in (text := each.text("metric"))]


def plain(text: str) -> str:
    """A text with single blanks, and as many about each ±."""
    return re.sub(r" *± *", " ± ", re.sub(r"[\u00a0\u202f\s]+", " ", text)).strip()


def _head(cell: Node, table: Node, system: str) -> str:
    row = next(each for each in cell.up() if each.tag == "tr")
    place = [part for part in row.parts if isinstance(part, Node) and part.tag in _CELLS].index(cell)
    first = next(each for each in table.inside() if each.tag == "tr")
    heads = [part for part in first.parts if isinstance(part, Node) and part.tag in _CELLS]
    over = heads[place] if place < len(heads) else heads[-1]
    return f"{over.text(system)}\n{heads[0].text(system)}"


def _caption(table: Node, system: str) -> str:
    return " ".join(each.text(system) for each in table.inside() if each.tag == "caption")
