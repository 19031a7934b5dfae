"""From records to findings: which runs count, what cancels, what is refused."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.records.bench import load
from tests.evaluation.small import CLAMP, LOGGER, METHOD, Small, table

SHARED = math.sqrt(1 - 0.25**2)


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def test_one_rise_worked_by_hand(small: Small) -> None:
    """Logger ±(0.5 % + 0.5 °C), probes of class 1 (±1.5 K, IEC 60584-1), clamp ±(1.5 % + 3 digits)."""
    small.run("tessvik", "A", table(40.0))
    item = small.rise().items[0]
    assert item.figure is not None
    hot, cold, current = 60.0, 20.0, 30.0
    parts = [
        1.5 / math.sqrt(3),  # item's probe
        1.5 / math.sqrt(3),  # air probe
        0.005 * hot / math.sqrt(3),  # logger, gain, item's channel
        0.005 * cold / math.sqrt(3),  # logger, gain, air's channel
        0.5 / math.sqrt(3),  # logger, offset, item's channel
        0.5 / math.sqrt(3),  # logger, offset, air's channel
        0.05 / math.sqrt(3),  # resolution and repeatability of the item's reading
        0.1,
        # time of the reading: within 30 s of the mark, at the slope of the last half hour
        (4.0 / 1800) * 30 / math.sqrt(3),
        # current: θ·(30/I)^2, so that 1 % of I is 2 % of θ; gain and offset
        40.0 * 2 * 0.015 / math.sqrt(3),
        40.0 * 2 * (0.3 / current) / math.sqrt(3),
    ]
    # 0, 36 and 40 K at 0, 30 and 60 min: of 40.5 K a ninth is left after each half hour, τ = 1,800 s / ln 9.
    fade = 1 / 9
    mean = (1 - fade) / math.log(9)  # of e^(−s/τ) over half an hour
    # Air as felt, y' = (x − y)/τ from the first value: a straight half hour from x₀ to x₁ takes y to
    # fade·y + (mean − fade)·x₀ + (1 − mean)·x₁.
    air = [fade * (fade + mean - fade), fade * (1 - mean) + (mean - fade), 1 - mean]
    assert sum(air) == pytest.approx(1)
    parts += [0.05 / math.sqrt(3) * math.hypot(*air), 0.1 * math.hypot(*air)]
    # Current as felt: weights e^(−(t − s)/τ), normed over the hour; the same straight pieces.
    end = 1 - mean
    felt = [fade * (mean - fade), fade * end + (mean - fade), end]
    felt = [each / (1 - fade**2) for each in felt]
    assert sum(felt) == pytest.approx(1)
    noise = math.hypot(*felt)
    parts += [40.0 * 2 * (0.05 / current) / math.sqrt(3) * noise, 40.0 * 2 * (0.1 / current) * noise]
    by_hand = math.sqrt(math.fsum(part**2 for part in parts))
    assert item.figure.value == pytest.approx(40.0, abs=1e-12)
    assert item.figure.standard_uncertainty == pytest.approx(by_hand, rel=1e-9)
    assert item.budget is not None
    assert math.fsum(row.share for row in item.budget.rows) == pytest.approx(100)
    assert item.spread.origin == "none"


def test_the_current_is_corrected_by_its_square(small: Small) -> None:
    small.run("tessvik", "A", table(40.0, current="30.3"))
    figure = small.rise().items[0].figure
    assert figure is not None
    assert figure.value == pytest.approx(40.0 * (30.0 / 30.3) ** 2)


def test_one_probe_cancels_in_a_difference_and_two_do_not(small: Small, tmp_path: Path) -> None:
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(40.0))
    one = small.rise().pairs[0].difference.standard_uncertainty
    other = Small(tmp_path / "two")
    other.run("tessvik", "A", table(40.0), channel="CH2")
    other.run("veldrun", "A", table(40.0), channel="CH3")
    two = other.rise().pairs[0].difference.standard_uncertainty
    shared = 2 * (1.5**2 + 0.5**2 + (0.005 * 60) ** 2) / 3 * SHARED**2
    assert two**2 - one**2 == pytest.approx(shared, rel=1e-9)


def test_a_calibration_between_two_runs_ends_the_sharing(small: Small) -> None:
    small.run("tessvik", "A", table(40.0), date="2026-03-01")
    small.run("veldrun", "A", table(40.0), date="2026-03-03")
    before = small.rise().pairs[0].difference.standard_uncertainty
    calibrated = "calibrations: [{date: 2026-03-02, by: a laboratory, certificate: 17}]"
    small.write("instruments/logger.yml", LOGGER.replace("calibrated: never", calibrated))
    after = small.rise().pairs[0].difference.standard_uncertainty
    logger = 4 * 0.5**2 / 3 * SHARED**2 + 2 * (0.005**2) * (60**2 + 20**2) / 3 * SHARED**2
    # The probes were not changed, so their tolerances cancel still.
    assert after**2 - before**2 == pytest.approx(logger, rel=1e-9)


def test_a_meter_without_resolution_or_repeatability_cancels_nothing(small: Small) -> None:
    bare = CLAMP.replace(", resolution: 0.1 A, repeatability: 0.1 A", "").replace("3 digits", "0.3 A")
    small.write("instruments/clamp.yml", bare)
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(40.0))
    finding = small.rise()
    clamp = [row for row in finding.items[0].budget.rows if row.label.startswith("clamp")]  # type: ignore[union-attr]
    assert all("not taken as shared" in row.label for row in clamp)
    alone = 2 * (40 * 2) ** 2 * (0.015**2 + (0.3 / 30) ** 2) / 3
    assert finding.pairs[0].difference.standard_uncertainty ** 2 > alone


def test_several_pieces_have_a_pooled_spread(small: Small) -> None:
    for letter, rise in zip("ABC", (38.0, 40.0, 42.0), strict=True):
        small.run("tessvik", letter, table(rise))
    for letter, rise in zip("AB", (49.0, 51.0), strict=True):
        small.run("veldrun", letter, table(rise))
    finding = small.rise()
    # s² = (8 + 2)/(2 + 1), ν = 3
    for item, mean in zip(finding.items, (40.0, 50.0), strict=True):
        assert item.figure is not None
        assert item.figure.value == pytest.approx(mean)
        assert item.spread.origin == "pooled"
        assert item.spread.deviation == pytest.approx(math.sqrt(10 / 3))
        assert item.spread.dof == 3
        assert all(row.scope in {"shared", "spread"} for row in item.budget.rows)  # type: ignore[union-attr]
    pair = finding.pairs[0]
    assert (pair.first, pair.second) == ("tessvik", "veldrun")
    assert pair.difference.value == pytest.approx(10.0)
    assert pair.shown == (pair.p <= 0.05)
    assert pair.difference.standard_uncertainty**2 >= 10 / 3 * (1 / 3 + 1 / 2)


def test_a_piece_has_its_first_heating_and_later_ones_are_shown(small: Small) -> None:
    small.run("tessvik", "A", table(40.0), date="2026-03-01")
    small.run("tessvik", "A", table(50.0), date="2026-03-02")
    item = small.rise().items[0]
    assert (item.n, item.runs) == (1, 2)
    assert item.figure is not None
    assert item.figure.value == pytest.approx(40.0)
    assert [run.figure.value for run in item.pieces[0].runs if run.figure] == pytest.approx([40.0, 50.0])


def test_the_newest_stock_stands(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    small.run("tessvik", "B", table(60.0))
    item = small.rise(tessvik_B="new").items[0]
    assert item.stock == "new"
    assert item.n == 1
    assert item.figure is not None
    assert item.figure.value == pytest.approx(60.0)
    assert [piece.stock for piece in item.pieces] == ["", "new"]


def test_one_stopped_piece_leaves_no_mean(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    readings = "\n".join(table(80.0).splitlines()[:3])
    small.run("tessvik", "B", readings, more="stopped: {at: 31 min, because: smoke}\n")
    small.run("veldrun", "A", table(40.0))
    finding = small.rise()
    assert finding.items[0].figure is None
    assert finding.items[0].why_not == "stopped"
    assert finding.items[0].pieces[0].figure is not None
    assert finding.pairs == ()


def test_a_stop_of_the_rig_is_no_result(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    readings = "\n".join(table(80.0).splitlines()[:3])
    small.run("tessvik", "B", readings, more="stopped: {at: 31 min, because: rig}\n")
    item = small.rise().items[0]
    assert item.figure is not None
    assert item.n == 1


def test_over_range_is_never_a_figure(small: Small) -> None:
    small.run("tessvik", "A", table(150.0, last=">200.0"))
    item = small.rise().items[0]
    assert item.figure is None
    assert item.why_not == "over-range"
    assert item.pieces[0].runs[0].readings[-1].bound == ">"


def test_a_struck_reading_counts_for_nothing(small: Small) -> None:
    readings = table(40.0).replace("30 | 56.0 | 20.0 | 30.0", "30 | 56.0 | 20.0 | 12.0 ! jaw open")
    small.run("tessvik", "A", readings)
    item = small.rise().items[0]
    assert item.figure is not None
    run = item.pieces[0].runs[0]
    assert run.mean_current == pytest.approx(30.0)
    assert [each.excluded for each in run.readings] == ["", "jaw open", ""]


def test_a_current_out_of_its_tolerance_is_reported_and_not_compared(small: Small) -> None:
    small.run("tessvik", "A", table(40.0, current="30.7"))
    item = small.rise().items[0]
    assert item.figure is None
    assert item.why_not == "current-outside-tolerance"
    assert item.pieces[0].runs[0].readings[-1].rise == pytest.approx(40.0)


def test_no_reading_at_the_mark(small: Small) -> None:
    """A run that ends before the mark is never carried on to it."""
    small.run(
        "tessvik", "A", table(40.0).replace("60 |", "50 |"), more="stopped: {at: 70 min, because: rig}\n"
    )
    assert small.rise().items[0].why_not == "no-reading-at-mark"


def test_without_the_meters_accuracy_nothing_is_evaluated(small: Small) -> None:
    """A meter without accuracy is a fault, so that no figure goes without its uncertainty."""
    small.write("instruments/clamp.yml", CLAMP.replace('accuracy: "±(1.5 % + 3 digits)", ', ""))
    small.run("tessvik", "A", table(40.0))
    small.finish()
    assert [each.path for each in load(small.root).faults] == ["ranges.1.accuracy"]


def test_digits_of_a_column_are_those_of_its_finest_cell(small: Small) -> None:
    small.write("instruments/clamp.yml", CLAMP.replace(", repeatability: 0.1 A", ""))
    small.run("tessvik", "A", table(40.0).replace("56.0 | 20.0 | 30.0", "56.0 | 20.0 | 30"))
    item = small.rise().items[0]
    assert item.figure is not None


def test_without_any_time_constant_nothing_is_corrected(small: Small) -> None:
    bare = "".join(line for line in (METHOD % "").splitlines(keepends=True) if not line.startswith("tau:"))
    small.write("methods/heat/1.yml", bare)
    small.run("tessvik", "A", table(0.0))
    assert small.rise().items[0].why_not == "no-time-constant"


def test_the_nearest_controls_time_constant_stands_in(small: Small) -> None:
    readings = table(40.0).replace("30 | 56.0 | 20.0 | 30.0", "30 | 56.0 | 20.6 | 30.0 ! probe touched")
    small.run("tessvik", "A", readings.replace("0 | 20.0 | 20.0", "0 | 19.0 | 19.0", 1))
    small.run("control", "", table(14.0))
    item = small.rise().items[0]
    assert item.budget is not None
    # The air rose 1 K in the hour, and the item felt it late by 1 K · τ/h · (1 − e^(−h/τ)).
    tau = 1800 / math.log(9)
    lag = tau / 3600 * (1 - math.exp(-3600 / tau))
    assert item.figure is not None
    assert item.figure.value == pytest.approx(40.0 + lag)
    row = next(row for row in item.budget.rows if row.label == "time constant")
    assert row.source.startswith("the control's")


ZERO = """
zero-check:
  pairs: 5
  columns: [temperature@body, ambient]
  table: |
    temperature@body degC | ambient degC
    21.2 | 20.0
    21.1 | 20.0
    21.2 | 20.1
    21.3 | 20.0
    21.2 | 20.0
