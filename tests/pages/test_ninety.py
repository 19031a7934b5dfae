"""A rise of 50 K is one of 90 °F wherever it is told (NIST SP 811, B.8: an interval of 1 K is 1.8 °F)."""

from __future__ import annotations

import csv
import io
import json
import re

import pytest

from generator.pages.site import Site
from generator.records.bench import load
from tests.evaluation.small import Small, table
from tests.pages.rendered import Parsed, parsed
from tests.pages.sites import made

BOTH = r"50\.0\d* ± [\d.]+ °C \(90\.0\d* ± [\d.]+ °F\)"
SIDE = r"50\.0\d* ± [\d.]+ 90\.0\d* ± [\d.]+"
COLUMNS = """\
comparison:
  version: 1
  columns:
    - {method: heat, measure: rise}
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Site:
    """Three pieces that rise by 50 K in air of 20 °C, which makes them 70 °C, and three that rise by 60 K."""
    small = Small(tmp_path_factory.mktemp("ninety"))
    for item, rise in (("cool", 50.0), ("warm", 60.0)):
        for piece in "ABC":
            small.run(item, piece, table(rise))
    small.finish()
    with (small.root / "reports/bench.yml").open("a", encoding="utf-8") as bench:
        bench.write(COLUMNS)
    found = load(small.root)
    assert found.faults == ()
    return made(found)


def page(site: Site, uri: str) -> Parsed:
    return parsed(next(each for each in site.pages if each.uri == uri))


def content(site: Site, uri: str) -> str:
    return next(each.content for each in site.downloads if each.uri == uri).decode()


def rows(site: Site, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content(site, f"r/r/1/data/{name}.csv"), newline="")))


def test_in_the_bars(site: Site) -> None:
    (bars,) = page(site, "r/r/index.md").all("div", class_="bars")
    assert re.search(rf"Cool X {SIDE}", bars.text)


def test_in_the_answer_and_in_the_sentences(site: Site) -> None:
    text = page(site, "r/r/index.md").text
    assert "Cool X stayed coolest, about 50 °C (90 °F) above the air" in text
    assert re.search(rf"After 60 min at 30 A, Cool X \(3 pieces\) was {BOTH} above the air", text)
    assert re.search(
        r"Warm X ran hotter than Cool X 10\.0\d* ± [\d.]+ °C \(18\.0\d* ± [\d.]+ °F\) apart", text
    )


def test_in_the_still_and_in_its_table(site: Site) -> None:
    chart = next(each for each in site.pages if each.uri == "r/r/index.md").slots["chart-1"]
    found = Parsed(chart)
    (svg,) = found.all("svg", class_="still")
    assert re.search(r"Cool.* 50\.0 ?90\.0", svg.text)
    assert re.search(rf"60{SIDE}", "".join(each.text for each in found.all("tr")[-1:]))


def test_in_the_live_chart(site: Site) -> None:
    script = content(site, "r/r/1/charts/rise.js")
    chart = json.loads(script.removeprefix("document.currentScript.made=").removesuffix(";"))
    cool = next(each for each in chart["data"] if each.get("name") == "Cool X")
    assert cool["y"][-1] == pytest.approx(50.0, abs=0.01)
    minutes, metric, us = cool["customdata"][-1]
    assert (minutes, metric[:4], us[:4]) == ("60", "50.0", "90.0")
    units = chart["units"]
    ticks = dict(zip(units["us"]["ticktext"], units["us"]["tickvals"], strict=True))
    assert units["us"]["factor"] == 1.8
    assert ticks["100"] == pytest.approx(100 / 1.8, abs=0.001)


def test_on_the_card_on_the_item_s_page_and_in_the_comparison(site: Site) -> None:
    report = next(each for each in site.pages if each.uri == "r/r/index.md")
    for text in (
        Parsed(report.slots["card-1"]).text,
        page(site, "i/cool/index.md").text,
        page(site, "compare/index.md").text,
    ):
        assert re.search(SIDE, text)
        assert "122" not in text  # 50 °C taken for a temperature


def test_in_the_files_to_take_away(site: Site) -> None:
    last = [row for row in rows(site, "readings") if row["item"] == "cool" and row["time min"] == "60"]
    assert len(last) == 3
    for row in last:
        assert (float(row["rise (K)"]), float(row["rise (°F)"])) == pytest.approx((50.0, 90.0), abs=0.01)
        assert (row["temperature@body degC"], row["air (°F)"]) == ("70.0", "68.0")
    mean = next(row for row in rows(site, "results") if row["item"] == "cool" and not row["piece"])
    assert (float(mean["value"]), float(mean["value, in the US unit"])) == pytest.approx((50, 90), abs=0.01)
    (pair,) = rows(site, "pairs")
    assert float(pair["difference, in the US unit"]) == pytest.approx(18.0, abs=0.01)
