"""Drops, resistances, impedances and powers of whole runs, by hand and against the simulator's truth."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from uncertainties import ufloat

from generator.evaluation.conductance import Conductance
from generator.evaluation.findings import MeasureFinding, ReportFinding, RunFinding
from generator.evaluation.worked_electrical import WorkedElectrical
from tests.evaluation.drops import Drops
from tests.evaluation.small import BENCH, Small
from tests.simulator.heat import COPPER, Box, Fitting, grid, resistance, warm_up

PAIR = "drop mV | current A\n38.6 | 30.0\n-37.8 | -30.0"
REEL = "per-metre: 4.72 mohm/m, per-metre-within: 0.05 mohm/m"
CLASS_5 = "{length: 100 mm, within: 3 mm, conductor: 4 mm2 class 5}"


def run_of(found: MeasureFinding, item: int = 0, piece: int = 0) -> RunFinding:
    return found.items[item].pieces[piece].runs[0]


def worked(found: MeasureFinding, item: int = 0) -> WorkedElectrical:
    made = run_of(found, item).electrical
    assert made is not None
    return made


def value(found: MeasureFinding, item: int = 0) -> float:
    figure = found.items[item].figure
    assert figure is not None
    return figure.value


def labels(found: MeasureFinding, item: int = 0) -> set[str]:
    budget = found.items[item].budget
    assert budget is not None
    return {row.label for row in budget.rows}


def test_a_pair_each_way(tmp_path: Path) -> None:
    # By hand: +38.6 and −37.8 mV at 30 A are 38.2 mV, and a thermal EMF of 0.4 mV.
    drops = Drops(tmp_path, "drop")
    drops.read("holder", "A", PAIR)
    found = drops.found()
    assert value(found) == pytest.approx(38.2e-3)
    assert worked(found).emf == pytest.approx(0.4e-3)
    assert (found.unit, found.better, found.set_current) == ("V", "lower", 30.0)
    # A fixed error of the voltmeter turns with nothing, and so goes out with the EMF.
    assert not any(label.startswith("meter: offset") for label in labels(found))


def test_a_meter_that_does_not_tell_which_way_the_current_goes(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "resistance")
    drops.read("holder", "A", PAIR.replace("| -30.0", "| 30.0"))
    found = drops.found()
    assert value(found) == pytest.approx(38.2e-3 / 30)
    assert worked(found).emf == pytest.approx(0.4e-3)


def test_without_reversal_the_emf_is_in_it_and_its_part_where_the_method_says_one(tmp_path: Path) -> None:
    plain, stated = Drops(tmp_path / "a", "drop"), Drops(tmp_path / "b", "drop", more="emf: 0.3 mV")
    for drops in (plain, stated):
        drops.read("holder", "A", "drop mV | current A\n38.6 | 30.0")
    found, with_part = plain.found(), stated.found()
    assert value(found) == value(with_part) == pytest.approx(38.6e-3)
    assert (worked(found).emf, worked(found).reversed) == (None, False)
    assert "thermal EMF, current not reversed" not in labels(found)
    budget = with_part.items[0].budget
    assert budget is not None
    (row,) = (row for row in budget.rows if row.label.startswith("thermal EMF"))
    assert row.contribution == pytest.approx(0.3e-3 / math.sqrt(3))


def test_several_readings_are_averaged_with_their_scatter(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "resistance")
    drops.read(
        "holder", "A", "drop mV | current A\n38.0 | 30.0\n39.0 | 30.0\n40.0 | 30.0\n90.0 | 30.0 ! slipped"
    )
    found = drops.found()
    assert value(found) == pytest.approx(1.3e-3)
    budget = found.items[0].budget
    assert budget is not None
    (row,) = (row for row in budget.rows if row.label == "scatter of the readings")
    assert row.contribution == pytest.approx(1e-3 / 30 / math.sqrt(3))


def test_first_and_last_control_of_the_nearest_day_are_the_lead(tmp_path: Path) -> None:
    """By hand: the mean of 14.4 and 14.7 mV at 30 A; an earlier day's and one between are not in it."""
    leads = "{length: 100 mm, within: 3 mm, control: cable, conductor: 4 mm2 class 5}"
    drops = Drops(tmp_path, "resistance", leads=leads)
    for day, drop in (("2026-03-08", 16.0), ("2026-03-10", 14.4), ("2026-03-10", 15.9), ("2026-03-10", 14.7)):
        drops.read("control", "", f"drop mV | current A | ambient degC\n{drop} | 30.0 | 20.0", date=day)
    drops.read("holder", "A", "drop mV | current A | ambient degC\n60.0 | 30.0 | 20.0")
    found = drops.found()
    assert value(found) == pytest.approx((60.0 - (14.4 + 14.7) / 2) / 30 * 1e-3)
    assert "controls of the day differ" not in labels(found)
    assert "length of lead between the probe points of a control" in labels(found)


