"""Records written otherwise that mean the same: keys turned round, comments, line ends, quotes, tables."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Literal

import yaml

Quotes = Literal["plain", "single", "double"]

_PLAIN = re.compile(r"[A-Za-z](?:[\w .()/%+-]*[\w.)%])?")
"""What needs no quotes, in a list or map on one line either."""

_TAKEN = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n"})
"""Words that mean something else without quotes, in whatever case; a record writes the first two so."""


def turned(data: bytes) -> bytes:
    """A record with other line ends, a mark before all, comments, keys turned round."""
    text = data.decode().replace("\r\n", "\n")
    blocks = [each for each in re.split(r"(?m)^(?=[a-z])", text) if each.strip()]
    head = [each for each in blocks if each.startswith("#")]
    keys = [each if each.endswith("\n") else f"{each}\n" for each in blocks if not each.startswith("#")]
    made = "# Looked at again.\n" + "".join(reversed(keys)) + "".join(head)
    return b"\xef\xbb\xbf" + made.replace("\n", "\r\n").encode()


def quoted(data: bytes, quotes: Quotes) -> bytes:
    """A record with its texts, keys among them, in other quotes, or without where none are needed."""
    text = data.decode()
    parts, at = [], 0
    for token in yaml.scan(text, yaml.SafeLoader):
        if isinstance(token, yaml.ScalarToken) and token.style not in ("|", ">") and _may_change(token):
            parts += [text[at : token.start_mark.index], _WAYS[quotes](token.value)]
            at = token.end_mark.index
    return "".join([*parts, text[at:]]).encode()


def _may_change(token: yaml.ScalarToken) -> bool:
    """Not what stands for a truth value or for nothing, and no text of several lines."""
    stands_for_itself = not token.plain or (token.value and token.value.lower() not in _TAKEN)
    return (
        bool(stands_for_itself) and "\n" not in token.value and token.start_mark.line == token.end_mark.line
    )


def _single(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def _double(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _plain(text: str) -> str:
    return text if _PLAIN.fullmatch(text) and text.lower() not in _TAKEN else _double(text)


_WAYS: dict[Quotes, Callable[[str], str]] = {"plain": _plain, "single": _single, "double": _double}

TABLES: dict[str, Callable[[bytes], bytes]] = {
    "no line end at the end": lambda data: data.rstrip(b"\n"),
    "empty lines at the end": lambda data: data + b"\n\n",
    "CRLF": lambda data: data.replace(b"\n", b"\r\n"),
    "a mark before all": lambda data: b"\xef\xbb\xbf" + data,
    "semicolons": lambda data: data.replace(b",", b";"),
    "quotes": lambda data: re.sub(rb"[^,\n]+", lambda cell: b'"' + cell[0] + b'"', data),
    "blanks": lambda data: data.replace(b",", b" , "),
}
"""Ways to write the same CSV file of numbers."""