"""


def test_a_zero_check_takes_the_offsets_out(small: Small) -> None:
    """The gains stay with the distance, 0.4 % of it for the probe (IEC 60584-1), and the pairs' own noise."""
    small.run("tessvik", "A", table(40.0), more=ZERO)
    item = small.rise().items[0]
    assert item.figure is not None
    apart = (1.2 + 1.1 + 1.1 + 1.3 + 1.2) / 5
    assert item.figure.value == pytest.approx(40.0 - apart)
    assert item.budget is not None
    rows = {row.label: row.contribution for row in item.budget.rows if row.contribution > 1e-9}
    assert not [label for label in rows if "offset" in label and label.startswith("logger")]
    assert not [label for label in rows if "tolerance" in label]
    # 1 % of the current is 2 % of the rise, which holds for every input of the rise.
    distance = 60.0 - (21.2 + 21.1 + 21.2 + 21.3 + 21.2) / 5
    slope = next(value for label, value in rows.items() if "slope after the zero check" in label)
    assert slope == pytest.approx(0.004 * (distance) / math.sqrt(3))
    gain = rows["logger CH2: gain, common to its runs"]
    assert gain == pytest.approx(0.005 * distance / math.sqrt(3) * SHARED, rel=1e-6)
    deviations = [each - apart for each in (1.2, 1.1, 1.1, 1.3, 1.2)]
    scatter = math.sqrt(math.fsum(each**2 for each in deviations) / 4)
    assert rows["zero check"] == pytest.approx(scatter / math.sqrt(5))