def test_controls_that_do_not_agree_bring_half_of_what_they_differ_by(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "resistance", leads="{length: 100 mm, within: 3 mm, control: cable}")
    for drop in (12.0, 18.0):
        drops.read("control", "", f"drop mV | current A | ambient degC\n{drop} | 30.0 | 20.0")
    drops.read("holder", "A", "drop mV | current A | ambient degC\n60.0 | 30.0 | 20.0")
    found = drops.found()
    budget = found.items[0].budget
    assert budget is not None
    (row,) = (row for row in budget.rows if row.label == "controls of the day differ")
    # 6 mV at 30 A are 0.2 mΩ; half of it, rectangular.
    assert row.contribution == pytest.approx(0.1e-3 / math.sqrt(3), rel=1e-3)


def test_the_length_of_a_controls_own_lead_is_in_the_budget(tmp_path: Path) -> None:
    """GUM 5.1.2 by the package `uncertainties`: R = R₁ − (r/L₀)·L, L₀ and L each 100 ± 3 mm."""
    drops = Drops(tmp_path, "resistance", leads="{length: 100 mm, within: 3 mm, control: cable}")
    drops.read("control", "", "drop mV | current A | ambient degC\n14.4 | 30.0 | 20.0")
    drops.read("holder", "A", "drop mV | current A | ambient degC\n60.0 | 30.0 | 20.0")
    found = drops.found()
    budget = found.items[0].budget
    assert budget is not None
    rows = {row.label: row.contribution for row in budget.rows}
    of_control, own = ufloat(0.1, 3e-3 / math.sqrt(3)), ufloat(0.1, 3e-3 / math.sqrt(3))
    parts = (14.4e-3 / 30 / of_control * own).error_components()
    assert rows["length of lead between the probe points of a control"] == pytest.approx(parts[of_control])
    assert rows["length of lead between the probe points"] == pytest.approx(parts[own])


@pytest.mark.parametrize(
    ("lengths", "known", "by", "taken"),
    [
        (("200 mm", ""), "conductor: 4 mm2 class 5", "control", 14.4 / 2),
        (("", "150 mm"), "conductor: 4 mm2 class 5", "control", 14.4 * 1.5),
        (("150 mm", "150 mm"), REEL, "control", 14.4),
        (("200 mm", ""), REEL, "reel", 4.72 * 0.1 * 30),
        (("", "150 mm"), REEL, "reel", 4.72 * 0.15 * 30),
    ],
)
def test_a_lead_of_another_length_goes_by_the_metre(
    tmp_path: Path, lengths: tuple[str, str], known: str, by: str, taken: float
) -> None:
    """By hand, in mV at 30 A: a control of the same length, the reel, a control of another length."""
    control, item = lengths
    drops = Drops(tmp_path, "resistance", leads=f"{{length: 100 mm, within: 3 mm, control: cable, {known}}}")
    said = {"control": f"lead: {control}\n" if control else "", "item": f"lead: {item}\n" if item else ""}
    drops.read("control", "", "drop mV | current A | ambient degC\n14.4 | 30.0 | 20.0", more=said["control"])
    drops.read("holder", "A", "drop mV | current A | ambient degC\n60.0 | 30.0 | 20.0", more=said["item"])
    found = drops.found()
    lead = worked(found).lead
    assert lead is not None
    assert lead.by == by
    assert value(found) == pytest.approx((60.0 - taken) / 30 * 1e-3, rel=1e-6)
    assert lead.length == pytest.approx(0.15 if item else 0.1)


