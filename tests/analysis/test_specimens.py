"""The spread between pieces and the mean over them."""

from __future__ import annotations

import csv
import math
import statistics
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.weightstats import DescrStatsW

from generator.analysis.interval import Estimate, estimate
from generator.analysis.specimens import (
    Spread,
    components,
    figure,
    own_spread,
    pooled_spread,
    spread_for,
    with_spread,
)
from generator.analysis.uncertainty import Ledger, Uncertain, combined, effective_dof, rectangle

PUBLISHED = Path(__file__).parents[1] / "published"

pieces = st.lists(st.floats(20, 90), min_size=2, max_size=8)


def certified(name: str) -> dict[str, float]:
    with (PUBLISHED / "nist-strd-certified.csv").open(encoding="utf-8") as file:
        return {
            row["statistic"]: float(row["value"]) for row in csv.DictReader(file) if row["dataset"] == name
        }


def test_pooled_standard_deviation_of_ten_days() -> None:
    with (PUBLISHED / "gum-h5.csv").open(encoding="utf-8") as file:
        days = [(float(row["mean_V"]), float(row["s_V"])) for row in csv.DictReader(file)]
    # Five readings of each day's mean and standard deviation: √2 above, √2 below and three at the mean.
    readings = [[(step * s) for step in (-math.sqrt(2), 0, 0, 0, math.sqrt(2))] for _, s in days]
    pooled = pooled_spread(readings)
    assert pooled is not None
    # GUM H.5.2: pooled over the days 85 µV with ν = 40; of the day means 57 µV with ν = 9.
    assert pooled.deviation == pytest.approx(85e-6, abs=0.5e-6)
    assert (pooled.dof, pooled.origin) == (40, "pooled")
    between = own_spread([mean - 10 for mean, _ in days])
    assert between is not None
    assert between.deviation == pytest.approx(57e-6, abs=0.5e-6)
    assert (between.dof, between.origin) == (9, "own")


def column(name: str) -> list[float]:
    with (PUBLISHED / f"nist-strd-{name}.csv").open(encoding="utf-8") as file:
        return [float(row["y"]) for row in csv.DictReader(file)]


def numacc(middle: float) -> list[float]:
    """NIST StRD, NumAcc2 to NumAcc4: c, then 500 times c − 0.1 and c + 0.1."""
    return [middle, *[middle - 0.1, middle + 0.1] * 500]


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("michelso", column("michelso")),
        ("mavro", column("mavro")),
        ("lew", column("lew")),
        ("numacc1", [10000001.0, 10000003.0, 10000002.0]),
        ("numacc2", numacc(1.2)),
        ("numacc3", numacc(1000000.2)),
        ("numacc4", numacc(10000000.2)),
    ],
)
def test_certified_standard_deviations(name: str, values: list[float]) -> None:
    # NIST StRD, univariate summary statistics: at least 8 of the certified digits. Of NumAcc3 and NumAcc4
    # no more than 9.5 and 8.3 can be had, since their values are not exact in binary; the sum of squares less
    # the square of the sum gives 0.0987 and nothing.
    told = certified(name)
    assert len(values) == told["n"]
    found = own_spread(values)
    assert found is not None
    assert found.deviation == pytest.approx(told["sd"], rel=1e-8)
    ledger = Ledger()
    mean = figure(ledger, (name,), [ledger.exact(each) for each in values], found, unit="1")
    assert mean.number.x == pytest.approx(told["mean"], rel=1e-14)