SITTING = """\
date: 2026-03-01
instruments: {current: clamp, ambient: logger/CH1}
runs:
  tessvik:A: {method: heat/1, temperature@body: logger/CH2}
  veldrun:A: {method: heat/1, temperature@body: logger/CH3}
readings: |
  time min | ambient degC | current A | tessvik:A@body degC | veldrun:A@body degC
  0  | 20.0 | 30.0 | 20.0 | 20.0
  30 | 20.0 | 30.0 | 56.0 | 56.0
  60 | 20.0 | 30.0 | 60.0 | 60.0
"""


def test_what_a_sitting_shares_is_one_reading_for_its_runs(small: Small, tmp_path: Path) -> None:
    """Two pieces in one sitting share the noise of the air and the current; in two runs they do not."""
    small.run("tessvik", "A", table(40.0), channel="CH2")
    small.run("veldrun", "A", table(40.0), channel="CH3")
    apart = small.rise().pairs[0].difference.standard_uncertainty
    together = Small(tmp_path / "sitting")
    together.items = {"tessvik": {"A"}, "veldrun": {"A"}}
    together.write("sittings/2026-03-01.yml", SITTING)
    shared = together.rise().pairs[0].difference.standard_uncertainty
    air = 2 * 0.25**2 * (1.5**2 + 0.5**2 + (0.005 * 20) ** 2) / 3
    current = 2 * 0.25**2 * (40 * 2) ** 2 * (0.015**2 + (0.3 / 30) ** 2) / 3
    # Besides these parts, new in each run, the noise of air and current goes too.
    assert apart**2 - shared**2 > air + current


