"""The words of a parcel: what is in it, how it is verified, who made it, what it is not."""

from __future__ import annotations

import json
import posixpath
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.report import evaluate
from generator.history.frozen import as_published
from generator.history.shelf import Told
from generator.history.shelf import published as shelved
from generator.pages import addresses
from generator.pages.method import VersionLink
from generator.pages.parcel import parcels
from generator.pages.parcel_tables import Cell, otherwise
from generator.pages.render import Renderer
from generator.pages.report_pages import Named
from generator.pages.site import Page
from generator.records.bench import load
from tests.history.benches import REPORT, edited, example, published
from tests.history.parcel.parcels import files_of
from tests.pages.rendered import parsed
from tests.pages.sites import site_of


@pytest.fixture(scope="module")
def thrice(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example: published, corrected in its words, withdrawn."""
    folder = example(tmp_path_factory.mktemp("thrice") / "b")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert published(REPORT, "--date", "2026-02-01").exit_code == 0
        edited(folder / f"reports/{REPORT}/report.yml", ("cold hands", "wet hands"))
        amend = ("--summary", "Said in other words.", "--date", "2026-03-01", "--reason")
        assert published(REPORT, *amend, "wording").exit_code == 0
        assert published(REPORT, *amend, "withdrawal").exit_code == 0
    return folder


def test_its_address_stands_beside_the_other_files() -> None:
    assert addresses.parcel("fuses", 2) == "r/fuses/2/data/fuses-edition-2.zip"
    assert (
        addresses.data("fuses", 2, "x").rpartition("/")[0] == addresses.parcel("fuses", 2).rpartition("/")[0]
    )


def test_the_readme_says_what_how_who_and_what_not(thrice: Path) -> None:
    readme = files_of(thrice, REPORT)["README.txt"].decode()
    for told in (
        "Which two-way lever connector stays cooler at 10 A?\nEdition 1, 2026-02-01: first published",
        "DEMONSTRATION DATA",
        "Made by The name of your bench. Seen a mistake? you@your-bench.example",
        f"Its page: https://your-bench.example/r/{REPORT}/1/",
        "These figures are for the pieces tested here.",
        "Not a certificate",
        "sha256sum -c SHA256SUMS",
        "pip install provebook==0.1.0",
        f"provebook verify {REPORT}-edition-1.zip",
    ):
        assert told in readme
    assert "WITHDRAWN" not in readme
    assert "photos" not in readme
    assert readme.endswith("published.\n")


def test_each_edition_says_which_it_is(thrice: Path) -> None:
    second = files_of(thrice, REPORT, 2)["README.txt"].decode()
    assert "Edition 2, 2026-03-01: wording. Said in other words." in second
    third = files_of(thrice, REPORT, 3)["README.txt"].decode()
    assert "THIS REPORT IS WITHDRAWN" in third


def test_every_file_is_told_of(thrice: Path) -> None:
    files = files_of(thrice, REPORT)
    readme = files["README.txt"].decode()
    for name in files:
        if not name.startswith("reports/"):
            assert name in {"README.txt"} or name in readme


COMPUTED = b"item,value,unit\r\na,25.6123,K\r\nb,0.1,K\r\n"


@pytest.mark.parametrize(
    ("there", "found"),
    [
        (COMPUTED, []),
        (COMPUTED.replace(b"25.6123", b"25.6124"), []),  # the last of six digits, on another processor
        (COMPUTED.replace(b"25.6123", b"25.6133"), [Cell("x", 2, "value", "25.6133", "25.6123")]),
        (COMPUTED.replace(b"0.1,", b"-0.1,"), [Cell("x", 3, "value", "-0.1", "0.1")]),
        (COMPUTED.replace(b"0.1,", b","), [Cell("x", 3, "value", "", "0.1")]),
        (COMPUTED.replace(b"0.1,", b"nan,"), [Cell("x", 3, "value", "nan", "0.1")]),
        (COMPUTED.replace(b"b,0.1,K\r\n", b""), [Cell("x", 3)]),
        (COMPUTED + b"c,0.2,K\r\n", [Cell("x", 4)]),
        (b"item,unit,value\r\na,K,25.6123\r\nb,K,0.1\r\n", []),
        (b"item,value,unit,US unit\r\na,25.6123,K,F\r\nb,0.1,K,F\r\n", []),
        (b"\xff", [Cell("x")]),
        (b"", [Cell("x", 2), Cell("x", 3)]),
        (b'item,"val\r\n', [Cell("x")]),
    ],
)
def test_cells_are_compared_by_row_and_heading(there: bytes, found: list[Cell]) -> None:
    assert list(otherwise("x", there, COMPUTED)) == found


def test_a_draft_has_none_and_every_link_to_one_leads_to_it(thrice: Path) -> None:
    site = site_of(thrice)
    there = {each.uri for each in site.downloads if each.uri.endswith(".zip")}
    assert there <= {addresses.parcel(REPORT, number) for number in (1, 2, 3)}
    for page in site.pages:
        for link in re.findall(r'href="([^"]+\.zip)"', "".join(page.slots.values())):
            assert posixpath.normpath(posixpath.join(posixpath.dirname(page.uri), link)) in there


def test_a_published_edition_has_one_and_a_draft_none(thrice: Path) -> None:
    bench = load(thrice)
    report = bench.reports[REPORT]
    finding = evaluate(bench, report)
    draft = parcels(Told(bench, report, 4, None), finding, Renderer(thrice), bench.settings)
    assert list(draft) == []
    was = as_published(bench, report, report.editions[2])
    (found,) = parcels(Told(*was, 2, report.editions[2]), evaluate(*was), Renderer(thrice), bench.settings)
    assert found.uri == addresses.parcel(REPORT, 2)


def test_the_page_links_it_by_its_name(thrice: Path) -> None:
    here, there = addresses.edition(REPORT, 1), addresses.parcel(REPORT, 1)
    told = Renderer(thrice).fragment(
        "fragments/take.html.jinja",
        files=[],
        edition=VersionLink(1, f"/{here}", addresses.link(here, here)),
        parcel=Named("x.zip", addresses.link(here, there)),
        cited=None,
        licence=None,
    )
    assert f'<a href="data/{REPORT}-edition-1.zip" download>x.zip</a>' in told
    assert "provebook verify x.zip" in told


LICENCE = 'licence: {name: CC-BY-4.0, title: "Attribution & more", path: "https://licence.example/by/"}\n'


def test_a_licence_that_the_bench_names_is_told_and_changes_no_edition(thrice: Path, tmp_path: Path) -> None:
    before = load(thrice)
    assert package_of(thrice).get("licenses") is None
    assert b"Licence of all" not in files_of(thrice, REPORT)["README.txt"]
    assert "Licence of all" not in parsed(page_of(thrice)).text
    more = shutil.copytree(thrice, tmp_path / "more")
    with (more / "reports/bench.yml").open("a", encoding="utf-8") as settings:
        settings.write(LICENCE)
    after = load(more)
    assert after.faults == ()
    for number, edition in before.reports[REPORT].editions.items():
        assert after.reports[REPORT].editions[number].hash == edition.hash
    assert drafts_of(more) == drafts_of(thrice), "no report is a draft for it"
    assert package_of(more)["licenses"] == [
        {"name": "CC-BY-4.0", "path": "https://licence.example/by/", "title": "Attribution & more"}
    ]
    told = files_of(more, REPORT)["README.txt"].decode()
    assert "Licence of all of it: Attribution & more (CC-BY-4.0), https://licence.example/by/\n" in told
    page = parsed(page_of(more))
    assert "Licence of all of these: Attribution & more (CC-BY-4.0)." in page.text
    (link,) = page.all("a", rel="license")
    assert link.attributes["href"] == "https://licence.example/by/"


def test_a_licence_may_be_a_short_name_alone(thrice: Path, tmp_path: Path) -> None:
    more = shutil.copytree(thrice, tmp_path / "more")
    with (more / "reports/bench.yml").open("a", encoding="utf-8") as settings:
        settings.write("licence: {name: CC0-1.0}\n")
    assert package_of(more)["licenses"] == [{"name": "CC0-1.0"}]
    assert "Licence of all of it: CC0-1.0\n" in files_of(more, REPORT)["README.txt"].decode()
    assert "Licence of all of these: CC0-1.0." in parsed(page_of(more)).text


def package_of(folder: Path) -> dict[str, Any]:
    found = json.loads(files_of(folder, REPORT)["datapackage.json"])
    assert isinstance(found, dict)
    return found


def page_of(folder: Path) -> Page:
    return next(
        each for each in site_of(folder).pages if each.uri == f"{addresses.edition(REPORT, 1)}index.md"
    )


def drafts_of(folder: Path) -> tuple[str, ...]:
    return shelved(load(folder)).left_out