@pytest.mark.parametrize("name", ["sirstv", "atmwtag"])
def test_certified_pooled_deviations(name: str) -> None:
    # NIST StRD, analysis of variance, SiRstv (5 instruments, 5 readings of each) and AtmWtAg (2 and 24): the
    # residual standard deviation is the pooled one.
    told = certified(name)
    by_group: dict[str, list[float]] = {}
    with (PUBLISHED / f"nist-strd-{name}.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            by_group.setdefault(row["group"], []).append(float(row["y"]))
    found = pooled_spread(by_group.values())
    assert found is not None
    assert found.dof == told["n"] - told["k"]
    assert found.deviation == pytest.approx(told["rsd"], rel=1e-8)
    assert found.deviation**2 * found.dof == pytest.approx(told["ss_within"], rel=1e-8)


def test_the_handbooks_three_groups() -> None:
    # NIST/SEMATECH e-Handbook 7.4.3.3: within the groups a sum of squares of 17.452, 12 degrees of freedom.
    found = pooled_spread([(6.9, 5.4, 5.8, 4.6, 4.0), (8.3, 6.8, 7.8, 9.2, 6.5), (8.0, 10.5, 8.1, 6.9, 9.3)])
    assert found is not None
    assert found.dof == 12
    assert found.deviation**2 * 12 == pytest.approx(17.452, abs=5e-4)


def of_variances(groups: list[list[float]]) -> float:
    """F of an analysis of variance, groups of one size: n × variance of the means over the pooled one."""
    pooled, between = pooled_spread(groups), own_spread([statistics.fmean(group) for group in groups])
    assert pooled is not None
    assert between is not None
    return len(groups[0]) * between.deviation**2 / pooled.deviation**2


def test_between_and_within_groups_by_published_analyses_of_variance() -> None:
    # NIST StRD, SiRstv: F certified. NIST/SEMATECH e-Handbook 7.4.3.3: F = 9.59.
    with (PUBLISHED / "nist-strd-sirstv.csv").open(encoding="utf-8") as file:
        by_group: dict[str, list[float]] = {}
        for row in csv.DictReader(file):
            by_group.setdefault(row["group"], []).append(float(row["y"]))
    assert of_variances(list(by_group.values())) == pytest.approx(certified("sirstv")["F"], rel=1e-8)
    handbook = [[6.9, 5.4, 5.8, 4.6, 4.0], [8.3, 6.8, 7.8, 9.2, 6.5], [8.0, 10.5, 8.1, 6.9, 9.3]]
    assert of_variances(handbook) == pytest.approx(9.59, abs=5e-3)


def test_days_scatter_no_more_than_their_readings() -> None:
    # GUM H.5.2.3: F = 5·57²/85² = 2.25 from the rounded deviations; 2.2615 from the days themselves.
    with (PUBLISHED / "gum-h5.csv").open(encoding="utf-8") as file:
        days = [(float(row["mean_V"]) - 10, float(row["s_V"])) for row in csv.DictReader(file)]
    readings = [[mean + step * s for step in (-math.sqrt(2), 0, 0, 0, math.sqrt(2))] for mean, s in days]
    assert of_variances(readings) == pytest.approx(2.2615, abs=5e-5)


def mean_of(values: list[float]) -> Estimate:
    """Mean of values without any error but their scatter."""
    ledger = Ledger()
    pieces = [ledger.exact(each) for each in values]
    mean = figure(ledger, ("mean",), pieces, own_spread(values), unit="1")
    return estimate(mean.number.x, components(ledger, mean), "1")


def sleep() -> list[list[float]]:
    found: dict[str, list[float]] = {}
    with (PUBLISHED / "r-sleep.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            found.setdefault(row["group"], []).append(float(row["extra"]))
    return list(found.values())


def zarr13() -> list[float]:
    with (PUBLISHED / "nist-ehandbook-zarr13.csv").open(encoding="utf-8") as file:
        return [float(row["factor"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(
    ("values", "mean", "low", "high"),
    [
        # NIST/SEMATECH e-Handbook 1.3.5.2, ZARR13, as Boost.Math quotes it (students_t_examples.qbk).
        (zarr13(), 9.26146, 9.25824, 9.26468),
        # J. C. Miller and J. N. Miller 1994, mercury by a cold vapour, as Boost.Math quotes it.
        ([38.9, 37.4, 37.1], 37.8, 35.40438, 40.19562),
        # R, t.test(extra) of all twenty, and of the ten differences (paired), datasets-Ex.Rout.save.
        ([each for group in sleep() for each in group], 1.54, 0.5955845, 2.4844155),
        ([a - b for a, b in zip(*sleep(), strict=True)], -1.58, -2.4598858, -0.7001142),
    ],
    ids=["ZARR13", "mercury", "sleep", "sleep, paired"],
)
def test_published_intervals_of_a_mean(values: list[float], mean: float, low: float, high: float) -> None:
    found = mean_of(values)
    digits = 0.55 * 10 ** -len(str(low).partition(".")[2])
    assert found.value == pytest.approx(mean, abs=5e-6)
    assert (found.low, found.high) == pytest.approx((low, high), abs=digits)


def test_factors_of_a_mean() -> None:
    # t/√n: NIST/SEMATECH e-Handbook 1.3.5.2's interval of a mean, its factors computed with scipy.
    with (PUBLISHED / "t-and-prediction-factors.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            n = int(row["n"])
            ledger = Ledger()
            mean = figure(ledger, ("m",), [ledger.exact(0.0)] * n, Spread(1.0, n - 1, "own"), unit="1")
            found = estimate(0.0, components(ledger, mean), "1")
            assert found.half_width == pytest.approx(float(row["mean_ci_factor_95"]), abs=6e-5)
            assert found.half_width * math.sqrt(n) == pytest.approx(
                float(row["t_95"]), abs=6e-5 * math.sqrt(n)
            )


@given(values=st.lists(st.floats(20, 90), min_size=3, max_size=12))
def test_the_interval_of_a_mean_against_another_library(values: list[float]) -> None:
    # Reference: statsmodels.stats.weightstats.DescrStatsW.
    found = mean_of(values)
    assert [found.low, found.high] == pytest.approx(DescrStatsW(values).tconfint_mean(), rel=1e-6, abs=1e-9)


@given(values=pieces)
def test_own_spread_against_the_standard_library(values: list[float]) -> None:
    found = own_spread(values)
    assert found is not None
    assert found.deviation == pytest.approx(statistics.stdev(values), rel=1e-9, abs=1e-12)


@given(items=st.lists(pieces, min_size=1, max_size=5), lone=st.floats(20, 90))
def test_a_single_piece_says_nothing_about_spread(items: list[list[float]], lone: float) -> None:
    assert pooled_spread([*items, [lone], []]) == pooled_spread(items)
    assert own_spread([lone]) is None
    assert pooled_spread([[lone], []]) is None


def test_which_spread_is_used() -> None:
    pooled, declared = Spread(0.8, 7, "pooled"), Spread(1.1, 12, "declared")
    five = [40.0, 41.0, 42.0, 43.0, 44.0]
    assert spread_for(five[:1], pooled, declared) is declared
    assert spread_for(five[:1], pooled, None) is None
    assert spread_for(five[:2], pooled, declared) is pooled
    assert spread_for(five[:4], pooled, declared) is pooled
    own = spread_for(five, pooled, declared)
    assert own is not None
    assert own.origin == "own"
    assert own.deviation == pytest.approx(math.sqrt(2.5))


def piece(ledger: Ledger, value: float, run: str) -> Uncertain:
    """A rise with a shared error ± 0.6 K, one new in the run ± 0.3 K and one of the reading ± 0.05 K."""
    return (
        value
        + ledger.input(rectangle(("shared",), "offset", 0.6, "K", "shared"))
        + ledger.input(rectangle(("run", run), "offset of the run", 0.3, "K", "run"))
        + ledger.input(rectangle(("reading", run), "resolution", 0.05, "K", "reading"))
    )


def test_a_mean_of_three_by_hand() -> None:
    ledger = Ledger()
    values = [41.1, 42.0, 42.5]
    mean = figure(
        ledger,
        ("rise", "item-a"),
        [piece(ledger, value, str(place)) for place, value in enumerate(values)],
        Spread(0.9, 4, "pooled"),
        unit="K",
        resolution=0.1,
    )
    assert mean.number.x == pytest.approx(41.8667, abs=1e-4)
    found = components(ledger, mean)
    # The shared ± 0.6 K stays whole; what is new in each run is in the spread; that is 0.9/√3 with ν = 4.
    assert {part.input.scope: abs(part.contribution) for part in found} == pytest.approx(
        {"spread": 0.9 / math.sqrt(3), "shared": 0.6 / math.sqrt(3)}
    )
    result = estimate(mean.number.x, found, "K")
    assert result.standard_uncertainty == pytest.approx(math.sqrt(0.27 + 0.12))
    # GUM G.4: (0.27 + 0.12)²/(0.27²/4).
    assert result.dof == pytest.approx(0.39**2 / (0.27**2 / 4))


def test_one_piece_keeps_what_is_new_in_its_run() -> None:
    ledger = Ledger()
    lone = figure(ledger, ("rise", "item-a"), [piece(ledger, 41.1, "1")], None, unit="K", resolution=0.1)
    found = components(ledger, lone)
    assert combined(found) == pytest.approx(math.sqrt((0.36 + 0.09 + 0.0025) / 3))
    declared = figure(
        ledger, ("rise", "item-b"), [piece(ledger, 41.1, "1")], Spread(1.0, 12, "declared"), unit="K"
    )
    assert combined(components(ledger, declared)) == pytest.approx(
        math.sqrt((0.36 + 0.09 + 0.0025) / 3 + 1.0)
    )


def test_a_spread_below_the_resolution() -> None:
    ledger = Ledger()
    same = [piece(ledger, 41.1, str(place)) for place in range(3)]
    spread = pooled_spread([[41.1] * 3])
    found = components(ledger, figure(ledger, ("rise", "a"), same, spread, unit="K", resolution=0.5))
    # s = 0 < 0.5 K: 0.5/√12 once, not divided by √3.
    assert [part.input.label for part in found] == ["offset", "resolution of the figure"]
    assert found[1].contribution == pytest.approx(0.5 / math.sqrt(12))


def test_means_that_rest_on_one_estimate_share_its_degrees_of_freedom() -> None:
    ledger = Ledger()
    pooled = Spread(0.9, 4, "pooled")
    one = with_spread(ledger, ledger.exact(1.0), ("d",), "K", [(pooled, 2), (pooled, 3), (None, 1)])
    found = ledger.components(one)
    assert combined(found) == pytest.approx(0.9 * math.sqrt(1 / 2 + 1 / 3))
    assert effective_dof(found) == pytest.approx(4)
    own = with_spread(
        ledger, ledger.exact(1.0), ("e",), "K", [(Spread(0.9, 4, "own"), 5), (Spread(0.7, 5, "own"), 6)]
    )
    assert len(ledger.components(own)) == 2
    # Two items whose scatter happens to come out alike are still two estimates.
    alike = with_spread(ledger, ledger.exact(1.0), ("f",), "K", [(Spread(0.9, 4, "own"), 5)] * 2)
    assert combined(ledger.components(alike)) == pytest.approx(0.9 * math.sqrt(2 / 5))
    assert effective_dof(ledger.components(alike)) == pytest.approx(8)


def test_no_mean_without_pieces_or_spread() -> None:
    ledger = Ledger()
    with pytest.raises(ValueError, match="no pieces"):
        figure(ledger, ("rise", "a"), [], None, unit="K")
    with pytest.raises(ValueError, match="no spread"):
        figure(ledger, ("rise", "a"), [ledger.exact(1.0)] * 2, None, unit="K")
