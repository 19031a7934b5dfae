"""The evaluation's figures of the panel sockets against what is true of them, which it cannot know."""

import pytest

from generator.evaluation.findings import MeasureFinding, ReportFinding
from generator.evaluation.report import evaluate
from generator.records.bench import load
from tests.simulator import sockets
from tests.simulator.write import REPORTS

MEASURES = ("rise-15a", "rise-10a")


@pytest.fixture(scope="module")
def report() -> ReportFinding:
    records = load(REPORTS.parent)
    return evaluate(records, records.reports[sockets.REPORT])


@pytest.fixture(scope="module")
def rises() -> dict[str, float]:
    return sockets.true_rises()


@pytest.mark.parametrize("measure", MEASURES)
def test_every_rise_holds_its_piece_within_its_interval(
    report: ReportFinding, rises: dict[str, float], measure: str
) -> None:
    figures = {
        run.run: run.figure
        for item in report.measure(measure).items
        for piece in item.pieces
        for run in piece.runs
        if run.figure is not None
    }
    assert len(figures) == 4
    # All four share one current and one air, so that they hold or fail nearly together.
    assert all(each.low <= rises[name] <= each.high for name, each in figures.items())
    assert all(0.5 < each.half_width < 0.15 * each.value for each in figures.values())


@pytest.mark.parametrize("measure", MEASURES)
def test_two_pieces_in_series_are_as_far_apart_as_the_interval_says(
    report: ReportFinding, rises: dict[str, float], measure: str
) -> None:
    found = report.measure(measure)
    day = _day(found)
    assert len(found.pairs) == 6
    for pair in found.pairs:
        apart = rises[f"{day}/{pair.second}:A"] - rises[f"{day}/{pair.first}:A"]
        assert abs(pair.difference.value - apart) <= pair.difference.half_width
        # One piece of each: whether the products differ is not known.
        assert not pair.known
        assert not pair.shown


def _day(found: MeasureFinding) -> str:
    runs = (run for item in found.items for piece in item.pieces for run in piece.runs)
    return next(run.date for run in runs if run.figure)


def test_no_socket_has_a_place_or_a_spread(report: ReportFinding) -> None:
    for measure in (*MEASURES, "insertion"):
        for item in report.measure(measure).items:
            assert item.place is None
            assert item.spread.origin == "none"
            assert item.n <= 1


def test_the_runs_by_version_1_are_read_and_not_compared(report: ReportFinding) -> None:
    found = report.measure("rise-15a")
    (skavrint,) = (item for item in found.items if item.item == "skavrint-p12")
    (run,) = skavrint.pieces[0].runs
    assert (run.method, run.why_not, run.figure) == ("socket-heating-15a/1", "other-method", None)
    assert len(run.readings) == 13
    assert skavrint.figure is None
    assert not any("skavrint-p12" in (pair.first, pair.second) for pair in found.pairs)
    by_version = {
        item.item: [(run.method, run.why_not) for piece in item.pieces for run in piece.runs]
        for item in found.items
        if item.item in sockets.OWN_PLUGS
    }
    versions = [("socket-heating-15a/1", "other-method"), ("socket-heating-15a/2", None)]
    assert by_version == dict.fromkeys(sockets.OWN_PLUGS, versions)


def test_what_is_said_of_the_limit_is_so(report: ReportFinding, rises: dict[str, float]) -> None:
    said = {
        measure: {
            item.item: item.limits[0].outcome
            for item in report.measure(measure).items
            if item.figure is not None
        }
        for measure in MEASURES
    }
    assert said["rise-10a"] == dict.fromkeys(sockets.FORCES, "within")
    assert said["rise-15a"] == {
        "tessvik-s12": "within",
        "okvarn-ps15": "within",
        "ulmspar-u20": "undecided",
        "brundivar-b10": "beyond",
    }
    # 70 °C in air of 40 °C leaves 30 K; a rise carried to other air by as much as the method allows.
    for name, rise in rises.items():
        day, _, key = name.partition("/")
        if day == sockets.SITTINGS[-1].date:
            outcome = said["rise-15a"][key.partition(":")[0]]
            assert outcome == (
                "undecided" if abs(rise - 30.0) < 3.0 else "within" if rise < 30.0 else "beyond"
            )


def test_every_mean_push_holds_the_mean_of_all_pushes_ever_made(report: ReportFinding) -> None:
    found = report.measure("insertion")
    assert found.better is None
    figures = {item.item: item.figure for item in found.items if item.figure is not None}
    assert set(figures) == set(sockets.FORCES)
    assert all(each.low <= sockets.FORCES[name] <= each.high for name, each in figures.items())
    # Ten pushes that scatter by 5 in 100, t of 9 degrees of freedom 2.26, and the gauge.
    assert all(0.01 < each.half_width / each.value < 0.08 for each in figures.values())
