"""Canonical content → `1:<SHA-256>`: what a published edition rests on must stay as it was.

Algorithm 1 works on nodes, never on models, so that new fields and defaults change nothing:

- a mapping is its pairs, sorted by key;
- a list is its items, in order;
- a scalar is its text when YAML's quotes are off: NFC, without blanks at the end of its lines and without
  line ends at its own. Digits are data, so `41.0` and `41` differ, while `30 A` and `"30 A"` do not;
- a table (several lines under `readings`, `table` or `results`) is its rows, each its cells, trimmed; blank
  lines are left out, and what stands behind `!` is a mapping more in the row. A CSV file is the same;
- a photo or a meter's file is its bytes.

All but bytes as JSON in UTF-8, without spaces and without escapes that need not be. An algorithm that a
release has written is never changed or taken out: another gets another number. So nothing here leans on the
readers of records, which may learn to take more.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from hashlib import sha256
from typing import TypeAlias
from unicodedata import normalize

from generator.records.nodes import Mapping, Node, Sequence

ALGORITHM = "1"

TABLES = frozenset({"readings", "table", "results"})
"""Keys under which several lines are a table."""

EXCLUDED = "!"
"""What parts a row from the reason for which it counts for nothing."""

Canonical: TypeAlias = "str | list[Canonical] | dict[str, Canonical]"
Row: TypeAlias = "list[Canonical]"

ROWS = "rows"
"""What a file that is one table is marked by."""

_MARK = 8
_ROW_MARK = 4


def canonical(node: Node, key: str = "") -> Canonical:
    """The canonical content of a node.

    Args:
        node: As read from a file.
        key: The key that it stands under; empty for a whole file and in a list.
    """
    if isinstance(node, Mapping):
        return {_nfc(name): canonical(each, name) for name, each in node.items()}
    if isinstance(node, Sequence):
        return [canonical(each) for each in node]
    text = node.text
    if key in TABLES and "\n" in text:
        return [row for _, row in rows(text)]
    return "\n".join(line.rstrip(" \t\r") for line in _nfc(text).split("\n")).rstrip("\n")


def keys_of(content: Canonical | None) -> dict[str, Canonical]:
    """The keys of a content with what stands under them; none of what has no keys."""
    return content if isinstance(content, dict) else {}


def rows(text: str) -> Iterator[tuple[int, Row]]:
    """The rows of a table inside a record, its header first, each with its line from 0."""
    for number, line in enumerate(text.split("\n")):
        if line.strip():
            kept, mark, reason = line.partition(EXCLUDED)
            yield number, _row(kept.split("|" if "|" in line else "\t"), mark, reason)


def csv_rows(data: bytes) -> Iterator[tuple[int, Row]]:
    """The rows of a CSV file, its header first, each with its line from 0; quotes round cells are off."""
    lines = data.decode("utf-8-sig", "surrogateescape").split("\n")
    header = next((line for line in lines if line.strip()), "")
    sign = next((each for each in "|\t;," if each in header), ",")
    for number, line in enumerate(lines):
        if line.strip():
            kept, mark, reason = line.partition(EXCLUDED)
            yield number, _row(_parted(kept, sign), mark, reason)


def _parted(line: str, sign: str) -> list[str]:
    cells, quoted = [""], False
    for each in line:
        if each == '"':
            quoted = not quoted
        elif each == sign and not quoted:
            cells.append("")
        else:
            cells[-1] += each
    return cells


def _row(cells: list[str], mark: str, reason: str) -> Row:
    row: Row = [_nfc(cell.strip()) for cell in cells]
    return [*row, {EXCLUDED: _nfc(reason.strip())}] if mark else row


def _nfc(text: str) -> str:
    return normalize("NFC", text)


def fingerprint(content: Canonical | bytes) -> str:
    """The fingerprint of canonical content, or of a file's bytes: `1:` and 64 hexadecimal digits."""
    return f"{ALGORITHM}:{_digest(content)}"


def _digest(content: Canonical | bytes) -> str:
    if isinstance(content, bytes):
        return sha256(content).hexdigest()
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return sha256(text.encode("utf-8", "surrogateescape")).hexdigest()


def marks(content: Canonical, depth: int = 1) -> dict[str, str]:
    """Short fingerprints of the parts of a content, which tell later which part is another.

    Args:
        content: A mapping, or the rows of a table.
        depth: How many keys deep the parts are told apart.

    Returns:
        Keys down to each part, joined by dots, and the beginning of its fingerprint; of a table that of each
        row, parted by blanks. A content that is one table has them under `rows`.
    """
    return {name or ROWS: mark for name, mark in _marks(content, depth)}


def _marks(content: Canonical, depth: int) -> Iterator[tuple[str, str]]:
    if isinstance(content, dict) and depth:
        for key, each in content.items():
            yield from ((f"{key}.{name}" if name else key, mark) for name, mark in _marks(each, depth - 1))
    elif isinstance(content, list) and content and all(isinstance(each, list) for each in content):
        yield "", " ".join(_digest(row)[:_ROW_MARK] for row in content)
    else:
        yield "", _digest(content)[:_MARK]
