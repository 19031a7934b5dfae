"""A file that an edition rests on → the canonical content of what it rests on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from typing import TypeAlias

from generator.fault import Fault
from generator.records import nodes
from generator.records.covered import Read, of_instrument, of_sitting, of_table
from generator.records.files import CSV_ENDING, content
from generator.records.fingerprint import Canonical, Row, canonical, csv_rows, fingerprint, rows
from generator.records.tree import kind_of

NodeOf: TypeAlias = Callable[[Path], nodes.Mapping | None]
"""The nodes of a record by its path; None where there is none, or it cannot be read."""

MOST_BYTES = 50_000_000
"""Of a photo or a file of readings; those of a camera as it is come to less."""

DEPTH: Mapping[str, int] = {"sittings": 2}
"""How many keys deep the parts of a record are told apart, where that is not one."""


@dataclass(frozen=True)
class Uses:
    """What the runs of an edition use of files that others use, too.

    Attributes:
        owners: Sitting to the keys of its runs.
        reads: What read them.
    """

    owners: Mapping[str, frozenset[str]]
    reads: tuple[Read, ...]


@dataclass(frozen=True)
class Rested:
    """Files that editions rest on.

    Attributes:
        reports: The folder reports/.
        node_of: Where records' nodes are had.
    """

    reports: Path
    node_of: NodeOf
    _whole: dict[str, str] = field(default_factory=dict, repr=False, compare=False)

    def hash(self, name: str, uses: Uses) -> str | None:
        """The fingerprint of what the runs of an edition rest on of a file; arguments as of `content`."""
        shared = is_shared(name)
        if name in self._whole and not shared:
            return self._whole[name]
        found = self.content(name, uses)
        if found is None:
            return None
        made = fingerprint(found)
        if not shared:
            self._whole[name] = made
        return made

    def content(self, name: str, uses: Uses) -> Canonical | bytes | None:
        """What the runs of an edition rest on of a file.

        Args:
            name: The file, below reports/.
            uses: What they use.

        Returns:
            Its canonical content or its bytes; None where it is not to be had.
        """
        kind = kind_of(PurePosixPath(name))
        if kind is None:
            data = content(self.reports / name, MOST_BYTES)
            if isinstance(data, Fault):
                return None
            return [row for _, row in self._of_csv(name, data, uses)] if is_readings(name) else data
        node = self.node_of(self.reports / name)
        if node is None:
            return None
        whole, stem = canonical(node), PurePosixPath(name).stem
        if kind == "sittings":
            return of_sitting(whole, uses.owners.get(stem, ()))
        if kind == "instruments":
            return of_instrument(whole, [each for each in uses.reads if each.instrument == stem])
        return whole

    def row_numbers(self, name: str, key: tuple[str, ...], uses: Uses) -> list[int]:
        """The line from 0, in its file or its block, of each row of a table that is rested on.

        Args:
            name: The file, below reports/.
            key: Keys down to the table; none in a CSV file.
            uses: As of `content`.
        """
        if not key:
            data = content(self.reports / name, MOST_BYTES)
            return [at for at, _ in self._of_csv(name, data, uses)] if isinstance(data, bytes) else []
        found: nodes.Node | None = self.node_of(self.reports / name)
        for step in key:
            found = found.get(step) if isinstance(found, nodes.Mapping) else None
        if not isinstance(found, nodes.Scalar):
            return []
        numbered = list(rows(found.text))
        owners = uses.owners.get(PurePosixPath(name).stem)
        if kind_of(PurePosixPath(name)) == "sittings" and owners is not None:
            return [at for at, _ in of_table(numbered, owners)]
        return [at for at, _ in numbered]

    def _of_csv(self, name: str, data: bytes, uses: Uses) -> Sequence[tuple[int, Row]]:
        """The rows of a CSV file; of one beside sittings what the runs of those that name it rest on."""
        place = PurePosixPath(name)
        numbered = list(csv_rows(data))
        if place.parent.name != "sittings":
            return numbered
        naming = [
            owners
            for sitting, owners in uses.owners.items()
            if (node := self.node_of(self.reports / place.with_name(f"{sitting}.yml"))) is not None
            and place.name in tables_beside(node)
        ]
        return of_table(numbered, frozenset().union(*naming))


def is_shared(name: str) -> bool:
    """Whether an edition rests on a part of such a file, which others share."""
    return PurePosixPath(name).parts[0] in {"sittings", "instruments"}


def is_readings(name: str) -> bool:
    """Whether a file below reports/ holds readings of a run or a sitting."""
    place = PurePosixPath(name)
    return place.suffix == CSV_ENDING and place.parent.name in {"runs", "sittings"}


def tables_beside(node: nodes.Mapping) -> Iterator[str]:
    """Names of the CSV files that a run or a sitting has its readings in."""
    zero = node.get("zero-check")
    for table in (node.get("readings"), zero.get("table") if isinstance(zero, nodes.Mapping) else None):
        if isinstance(table, nodes.Scalar) and "\n" not in table.text:
            yield table.text.strip()
