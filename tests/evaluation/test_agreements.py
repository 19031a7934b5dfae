"""Two meters beside each other: E_n by hand, and what is said where they do not agree."""

from __future__ import annotations

import json
import math
from itertools import pairwise
from pathlib import Path

import pytest

from generator.evaluation.agreements import side_by_side
from generator.evaluation.beside_as_data import beside_as_data
from generator.evaluation.checks import checked
from generator.evaluation.report import evaluate
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


@pytest.mark.parametrize(("third", "bare"), [("type K class 1", ()), ("type K class 2", ("logger",))])
def test_without_a_channel_all_probes_must_state_the_same(
    small: Small, third: str, bare: tuple[str, ...]
) -> None:
    """Class 1 ±1.5 °C (IEC 60584-1) is in it where every probe is of it, else it is said not to be."""
    text = (LOGGER + BESIDE % ("51.0 degC", "50.0 degC")).replace("channel: CH2, ", "")
    small.write("instruments/logger.yml", text.replace("k3: type K class 1", f"k3: {third}"))
    small.finish()
    (found,) = side_by_side(load(small.root).instruments, "logger")
    assert found.bare == bare
    noise = math.hypot(0.1 / math.sqrt(12), 0.1)
    probe = 0.0 if bare else 1.5 / math.sqrt(3)
    assert found.first_within == pytest.approx(
        2 * math.hypot((0.005 * 51 + 0.5) / math.sqrt(3), probe, noise)
    )


def test_programs_are_told_e_n_and_the_controls_over_the_dates(small: Small) -> None:
    for number in range(8):
        small.run("control", "", table(10.0 + 0.1 * (number % 2)), date=f"2026-03-{number + 1:02}")
    bench(small, "53.0 degC", "50.0 degC")
    records = load(small.root)
    report = records.reports["r"]
    told = json.loads(json.dumps(beside_as_data(records, report, {"r": evaluate(records, report)})))
    (found,) = told["agreements"]
    assert (found["instrument"], found["beside"], found["agree"]) == ("logger", "glass", False)
    assert found["e_n"] == pytest.approx(3.0 / math.hypot(*found["expanded_uncertainties"]))
    (chart,) = told["control_charts"]
    assert (chart["control"], chart["unit"], len(chart["results"])) == ("cable", "K", 8)
    values = [each["value"] for each in chart["results"]]
    # e-Handbook 6.3.2.2: mean ± 3 times the mean moving range over 1.128.
    moving = sum(abs(after - before) for before, after in pairwise(values)) / 7
    assert chart["limits"]["high"] == pytest.approx(sum(values) / 8 + 3 * moving / 1.128)
    assert not any(each["beyond"] for each in chart["results"])
