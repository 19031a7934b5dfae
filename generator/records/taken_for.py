"""Doubts about signs that were read as others: what a person typed and what was taken for it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Doubt
from generator.records.lookalikes import taken_for
from generator.records.nodes import Scalar


def signs_of(node: Scalar) -> Iterator[Doubt]:
    """A doubt for each sign of a value that was read as another."""
    for at, what in taken_for(node.text):
        yield Doubt(node.within(0, at), node.path, what, node.text)


def signs_of_table(block: Scalar) -> Iterator[Doubt]:
    """The same of a table, each sign where it stands first; reasons of exclusion are prose and left alone."""
    if block.isascii():
        return
    kept = "\n".join(line.partition("!")[0] for line in block.split("\n"))
    for at, what in taken_for(kept):
        row, column = kept.count("\n", 0, at), at - (kept.rfind("\n", 0, at) + 1)
        more = kept.count(kept[at]) - 1
        told = f"{what}; and {more} more like it" if more else what
        yield Doubt(block.within(row, column), block.path, told)