def test_a_lead_by_its_class(tmp_path: Path) -> None:
    # IEC 60228, 4 mm² class 5: at most 4.95 Ω/km; ρ/A is 1/(58·4) Ω/m. Midway, at 20 °C, 100 mm.
    drops = Drops(tmp_path, "resistance", leads=CLASS_5)
    drops.read("holder", "A", "1.75 mohm", conditions="ambient: 20 degC")
    found = drops.found()
    midway = (4.95e-3 + 1000 / (58 * 4) * 1e-3) / 2
    assert value(found) == pytest.approx(1.75e-3 - 0.1 * midway)
    lead = worked(found).lead
    assert lead is not None
    assert (lead.by, lead.source) == ("class", "4 mm2 class 5")
    budget = found.items[0].budget
    assert budget is not None
    (row,) = (row for row in budget.rows if row.label == "resistance of a metre of lead")
    assert row.contribution == pytest.approx(0.1 * (4.95e-3 - midway) / math.sqrt(3), rel=1e-6)


@pytest.mark.parametrize(
    ("known", "by", "per_metre"),
    [
        ("per-metre: 4.72 mohm/m, per-metre-within: 0.05 mohm/m, conductor: 4 mm2 class 5", "reel", 4.72e-3),
        ("conductor: 12 AWG solid", "gauge", 5.2108e-3),
        ("conductor: 12 AWG stranded", "gauge", 5.2108e-3 * 1.015),
        ("conductor: 4 mm2", "area", 4.3103e-3 * 1.08),
    ],
)
def test_the_best_known_of_several_is_taken(tmp_path: Path, known: str, by: str, per_metre: float) -> None:
    drops = Drops(tmp_path, "resistance", leads=f"{{length: 100 mm, within: 3 mm, control: cable, {known}}}")
    drops.read("holder", "A", "1.75 mohm", conditions="ambient: 20 degC")
    found = drops.found()
    lead = worked(found).lead
    assert lead is not None
    assert lead.by == by
    assert lead.per_metre == pytest.approx(per_metre, rel=1e-4)
    budget = found.items[0].budget
    assert budget is not None
    assumed = {row.label for row in budget.rows if row.assumed}
    assert ("resistance of a metre of lead" in assumed) == (by == "area")


def test_a_control_over_the_same_length_goes_before_all(tmp_path: Path) -> None:
    leads = "{length: 100 mm, within: 3 mm, control: cable, conductor: 4 mm2 class 5}"
    drops = Drops(tmp_path, "resistance", leads=leads)
    drops.read("control", "", "drop mV | current A | ambient degC\n14.4 | 30.0 | 30.0")
    drops.read("holder", "A", "drop mV | current A | ambient degC\n60.0 | 30.0 | 20.0")
    found = drops.found()
    # The control was read at 30 °C and the lead is at 20 °C: copper, 0.00393 /K.
    assert value(found) == pytest.approx(60e-3 / 30 - 14.4e-3 / 30 / 1.0393)
    lead = worked(found).lead
    assert lead is not None
    assert (lead.by, lead.source) == ("control", "cable")
    control = found.controls[0].figure
    assert control is not None
    assert control.value == pytest.approx(14.4e-3 / 30)
    assert "control, as read in its run" in labels(found)


def test_a_control_of_another_name_is_no_lead(tmp_path: Path) -> None:
    leads = "{length: 100 mm, within: 3 mm, control: bare-cable}"
    drops = Drops(tmp_path, "resistance", leads=leads)
    drops.read("control", "", "drop mV | current A\n14.4 | 30.0")
    drops.read("holder", "A", "drop mV | current A\n60.0 | 30.0")
    found = drops.found()
    assert (found.items[0].figure, found.items[0].why_not) == (None, "no-lead")


