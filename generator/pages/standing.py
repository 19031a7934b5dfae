"""Where a page stands among the editions of its report: which one it is, and what it has to say of others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

from generator.history.change import WITHDRAWAL, change, state_of
from generator.history.shelf import Told
from generator.pages import addresses
from generator.pages.format import Day, day
from generator.records.bench import Bench, Report
from generator.records.schema.edition import Edition

DIGITS = 12
"""So many of an edition's fingerprint stand at its page's head; the whole is in how to cite it."""


@dataclass(frozen=True)
class Standing:
    """Which edition a page is; no later edition changes it.

    Attributes:
        number: Its number; of a draft the one it will have.
        day: The day of publishing; None of a draft.
        hash: Its fingerprint; empty of a draft.
        authorised_by: Who stands for it; empty of a draft.
        reason: Why it was published; empty at the first and of a draft.
        summary: What it says of itself.
        amends: The edition that it amends; None of the first and of a draft.
    """

    number: int
    day: Day | None = None
    hash: str = ""
    authorised_by: str = ""
    reason: str = ""
    summary: str = ""
    amends: tuple[int, Day] | None = None

    @property
    def short_hash(self) -> str:
        """The first digits of its fingerprint, without the name of the algorithm."""
        return self.hash.partition(":")[2][:DIGITS]

    @property
    def withdrawn(self) -> bool:
        """Whether it takes the report back."""
        return self.reason == WITHDRAWAL


def standing(told: Told) -> Standing:
    """Which edition of its report this is."""
    edition = told.edition
    if edition is None:
        return Standing(told.number)
    before = told.report.editions
    last = before[max(before)] if before else None
    return Standing(
        edition.number,
        day(edition.date.isoformat()),
        edition.hash,
        edition.authorised_by,
        edition.reason or "",
        edition.summary or "",
        (last.number, day(last.date.isoformat())) if last is not None else None,
    )


@dataclass(frozen=True)
class EditionRow:
    """An edition in the list of a report's editions.

    Attributes:
        number: Its number.
        day: The day of publishing.
        reason: Why; empty at the first.
        summary: What changed.
        amends: The edition that it amends, with its day; None at the first.
        link: To its page.
        here: Whether it is the one that the page shows.
    """

    number: int
    day: Day
    reason: str
    summary: str
    amends: tuple[int, Day] | None
    link: Markup
    here: bool


def rows(now: Report, told: Told, here: str) -> tuple[EditionRow, ...]:
    """Every edition of a report, the newest first, as seen from a page of one of them."""
    found: list[EditionRow] = []
    before: Edition | None = None
    for number, each in sorted(now.editions.items()):
        found.append(
            EditionRow(
                number,
                day(each.date.isoformat()),
                each.reason or "",
                each.summary or "",
                (before.number, day(before.date.isoformat())) if before is not None else None,
                addresses.link(here, addresses.edition(now.id, number)),
                told.edition is not None and told.number == number,
            )
        )
        before = each
    return tuple(reversed(found))


@dataclass(frozen=True)
class Notice:
    """What a page says at its top of another edition.

    Attributes:
        kind: Of an older edition that there is a later one, or that the report is withdrawn; of a draft
            that an edition of it is published.
        number: Number of the page's edition.
        day: Its day; None of a draft.
        filmed: Day of the newest video that shows it; None where none does.
        latest: The latest edition.
        link: To it.
        answer: Whether an outcome, a place or the choice is another there.
        figures: Whether a figure is.
        why: What later editions say of themselves, the newest first.
    """

    kind: Literal["older", "withdrawn", "draft"]
    number: int
    day: Day | None
    filmed: Day | None
    latest: EditionRow
    link: Markup
    answer: bool
    figures: bool
    why: tuple[EditionRow, ...]


def notice(bench: Bench, now: Report, told: Told, here: str) -> Notice | None:
    """What a page says at its top of another edition; None on the latest, and where none is published.

    Args:
        bench: Where the methods are.
        now: The report with all its editions.
        told: The edition or draft that the page shows.
        here: The page's address.
    """
    listed = rows(now, told, here)
    if not listed or told.number == listed[0].number:
        return None
    latest = listed[0]
    later = tuple(each for each in listed if each.number > told.number)
    if told.edition is None:
        return Notice("draft", told.number, None, None, latest, latest.link, False, False, ())
    made = change(bench, state_of(told.edition), state_of(now.editions[latest.number]))
    answer = made.choice is not None or any(each.outcome or each.place for each in made.moved)
    withdrawn = latest.reason == WITHDRAWAL
    return Notice(
        "withdrawn" if withdrawn else "older",
        told.number,
        day(told.edition.date.isoformat()),
        filmed(now, told.number),
        latest,
        addresses.link(here, addresses.report(now.id)),
        answer,
        any(each.figure for each in made.moved),
        later,
    )


def filmed(now: Report, number: int) -> Day | None:
    """The day of the newest video that shows an edition."""
    videos = now.links.videos if now.links is not None else ()
    days = [each.date.isoformat() for each in videos if each.edition == number]
    return day(max(days)) if days else None


def permanent(bench: Bench, report: str, number: int) -> str:
    """The absolute address of an edition; empty where the bench does not say where its site stands."""
    base = (bench.settings.site_address or "").rstrip("/")
    return f"{base}/{addresses.edition(report, number)}" if base else ""
