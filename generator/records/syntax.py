"""What stops YAML from reading a line, in the words of someone who writes records by hand."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeAlias

from generator.fault import Fault, Place
from generator.records.nodes import Node, Scalar
from generator.records.nodes import Sequence as ListNode

# What was found, and the line and column from 0 that it is told at.
_Told: TypeAlias = tuple[str, int, int]

_BLOCK = re.compile(r"( *)(?:- +)*(?:[^\s#][^#]*?): +[|>][-+0-9]*(?: +#.*)?$")
_ROW = re.compile(r"[|\t]|^\s*$")
_KEYED = re.compile(r" *(?:- +)*[^\s:#\"'][^:#]*:(?=\S)")
_LISTED = re.compile(r" *-[^\s-]")


def explain(error: Any, lines: Sequence[str], path: Path, unseen: Fault | None = None) -> Fault:
    """Put a fault of YAML itself into plain words.

    Args:
        error: What the parser raised, with its marks.
        lines: The file's lines.
        path: The file.
        unseen: A tab or an invisible sign before the place, which then is the likely cause.

    Returns:
        One fault with its place inside the file. The words come from the lines and from which kind of problem
        it is, so that both parsers, the C one and the Python one, are told alike.
    """
    problem = _at(error.problem_mark or error.context_mark, lines)
    context = _at(error.context_mark, lines) if error.context_mark else problem
    said = f"{error.context or ''} | {error.problem or ''}"
    told = _loose_rows(problem, context, lines)
    if told is None and unseen is not None:
        return unseen
    for words, tell in _KINDS:
        if told is None and any(word in said for word in words):
            told = tell(problem, context, lines)
    what, line, column = told or (_OTHER, *problem)
    return Fault(_place(path, lines, line, column), "", what)


def rootless(root: Node | None, path: Path) -> Fault:
    """The fault of a file whose whole is not a mapping of keys and values."""
    if root is None or (isinstance(root, Scalar) and root.is_null):
        return Fault(Place(path), "", "the file is empty; a record has keys and values")
    if isinstance(root, ListNode):
        return Fault(root.place, "", "the file is a list; a record has keys and values, a line each")
    if isinstance(root, Scalar) and _KEYED.match(root):
        return Fault(root.place, "", _SPACE_AFTER_COLON)
    return Fault(root.place, "", "the file is one text; a record has keys and values, a line each")


DEEPEST = 40
TOO_DEEP = f"nested deeper than {DEEPEST} levels"
_OTHER = "this does not fit what stands above it; look at the indent, the colons and the quotes"
_SPACE_AFTER_COLON = "a space is missing after the colon"


def _at(mark: Any, lines: Sequence[str]) -> tuple[int, int]:
    """The mark's line and column, moved back from an empty end of the file to its last written line."""
    line, column = int(mark.line), int(mark.column)
    if line < len(lines) and lines[line].strip():
        return line, min(column, len(lines[line]))
    line = min(line, len(lines) - 1)
    while line > 0 and not lines[line].strip():
        line -= 1
    return line, len(lines[line])