def test_what_one_control_was_read_with_is_not_lost_in_a_mean_of_pieces(tmp_path: Path) -> None:
    """It is one error for all pieces: their spread cannot hold it."""
    leads = "{length: 100 mm, within: 3 mm, control: cable}"
    drops = Drops(tmp_path, "resistance", leads=leads)
    drops.read("control", "", "drop mV | current A\n14.4 | 30.0")
    for letter, read in (("A", "60.0"), ("B", "61.0")):
        drops.read("holder", letter, f"drop mV | current A\n{read} | 30.0")
    assert "control, as read in its run" in labels(drops.found())


def test_referred_to_20_degrees_only_by_the_methods_coefficient(tmp_path: Path) -> None:
    read = "drop mV | current A | ambient degC\n39.0 | 30.0 | 30.0"
    by = {"": 1.0, "coefficient: assembly": 1.03, "coefficient: copper": 1.0393}
    by["coefficient: {value: 0.005 /K, within: 0.001 /K, because: brass}"] = 1.05
    for number, (more, factor) in enumerate(by.items()):
        drops = Drops(tmp_path / str(number), "resistance", more=more)
        drops.read("holder", "A", read)
        found = drops.found()
        assert value(found) == pytest.approx(1.3e-3 / factor), more
        assert worked(found).temperature == pytest.approx(30.0)
        assert worked(found).assumed == ("assembly" in more)
        told = "temperature coefficient of resistance" in labels(found)
        assert told == (factor in {1.03, 1.05}), more


def test_no_20_degrees_without_a_temperature(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "resistance", more="coefficient: copper")
    drops.read("holder", "A", PAIR)
    assert drops.found().items[0].why_not == "no-temperature"


def test_power_is_of_the_part_alone_at_the_set_current(tmp_path: Path) -> None:
    # (62 mV − 30.1 A·0.4 mΩ)·30.1 A at 30.1 A; at 30 A so much less by the square.
    leads = "{length: 100 mm, within: 3 mm, per-metre: 4 mohm/m, per-metre-within: 0.1 mohm/m}"
    drops = Drops(tmp_path, "power", leads=leads)
    drops.read("holder", "A", "drop mV | current A | ambient degC\n62.0 | 30.1 | 20.0")
    found = drops.found()
    as_read = (62e-3 - 30.1 * 0.4e-3) * 30.1
    assert value(found) == pytest.approx(as_read * (30 / 30.1) ** 2)
    assert (found.unit, found.set_current) == ("W", 30.0)


def test_a_typed_drop_has_its_current_from_the_conditions(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "drop")
    drops.read("holder", "A", "38.6 mV", conditions="current: 30.1 A")
    found = drops.found()
    assert value(found) == pytest.approx(38.6e-3 * 30 / 30.1)
    assert any(label.startswith("clamp: gain") for label in labels(found))


def test_an_impedance_is_called_one(tmp_path: Path) -> None:
    drops = Drops(tmp_path, "impedance", supply="ac", leads="included")
    drops.read("holder", "A", "drop mV | current A\n38.6 | 30.0")
    found = drops.found()
    assert (found.kind, found.unit) == ("impedance", "Ω")
    assert worked(found).included


@pytest.mark.parametrize(
    ("read", "more", "why"),
    [
        ("drop mV | current A\n>200 | 30.0", "", "over-range"),
        ("drop mV | current A\n38.6 | 33.0", "", "current-outside-tolerance"),
        ("drop mV | current A\n38.6 | 30.0 ! slipped", "", "no-reading"),
        (PAIR, "stopped: {at: 1 min, because: smoke}\n", "stopped"),
        (PAIR, "stopped: {at: 1 min, because: rig}\n", "not-finished"),
    ],
)
def test_why_there_is_no_figure(tmp_path: Path, read: str, more: str, why: str) -> None:
    drops = Drops(tmp_path, "drop")
    drops.read("holder", "A", read, more=more)
    assert drops.found().items[0].why_not == why