def test_no_rise_at_all_is_a_figure(small: Small) -> None:
    small.run("tessvik", "A", table(0.0))
    item = small.rise().items[0]
    assert item.figure is not None
    assert item.figure.value == 0.0
    assert item.figure.half_width > 1


def test_one_piece_of_each_shows_nothing_about_the_items(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(90.0))
    pair = small.rise().pairs[0]
    assert not pair.known
    assert not pair.shown


def test_a_declared_spread_lets_single_pieces_be_compared(small: Small) -> None:
    spread = ", spread: {value: 2 K, origin: twelve pieces of a report before, freedom: 8}"
    small.write("methods/heat/1.yml", METHOD % spread)
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(90.0))
    finding = small.rise()
    assert finding.items[0].spread.origin == "declared"
    assert finding.pairs[0].known
    assert finding.pairs[0].shown


def test_the_same_heat_in_a_cold_and_a_hot_room_is_one_rise(small: Small) -> None:
    small.run("tessvik", "A", table(45.0, ambient=10.0))
    small.run("veldrun", "A", table(45.0, ambient=35.0))
    low, high = small.rise().items
    assert low.figure is not None
    assert high.figure is not None
    assert low.figure.value == pytest.approx(high.figure.value)


def test_a_control_is_told_apart(small: Small) -> None:
    small.run("control", "", table(14.0))
    small.run("tessvik", "A", table(40.0))
    finding = small.finding()
    measure = finding.measure("rise")
    assert [each.item for each in measure.controls] == ["cable"]
    assert [each.item for each in measure.items] == ["tessvik"]
    assert finding.pieces == 1
    with pytest.raises(KeyError):
        finding.measure("pull")


