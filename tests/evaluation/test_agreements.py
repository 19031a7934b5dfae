"""Two meters beside each other: E_n by hand, and what is said where they do not agree."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.evaluation.agreements import side_by_side
from generator.evaluation.checks import checked
from generator.fault import Doubt
from generator.records.bench import Bench, load
from tests.evaluation.small import LOGGER, Small, table

THERMOMETER = """\
name: glass thermometer
ranges:
  - {quantity: temperature, from: 0 degC, to: 100 degC, accuracy: "±0.4 degC, normal, k = 2", resolution: 0.1 degC, repeatability: 0.1 degC}
calibrated: never
"""  # noqa: E501
BESIDE = (
    "checks:\n  - {date: 2026-02-01, what: one bath, found: read, channel: CH2, read: %s,"
    " beside: {instrument: glass, read: %s}}\n"
)


@pytest.fixture
def small(tmp_path: Path) -> Small:
    made = Small(tmp_path)
    made.write("instruments/glass.yml", THERMOMETER)
    made.run("tessvik", "A", table(40.0))
    return made


def bench(small: Small, first: str, second: str) -> Bench:
    small.write("instruments/logger.yml", LOGGER + BESIDE % (first, second))
    small.finish()
    found = checked(load(small.root))
    assert found.faults == ()
    return found


def test_worked_by_hand(small: Small) -> None:
    """ISO 13528:2022, 9.7: the difference over both expanded uncertainties (k = 2) together."""
    (found,) = side_by_side(bench(small, "51.0 degC", "50.0 degC").instruments, "logger")
    noise = math.hypot(0.1 / math.sqrt(12), 0.1)
    # Logger ±(0.5 % + 0.5 °C), probe of class 1 ±1.5 °C, both rectangular; the other ±0.4 °C at k = 2.
    logger = 2 * math.hypot((0.005 * 51 + 0.5) / math.sqrt(3), 1.5 / math.sqrt(3), noise)
    glass = 2 * math.hypot(0.2, noise)
    assert found.first_within == pytest.approx(logger)
    assert found.second_within == pytest.approx(glass)
    assert found.found.number == pytest.approx(1.0 / math.hypot(logger, glass))
    assert found.found.agree


def test_meters_that_do_not_agree_are_a_doubt(small: Small) -> None:
    def doubts(first: str) -> list[Doubt]:
        found = bench(small, first, "50.0 degC").doubts
        return [each for each in found if each.place.file.name == "logger.yml"]

    assert doubts("51.0 degC") == []
    (doubt,) = doubts("53.0 degC")
    assert doubt.path == "checks.1.read"
    assert doubt.found == "53.0 degC"
    assert doubt.what.startswith("does not agree with 'glass', which read 50.0 degC: E_n = 1.5, and 1 is the")


def test_a_check_without_another_meter_says_nothing_of_two(small: Small) -> None:
    small.write(
        "instruments/logger.yml",
        LOGGER + "checks:\n  - {date: 2026-02-01, what: melting ice, found: 0.2 degC}\n",
    )
    small.finish()
    assert side_by_side(load(small.root).instruments, "logger") == ()


def test_a_probe_outside_what_its_class_is_stated_for_says_nothing(small: Small) -> None:
    text = LOGGER.replace("from: -50 degC", "from: -90 degC") + BESIDE % ("-60.0 degC", "50.0 degC")
    small.write("instruments/logger.yml", text)
    small.finish()
    assert side_by_side(load(small.root).instruments, "logger") == ()
