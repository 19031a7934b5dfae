"""Changes of a few lines of a record: comments, order, quotes, line ends, every other line stay as they are.

What comes out is read again and compared, value by value, with what was meant, before anyone may write it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import yaml

from generator.fault import Fault, Place
from generator.records.changes import Change, Drop, EditRefused, Insert, Put, meaning, meant, nfc
from generator.records.nodes import NULLS
from generator.records.signs import decoded
from generator.records.source import read_text
from generator.records.writer import Lines, Value, below, in_braces, item

_PARSER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_BOM = "\ufeff"
_HEADER = re.compile(r"[|>][-+0-9]*")


def edited(data: bytes, path: Path, changes: Iterable[Change]) -> bytes:
    """The bytes of a record after some changes.

    Args:
        data: Its bytes.
        path: Its file, for messages; it is neither read nor written.
        changes: What to change, one after the other.

    Raises:
        EditRefused: It is no sound YAML of ours, or a change has no place in it.
    """
    text = decoded(data, path)
    if isinstance(text, Fault):
        raise EditRefused([text])
    said = _said(text, path)
    for change in changes:
        page = _Page(text, path)
        page.take(change)
        text, said = page.text, meant(said, change)
        if _said(text, path) != said:
            raise page.refused(change, 0)
    mark = _BOM if data.startswith(_BOM.encode()) else ""
    return (mark + text).encode()


def _said(text: str, path: Path) -> dict[str, Any]:
    source = read_text(text, path)
    if source.root is None:
        raise EditRefused(source.faults)
    said = meaning(source.root)
    return said if isinstance(said, dict) else {}


class _Page:
    """The text of a record, and where its values begin and end."""

    def __init__(self, text: str, path: Path) -> None:
        self.text = text
        self.path = path
        self._lines = _lines(text)
        self._starts = [0]
        for line in self._lines:
            self._starts.append(self._starts[-1] + len(line))

    def refused(self, change: Change, line: int) -> EditRefused:
        """That a change has no place, told where its place would be."""
        name = ".".join(change.path)
        what = f"this is written so that `{name}` cannot be put in by a program; write it by hand"
        text = self._lines[line].rstrip("\r\n") if line < len(self._lines) else ""
        return EditRefused([Fault(Place(self.path, line + 1, 1, text), "", what)])

    def take(self, change: Change) -> None:
        """Make a change."""
        above: Any = yaml.compose(self.text, Loader=_PARSER)
        for depth, key in enumerate(change.path):
            pair = _pair(above, key)
            value: Any = pair[1] if pair else None
            missing = pair is None or _is_nothing(value)
            if missing or depth == len(change.path) - 1:
                break
            if not isinstance(value, yaml.MappingNode):
                raise self.refused(change, value.start_mark.line)
            above = value
        if isinstance(change, Drop):
            self._drop(change, above if missing else value)
        elif missing:
            self._put(change, above, pair, key, _nested(change, depth))
        elif isinstance(change, Insert):
            self._insert(change, value)
        else:
            self._put(change, above, pair, key, change.value)

    def _put(self, change: Put | Insert, above: Any, pair: Any, key: str, value: Value) -> None:
        if above.flow_style:
            self._in_braces(change, above, pair, key, value)
            return
        column = above.start_mark.column
        first, *rest = below(key, value, column)
        if pair is None:
            known = [each for each in above.value if each[0].value in change.behind]
            ahead = (known or above.value)[-1]
            self._add_lines(self._last_line(ahead[1], column), [first, *rest])
            return
        if not isinstance(pair[1], yaml.ScalarNode):
            raise self.refused(change, pair[0].start_mark.line)
        head = below(key, "x", column)[0].removesuffix(" x")
        self._replace(pair, column, first.removeprefix(head).lstrip(" "), rest)

    def _replace(self, pair: Any, column: int, instead: str, rest: list[str]) -> None:
        """Put another value in place of a text: what stands behind its colon, and the lines below."""
        start, end = self._span(pair)
        if start == end and instead:
            instead = f" {instead}"
        elif not instead and self.text[start - 1] == " ":
            start -= 1
        last = self._last_line(pair[1], column)
        line = self._line_of(end)
        below_it = self._starts[line + 1]
        kept = self.text[end:below_it]
        new = "".join(f"{each}{self._end(line)}" for each in rest)
        if rest and not kept.endswith("\n"):
            kept += self._end(line)
        after = max(self._starts[last + 1], below_it)
        self.text = self.text[:start] + instead + kept + new + self.text[after:]

    def _span(self, pair: Any) -> tuple[int, int]:
        """Where a text begins and ends; of a block its header, of nothing the place behind the colon."""
        key, value = pair
        start, end = self._at(value.start_mark), self._at(value.end_mark)
        if value.style in {"|", ">"}:
            found = _HEADER.match(self.text, start)
            return start, found.end() if found else start
        if value.value == "" and not value.style:
            behind = self._at(key.end_mark)
            colon = self.text.find(":", behind)
            return (colon + 1, colon + 1) if not self.text[behind:colon].strip() else (behind, behind)
        return start, end

    def _in_braces(self, change: Put | Insert, above: Any, pair: Any, key: str, value: Value) -> None:
        try:
            told = in_braces({key: value})[1:-1]
            alone = in_braces(value)
        except ValueError:
            raise self.refused(change, above.start_mark.line) from None
        if pair is not None and not isinstance(pair[1], yaml.ScalarNode):
            raise self.refused(change, pair[0].start_mark.line)
        if pair is not None:
            start, end = self._span(pair)
            self.text = self.text[:start] + (" " if start == end else "") + alone + self.text[end:]
        elif above.value:
            known = [each for each in above.value if each[0].value in change.behind]
            self._add_at(self._at((known or above.value)[-1][1].end_mark), f", {told}")
        else:
            self._add_at(self._at(above.start_mark) + 1, told)

    def _insert(self, change: Insert, into: Any) -> None:
        if not isinstance(into, yaml.SequenceNode):
            raise self.refused(change, into.start_mark.line)
        at = len(into.value) if change.at is None else change.at
        if into.flow_style:
            if isinstance(change.value, Lines):
                raise self.refused(change, into.start_mark.line)
            told = in_braces(change.value)
            if at == 0:
                self._add_at(self._at(into.start_mark) + 1, f"{told}, " if into.value else told)
            else:
                self._add_at(self._at(into.value[at - 1].end_mark), f", {told}")
            return
        column = into.start_mark.column
        ahead = self._last_line(into.value[at - 1], column) if at else into.start_mark.line - 1
        self._add_lines(ahead, item(change.value, column))

    def _drop(self, change: Drop, of: Any) -> None:
        if not isinstance(of, yaml.SequenceNode) or len(of.value) < 2:
            raise self.refused(change, of.start_mark.line)
        if of.flow_style:
            self._drop_between(of.value, change.at)
            return
        column, gone = of.start_mark.column, of.value[change.at]
        first = gone.start_mark.line
        while self._lines[first][column : column + 1] != "-":
            first -= 1
        last = self._last_line(gone, column)
        self.text = self.text[: self._starts[first]] + self.text[self._starts[last + 1] :]

    def _drop_between(self, items: list[Any], at: int) -> None:
        """Take an item out of a list in brackets, with the comma behind or before it."""
        if at < len(items) - 1:
            start, end = items[at].start_mark, items[at + 1].start_mark
        else:
            start, end = items[at - 1].end_mark, items[at].end_mark
        self.text = self.text[: self._at(start)] + self.text[self._at(end) :]

    def _add_at(self, offset: int, text: str) -> None:
        self.text = self.text[:offset] + text + self.text[offset:]

    def _add_lines(self, ahead: int, new: list[str]) -> None:
        """Put lines behind a line of the text."""
        offset, end = self._starts[ahead + 1], self._end(max(ahead, 0))
        lead = "" if offset == 0 or self.text[offset - 1] == "\n" else end
        self._add_at(offset, lead + "".join(f"{each}{end}" for each in new))

    def _last_line(self, node: Any, column: int) -> int:
        """The last line of a value, comments and blank lines behind it left out.

        Args:
            node: The value.
            column: Where the key or the dash stands that it belongs to.
        """
        if isinstance(node, yaml.ScalarNode) and node.style in {"|", ">"}:
            return self._last_of_block(node, column)
        if isinstance(node, yaml.ScalarNode) or node.flow_style:
            return int(node.end_mark.line)
        last = node.value[-1]
        inner = last[1] if isinstance(last, tuple) else last
        return self._last_line(inner, node.start_mark.column)

    def _last_of_block(self, node: Any, column: int) -> int:
        header = node.start_mark.line
        last, inside = header, 0
        for number in range(header + 1, len(self._lines)):
            line = self._lines[number].rstrip("\r\n")
            if not line.strip():
                continue
            indent = len(line) - len(line.lstrip(" "))
            inside = inside or indent
            if indent <= column or indent < inside:
                break
            last = number
        keeps = "+" in self._lines[header][node.start_mark.column :].split("#")[0]
        return int(max(last, node.end_mark.line - 1) if keeps else last)

    def _end(self, line: int) -> str:
        """The line end that is usual there."""
        known = next((each for each in (self._lines[line], self._lines[0]) if each.endswith("\n")), "\n")
        return "\r\n" if known.endswith("\r\n") else "\n"

    def _at(self, mark: Any) -> int:
        return int(self._starts[mark.line] + mark.column)

    def _line_of(self, offset: int) -> int:
        return max(self.text.count("\n", 0, offset), 0)


def _lines(text: str) -> list[str]:
    """Lines with their ends, which are line feeds, whatever else a library takes for one."""
    return re.findall(r"[^\n]*\n|[^\n]+$", text)


def _pair(above: Any, key: str) -> Any:
    return next((each for each in above.value if nfc(str(each[0].value)) == nfc(key)), None)


def _is_nothing(node: Any) -> bool:
    return isinstance(node, yaml.ScalarNode) and not node.style and node.value in NULLS


def _nested(change: Put | Insert, depth: int) -> Value:
    """The value of the change inside the keys that are missing on its way."""
    value: Value = change.value if isinstance(change, Put) else [change.value]
    for key in reversed(change.path[depth + 1 :]):
        value = {key: value}
    return value