def test_the_curve_ends_in_the_figure(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    item = small.rise().items[0]
    assert item.figure is not None
    assert item.curve[-1].rise == pytest.approx(item.figure.value)
    assert item.curve[-1].half_width == pytest.approx(item.figure.half_width)
    assert [point.time for point in item.curve] == [0.0, 1800.0, 3600.0]


AIRLESS = table(40.0).replace(" | ambient degC", "").replace(" | 20.0 | 30.0", " | 30.0")


def test_one_value_for_the_air_brings_what_the_method_states(small: Small) -> None:
    small.write("methods/heat/1.yml", METHOD % "" + "air: {single-value-within: 1.5 K}\n")
    small.run("tessvik", "A", AIRLESS, more="conditions: {ambient: 20.0 degC}\n")
    item = small.rise().items[0]
    assert item.figure is not None
    assert item.figure.value == pytest.approx(40.0)
    assert item.budget is not None
    air = [row for row in item.budget.rows if "air" in row.label]
    assert [row.contribution for row in air] == pytest.approx([1.5 / math.sqrt(3)])


def test_the_parts_own_first_reading_cancels_its_fixed_error(small: Small) -> None:
    small.write("methods/heat/1.yml", METHOD % "" + "air: {drift-within: 1 K}\n")
    small.run("tessvik", "A", AIRLESS, more="conditions: {ambient: first reading}\n")
    item = small.rise().items[0]
    assert item.figure is not None
    assert item.figure.value == pytest.approx(40.0)
    assert item.budget is not None
    felt = [row for row in item.budget.rows if row.contribution > 1e-9]
    assert not [row for row in felt if "probe" in row.label or row.label.startswith("logger CH2: offset")]
    assert any("drift of the air" in row.label for row in item.budget.rows)


def test_two_versions_with_their_own_exponents_stand_side_by_side(small: Small) -> None:
    more = "exponent: {value: %s, within: 0.1}\n"
    small.write("methods/heat/1.yml", METHOD % "" + more % "1.9")
    small.write("methods/heat/2.yml", METHOD % "" + more % "2.1" + "changes: none\ncomparable-with: [1]\n")
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(40.0), version=2)
    assert small.rise().versions == (1, 2)


def test_versions_that_do_not_agree_share_no_ranking(small: Small) -> None:
    small.write("methods/heat/2.yml", METHOD % "" + "changes: another box\n")
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(40.0), version=2)
    small.run("okvarn", "A", table(50.0), version=2)
    finding = small.rise()
    assert [item.why_not for item in finding.items] == ["other-method", None, None]
    assert finding.items[0].pieces[0].runs[0].readings[-1].rise == pytest.approx(40.0)
    assert [(pair.first, pair.second) for pair in finding.pairs] == [("veldrun", "okvarn")]


def test_agreement_of_versions_goes_through_a_version_between(small: Small) -> None:
    for version in (2, 3):
        more = f"changes: a new step, results agree\ncomparable-with: [{version - 1}]\n"
        small.write(f"methods/heat/{version}.yml", METHOD % "" + more)
    small.run("tessvik", "A", table(40.0))
    small.run("veldrun", "A", table(40.0), version=3)
    assert [item.why_not for item in small.rise().items] == [None, None]


def test_no_air_is_no_rise(small: Small) -> None:
    small.run("tessvik", "A", AIRLESS)
    item = small.rise().items[0]
    assert item.figure is None
    assert item.why_not == "no-ambient"
