"""The editions of a report, each with what it changed; and whether its published figures still come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.evaluation.report import evaluate
from generator.history.change import Change, change, state_now, state_of
from generator.history.figures import figures_of, published
from generator.history.frozen import as_published, frozen
from generator.history.moved import Drift, drifts
from generator.history.scattered import Scattered, scattered
from generator.records.bench import Bench, Report


@dataclass(frozen=True)
class Past:
    """One edition as the history tells it.

    Attributes:
        number: Its number.
        day: ISO date of publishing.
        reason: Why; empty at the first.
        summary: What changed, in a sentence; may be empty at the first.
        authorised: Who authorised it.
        hash: Its fingerprint.
        change: What it changed; None at the first.
        scattered: Of a retest: spreads between pieces that may be held against those of the edition before.
    """

    number: int
    day: str
    reason: str
    summary: str
    authorised: str
    hash: str
    change: Change | None
    scattered: tuple[Scattered, ...] = ()


def past(bench: Bench, report: Report) -> tuple[Past, ...]:
    """The editions of a report, oldest first, each against the one before."""
    found: list[Past] = []
    before = None
    for number, edition in sorted(report.editions.items()):
        state = state_of(edition)
        made = change(bench, before, state) if before is not None else None
        spreads: tuple[Scattered, ...] = ()
        if made is not None and edition.reason == "retest":
            spreads = scattered(bench, report, (report.editions[found[-1].number], edition), made)
        said = (edition.date.isoformat(), edition.reason or "", edition.summary or "", edition.authorised_by)
        found.append(Past(number, *said, edition.hash, made, spreads))
        before = state
    return tuple(found)


def change_now(bench: Bench, report: Report) -> Change | None:
    """What the records change since the last edition; None where none was published."""
    if not report.editions:
        return None
    was = state_of(report.editions[max(report.editions)])
    now = state_now(frozen(bench, report), evaluate(bench, report), withdrawn=was.withdrawn)
    return change(bench, was, now)


@dataclass(frozen=True)
class Verified:
    """One edition, computed anew.

    Attributes:
        report: Id of the report.
        number: Number of the edition.
        day: ISO date of publishing.
        figures: How many figures it has.
        moved: Those that come out otherwise.
        program: What computed them then, with its version and those of its libraries.
    """

    report: str
    number: int
    day: str
    figures: int
    moved: tuple[Drift, ...]
    program: str

    @property
    def holds(self) -> bool:
        """Whether each figure would be printed as it was published."""
        return not any(each.printed for each in self.moved)


def verified(bench: Bench, report: Report) -> Iterator[Verified]:
    """Compute every edition of a report anew, from its copy and what it rests on.

    Args:
        bench: The records, without faults: what editions rest on is as it was.
        report: One of its reports.
    """
    for number, edition in sorted(report.editions.items()):
        was = tuple(published(each) for each in edition.figures)
        now = figures_of(evaluate(*as_published(bench, report, edition)))
        program = told_program(edition.program.version, edition.program.libraries)
        day = edition.date.isoformat()
        yield Verified(report.id, number, day, len(was), drifts(was, now), program)


def told_program(version: str, libraries: dict[str, str]) -> str:
    """A program and the libraries that decide figures, with their versions."""
    named = ", ".join(f"{name} {number}" for name, number in sorted(libraries.items()))
    return f"provebook {version} ({named})" if named else f"provebook {version}"
