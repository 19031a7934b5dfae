"""A parcel, looked at: files against sums, the edition against its fingerprints, its figures anew."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.evaluation.findings import ReportFinding
from generator.evaluation.report import evaluate
from generator.fault import Fault
from generator.history.figures import figures_of, published
from generator.history.moved import drifts
from generator.history.parcel.alone import Alone, alone
from generator.history.parcel.archive import Unsound
from generator.history.parcel.contents import FOLDER
from generator.history.parcel.sums import Otherwise, otherwise
from generator.history.past import Verified, told_program
from generator.records.bench import Bench, Report
from generator.records.schema.edition import Edition

MOST_RECORDS = 10_000_000
"""Bytes of records that are read of a stranger: a year of typing comes to less."""

MOST_READINGS = 200_000
"""Rows of readings that are computed of a stranger: some 50 runs of an hour, read each second."""


@dataclass(frozen=True)
class Looked:
    """What was found of a parcel.

    Attributes:
        alone: Its edition, and what is not as it was published.
        odd: Files that are not as its sums have them.
        verified: Its figures, computed anew; None where they can't be.
        finding: What they were computed as; None where they can't be.
        why: Why they can't be; empty where a fault tells.
    """

    alone: Alone
    odd: tuple[tuple[Otherwise, str], ...]
    verified: Verified | None = None
    finding: ReportFinding | None = None
    why: str = ""

    @property
    def edition(self) -> Edition | None:
        """The edition that it holds; None where its form is at fault."""
        return self.alone.edition

    @property
    def holds(self) -> bool:
        """Whether everything in it is as it was published, and each figure comes out as printed."""
        at_odds = self.odd or self.alone.faults or self.alone.gone
        return not at_odds and self.verified is not None and self.verified.holds


def looked(files: Mapping[str, bytes]) -> tuple[Looked, tuple[Bench, Report] | None]:
    """Look at the files of a parcel.

    Args:
        files: By their names in it, which stay where they are put.

    Returns:
        What was found, with the names of the parcel; and the bench and the report as published, where they
        can be had.

    Raises:
        Unsound: There is no edition among them, or more records than are read of a stranger.
    """
    if sum(len(each) for name, each in files.items() if name.endswith(".yml")) > MOST_RECORDS:
        raise Unsound("too-big")
    with TemporaryDirectory() as made:
        folder = Path(made).resolve()
        for name, content in files.items():
            if name.startswith(f"{FOLDER}/"):
                path = folder / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content)
        found = alone(folder, files)
        odd = tuple(otherwise(files))
        named = replace(found, faults=tuple(_within(found.faults, folder)))
        return _computed(Looked(named, odd, why=found.why)), found.whole


def _within(faults: Iterable[Fault], folder: Path) -> Iterable[Fault]:
    """The same with names as in the parcel: the folder is soon gone."""
    for each in faults:
        file = each.place.file
        short = file.relative_to(folder) if file.is_relative_to(folder) else file
        yield replace(each, place=replace(each.place, file=short))


def _computed(found: Looked) -> Looked:
    if found.alone.whole is None or found.edition is None:
        return found
    edition, runs = found.edition, found.alone.whole[1].runs.values()
    if sum(run.readings.rows for run in runs if run.readings) > MOST_READINGS:
        return replace(found, why=f"more than {MOST_READINGS} readings are computed at the bench alone")
    try:
        finding = evaluate(*found.alone.whole)
        was = tuple(published(each) for each in edition.figures)
        moved = drifts(was, figures_of(finding))
    except Exception as error:  # noqa: BLE001  # a stranger's records may say what no rule has ever let pass
        return replace(found, why=f"{type(error).__name__}: {error}")
    program = told_program(edition.program.version, edition.program.libraries)
    done = Verified(
        found.alone.report, found.alone.number, edition.date.isoformat(), len(was), moved, program
    )
    return replace(found, verified=done, finding=finding)
