"""A rise in both units, in everything that the pages and their files print: 50 K are 90 °F, never 122.

A maker's catalogue prints rises of "50 °C (122 °F)", converted as if they were temperatures. SI brochure and
NIST SP 811 (from memory): 1 K of a difference is 1.8 °F, without offset.
"""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from pathlib import Path

import pytest

from generator.pages.site import Page, Site
from tests.evaluation.small import METHOD, Small, table
from tests.pages.rendered import parsed
from tests.pages.sites import site_of

LIMIT = "limits:\n  - {kind: rise, value: 50 K, point: body, standing: reviewer's own, source: my own}\n"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Site:
    """Six pieces and a cable; one item rises by 50 K to 70 °C, against a limit of 50 K."""
    small = Small(tmp_path_factory.mktemp("rise"))
    stated = ", settled: {change: 50 K, over: 60 min, to-come: 50 K}"
    small.write("methods/heat/1.yml", (METHOD % "").replace(", settled: {over: 60 min}", stated))
    for item, rise in (("kelda", 50.0), ("orrin", 31.0)):
        for piece in "ABC":
            small.run(item, piece, table(rise))
    small.run("control", "", table(10.0))
    small.finish()
    report = small.root / "reports/r/report.yml"
    report.write_text(report.read_text(encoding="utf-8") + LIMIT, encoding="utf-8")
    return site_of(small.root)


@pytest.fixture(scope="module")
def texts(site: Site) -> dict[str, str]:
    """What each page shows, drawings and tables with it; temperatures in other air, with an offset, apart."""
    return {page.uri: " ".join(" ".join(parsed(_rises(page)).texts).split()) for page in site.pages}


def _rises(page: Page) -> Page:
    return dataclasses.replace(page, slots=page.slots | {"where": ""}) if "where" in page.slots else page


def test_no_page_takes_a_rise_for_a_temperature(texts: dict[str, str]) -> None:
    # 50, 45 and 31 K as temperatures would be 122, 113 and 87.8 °F; as differences they are 90, 81 and 55.8.
    for uri, text in texts.items():
        assert not re.search(r"\b(?:122|113|87\.8)\b", text), uri
    assert "55.8" in texts["r/r/index.md"]


def test_every_fifty_kelvins_stand_beside_ninety_fahrenheit(texts: dict[str, str]) -> None:
    report = texts["r/r/index.md"]
    metric = re.findall(r"50\.0 ± (\d\.\d)(?! K)", report)
    us = re.findall(r"90\.0 ± (\d\.\d)", report)
    assert len(metric) == len(us) > 8
    for own, other in zip(sorted(metric), sorted(us), strict=False):
        assert float(other) == pytest.approx(1.8 * float(own), abs=0.15)
    assert "Against 50 °C ( 90 °F )" in report


def test_the_rule_of_a_method_is_a_difference_too(texts: dict[str, str]) -> None:
    version = texts["m/heat/1/index.md"]
    assert "50 °C" in version
    assert "90 °F" in version


def rows_of(site: Site) -> dict[str, list[dict[str, str]]]:
    files = {Path(file.uri).name: file.content for file in site.downloads if file.uri.endswith(".csv")}
    return {name: list(csv.DictReader(io.StringIO(content.decode()))) for name, content in files.items()}


def test_no_file_takes_a_rise_for_a_temperature(site: Site) -> None:
    files = rows_of(site)
    assert set(files) == {"readings.csv", "results.csv", "pairs.csv", "limits.csv"}
    for name, rows in files.items():
        found = {float(value) for row in rows for value in row.values() if re.fullmatch(r"[\d.]+", value)}
        assert not found & {122.0, 113.0, 87.8}, name


def test_columns_in_fahrenheit_are_1_8_times_those_in_kelvins(site: Site) -> None:
    files = rows_of(site)
    result = next(row for row in files["results.csv"] if row["item"] == "kelda")
    assert (result["value"], result["unit"]) == ("50.0", "K")
    assert (result["value, in the US unit"], result["US unit"]) == ("90.0", "°F")
    reading = next(row for row in files["readings.csv"] if row["item"] == "kelda" and row["time min"] == "60")
    assert (reading["temperature@body degC"], reading["rise (K)"]) == ("70.0", "50.0")
    # The air of 20 °C is a temperature, 68 °F; the rise is none.
    assert (reading["air (°C)"], reading["air (°F)"], reading["rise (°F)"]) == ("20.0", "68.0", "90.0")
