"""What a record file is read into: texts, lists and mappings that know where they stand."""

from __future__ import annotations

from collections.abc import Sequence as AnySequence
from typing import Literal, TypeAlias

from generator.fault import Place

Style: TypeAlias = Literal["plain", "quoted", "block", "folded"]

NULLS = frozenset({"", "~", "null", "Null", "NULL"})
"""The nulls of YAML's core schema, plus the empty value."""


class Scalar(str):
    """A text as it stands in the file, after YAML's quotes are taken off and before any type is read into it.

    Attributes:
        place: Where it begins; of a block, the `|` in its first line; of an empty value, its key.
        path: Keys down to it, joined by dots; items of a list are counted from 1.
        style: How it is written: `block` is `|`, `folded` is `>`.
        first_line: Of a block, the file's line of its first line; else the line of `place`.
        indent: Of a block, the spaces that YAML took off each line.
        trailing_comment: The comment straight after an unquoted value, with its `#`; else empty.
    """

    __slots__ = ("_lines", "first_line", "indent", "path", "place", "style", "trailing_comment")

    place: Place
    path: str
    style: Style
    first_line: int
    indent: int
    trailing_comment: str

    def __new__(
        cls, text: str, place: Place, path: str = "", style: Style = "plain", trailing_comment: str = ""
    ) -> Scalar:
        """Make a text; a block is told its lines afterwards by `set_block`."""
        made = super().__new__(cls, text)
        made.place = place
        made.path = path
        made.style = style
        made.first_line = place.line
        made.indent = 0
        made.trailing_comment = trailing_comment
        made._lines = ()
        return made

    def set_block(self, lines: AnySequence[str], first_line: int, indent: int) -> None:
        """Tell a block where its lines stand.

        Args:
            lines: All lines of the file.
            first_line: The file's line, from 1, of the block's first line.
            indent: Spaces that stand before each line of the block.
        """
        self._lines = lines
        self.first_line = first_line
        self.indent = indent

    @property
    def text(self) -> str:
        """The text itself as a plain string."""
        return str.__str__(self)

    @property
    def is_null(self) -> bool:
        """Whether there is no value: nothing after the colon, `~` or an unquoted `null`."""
        return self.style == "plain" and self in NULLS

    def within(self, row: int, column: int) -> Place:
        """The place of a character inside the text.

        Args:
            row: Line of the text, from 0.
            column: Character of that line, from 0.
        """
        if self.style not in {"block", "folded"}:
            start = self.place.column + column + (self.style == "quoted")
            return Place(self.place.file, self.place.line, start, self.place.text)
        line = self.first_line + row
        if line > len(self._lines):
            return self.place
        return Place(self.place.file, line, self.indent + column + 1, self._lines[line - 1])


class Mapping(dict[str, "Node"]):
    """Keys and values in the order of the file.

    Attributes:
        place: Where it begins: its first key, or its `{`.
        path: Keys down to it, joined by dots; empty for a whole file.
        key_places: Where each key stands.
    """

    __slots__ = ("key_places", "path", "place")

    def __init__(self, place: Place, path: str = "") -> None:
        super().__init__()
        self.place = place
        self.path = path
        self.key_places: dict[str, Place] = {}


class Sequence(list["Node"]):
    """A list in the order of the file.

    Attributes:
        place: Where it begins: its first dash, or its `[`.
        path: Keys down to it, joined by dots.
    """

    __slots__ = ("path", "place")

    def __init__(self, place: Place, path: str = "") -> None:
        super().__init__()
        self.place = place
        self.path = path


Node: TypeAlias = Scalar | Mapping | Sequence
