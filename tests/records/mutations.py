"""Slips of the hand, of an editor and of a disk, made from a seed in the bytes of good records."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

TOKEN = re.compile(rb"[A-Za-z0-9.+-]+|[^\sA-Za-z0-9]")
SIGNS = b":-?#|>{}[],&*!%@`\"'\\ \t\n~=<.0123456789abc\x00\x1b\x85\xa0\xc2\xe2\xff"


def seeded(name: str) -> random.Random:
    """Chance that is the same on every machine and in every run."""
    return random.Random(name)  # noqa: S311


Change = Callable[[random.Random, bytes, bytes], bytes]


def byte_changed(chance: random.Random, data: bytes, _: bytes) -> bytes:
    at = chance.randrange(len(data) + 1)
    put = bytes([chance.choice(SIGNS)])
    return data[:at] + put + data[at + chance.randrange(2) :]


def byte_lost(chance: random.Random, data: bytes, _: bytes) -> bytes:
    at = chance.randrange(len(data))
    return data[:at] + data[at + chance.randrange(1, 4) :]


def line_lost(chance: random.Random, data: bytes, _: bytes) -> bytes:
    lines = data.splitlines(keepends=True)
    del lines[chance.randrange(len(lines))]
    return b"".join(lines)


def line_twice(chance: random.Random, data: bytes, _: bytes) -> bytes:
    lines = data.splitlines(keepends=True)
    at = chance.randrange(len(lines))
    lines.insert(chance.choice([at, len(lines)]), lines[at])
    return b"".join(lines)


def lines_swapped(chance: random.Random, data: bytes, _: bytes) -> bytes:
    lines = data.splitlines(keepends=True)
    one, two = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[two] = lines[two], lines[one]
    return b"".join(lines)


def indent_changed(chance: random.Random, data: bytes, _: bytes) -> bytes:
    lines = data.splitlines(keepends=True)
    at = chance.randrange(len(lines))
    lines[at] = (
        chance.choice([b"  ", b" ", b"\t", b"\xc2\xa0"]) + lines[at]
        if chance.randrange(2)
        else lines[at].lstrip(b" ")
    )
    return b"".join(lines)


def token_of_another(chance: random.Random, data: bytes, other: bytes) -> bytes:
    mine = list(TOKEN.finditer(data))
    theirs: list[bytes] = TOKEN.findall(other)
    if not mine or not theirs:
        return data
    at = chance.choice(mine)
    return data[: at.start()] + chance.choice(theirs) + data[at.end() :]


def tokens_swapped(chance: random.Random, data: bytes, _: bytes) -> bytes:
    found = list(TOKEN.finditer(data))
    if len(found) < 2:
        return data
    one, two = sorted(chance.sample(found, 2), key=lambda each: each.start())
    middle = data[one.end() : two.start()]
    return b"".join((data[: one.start()], two.group(), middle, one.group(), data[two.end() :]))


def cut_off(chance: random.Random, data: bytes, _: bytes) -> bytes:
    return data[: chance.randrange(len(data))]


CHANGES: tuple[Change, ...] = (
    byte_changed,
    byte_lost,
    line_lost,
    line_twice,
    lines_swapped,
    indent_changed,
    token_of_another,
    tokens_swapped,
    cut_off,
)


def mutated(chance: random.Random, data: bytes, other: bytes) -> bytes:
    """One slip, now and then two or three."""
    for _ in range(chance.choice([1, 1, 1, 1, 2, 3])):
        if data.strip():
            data = chance.choice(CHANGES)(chance, data, other)
    return data
