"""Infra-red meters on pages, in files and in a terminal: from records on disk to what a reader sees."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.evaluation.seeing import SEEN_BADLY
from generator.pages import downloads
from generator.pages.explain import explained
from generator.records.bench import Bench, load
from tests.evaluation.seen import by_camera, shown, told
from tests.evaluation.small import Small, table
from tests.pages.rendered import Parsed, parsed
from tests.pages.sites import site_of
from tests.simulator.meters import Optics

BADLY: dict[str, tuple[dict[str, str | None], str]] = {
    "ombrel": ({"surface": "measured, bare brass", "emissivity": "0.1"}, "no figure: emissivity below 0.6"),
    "okvarn": ({"through": "a lid of acrylic"}, "no figure: seen through a window or lid"),
    "hovdal": ({"target": "20 mm"}, "no figure: under three infra-red spots wide"),
    "marnix": ({"angle": "60 deg"}, "no figure: seen more than 45° off square"),
    "grenlo": ({"reflected": None}, "no figure: infra-red settings not recorded"),
}


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    small = Small(tmp_path_factory.mktemp("seen"))
    for piece in "AB":
        by_camera(small, "tessvik", piece)
        paint = told(surface="paint, matt black", emissivity="0.94", emissivity_within=None, angle="30 deg")
        by_camera(small, "veldrun", piece, readings=shown(Optics(emissivity=0.94), (20, 66, 71)), more=paint)
        small.run("ristal", piece, table(45.0))
    for item, (changes, _) in BADLY.items():
        by_camera(small, item, more=told(**changes), readings=shown(Optics(emissivity=0.90), (20, 31, 32)))
    by_camera(small, "pallsto", more=told(surface="measured, nylon"))
    small.finish()
    loaded = load(small.root)
    assert loaded.faults == ()
    return loaded


@pytest.fixture(scope="module")
def pages(bench: Bench) -> dict[str, Parsed]:
    return {page.uri: parsed(page) for page in site_of(bench.root).pages}


@pytest.mark.parametrize("item", BADLY)
def test_each_refusal_has_its_own_words_and_what_was_read_stays(item: str, pages: dict[str, Parsed]) -> None:
    _, words = BADLY[item]
    report, way = pages["r/r/index.md"].text, pages[f"r/r/1/how/{item}/index.md"].text
    assert report.count(words) >= 2, "in the chart and on the card"
    assert words in pages[f"i/{item}/index.md"].text
    assert words in way
    showed = shown(Optics(emissivity=0.90), (20, 31, 32)).split("60 | ")[1].split(" |")[0]
    assert f"the meter showed {float(showed):g}" in report
    assert f"{float(showed):g}" in way
    # Nobody is told that its meter states no scatter, for that is not why it is not judged.
    assert "Not judged" not in report


def test_a_refusal_says_what_it_is_in_a_terminal_and_in_the_file(bench: Bench) -> None:
    report = bench.reports["r"]
    finding = evaluate(bench, report)
    measure = finding.measure("rise")
    runs = {run.item: run.run for item in measure.items for run in item.pieces[0].runs}
    rows = list(csv.DictReader(io.StringIO(downloads.results(finding).decode())))
    for item, (_, words) in BADLY.items():
        assert words in explained(bench, report, measure, runs[item])
        (row,) = (each for each in rows if each["item"] == item and not each["piece"])
        assert row["why not"] in SEEN_BADLY


def test_the_way_to_a_figure_begins_with_what_the_meter_showed(
    bench: Bench, pages: dict[str, Parsed]
) -> None:
    report = bench.reports["r"]
    measure = evaluate(bench, report).measure("rise")
    run = measure.items[0].pieces[0].runs[0]
    assert run.seen is not None
    way = pages["r/r/1/how/tessvik/index.md"].text
    said = explained(bench, report, measure, run.run)
    for text in (way, said.replace("\N{NO-BREAK SPACE}", " ")):
        assert f"point body: {run.seen.indicated:.3f} °C" in text
        assert "set to an emissivity of 0.95 and reckoning with 20.0 °C mirrored" in text
        assert f"= {run.seen.signal:.3f} W/(m²·sr)" in text
        assert "The surface (tape, black vinyl) has an emissivity of 0.9 and mirrors 20.0 °C" in text
        assert f"which a black body has at {run.seen.temperature:.3f} °C" in text
    assert "surface °C" in said
    assert "surface °C" not in explained(bench, report, measure, measure.items[2].pieces[0].runs[0].run)


def test_how_the_meter_was_set_stands_with_how_it_was_measured(pages: dict[str, Parsed]) -> None:
    report = pages["r/r/index.md"].text
    assert "tape, black vinyl: emissivity 0.9 ± 0.02, the meter set to 0.95; mirrors 20 °C ± 2 °C" in report
    assert "paint, matt black: emissivity 0.94 ± 0.05 (assumed), the meter set to 0.95" in report
    assert "30° off square" in report


def test_which_surfaces_are_not_compared_is_said_beside_the_ranking(pages: dict[str, Parsed]) -> None:
    report = pages["r/r/index.md"].text
    assert "not compared: bare, and another surface" in report
    told_apart = report.split("Not the same for all")[1].split("Beyond the method")[0]
    assert "surface that the infra-red meter saw: tape, black vinyl" in told_apart
    for each in ("paint, matt black", "measured, nylon"):
        assert each in told_apart


def test_the_readings_have_the_surface_beside_what_was_read(bench: Bench) -> None:
    report = bench.reports["r"]
    rows = list(
        csv.DictReader(io.StringIO(downloads.readings(evaluate(bench, report), report.runs).decode()))
    )
    last = {(row["item"], row["piece"]): row for row in rows if row["time min"] == "60"}
    assert float(last["tessvik", "A"]["surface seen (°C)"]) == pytest.approx(60.0, abs=0.1)
    assert float(last["tessvik", "A"]["temperature@body degC"]) < 58.5
    assert float(last["tessvik", "A"]["surface seen (°F)"]) == pytest.approx(140.0, abs=0.2)
    assert last["ristal", "A"]["surface seen (°C)"] == last["ombrel", "A"]["surface seen (°C)"] == ""


def test_the_words_are_in_the_glossary(pages: dict[str, Parsed]) -> None:
    ids = {each.attributes.get("id") for each in pages["glossary/index.md"].elements}
    assert {"emissivity", "reflected"} <= ids


def test_a_bench_without_such_a_meter_says_nothing_of_them(tmp_path: Path) -> None:
    small = Small(tmp_path)
    for item in ("tessvik", "veldrun"):
        small.run(item, "A", table(45.0))
    small.finish()
    loaded = load(small.root)
    report = next(page for page in site_of(small.root).pages if page.uri == "r/r/index.md")
    assert "By infra-red" not in parsed(report).text
    finding = evaluate(loaded, loaded.reports["r"])
    assert b"surface seen" not in downloads.readings(finding, loaded.reports["r"].runs)