def test_items_differ_by_less_than_their_meter_is_off(tmp_path: Path) -> None:
    """The shared errors of meter and clamp go out of the difference of two items."""
    drops = Drops(tmp_path, "resistance")
    for item, read in (("holder", (38.6, 38.9, 38.7)), ("clip", (40.6, 40.9, 40.7))):
        for letter, each in zip("ABC", read, strict=True):
            drops.read(item, letter, f"drop mV | current A\n{each} | 30.0\n-{each} | -30.0")
    found = drops.found()
    (pair,) = found.pairs
    assert pair.difference.value == pytest.approx(2e-3 / 30)
    assert pair.shown
    figure = found.items[0].figure
    assert figure is not None
    assert pair.half_width < figure.half_width


# Heat that a simulated item makes, over the rise that it settles at.

METER = """\
name: bench meter
ranges:
  - {quantity: voltage, from: -200 mV, to: 200 mV, accuracy: "±(0.1 % + 0.02 mV)", resolution: 0.001 mV, repeatability: 0.002 mV}
calibrated: never
"""  # noqa: E501
FINE = """\
name: shunt
ranges:
  - {quantity: current, from: 0 A, to: 60 A, accuracy: "±0.2 %", resolution: 0.001 A, repeatability: 0.002 A}
calibrated: never
"""
WARM = """\
title: Heating and heat
hazard: [extra-low voltage]
conditions: {{current: {{value: {amps} A, within: 2 %}}}}
schedule: {times} min
points: {{body: {{where: side, held-by: cement, reads-low-by-at-most: 0 K}}}}
measures:
  - {{id: rise, kind: heating, at: {last} min, point: body}}
  - {{id: power, kind: power, supply: dc, at: {last} min, point: body, leads: {{length: {lead} mm, within: 1 mm, conductor: 4 mm2 class 5}}}}
cannot-show: [ageing]
"""  # noqa: E501
TIMES = (0, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 90, 105, 120, 135, 150)
PER_METRE = 4.75e-3
"""True resistance of the lead at 20 °C, Ω/m: no figure of any table."""


def heated(root: Path, amps: float, lead: float, last: int = 150) -> ReportFinding:
    """One simulated item that was heated, its drop read beside it.

    Args:
        root: Where its bench is written.
        amps: The current.
        lead: Length of lead between the probe points, m.
        last: When it ended, min.
    """
    read = [time for time in TIMES if time <= last]
    piece, minutes = Fitting(np.array([1.8e-3])), np.array(read) * 60.0
    times = grid(last)
    current, room = np.full(times.shape, amps), np.full(times.shape, 21.0)
    went = warm_up(piece, Box(capacity=60.0), current, room)
    at = np.searchsorted(went.times, minutes)
    contact = went.contact[0, at]
    ohms = resistance(piece, went.contact, went.times)[0, at]
    # The lead is somewhere between the part and its air.
    beside = lead * PER_METRE * (1 + COPPER * (0.6 * contact + 0.4 * 21.0 - 20.0))
    rows = [
        f"{minute} | {hot:.1f} | 21.0 | {amps:.3f} | {1e3 * amps * volts:.3f}"
        for minute, hot, volts in zip(read, contact, ohms + beside, strict=True)
    ]
    bench = Small(root)
    bench.write("bench.yml", BENCH)
    bench.write("instruments/clamp.yml", FINE)
    bench.write("instruments/meter.yml", METER)
    text = WARM.format(amps=f"{amps:g}", lead=f"{lead * 1e3:g}", times=" ".join(map(str, read)), last=last)
    bench.write("methods/heat/1.yml", text)
    bench.report = bench.report.replace("measures: [rise]", "measures: [rise, power]")
    table = "\n".join(["time min | temperature@body degC | ambient degC | current A | drop mV", *rows])
    bench.run("holder", "A", table)
    run = root / "reports/r/runs/run-001.yml"
    run.write_text(run.read_text().replace("current: clamp}", "current: clamp, drop: meter}"))
    return bench.finding()


