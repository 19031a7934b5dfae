"""Values as YAML text, as a careful person would type them, for this reader of YAML and for any other."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

WIDTH = 100
"""Characters of a line beyond which keys and values are written below one another."""

_STEP = 2

_PLAIN = re.compile(
    r"[^\W\d_](?:[\w ()/@.+*%°±²³·-]|:(?=\S))*|\d{1,9}(?:\.\d{1,9})? [^\W\d_](?:[\w/^·²³]| (?=\w))*"
)
"""What every reader takes for a text, in braces or out: words, a quantity; a number alone is one to some."""

_WORDS = frozenset(("y", "n", "yes", "no", "on", "off", "true", "false", "null"))
"""What some readers take for a truth value or for nothing, in capitals too."""

_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


@dataclass(frozen=True)
class Lines:
    """A text of several lines, written below `|`; none begins with a space or is empty."""

    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        """As it is read back."""
        return "".join(f"{line}\n" for line in self.lines)


@dataclass(frozen=True)
class OneLine:
    """A value that stands on one line in braces, however long that gets."""

    value: Mapping[str, Value] | Sequence[Value]


Value: TypeAlias = "str | Lines | OneLine | Mapping[str, Value] | Sequence[Value]"
"""What can be written: a text, a text of several lines, keys with values, a list."""


def scalar(text: str) -> str:
    """A text as a value or a key: bare where every reader takes it for this text, else in double quotes."""
    bare = _PLAIN.fullmatch(text) and not text.endswith((" ", ":")) and text.casefold() not in _WORDS
    if bare and text.isprintable():
        return text
    return '"' + "".join(_ESCAPES.get(sign) or _escaped(sign) for sign in text) + '"'


def _escaped(sign: str) -> str:
    if sign.isprintable():
        return sign
    code = ord(sign)
    if code > 0xFFFF:
        return f"\\U{code:08X}"
    return f"\\x{code:02X}" if code < 0x100 else f"\\u{code:04X}"


def in_braces(value: Value) -> str:
    """A value on one line: `{a: 1 mm, b: [c, d]}`.

    Raises:
        ValueError: It is a text of several lines, which has no place in braces.
    """
    match value:
        case str():
            return scalar(value)
        case Lines():
            raise ValueError("a text of several lines inside braces")
        case OneLine():
            return in_braces(value.value)
        case Mapping():
            return "{" + ", ".join(f"{scalar(key)}: {in_braces(each)}" for key, each in value.items()) + "}"
        case _:
            return "[" + ", ".join(in_braces(each) for each in value) + "]"


def below(key: str, value: Value, indent: int) -> list[str]:
    """The lines of a key with its value, for keys that stand below one another.

    Args:
        key: The key.
        value: Its value.
        indent: Spaces before the key.
    """
    lead, head = " " * indent, f"{scalar(key)}:"
    match value:
        case str():
            return [f"{lead}{head} {scalar(value)}"]
        case Lines(lines):
            return [f"{lead}{head} |", *(f"{lead}{' ' * _STEP}{line}" for line in lines)]
        case OneLine():
            return [f"{lead}{head} {in_braces(value)}"]
        case _ if (short := _short(value)) and indent + len(head) + 1 + len(short) <= WIDTH:
            return [f"{lead}{head} {short}"]
        case Mapping():
            return [f"{lead}{head}", *_keys(value, indent + _STEP)]
        case _:
            return [f"{lead}{head}", *(line for each in value for line in item(each, indent + _STEP))]


def item(value: Value, indent: int) -> list[str]:
    """The lines of one item of a list, its dash behind `indent` spaces."""
    lead = " " * indent
    flat = isinstance(value, Mapping) and all(isinstance(each, str) for each in value.values())
    if isinstance(value, str) or flat:
        line = f"{lead}- {in_braces(value)}"
        if len(line) <= WIDTH or isinstance(value, str):
            return [line]
    if not isinstance(value, Mapping):
        return [f"{lead}- {in_braces(value)}"]
    first, *rest = _keys(value, indent + _STEP)
    return [f"{lead}- {first.lstrip(' ')}", *rest]


def document(record: Mapping[str, Value]) -> str:
    """A whole record of its own, a key a line."""
    return "".join(f"{line}\n" for line in _keys(record, 0))


def _keys(value: Mapping[str, Value], indent: int) -> list[str]:
    return [line for key, each in value.items() for line in below(key, each, indent)]


def _short(value: Mapping[str, Value] | Sequence[Value]) -> str:
    """A value of texts alone on one line; empty where it holds more, and is written below its key."""
    inside = list(_values(value))
    if inside and not all(isinstance(each, str) for each in inside):
        return ""
    return in_braces(value)


def _values(value: Mapping[str, Value] | Sequence[Value]) -> Iterator[Value]:
    yield from value.values() if isinstance(value, Mapping) else value
