"""What an amendment changes of a report beside its figures: choice, disclosure, cautions, words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

from generator.history.figures import Figure, figures_of, published
from generator.history.frozen import Frozen
from generator.history.moved import Moved, moved
from generator.records.bench import Bench
from generator.records.corrections import Changed
from generator.records.fingerprint import Canonical, canonical, keys_of
from generator.records.schema.edition import Edition

Substance = Literal[
    "figures", "outcomes", "choice", "cautions", "disclosure", "pieces", "limits", "runs", "items"
]
"""What no change of wording may touch."""

WITHDRAWAL = "withdrawal"

_OF_REPORT: dict[str, Substance] = {
    "choice": "choice",
    "initiative": "disclosure",
    "limits": "limits",
    "main": "figures",
    "measures": "figures",
    "items": "items",
}
_OF_BENCH: dict[str, Substance] = {
    "disclosure": "disclosure",
    "demonstration": "disclosure",
    "reference-ambient": "limits",
}
_OF_ITEM: dict[str, Substance] = {"ratings": "limits", "specimens": "pieces", "stocks": "pieces"}


@dataclass(frozen=True)
class State:
    """A report as published, or as it would be.

    Attributes:
        content: Its copy of what keeps changing.
        runs: The runs that it rests on.
        rests_on: File to fingerprint.
        figures: Its figures.
        withdrawn: Whether it was withdrawn.
    """

    content: dict[str, Canonical]
    runs: tuple[str, ...]
    rests_on: dict[str, str]
    figures: tuple[Figure, ...]
    withdrawn: bool = False


def state_of(edition: Edition) -> State:
    """A report as an edition has it."""
    whole = canonical(edition.node)
    content = whole["content"] if isinstance(whole, dict) else {}
    return State(
        content if isinstance(content, dict) else {},
        edition.runs,
        {name: each.hash for name, each in edition.rests_on.items()},
        tuple(published(each) for each in edition.figures),
        edition.reason == WITHDRAWAL,
    )


def state_now(kept: Frozen, finding: Any, *, withdrawn: bool = False) -> State:
    """A report as it would be published now, from what an edition would keep and its findings."""
    return State(kept.content, kept.runs, kept.rests_on, figures_of(finding), withdrawn)


@dataclass(frozen=True)
class Corrected:
    """A run in whose place its correction stands.

    Attributes:
        run: Id of the run that was wrong.
        by: Id of its correction.
        because: What was wrong.
        changed: What is otherwise in it; of a correction that was corrected in turn, the last first.
    """

    run: str
    by: str
    because: str
    changed: tuple[Changed, ...]


@dataclass(frozen=True)
class Change:
    """What is otherwise between two states of a report.

    Attributes:
        moved: Figures, outcomes and places.
        choice: The item chosen before and now, each empty without one; None where it is the same.
        parts: Keys of the copy that are otherwise, joined by dots, in order.
        new_runs: Runs that are new and correct none.
        gone_runs: Runs that it no longer rests on, nor on a correction of them.
        substance: What of it no change of wording may touch, in a fixed order.
        withdrawn: Whether it is a withdrawal.
        corrected: Each correction that takes the place of a run.
    """

    moved: tuple[Moved, ...]
    choice: tuple[str, str] | None
    parts: tuple[str, ...]
    new_runs: tuple[str, ...]
    gone_runs: tuple[str, ...]
    substance: tuple[Substance, ...]
    withdrawn: bool
    corrected: tuple[Corrected, ...] = ()

    @property
    def is_nothing(self) -> bool:
        """Whether there is none."""
        runs = self.new_runs or self.gone_runs or self.corrected
        return not (self.moved or self.parts or runs or self.withdrawn)


def change(bench: Bench, was: State, now: State) -> Change:
    """What is otherwise.

    Args:
        bench: Where the methods are.
        was: The state before.
        now: The state after.
    """
    figures = moved(was.figures, now.figures)
    chosen = tuple(str(keys_of(each.content.get("report")).get("choice", "")) for each in (was, now))
    parts = tuple(_unlike("", was.content, now.content, 4))
    found: dict[Substance, None] = {}
    if any(each.figure or each.was is None or each.now is None for each in figures):
        found["figures"] = None
    if any(not each.figure for each in figures) or any(each.outcome or each.place for each in figures):
        found["outcomes"] = None
    if _cautions(bench, was) != _cautions(bench, now):
        found["cautions"] = None
    for part in parts:
        if (said := _substance(part)) is not None:
            found[said] = None
    corrected = tuple(_corrected(bench, was, now))
    runs = {each.by for each in corrected}, {each.run for each in corrected}
    new = tuple(each for each in now.runs if each not in was.runs and each not in runs[0])
    gone = tuple(each for each in was.runs if each not in now.runs and each not in runs[1])
    if new or gone or corrected:
        found["runs"] = None
    choice = (chosen[0], chosen[1]) if chosen[0] != chosen[1] else None
    withdrawn = now.withdrawn and not was.withdrawn
    return Change(figures, choice, parts, new, gone, tuple(found), withdrawn, corrected)


def _corrected(bench: Bench, was: State, now: State) -> Iterator[Corrected]:
    """The runs in whose place their corrections stand, in the order of the later state."""
    for name in now.runs:
        run = bench.runs.get(name)
        for number, each in enumerate(run.corrections if run is not None and name not in was.runs else ()):
            if each.run in was.runs and each.run not in now.runs and run is not None:
                made = run.corrections[: number + 1]
                changed = tuple(key for correction in made for key in correction.changed)
                yield Corrected(each.run, name, made[0].because, changed)
                break


def _unlike(path: str, was: Any, now: Any, depth: int) -> Iterator[str]:
    """Keys of the copy under which something else stands."""
    if was == now:
        return
    if not (isinstance(was, dict) and isinstance(now, dict) and depth):
        yield path
        return
    for key in dict.fromkeys((*now, *was)):
        below = f"{path}.{key}" if path else key
        yield from _unlike(below, was.get(key), now.get(key), depth - 1)


def _substance(part: str) -> Substance | None:
    """What of a report a key of the copy is, where it is more than words."""
    match part.split("."):
        case ["report", key, *_]:
            return _OF_REPORT.get(key)
        case ["bench", key, *_]:
            return _OF_BENCH.get(key)
        case ["items", _]:
            return "items"
        case ["items", _, key, *_]:
            return _OF_ITEM.get(key)
    return None


def _cautions(bench: Bench, state: State) -> tuple[set[str], set[str]]:
    """Hazards of its methods, and what the methods add."""
    names = (name.split("/") for name in state.rests_on if name.startswith("methods/"))
    methods = [bench.methods[name][int(version.partition(".")[0])] for _, name, version in names]
    added = {text for each in methods for text in (*each.cautions, each.protection or "")}
    return {hazard for each in methods for hazard in each.hazard}, added