def given_off(root: Path, amps: float, lead: float) -> Conductance:
    """What the simulated item gives off for each kelvin, by the evaluation."""
    (run,) = heated(root, amps, lead).measure("power").items[0].pieces[0].runs
    assert run.conductance is not None
    return run.conductance


def test_heat_over_settled_rise_is_one_at_two_currents_and_two_lead_lengths(tmp_path: Path) -> None:
    found = [
        given_off(tmp_path / str(number), amps, lead)
        for number, (amps, lead) in enumerate(((20.0, 0.1), (30.0, 0.1), (20.0, 0.3), (30.0, 0.3)))
    ]
    assert all(each.why_not is None and each.low < each.value < each.high for each in found)
    for each in found:
        for other in found:
            # Each lies within the interval of the other.
            assert other.low <= each.value <= other.high
    # The three times longer lead would add a third to the heat where it is not taken off.
    assert max(each.value for each in found) / min(each.value for each in found) < 1.05
    assert 4.6e-3 * 0.2 / 1.8e-3 > 0.4


def test_heat_over_settled_rise_is_the_one_over_the_other(tmp_path: Path) -> None:
    """By hand, and its interval by the package `uncertainties` from the budgets of both."""
    found = heated(tmp_path, 30.0, 0.1)
    (run,) = found.measure("power").items[0].pieces[0].runs
    end = found.measure("rise").items[0].pieces[0].runs[0].end
    told = run.conductance
    assert told is not None
    assert end is not None
    assert end.settled is not None
    assert run.figure is not None
    remaining = (end.settled.value - end.settled.start) * math.exp(-150 * 60 / end.settled.tau)
    grown = run.figure.value * (1 + 0.003 * remaining)
    assert told.value == pytest.approx(grown / end.settled.value, rel=1e-12)
    power = ufloat(run.figure.value, run.figure.half_width)
    rise = ufloat(end.settled.value, end.settled.value - end.settled.low)
    apart = (power / rise).std_dev
    # What both share is the shunt's error alone, a hundredth of the thermometer's here.
    assert told.high - told.value == pytest.approx(apart, rel=0.01)
    assert told.value - told.low == pytest.approx(
        told.high - told.value + told.value * (1 - 1 / 1.06), rel=1e-6
    )


def test_no_heat_over_a_settled_rise_that_may_not_be_told(tmp_path: Path) -> None:
    told = heated(tmp_path, 30.0, 0.1, last=20).measure("power").items[0].pieces[0].runs[0].conductance
    assert told is not None
    assert told.why_not in {"no-settled-rise", "no-power"}


BOTH_MODES = """\
name: bench meter
ranges:
  - {quantity: voltage, from: -200 mV, to: 200 mV, accuracy: "±(5 % + 1 mV)", resolution: 0.1 mV, repeatability: 0.05 mV, mode: ac}
  - {quantity: voltage, from: -200 mV, to: 200 mV, accuracy: "±(0.5 % + 0.05 mV)", resolution: 0.1 mV, repeatability: 0.05 mV, mode: dc}
calibrated: never
"""  # noqa: E501


@pytest.mark.parametrize(("supply", "gain"), [("dc", 0.005), ("ac in phase", 0.05)])
def test_the_range_of_the_supplys_mode_is_taken(tmp_path: Path, supply: str, gain: float) -> None:
    drops = Drops(tmp_path, "drop", supply=supply)
    drops.write("instruments/meter.yml", BOTH_MODES)
    drops.read("holder", "A", "drop mV | current A\n38.6 | 30.0")
    budget = drops.found().items[0].budget
    assert budget is not None
    (row,) = (row for row in budget.rows if row.label == "meter: gain, common to its runs")
    # A quarter of it is new in each run: √(1 − 0.25²) of the half-width is common.
    assert row.contribution == pytest.approx(38.6e-3 * gain * math.sqrt(15 / 16) / math.sqrt(3), rel=1e-6)
