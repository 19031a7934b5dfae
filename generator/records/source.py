"""Text → nodes that know line and column; scalars stay as written; YAML's own faults in plain words.

No value is given a type here: `no`, `5:00`, `1.10`, `012`, `1e3` and `2026-03-08` are the texts that a person
typed, and the field that they stand in decides what they mean. What YAML offers beyond mappings, lists and
texts (anchors, aliases, merge keys, tags, several documents) is refused.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from generator.fault import Doubt, Fault, Place
from generator.records.files import content
from generator.records.lookalikes import code_point
from generator.records.nodes import Mapping, Node, Scalar, Sequence
from generator.records.signs import Span, decoded, hidden, refused
from generator.records.syntax import DEEPEST, TOO_DEEP, explain, rootless

_PARSER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_STYLES: dict[str, Any] = {"'": "quoted", '"': "quoted", "|": "block", ">": "folded"}

MOST_BYTES = 2_000_000
"""A record is some pages of text; a year of typing comes to less than this."""


@dataclass(frozen=True)
class Source:
    """One file as read.

    Attributes:
        path: The file.
        root: Its keys and values; None where there are faults.
        faults: What YAML itself or the characters of the file have against it.
        doubts: What may stay: a comment that looks like the end of a value, curly quotes round a value.
        lines: The file's lines without their ends.
        is_empty: Whether it holds nothing but comments, which is its fault.
    """

    path: Path
    root: Mapping | None
    faults: tuple[Fault, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    lines: tuple[str, ...] = field(default=(), repr=False)
    is_empty: bool = False


def read(path: Path) -> Source:
    """Read a record file.

    Args:
        path: The file; a relative path is taken from where the program stands.

    Returns:
        Its nodes, or its faults: one that cannot be opened, is far too long or not UTF-8 is a fault too.
    """
    path = path.absolute()
    data = content(path, MOST_BYTES)
    text = decoded(data, path) if isinstance(data, bytes) else data
    return Source(path, None, (text,)) if isinstance(text, Fault) else read_text(text, path)


def read_text(text: str, path: Path) -> Source:
    """Read the text of a record file.

    Args:
        text: The file's text; a byte order mark at its start and CRLF line ends are taken.
        path: The file that it is told to stand in.

    Returns:
        Its nodes, or its faults.
    """
    text = text.removeprefix("\ufeff")
    lines = tuple(line.removesuffix("\r") for line in text.split("\n"))
    first = refused(text, lines, path)
    if first is not None:
        return Source(path, None, (first,), lines=lines)
    builder = _Builder(path, lines)
    try:
        for event in _events(text):
            builder.take(event)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        unseen = next(hidden(lines, builder.spans, path, before=mark.line if mark else 0), None)
        return Source(path, None, (explain(error, lines, path, unseen),), lines=lines)
    except _TooDeep:
        return Source(path, None, (builder.faults[-1],), lines=lines)
    faults = (*hidden(lines, builder.spans, path), *builder.faults)
    root = builder.root
    if not faults and isinstance(root, Mapping):
        return Source(path, root, (), tuple(builder.doubts), lines)
    is_empty = not faults and (root is None or (isinstance(root, Scalar) and root.is_null))
    faults = faults or (rootless(root, path),)
    told = tuple(sorted(faults, key=lambda each: each.place))
    return Source(path, None, told, lines=lines, is_empty=is_empty)


def _events(text: str) -> Iterator[Any]:
    parser = _PARSER(text)
    try:
        while parser.check_event():
            yield parser.get_event()
    finally:
        parser.dispose()


class _TooDeep(Exception):
    """Nested deeper than any record is; reading stops at once."""


@dataclass
class _Open:
    """A mapping or list whose end has not come yet, and the key that waits for its value."""

    node: Mapping | Sequence
    key: str | None = None
    key_place: Place | None = None
    seen: dict[str, Place] = field(default_factory=dict)
    lost: bool = False


class _Builder:
    """Puts nodes together from the parser's events, on a stack of its own and not on Python's."""

    def __init__(self, path: Path, lines: tuple[str, ...]) -> None:
        self.path = path
        self.lines = lines
        self.root: Node | None = None
        self.faults: list[Fault] = []
        self.doubts: list[Doubt] = []
        self.spans: list[Span] = []
        self._stack: list[_Open] = []
        self._documents = 0

    def take(self, event: Any) -> None:
        """Take the next event."""
        if isinstance(event, yaml.ScalarEvent):
            self._refuse_marks(event)
            self._scalar(event)
        elif isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
            self._refuse_marks(event)
            self._opened(event)
        elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            self._stack.pop()
        elif isinstance(event, yaml.AliasEvent):
            self._fault(event, "a value that begins with '*' points at another in YAML; put it in quotes")
            self._put(Scalar("", self._place(event.start_mark), self._path()))
        elif isinstance(event, yaml.DocumentStartEvent):
            self._document(event)

    def _document(self, event: Any) -> None:
        self._documents += 1
        if event.version or event.tags:
            self._fault(event, "leave the lines out that begin with '%'; a record needs none")
        if self._documents > 1:
            self._fault(event, "a second document begins here; a file holds one record")

    def _refuse_marks(self, event: Any) -> None:
        if event.anchor is not None:
            self._fault(event, "a value that begins with '&' is an anchor in YAML; put it in quotes")
        if event.tag is not None:
            self._fault(event, "a value that begins with '!' is a tag in YAML; put it in quotes")

    def _fault(self, event: Any, what: str) -> None:
        self.faults.append(Fault(self._place(event.start_mark), self._path(), what))

    def _place(self, mark: Any) -> Place:
        line = min(mark.line, len(self.lines) - 1)
        return Place(self.path, line + 1, mark.column + 1, self.lines[line])

    def _path(self) -> str:
        if not self._stack:
            return ""
        top = self._stack[-1]
        own = (top.key or "") if isinstance(top.node, Mapping) else str(len(top.node) + 1)
        return ".".join(part for part in (top.node.path, own) if part)

    def _scalar(self, event: Any) -> None:
        top = self._stack[-1] if self._stack else None
        style = _STYLES.get(event.style or "", "plain")
        if style != "plain":
            start, end = event.start_mark, event.end_mark
            self.spans.append(((start.line, start.column), (end.line, end.column)))
        if top is not None and isinstance(top.node, Mapping) and top.key is None and not top.lost:
            self._key(top, event, style)
            return
        comment = self._comment(event) if style == "plain" else ""
        node = Scalar(event.value, self._place(event.start_mark), self._path(), style, comment)
        if style in {"block", "folded"}:
            self._set_block(node, event)
        elif node.is_null and top is not None and top.key_place is not None:
            node.place = top.key_place
        self._doubt(node)
        self._put(node)

    def _key(self, top: _Open, event: Any, style: str) -> None:
        key = unicodedata.normalize("NFC", event.value)
        place = self._place(event.start_mark)
        top.key, top.key_place = key, place
        same = key.casefold()
        # A plain no-break space is told with the other hidden signs of the file.
        usual = " \u00a0" if style == "plain" else " "
        odd = next((sign for sign in key if sign.isspace() and sign not in usual), "")
        if key == "<<" and style == "plain":
            self._fault(event, "'<<' takes keys over from elsewhere; write the keys out")
        elif not key:
            self._fault(event, "a key is missing before the colon")
        elif odd:
            self._fault(event, f"the key holds {code_point(odd)}; write a plain space or none")
        elif same in top.seen:
            first, second = top.seen[same].line, place.line
            where = f": at line {first} and at line {second}" if first < second else f" in line {first}"
            self._fault(event, f"this key is here twice{where}")
        else:
            top.seen[same] = place

    def _comment(self, event: Any) -> str:
        line = self.lines[min(event.end_mark.line, len(self.lines) - 1)]
        if "#" not in line:
            return ""
        rest = line[event.end_mark.column :]
        return rest if rest.lstrip().startswith("#") else ""

    def _set_block(self, node: Scalar, event: Any) -> None:
        first = event.start_mark.line + 1
        for row, text in enumerate(node.split("\n")):
            if text and first + row < len(self.lines):
                line = self.lines[first + row]
                spaces = len(line) - len(line.lstrip(" "))
                indent = len(line) - len(text) if node.style == "block" else spaces
                node.set_block(self.lines, first + 1, max(indent, 0))
                return
        node.set_block(self.lines, first + 1, 0)

    def _doubt(self, node: Scalar) -> None:
        if node.style != "plain" or not node:
            return
        comment = node.trailing_comment
        if comment[:2] == " #" and comment[2:3].strip("# "):
            what = (
                "what follows ' #' is a comment and no part of the value; quote the text if it belongs to it"
            )
            self.doubts.append(Doubt(node.place, node.path, what, found=node.text))
        elif node[0] in "“”„‟‘’" and node[-1] in "“”‟‘’":
            what = "curly quotes are part of the text; straight ones are what YAML takes for quotes"
            self.doubts.append(Doubt(node.place, node.path, what, found=node.text))

    def _opened(self, event: Any) -> None:
        place, path = self._place(event.start_mark), self._path()
        node = Mapping(place, path) if isinstance(event, yaml.MappingStartEvent) else Sequence(place, path)
        top = self._stack[-1] if self._stack else None
        if len(self._stack) >= DEEPEST:
            self._fault(event, TOO_DEEP)
            raise _TooDeep
        if top is not None and isinstance(top.node, Mapping) and top.key is None and not top.lost:
            self._fault(event, "a key is a text; a list or a mapping cannot be one")
            top.lost = True
        else:
            self._put(node)
        self._stack.append(_Open(node))

    def _put(self, node: Node) -> None:
        if not self._stack:
            if self.root is None:
                self.root = node
            return
        top = self._stack[-1]
        if isinstance(top.node, Sequence):
            top.node.append(node)
            return
        if top.key is not None and top.key_place is not None and top.key not in top.node:
            top.node[top.key] = node
            top.node.key_places[top.key] = top.key_place
        top.key, top.key_place, top.lost = None, None, False
