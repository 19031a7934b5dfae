"""What stands round a report and beside the bench: links and editions."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from generator.fault import Fault
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.edition import Edition
from generator.records.schema.links import Links, Video
from generator.records.schema.report import ReportRecord


def check(library: Library) -> Iterator[Fault]:
    """Links to items of the report, editions in a row."""
    for name, links in library.links.items():
        record = library.reports.get(name)
        if record is not None:
            yield from _links(links, record)
        for number, video in enumerate(links.videos):
            yield from _edition(links, number, library)
            yield from _chapters(video)
    for report, editions in library.editions.items():
        yield from _editions(report, editions, library)


def _links(links: Links, record: ReportRecord) -> Iterator[Fault]:
    for number, shop in enumerate(links.shops):
        if shop.item not in record.items:
            what = "not among the report's items"
            yield links.fault(("shops", number, "item"), what, shop.item, record.items)


def _edition(links: Links, number: int, library: Library) -> Iterator[Fault]:
    shown, editions = links.videos[number].edition, library.editions.get(links.id, {})
    if shown is None or library.is_broken("editions", f"{links.id}/{shown}"):
        return
    # A video is filmed first: it may show the edition that is still a draft.
    numbers = (*sorted(editions), max(editions, default=0) + 1)
    if shown not in numbers:
        path, known = ("videos", number, "edition"), (str(each) for each in numbers)
        place, where = links.place_of(*path), links.path_of(*path)
        yield absent("this report has no edition", str(shown), known, place, where)


def _chapters(video: Video) -> Iterator[Fault]:
    for number, (earlier, later) in enumerate(pairwise(video.chapters)):
        if not _seconds(earlier.at) < _seconds(later.at):
            what = f"chapters stand in order of time; {earlier.at} stands before this one"
            yield video.fault(("chapters", number + 1, "at"), what, later.at)


def _seconds(code: str) -> int:
    total = 0
    for part in code.split(":"):
        total = total * 60 + int(part)
    return total


def _editions(report: str, editions: dict[int, Edition], library: Library) -> Iterator[Fault]:
    numbers = sorted(editions)
    for number in numbers:
        edition = editions[number]
        gone = number - 1
        if gone and gone not in editions and not library.is_broken("editions", f"{report}/{gone}"):
            yield edition.fault((), f"edition {number} is here and edition {gone} is not")
        if number > 1 and edition.reason is None:
            yield edition.fault(("reason",), "missing: every edition after the first has one")
        if number > 1 and edition.summary is None:
            yield edition.fault(("summary",), "missing: what changed, in a sentence")
        if number == 1 and edition.reason is not None:
            yield edition.fault(("reason",), "the first edition amends none", edition.reason)
    for first, second in pairwise(numbers):
        if editions[second].date < editions[first].date:
            what = f"before the edition before it, which is of {editions[first].date}"
            yield editions[second].fault(("date",), what, str(editions[second].date))
