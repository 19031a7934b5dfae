"""How drops, resistances, impedances and powers stand on pages: what was read, and what was taken off."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.report import evaluate
from generator.pages.explain import explained
from generator.records.bench import load
from tests.evaluation.drops import Drops
from tests.pages.rendered import parsed
from tests.pages.sites import site_of


@dataclass(frozen=True)
class Told:
    """What is told of a small bench: the text of its pages by address, its files, and its first run's way."""

    pages: dict[str, str]
    files: dict[str, str]
    way: str
    data: str


def told(bench: Drops) -> Told:
    bench.finish()
    records = load(bench.root)
    assert records.faults == ()
    site = site_of(bench.root)
    pages = {page.uri: " ".join("".join(parsed(page).texts).split()) for page in site.pages}
    files = {each.uri: each.content.decode() for each in site.downloads if each.uri.endswith(".csv")}
    report = records.reports["r"]
    finding = evaluate(records, report)
    first = min(report.runs.values(), key=lambda run: (bool(run.control), run.id)).id
    measure = finding.measure(bench.kind)
    return Told(pages, files, explained(records, report, measure, first), str(report_as_data(finding)))


def pairs(bench: Drops) -> None:
    bench.read("control", "", "drop mV | current A | ambient degC\n14.1 | 30.0 | 21.0")
    for item, (forward, back) in (("holder", (62.0, 61.2)), ("clip", (45.0, 44.2))):
        for number, letter in enumerate("ABC"):
            more = 0.1 * number
            rows = f"{forward + more:.1f} | 30.0 | 21.0\n-{back + more:.1f} | -30.0 | 21.2"
            bench.read(item, letter, f"drop mV | current A | ambient degC\n{rows}")


@pytest.fixture(scope="module")
def resistance(tmp_path_factory: pytest.TempPathFactory) -> Told:
    bench = Drops(
        tmp_path_factory.mktemp("resistance"),
        "resistance",
        leads="{length: 100 mm, within: 3 mm, control: cable, conductor: 4 mm2 class 5}",
        more="coefficient: assembly",
    )
    pairs(bench)
    return told(bench)


def test_the_report_says_how_its_figures_are_to_be_read(resistance: Told) -> None:
    page = resistance.pages["r/r/index.md"]
    assert "current both ways in all 6 runs, which takes thermal EMF out (up to 0.4 mV as read)." in page
    assert "100 mm (3.94 in) of lead lies between the probe points and is taken off: as “cable” had" in page
    assert "by a coefficient of 0.003 ± 0.001 per K that is assumed for assemblies: our choice." in page
    assert "mΩ" in page
    assert "how well the control was read whose drop is taken off" in page


def test_every_step_is_told_with_its_numbers(resistance: Told) -> None:
    for text in (resistance.way, resistance.pages["r/r/1/how/holder/index.md"]):
        assert "(62.0000 / 30 − (−61.2000) / 30) / 2 = 2.0533 mΩ; thermal EMF of 0.4000 mV goes out" in text
        assert "as the control had it over the same length (cable)" in text
        assert "by 0.003 /K (assumed for assemblies: our choice)" in text
        assert "1 + 0.003 × (21.1 − 20)" in text


def test_files_hold_the_readings_and_the_figures(resistance: Told) -> None:
    (name,) = (each for each in resistance.files if "readings" in each)
    rows = list(csv.DictReader(io.StringIO(resistance.files[name])))
    first = next(row for row in rows if row["item"] == "holder")
    assert (first["drop mV"], first["current A"]) == ("62.0", "30.0")
    assert (first["measure"], first["unit"]) == ("resistance", "Ω")
    assert 1.5e-3 < float(first["value"]) < 1.6e-3
    assert float(first["half-width of the value's 95 % interval"]) > 0
    assert "'kind': 'resistance'" in resistance.data


def test_the_method_says_what_it_reads(resistance: Told) -> None:
    page = resistance.pages["m/drop/1/index.md"]
    assert "Resistance of the part." in page
    assert "as “cable” had over the same length; else by its name, 4 mm² class 5" in page
    assert "The length of lead may be ± 3 mm" in page


def test_an_impedance_is_never_called_a_resistance(tmp_path: Path) -> None:
    bench = Drops(tmp_path, "impedance", supply="ac", leads="included")
    bench.read("holder", "A", "drop mV | current A\n62.0 | 30.0")
    found = told(bench)
    page = found.pages["r/r/index.md"]
    assert "By alternating current, the voltage whatever its phase." in page
    assert "The lead between the probe points is in the figure." in page
    assert "An impedance, not a resistance: it is not to be compared with one read by direct current." in page
    assert "thermal EMF" not in page
    assert "an impedance of 2.0667 mΩ, not a resistance" in found.way


def test_a_drop_that_was_not_reversed_says_so(tmp_path: Path) -> None:
    leads = "{length: 100 mm, within: 3 mm, conductor: 4 mm2}"
    bench = Drops(tmp_path, "drop", leads=leads, more="emf: 20 uV")
    bench.read("holder", "A", "62.0 mV", conditions="current: 30.1 A, ambient: 21 degC")
    found = told(bench)
    page = found.pages["r/r/index.md"]
    assert "so thermal EMF is in the figure; what it may come to, ± 0.02 mV, is in the ±." in page
    assert "is taken off by its area alone, which may be up to 16 % off." in page
    assert "Told at 30 A." in page
    assert "At the set current:" in found.way
    assert "by its area alone, up to 16 % off (4 mm²)" in found.way


def test_power_is_told_as_heat_of_the_part_alone(tmp_path: Path) -> None:
    leads = "{length: 100 mm, within: 3 mm, per-metre: 4.7 mohm/m, per-metre-within: 0.1 mohm/m}"
    bench = Drops(tmp_path, "power", leads=leads)
    bench.read("holder", "A", "drop mV | current A\n62.0 | 30.1\n62.2 | 30.1")
    found = told(bench)
    assert "its reel was measured, 4.7 mΩ/m" in found.pages["r/r/index.md"]
    assert "Told at 30 A: what the part itself makes of heat." in found.pages["r/r/index.md"]
    assert "Heat of the part alone, (drop − current × lead) × current" in found.way
    assert "Mean of 2: (2.0598 + 2.0664) / 2 = 2.0631 mΩ" in found.way


def test_a_resistance_without_a_coefficient_is_told_as_warm_as_it_was(tmp_path: Path) -> None:
    bench = Drops(tmp_path, "resistance")
    bench.read("holder", "A", "1.75 mohm", conditions="ambient: 23 degC")
    bench.read("holder", "B", "1.76 mohm", conditions="ambient: 24 degC")
    page = told(bench).pages["r/r/index.md"]
    assert "As warm as the parts were, 23.0 to 24.0 °C" in page
    assert (
        "The meter told the resistance itself; unless it takes thermal EMF out, that is in the figure."
        in page
    )
    assert "No lead lies between the probe points." in page
