"""By which versions of its method a figure was made, where versions that agree stand in one ranking."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding, RunFinding


def is_mean(piece: PieceFinding) -> bool:
    """Whether a piece's figure is the mean of several runs, and not that of one of them."""
    own = [run.figure for run in piece.runs if run.figure is not None]
    return piece.figure is not None and piece.figure not in own


def counts(run: RunFinding, piece: PieceFinding) -> bool:
    """Whether a piece's figure rests on a run of it."""
    return run.figure is not None and (is_mean(piece) or run.figure == piece.figure)


def versions_behind(pieces: Iterable[PieceFinding]) -> tuple[int, ...]:
    """The versions of the runs behind the figures of pieces, ascending; empty without a figure."""
    return tuple(sorted(set(_versions(pieces))))


def versions_of(item: ItemFinding) -> tuple[int, ...]:
    """The versions behind the figure of an item; empty without one."""
    if item.figure is None:
        return ()
    return versions_behind(each for each in item.pieces if each.stock == item.stock)


def versions_told(measure: MeasureFinding, item: ItemFinding) -> tuple[int, ...]:
    """The same where the figures of a measure are by more than one version; empty where all are by one."""
    every = {version for each in measure.items for version in versions_of(each)}
    return versions_of(item) if len(every) > 1 else ()


def _versions(pieces: Iterable[PieceFinding]) -> Iterator[int]:
    for piece in pieces:
        yield from (int(run.method.rpartition("/")[2]) for run in piece.runs if counts(run, piece))
