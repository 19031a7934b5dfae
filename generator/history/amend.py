"""The next edition of a report: what it would say, and why it may not be published."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Literal

from generator.evaluation.report import evaluate
from generator.history.change import WITHDRAWAL, Change, State, change, state_now, state_of
from generator.history.figures import as_record
from generator.history.frozen import Frozen, frozen
from generator.records.bench import Bench, Report
from generator.records.fingerprint import Canonical, canonical, keys_of
from generator.records.schema.edition import Edition
from generator.records.seal import HASH, MARKS, sealed
from generator.records.source import read_text
from generator.records.writer import OneLine, document

Why = Literal[
    "no-address",
    "reason-at-first",
    "no-reason",
    "no-summary",
    "before-last",
    "before-runs",
    "no-change",
    "withdrawn-already",
    "no-new-run",
    "not-wording",
]
"""Why a report is not published; each has its words in the templates."""


@dataclass(frozen=True)
class Wish:
    """What the reviewer says of a new edition.

    Attributes:
        day: The day of publishing.
        reason: Why there is a new one; empty at the first.
        summary: What changed, in a sentence; may be empty at the first.
        version: Version of the program.
        libraries: Libraries that decide figures, to their versions.
    """

    day: date
    reason: str
    summary: str
    version: str
    libraries: Mapping[str, str]


@dataclass(frozen=True)
class Next:
    """The next edition of a report, not written yet.

    Attributes:
        report: Id of the report.
        number: Its number.
        path: The file that it would be.
        text: The file's text, below its first lines.
        state: The report as it would be published.
        change: What is otherwise than in the edition before; None at the first.
        refused: Why it may not be published.
    """

    report: str
    number: int
    path: Path
    text: str
    state: State
    change: Change | None
    refused: tuple[Why, ...]


def next_edition(bench: Bench, report: Report, wish: Wish) -> Next:
    """What an edition of a report would be.

    Args:
        bench: The records, without faults.
        report: One of its reports.
        wish: What the reviewer says of it.
    """
    last = report.editions[max(report.editions)] if report.editions else None
    number = last.number + 1 if last is not None else 1
    kept = frozen(bench, report)
    state = state_now(kept, evaluate(bench, report), withdrawn=wish.reason == WITHDRAWAL)
    made = change(bench, state_of(last), state) if last is not None else None
    refused = tuple(dict.fromkeys(_refused(bench, report, wish, last, made)))
    text = _text(_record(bench, report, wish, (kept, state), last))
    path = report.folder / "editions" / f"{number}.yml"
    return Next(report.id, number, path, text, state, made, refused)


def _refused(
    bench: Bench, report: Report, wish: Wish, last: Edition | None, made: Change | None
) -> Iterator[Why]:
    if not bench.settings.site_address:
        yield "no-address"
    if any(run.date > wish.day for run in report.runs.values()):
        yield "before-runs"
    if last is not None and made is not None:
        yield from _amendment_refused(wish, last, made)
    elif wish.reason:
        yield "reason-at-first"


def _amendment_refused(wish: Wish, last: Edition, made: Change) -> Iterator[Why]:
    if not wish.reason:
        yield "no-reason"
    if not wish.summary:
        yield "no-summary"
    if wish.day < last.date:
        yield "before-last"
    if wish.reason == WITHDRAWAL:
        if not made.withdrawn:
            yield "withdrawn-already"
    elif made.is_nothing:
        yield "no-change"
    elif wish.reason == "retest" and not made.new_runs:
        yield "no-new-run"
    elif wish.reason == "wording" and made.substance:
        yield "not-wording"


def _record(
    bench: Bench, report: Report, wish: Wish, made: tuple[Frozen, State], last: Edition | None
) -> dict[str, Any]:
    """The edition as keys with values, in the order of its file, all but its seal."""
    kept, state = made
    number = last.number + 1 if last is not None else 1
    said = {"reason": wish.reason, "summary": wish.summary}
    follows = {"follows": last.hash} if last is not None else {}
    return {
        "report": report.id,
        "edition": str(number),
        "date": wish.day.isoformat(),
        **{key: each for key, each in said.items() if each},
        "authorised-by": bench.settings.reviewer,
        "program": {"version": wish.version, "libraries": dict(sorted(wish.libraries.items()))},
        "content": kept.content,
        "runs": list(kept.runs),
        "rests-on": {
            name: {"hash": fingerprint, **({"marks": OneLine(kept.marks[name])} if kept.marks[name] else {})}
            for name, fingerprint in kept.rests_on.items()
        },
        "figures": [OneLine(as_record(each)) for each in state.figures],
        **follows,
    }


def _text(record: dict[str, Any]) -> str:
    """The file's text, its fingerprint over what is read back of it."""
    content = _read_back(document(record))
    seal = sealed(content)
    text = document({**record, MARKS: OneLine(seal[MARKS]), HASH: seal[HASH]})
    if seal != _read_back(text):
        raise ValueError("an edition was not read back as it was written")
    return text


def _read_back(text: str) -> dict[str, Canonical]:
    root = read_text(text, Path("edition.yml")).root
    return dict(keys_of(canonical(root))) if root is not None else {}
