"""Scalars: one quantity a run, its meter's errors, the mean of its repeats, and why there is none."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.instruments import UNITS
from generator.records.units import QUANTITIES
from tests.evaluation.pulls import METHOD, SCALE, Pulls

SHARED = math.sqrt(1 - 0.25**2)
ROOT3 = math.sqrt(3)


@pytest.fixture
def pulls(tmp_path: Path) -> Pulls:
    return Pulls(tmp_path)


def item(finding: MeasureFinding, name: str) -> ItemFinding:
    return next(each for each in finding.items if each.item == name)


def test_one_value_worked_by_hand(pulls: Pulls) -> None:
    """Scale ±(1 % + 2 N), steps of 2 N, repeatability 1 N."""
    pulls.pull("tessvik", "A", "388 N")
    finding = pulls.found()
    found = finding.items[0]
    by_hand = math.sqrt((0.01 * 388 / ROOT3) ** 2 + (2 / ROOT3) ** 2 + (1 / ROOT3) ** 2 + 1.0**2)
    assert (finding.kind, finding.unit, finding.at, finding.better) == ("scalar", "N", None, "higher")
    assert found.figure is not None
    assert found.budget is not None
    assert found.figure.value == 388.0
    assert found.figure.unit == "N"
    assert found.figure.standard_uncertainty == pytest.approx(by_hand)
    assert {row.unit for row in found.budget.rows} == {"1", "N"}
    (value,) = found.pieces[0].runs[0].values
    assert value.value == 388.0
    assert value.half_width == pytest.approx(found.figure.half_width)


def test_a_value_is_told_in_si_whatever_it_was_typed_in(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "50.0 lbf")
    figure = pulls.found().items[0].figure
    assert figure is not None
    # NIST SP 811, appendix B: 1 lbf = 4.448 222 N.
    assert figure.value == pytest.approx(50.0 * 4.448222, rel=1e-6)
    assert figure.unit == "N"


def test_the_mean_of_readings_has_their_scatter_and_the_scale_s_common_error(tmp_path: Path) -> None:
    """The readings of GUM H.2, table H.2 (V), in thousandths: mean 4.9990, s(mean) 0.0032."""
    pulls = Pulls(tmp_path, ", reduce: mean")
    pulls.write("instruments/scale.yml", SCALE.replace("500 N", "6000 N"))
    pulls.pull("tessvik", "A", "pull N\n5007\n4994\n5005\n4990\n4999")
    found = pulls.found().items[0]
    assert found.figure is not None
    assert found.figure.value == pytest.approx(4999.0)
    by_hand = math.sqrt((0.01 * 4999 / ROOT3) ** 2 + (2 / ROOT3) ** 2 + 3.20936**2)
    assert found.figure.standard_uncertainty == pytest.approx(by_hand, rel=1e-6)
    scatter = next(row for row in found.budget.rows if row.label == "scatter of the readings")  # type: ignore[union-attr]
    assert scatter.standard_uncertainty == pytest.approx(3.2, abs=0.05)
    assert scatter.source == "5 readings"
    assert [each.value for each in found.pieces[0].runs[0].values] == [5007, 4994, 5005, 4990, 4999]


@pytest.mark.parametrize(("way", "value"), [("max", 391.0), ("min", 379.0)])
def test_the_largest_or_smallest_reading_is_that_reading(tmp_path: Path, way: str, value: float) -> None:
    pulls = Pulls(tmp_path, f", reduce: {way}")
    pulls.pull("tessvik", "A", "pull N\n388\n379\n391\n450 ! the hook slipped\n20 ! not yet taut")
    found = pulls.found().items[0]
    by_hand = math.sqrt((0.01 * value / ROOT3) ** 2 + (2 / ROOT3) ** 2 + (1 / ROOT3) ** 2 + 1.0**2)
    assert found.figure is not None
    assert found.figure.value == value
    assert found.figure.standard_uncertainty == pytest.approx(by_hand)
    shown = found.pieces[0].runs[0].values
    assert [each.excluded for each in shown] == ["", "", "", "the hook slipped", "not yet taut"]
    assert [each.half_width is None for each in shown] == [False, False, False, True, True]


def why(pulls: Pulls) -> str | None:
    (found,) = pulls.found().items
    assert found.figure is None
    assert found.why_not == found.pieces[0].runs[0].why_not
    return found.why_not


def test_a_bound_is_no_figure(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "over 500 N")
    assert why(pulls) == "over-range"
    (value,) = pulls.found().items[0].pieces[0].runs[0].values
    assert (value.value, value.half_width, value.bound) == (500.0, None, ">")


def test_a_bound_below_is_none_either(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "under 2 N")
    assert why(pulls) == "under-range"


@pytest.mark.parametrize(
    ("table", "reason"),
    [
        ("pull N\n388\n>500", "over-range"),
        ("pull N\n388 ! slipped\n391 ! slipped", "no-reading"),
        ("pull N | current A\n388 ! slipped | 1", "no-reading"),
    ],
)
def test_readings_that_give_no_figure(tmp_path: Path, table: str, reason: str) -> None:
    pulls = Pulls(tmp_path, ", reduce: mean")
    if "current" in table:
        table = table.replace(" | current A", "").replace(" | 1", "")
    pulls.pull("tessvik", "A", table)
    assert why(pulls) == reason


def test_a_struck_bound_does_not_count(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path, ", reduce: mean")
    pulls.pull("tessvik", "A", "pull N\n388\n390\n>500 ! the scale fell")
    figure = pulls.found().items[0].figure
    assert figure is not None
    assert figure.value == 389.0


def test_a_stopped_run_is_no_figure(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "388 N", more="stopped: {at: 5 s, because: part failed}\n")
    assert why(pulls) == "stopped"


def test_nothing_read_by_a_meter_that_is_off_by_a_share_alone_has_no_uncertainty(pulls: Pulls) -> None:
    bare = "name: luggage scale\nranges: [{quantity: force, to: 500 N, accuracy: ±1 %}]\ncalibrated: never\n"
    pulls.write("instruments/scale.yml", bare)
    pulls.pull("tessvik", "A", "0 N")
    assert why(pulls) == "no-accuracy"


def test_an_item_without_a_run_was_not_tested(pulls: Pulls) -> None:
    pulls.method(
        (METHOD % "").replace("cannot-show", "  - {id: opened, kind: count, what: lids}\ncannot-show")
    )
    pulls.pull("tessvik", "A", "388 N")
    pulls.pull("veldrun", "A", "300 N")
    run = pulls.root / "reports/r/runs/run-002.yml"
    text = run.read_text(encoding="utf-8").replace("values: {pull: 300 N}", "counts: {opened: 0 of 3}")
    run.write_text(text.replace("instruments: {force: scale}\n", ""), encoding="utf-8")
    assert item(pulls.found(), "veldrun").why_not == "no-run"


def test_a_piece_is_the_mean_of_its_terminations(pulls: Pulls) -> None:
    """Terminations of 380 (378, 382), 392 and 386 N: mean 386, s = 6, over √3."""
    for number, value in ((1, 378), (1, 382), (2, 392), (3, 386)):
        pulls.pull("tessvik", "A", f"{value} N", termination=number)
    found = pulls.found().items[0]
    assert (found.n, found.runs) == (1, 4)
    assert found.figure is not None
    assert found.figure.value == pytest.approx(386.0)
    # The scale's common part stays; what is new in each run is in the scatter of the terminations.
    shared = SHARED * math.hypot(0.01 * 386 / ROOT3, 2 / ROOT3)
    assert found.figure.standard_uncertainty == pytest.approx(math.hypot(shared, 6 / ROOT3))
    assert found.pieces[0].figure == found.figure
    assert [run.figure.value for run in found.pieces[0].runs if run.figure] == [378, 382, 392, 386]


def test_few_repeats_of_a_piece_pool_their_scatter(pulls: Pulls) -> None:
    """Two runs each, s² = 8 and 32: pooled 20 with two degrees of freedom, over √2."""
    for name, values in (("tessvik", (384, 388)), ("veldrun", (296, 304))):
        for value in values:
            pulls.pull(name, "A", f"{value} N")
    finding = pulls.found()
    for name, mean in (("tessvik", 386.0), ("veldrun", 300.0)):
        found = item(finding, name)
        scatter = next(row for row in found.budget.rows if row.label == "scatter of the runs")  # type: ignore[union-attr]
        assert found.figure is not None
        assert found.figure.value == pytest.approx(mean)
        assert scatter.standard_uncertainty == pytest.approx(math.sqrt(20 / 2))
        assert scatter.source == "2 runs, pooled spread"
    # Repeats of one piece are not pieces: nothing is known of the products.
    assert [pair.known for pair in finding.pairs] == [False]
    assert all(each.place is None for each in finding.items)


def test_the_spread_is_over_pieces_and_not_over_runs(pulls: Pulls) -> None:
    for letter, values in (("A", (380, 384)), ("B", (390,)), ("C", (398, 402))):
        for value in values:
            pulls.pull("tessvik", letter, f"{value} N")
    found = pulls.found().items[0]
    assert (found.n, found.runs) == (3, 5)
    assert found.figure is not None
    # Pieces of 382, 390 and 400 N.
    assert found.figure.value == pytest.approx(1172 / 3)
    assert found.spread.deviation == pytest.approx(math.sqrt(488 / 3 / 2), rel=1e-9)
    assert {row.scope for row in found.budget.rows} == {"shared", "spread"}  # type: ignore[union-attr]


def test_a_rig_that_gave_up_leaves_the_piece_its_other_runs(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "388 N")
    pulls.pull("tessvik", "A", "120 N", more="stopped: {at: 2 s, because: rig}\n")
    figure = pulls.found().items[0].figure
    assert figure is not None
    assert figure.value == 388.0


def test_one_piece_out_of_range_leaves_its_item_without_a_mean(pulls: Pulls) -> None:
    for letter, value in (("A", "388 N"), ("B", "over 500 N"), ("C", "390 N")):
        pulls.pull("tessvik", letter, value)
    found = pulls.found().items[0]
    assert found.figure is None
    assert found.why_not == "over-range"
    assert [piece.figure is None for piece in found.pieces] == [False, True, False]


def three(pulls: Pulls) -> MeasureFinding:
    for name, values in (
        ("tessvik", (384, 388, 392)),
        ("veldrun", (296, 300, 304)),
        ("okvarn", (298, 302, 306)),
    ):
        for letter, value in zip("ABC", values, strict=True):
            pulls.pull(name, letter, f"{value} N")
    return pulls.found()


def places(finding: MeasureFinding) -> dict[str, tuple[int, int, bool] | None]:
    return {
        each.item: None if each.place is None else (each.place.first, each.place.last, each.place.best)
        for each in finding.items
    }


def test_where_higher_is_better_the_highest_is_first(pulls: Pulls) -> None:
    finding = three(pulls)
    assert places(finding) == {"tessvik": (1, 1, True), "veldrun": (2, 3, False), "okvarn": (2, 3, False)}
    shown = {(pair.first, pair.second): pair.shown for pair in finding.pairs}
    assert shown == {("veldrun", "okvarn"): False, ("veldrun", "tessvik"): True, ("okvarn", "tessvik"): True}


def test_where_lower_is_better_the_highest_is_last(pulls: Pulls) -> None:
    pulls.method((METHOD % "").replace("higher", "lower"))
    assert places(three(pulls)) == {
        "tessvik": (3, 3, False),
        "veldrun": (1, 2, False),
        "okvarn": (1, 2, False),
    }


def test_where_neither_is_better_there_are_no_places(pulls: Pulls) -> None:
    pulls.method((METHOD % "").replace(", better: higher", ""))
    finding = three(pulls)
    assert finding.better is None
    assert set(places(finding).values()) == {None}
    assert sum(pair.shown for pair in finding.pairs) == 2


def test_what_went_over_range_where_higher_is_better_leaves_no_places(pulls: Pulls) -> None:
    pulls.pull("pallsto", "A", "over 500 N")
    assert set(places(three(pulls)).values()) == {None}


def test_what_went_under_range_where_higher_is_better_stands_last(pulls: Pulls) -> None:
    pulls.pull("pallsto", "A", "under 2 N")
    finding = three(pulls)
    assert places(finding)["tessvik"] == (1, 1, True)
    assert places(finding)["pallsto"] == (4, 4, False)


def test_the_common_error_of_one_scale_cancels_between_items(pulls: Pulls) -> None:
    """The offset goes out; of the gain the share of the difference stays (scale ±(1 % + 2 N))."""
    pulls.pull("tessvik", "A", "388 N")
    pulls.pull("veldrun", "A", "288 N")
    (pair,) = pulls.found().pairs
    new = sum(
        (0.25 * 0.01 * value / ROOT3) ** 2 + (0.25 * 2 / ROOT3) ** 2 + 1 / 3 + 1.0 for value in (388, 288)
    )
    common = (SHARED * 0.01 * 100 / ROOT3) ** 2
    assert pair.difference.value == 100.0
    assert pair.difference.standard_uncertainty == pytest.approx(math.sqrt(new + common))


def test_a_declared_spread_lets_one_piece_speak_for_its_product(pulls: Pulls) -> None:
    pulls.method(METHOD % ", spread: {value: 5 N, origin: twenty pieces, freedom: 19}")
    pulls.pull("tessvik", "A", "388 N")
    pulls.pull("veldrun", "A", "288 N")
    finding = pulls.found()
    assert [pair.known for pair in finding.pairs] == [True]
    assert places(finding) == {"tessvik": (1, 1, True), "veldrun": (2, 2, False)}


def test_a_control_has_its_own_figure(pulls: Pulls) -> None:
    pulls.pull("control", "", "12 N")
    pulls.pull("tessvik", "A", "388 N")
    (control,) = pulls.found().controls
    assert control.figure is not None
    assert (control.item, control.figure.value) == ("cable", 12.0)


def test_a_temperature_is_in_celsius_and_its_differences_in_kelvin(pulls: Pulls) -> None:
    pulls.method((METHOD % "").replace("quantity: force, better: higher", "quantity: temperature"))
    thermometer = SCALE.replace(
        "quantity: force, from: 0 N, to: 500 N", "quantity: temperature, to: 200 degC"
    )
    thermometer = thermometer.replace("2 N", "1 degC").replace("1 N", "0.5 degC")
    pulls.write("instruments/scale.yml", thermometer)
    for name, value in (("tessvik", "80.0 degC"), ("veldrun", "60.0 degC")):
        pulls.pull(name, "A", value)
        run = pulls.root / f"reports/r/runs/run-{pulls.count:03}.yml"
        text = run.read_text(encoding="utf-8")
        run.write_text(text.replace("{force: scale}", "{temperature: scale}"), encoding="utf-8")
    finding = pulls.found()
    assert finding.unit == "°C"
    assert [each.figure.unit for each in finding.items if each.figure] == ["°C", "°C"]
    assert finding.items[0].figure is not None
    assert finding.items[0].figure.value == 80.0
    assert [pair.difference.unit for pair in finding.pairs] == ["K"]
    assert {row.unit for row in finding.items[0].budget.rows} == {"1", "K"}  # type: ignore[union-attr]


def test_every_quantity_that_a_record_may_name_has_the_unit_of_its_figures() -> None:
    assert set(UNITS) == set(QUANTITIES)


def test_programs_are_told_which_way_is_better(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "388 N")
    measures = report_as_data(pulls.finding())["measures"]
    assert isinstance(measures, list)
    (told,) = measures
    assert (told["kind"], told["unit"], told["better"], told["at_s"]) == ("scalar", "N", "higher", None)
