"""A method's page: is the rig still the same?"""

from __future__ import annotations

from pathlib import Path

from generator.pages.site import Page
from generator.records.bench import load
from tests.evaluation.small import Small, table
from tests.evaluation.test_control import RISES
from tests.pages.factory import demo_site
from tests.pages.rendered import Parsed, parsed
from tests.pages.sites import made


def page(tmp_path: Path, *rises: float) -> Page:
    small = Small(tmp_path)
    for day, rise in enumerate(rises, 1):
        small.run("control", "", table(rise), date=f"2026-03-{day:02}")
    small.run("tessvik", "A", table(40.0))
    small.finish()
    return next(each for each in made(load(small.root)).pages if each.uri == "m/heat/index.md")


def text(found: Page) -> str:
    return " ".join(Parsed("".join(found.slots.values())).text.split())


def test_a_result_beyond_the_limits_is_told_and_drawn(tmp_path: Path) -> None:
    found = page(tmp_path, *RISES, 19.0, 15.0)
    said = text(found)
    # Mean 15.43; mean moving range (1.4 + 3.8 + 4.0)/9 = 1.0222, so ± 3·1.0222/1.128 = 2.719.
    assert "1 of 10 results lies beyond the limits of 12.7 to 18.1 °C (22.9 to 32.7 °F) above the air" in said
    assert "9 March 202619.0 ± 2.6 34.2 ± 4.8 °C °F beyond the limits" in said
    assert 'class="stop"' in found.slots["control-1"]
    assert "Is the rig still the same?" in parsed(found).text


def test_few_results_are_listed_without_limits(tmp_path: Path) -> None:
    found = page(tmp_path, *RISES[:3])
    assert "3 results: limits are told from eight on (our choice), so nothing is said" in text(found)
    assert "<svg" not in found.slots["control-1"]


def test_the_demos_controls_stand_on_its_methods_page() -> None:
    found = next(each for each in demo_site().pages if each.uri == "m/closed-box-heating/index.md")
    assert "unbroken cable: Hotter than the air" in text(found)