def _place(path: Path, lines: Sequence[str], line: int, column: int) -> Place:
    return Place(path, line + 1, column + 1, lines[line])


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _loose_rows(problem: tuple[int, int], context: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    """Rows of a table that stand no deeper than its key, or less deep than the rows before them."""
    for row in sorted({problem[0], context[0]}):
        head = row
        while head > 0 and not _BLOCK.match(lines[head]) and (head == row or _ROW.search(lines[head])):
            head -= 1
        opened = _BLOCK.match(lines[head])
        if opened is None or head >= row:
            continue
        first = next(line for line in range(head + 1, len(lines)) if lines[line].strip())
        if lines[first].lstrip(" ").startswith("\t"):
            continue
        key = lines[head].strip()
        if _indent(lines[first]) <= len(opened.group(1)):
            return f"the rows under '{key}' must stand deeper; put two spaces before each", first, 0
        if _indent(lines[row]) < _indent(lines[first]):
            return f"this row stands less deep than the first one under '{key}'", row, _indent(lines[row])
    return None


def _first_sign(problem: tuple[int, int], context: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    for line, column in (context, problem):
        sign = lines[line][column : column + 1]
        if sign == "%" and column == 0:
            return "a line cannot begin with '%'", line, column
        if sign and sign in ">|%@`*&!?,]}":
            quoted = _quoted(lines, line, column)
            over = re.match(r">\s*([\d.].*)", quoted.strip("\"'"))
            other = f", or: over {over[1]}" if over else ""
            return f"a value that begins with '{sign}' must stand in quotes: {quoted}{other}", line, column
    return None


def _quoted(lines: Sequence[str], line: int, column: int) -> str:
    before, rest = lines[line][:column], lines[line][column:].rstrip()
    if before.count("{") > before.count("}") or before.count("[") > before.count("]"):
        rest = re.split(r"[,\]}]", rest, maxsplit=1)[0]
    return f"'{rest}'" if '"' in rest else f'"{rest}"'


def _directive(problem: tuple[int, int], _: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    line = next((row for row in range(problem[0] + 1) if lines[row].startswith("%")), None)
    return None if line is None else ("a line cannot begin with '%'", line, 0)


def _colon(problem: tuple[int, int], _: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    line, column = problem
    before = lines[line][:column]
    if ": " in before:
        start = before.index(": ") + 2
        start += _indent(lines[line][start:])
        return f"a colon inside a text; put it in quotes: {_quoted(lines, line, start)}", line, column
    above = next((row for row in range(line - 1, -1, -1) if lines[row].strip()), None)
    if above is not None and _KEYED.match(lines[above]):
        return _SPACE_AFTER_COLON, above, lines[above].index(":")
    return (
        "this key stands deeper than the one above it, which has a value already",
        line,
        _indent(lines[line]),
    )


def _dash(problem: tuple[int, int], _: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    line, column = problem
    rest = lines[line][column + 1 :].strip()
    if re.match(r"[\d.]", rest):
        return f"'-' and a space begin a list; a number below nought is written -{rest}", line, column
    return (
        f"'-' and a space begin a list; put the text in quotes: {_quoted(lines, line, column)}",
        line,
        column,
    )


def _keyless(_: tuple[int, int], context: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    line, column = context
    if _KEYED.match(lines[line]):
        return _SPACE_AFTER_COLON, line, lines[line].index(":")
    if _LISTED.match(lines[line]):
        return "a space is missing after the dash", line, lines[line].index("-")
    return (
        "this line is neither 'key: value' nor '- value'; a text over several lines needs an indent",
        line,
        column,
    )


def _open_quote(_: tuple[int, int], context: tuple[int, int], _lines: Sequence[str]) -> _Told | None:
    return "the quote that opens here is not closed", *context


def _escape(problem: tuple[int, int], _: tuple[int, int], _lines: Sequence[str]) -> _Told | None:
    return "a backslash means something else inside double quotes; use single quotes", *problem


def _open_list(problem: tuple[int, int], context: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    line, column = context
    sign = lines[line][column : column + 1]
    if sign not in {"[", "{"}:
        return None
    close = "]" if sign == "[" else "}"
    if problem[0] == line:
        return f"a comma or '{close}' is missing, or a text here needs quotes", *problem
    return f"'{sign}' is not closed with '{close}', or a comma is missing after it", line, column


def _misplaced(problem: tuple[int, int], _: tuple[int, int], lines: Sequence[str]) -> _Told | None:
    line, column = problem
    before = lines[line][:column].rstrip()
    if lines[line][column : column + 1] == ":" and not before.strip(" -"):
        return "a key is missing before the colon", line, column
    if before.endswith(('"', "'")):
        return "text after a closing quote; inside quotes use the other kind of quote", line, column
    if before.endswith(("]", "}")):
        return f"text after '{before[-1]}'; put the whole in quotes if it is one text", line, column
    if before.strip():
        return None
    ends = next((row for row in (line, line - 1) if row >= 0 and lines[row].rstrip() == "..."), None)
    if ends is not None:
        return "'...' ends a record in YAML; take the line out", ends, 0
    return "this line is indented neither like the one above it nor like its key", line, column


_Tell: TypeAlias = Callable[[tuple[int, int], tuple[int, int], Sequence[str]], "_Told | None"]


def _too_deep(problem: tuple[int, int], _: tuple[int, int], _lines: Sequence[str]) -> _Told | None:
    return TOO_DEEP, *problem


# In this order; the words are those that the two parsers have in common.
_KINDS: tuple[tuple[tuple[str, ...], _Tell], ...] = (
    (("scanning a block scalar", "cannot start any token", "scanning an alias"), _first_sign),
    (("scanning an anchor", "scanning a tag", "mapping keys are not"), _first_sign),
    (("node content",), _first_sign),
    (("directive", "document start"), _directive),
    (("nesting depth",), _too_deep),
    (("mapping values are not allowed",), _colon),
    (("sequence entries are not allowed",), _dash),
    (("could not find expected ':'",), _keyless),
    (("unexpected end of stream",), _open_quote),
    (("unknown escape", "hexdecimal", "hexadecimal"), _escape),
    (("a flow sequence", "a flow mapping"), _open_list),
    (("did not find expected", "expected <block end>", "node content"), _misplaced),
)
