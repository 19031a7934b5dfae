"""An edition to take away: its records, its tables, and what says what they are and how to verify them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.evaluation.findings import ReportFinding
from generator.history.parcel.archive import packed
from generator.history.parcel.contents import FOLDER, Contents, contents
from generator.history.parcel.sums import SUMS, sums
from generator.history.shelf import Told
from generator.pages import addresses
from generator.pages.cautions import Cautions, cautions
from generator.pages.data_package import NAME, Package, data_package, resources
from generator.pages.files import rested_tables
from generator.pages.render import Renderer
from generator.pages.report import contact, methods_of
from generator.pages.site import Download
from generator.records.bench import Bench, Report
from generator.records.schema.edition import Edition
from generator.records.schema.settings import Licence, Settings

README = "README.txt"


@dataclass(frozen=True)
class ParcelView:
    """What the words of a parcel are made of.

    Attributes:
        report: Id of the report.
        edition: Number of the edition.
        day: ISO date of publishing.
        reason: Why it was published; empty at the first.
        summary: What changed, in a sentence; empty without.
        question: What the report asks.
        reviewer: Who made it.
        contact: How to reach them.
        page: Address of the edition's page; empty where the bench has none.
        latest: Address of the latest edition's; empty as that.
        demonstration: Whether the data are invented.
        cautions: Those of its methods.
        tables: Names of the tables.
        shared: Names of records of which a part is there.
        left_out: What it rests on and is not there, to its fingerprint.
        version: The program's version that published it.
        file: Name of the parcel.
        hash: Fingerprint of the edition.
        licence: Under which it may be used; None where the bench names none.
    """

    report: str
    edition: int
    day: str
    reason: str
    summary: str
    question: str
    reviewer: str
    contact: str
    page: str
    latest: str
    demonstration: bool
    cautions: Cautions
    tables: tuple[str, ...]
    shared: tuple[str, ...]
    left_out: Mapping[str, str]
    version: str
    file: str
    hash: str
    licence: Licence | None


def parcel(
    was: tuple[Bench, Report], edition: Edition, finding: ReportFinding, renderer: Renderer, now: Settings
) -> Download:
    """The parcel of a published edition.

    Args:
        was: The records and the report as published in it.
        edition: The edition.
        finding: Of that report.
        renderer: For its words.
        now: Of the bench, for what no edition keeps: where its site stands, and the licence.
    """
    bench, report = was
    records = contents(bench, report, edition)
    tables = rested_tables(report, finding)
    data = {data_name(name): content for name, content in tables.items()}
    view = _view(bench, report, edition, now, (records, tuple(tables)))
    files = records.files | data
    files[NAME] = data_package(_package(view, data), renderer)
    files[README] = renderer.text("text/parcel.txt.jinja", parcel=view).encode()
    return Download(addresses.parcel(report.id, edition.number), packed({**files, SUMS: sums(files)}))


def parcels(told: Told, finding: ReportFinding, renderer: Renderer, now: Settings) -> Iterator[Download]:
    """The parcel of an edition; none of a draft. Arguments as of `parcel`."""
    if told.edition is not None:
        yield parcel((told.bench, told.report), told.edition, finding, renderer, now)


def data_name(table: str) -> str:
    """A table's name in a parcel."""
    return f"data/{table}.csv"


def _view(
    bench: Bench, report: Report, edition: Edition, now: Settings, holds: tuple[Contents, tuple[str, ...]]
) -> ParcelView:
    records, tables = holds
    site = (now.site_address or "").rstrip("/")
    here = addresses.edition(report.id, edition.number)
    return ParcelView(
        report=report.id,
        edition=edition.number,
        day=edition.date.isoformat(),
        reason=edition.reason or "",
        summary=edition.summary or "",
        question=report.record.question,
        reviewer=bench.settings.reviewer,
        contact=bench.settings.contact,
        page=f"{site}/{here}" if site else "",
        latest=f"{site}/{addresses.report(report.id)}" if site else "",
        demonstration=bench.settings.demonstration,
        cautions=cautions(methods_of(bench, report)),
        tables=tables,
        shared=records.shared,
        left_out=records.left_out,
        version=edition.program.version,
        file=addresses.parcel(report.id, edition.number).rpartition("/")[2],
        hash=edition.hash,
        licence=now.licence,
    )


def _package(view: ParcelView, data: Mapping[str, bytes]) -> Package:
    href = contact(view.contact).href
    return Package(
        report=view.report,
        edition=view.edition,
        day=view.day,
        question=view.question,
        reviewer=view.reviewer,
        mail=href.removeprefix("mailto:") if href.startswith("mailto:") else "",
        page=view.page,
        source=f"{FOLDER}/{view.report}/editions/{view.edition}.yml",
        demonstration=view.demonstration,
        resources=resources(data),
        licence=view.licence,
    )
