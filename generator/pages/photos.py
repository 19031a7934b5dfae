"""The photos of a report: which stand where, and the files that they come to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from markupsafe import Markup

from generator.fault import Fault, RecordsRefused
from generator.pages import addresses
from generator.pages.site import Download
from generator.photos.original import PhotoRefused
from generator.photos.published import Photo, photo
from generator.records.bench import Bench, Report

ShownFor = Literal["piece", "mark", "check", "opinion"]


@dataclass(frozen=True)
class Reason:
    """Why a photo stands where it stands.

    Attributes:
        code: It shows a piece, a mark on it, what a check found, or what an opinion rests on.
        text: Letter of the piece, or of what the mark is.
    """

    code: ShownFor
    text: str = ""


@dataclass(frozen=True)
class Shot:
    """A photo of a report.

    Attributes:
        file: Its name in the report's folder.
        words: What it shows, by the record: what stands in its place for who can't see it.
        photo: Its pictures.
        reasons: Why it stands where it stands; none for one of the rig.
    """

    file: str
    words: str
    photo: Photo
    reasons: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Album:
    """The photos of a report.

    Attributes:
        report: Id of the report.
        items: Those of each item, by its id.
        rig: Those that are of no item.
    """

    report: str
    items: Mapping[str, tuple[Shot, ...]] = field(default_factory=dict)
    rig: tuple[Shot, ...] = ()

    def files(self) -> Iterator[Download]:
        """Every picture, once."""
        shots = {
            shot.file: shot for shot in (*self.rig, *(each for of in self.items.values() for each in of))
        }
        for _, shot in sorted(shots.items()):
            for each in shot.photo.renditions:
                yield Download(addresses.photo(self.report, each.name), each.content)


@dataclass(frozen=True)
class Picture:
    """A photo as a page holds it: sizes in pixels, links from where the page stands.

    Attributes:
        link: The largest picture.
        small: The narrowest, for browsers that know no choice.
        choice: All of them, each with its width, as HTML's `srcset` has it.
        width: Of the largest.
        height: Of the largest.
        words: What it shows.
        reasons: Why it stands here.
    """

    link: Markup
    small: Markup
    choice: Markup
    width: int
    height: int
    words: str
    reasons: tuple[Reason, ...]


def pictures(report: str, shots: Iterable[Shot], here: str) -> tuple[Picture, ...]:
    """Photos of a report as a page at an address holds them."""
    return tuple(_picture(report, shot, here) for shot in shots)


def _picture(report: str, shot: Shot, here: str) -> Picture:
    links = [
        (addresses.link(here, addresses.photo(report, each.name)), each) for each in shot.photo.renditions
    ]
    largest = shot.photo.largest
    return Picture(
        links[-1][0],
        links[0][0],
        Markup(", ").join(Markup("{} {}w").format(link, each.width) for link, each in links),
        largest.width,
        largest.height,
        shot.words,
        shot.reasons,
    )


def album(bench: Bench, report: Report) -> Album:
    """The photos of a report, made fit to be published.

    Args:
        bench: Where its items stand.
        report: The report.

    Raises:
        RecordsRefused: A photo can't be published; every such one is told.
    """
    named = dict(_named(bench, report))
    shots: dict[str, Shot] = {}
    faults: list[Fault] = []
    for file, words in report.record.photos.items():
        try:
            made = _made(report.folder / "photos" / file)
        except PhotoRefused as refused:
            place = report.record.key_place_of("photos", file)
            faults.append(Fault(place, report.record.path_of("photos", file), refused.what, refused.found))
            continue
        shots[file] = Shot(file, words, made)
    if faults:
        raise RecordsRefused(faults, bench.root)
    return _sorted(report, shots, named)


def _made(path: Path) -> Photo:
    try:
        return photo(path.name, path.read_bytes())
    except OSError as unread:
        raise PhotoRefused(f"the photo can't be read: {unread.strerror or unread}") from unread


def _sorted(
    report: Report, shots: Mapping[str, Shot], named: Mapping[tuple[str, str], tuple[Reason, ...]]
) -> Album:
    items = {
        item: tuple(
            Shot(shot.file, shot.words, shot.photo, named[item, file])
            for file, shot in shots.items()
            if (item, file) in named
        )
        for item in report.record.items
    }
    taken = {file for _, file in named}
    rig = tuple(shot for file, shot in shots.items() if file not in taken)
    return Album(report.id, {item: of for item, of in items.items() if of}, rig)


def _named(bench: Bench, report: Report) -> Iterator[tuple[tuple[str, str], tuple[Reason, ...]]]:
    """Item and photo to why the one names the other."""
    found: dict[tuple[str, str], dict[Reason, None]] = {}
    for item, file, reason in _reasons(bench, report):
        found.setdefault((item, file), {})[reason] = None
    yield from ((key, tuple(reasons)) for key, reasons in found.items())


def _reasons(bench: Bench, report: Report) -> Iterator[tuple[str, str, Reason]]:
    for key in report.record.items:
        item = bench.items[key]
        for letter, piece in item.specimens.items():
            yield from ((key, file, Reason("piece", letter)) for file in piece.photos)
        yield from (
            (key, rating.photo, Reason("mark", rating.limit)) for rating in item.ratings if rating.photo
        )
    for run in report.runs.values():
        if not run.item:
            continue
        for seen in run.observations:
            if seen.photo:
                yield run.item, seen.photo, Reason("check", run.specimen)
        for opinion in run.opinions:
            yield from ((run.item, name, Reason("opinion", run.specimen)) for name in opinion.basis)
    for opinion in report.record.opinions:
        if opinion.item:
            yield from ((opinion.item, name, Reason("opinion")) for name in opinion.basis)
