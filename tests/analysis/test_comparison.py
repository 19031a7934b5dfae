"""Differences of two figures."""

from __future__ import annotations

import csv
import math
from pathlib import Path
from statistics import NormalDist

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from statsmodels.stats.weightstats import ttest_ind

from generator.analysis.comparison import Difference, difference
from generator.analysis.multiple import holm
from generator.analysis.specimens import Figure, Spread, figure, own_spread, pooled_spread, spread_for
from generator.analysis.uncertainty import Ledger, Uncertain, combined, rectangle

PUBLISHED = Path(__file__).parents[1] / "published"


def groups(file: str, group: str, value: str) -> list[list[float]]:
    """Values of a published file by group, in the order of the file."""
    found: dict[str, list[float]] = {}
    with (PUBLISHED / file).open(encoding="utf-8") as opened:
        for row in csv.DictReader(opened):
            found.setdefault(row[group], []).append(float(row[value]))
    return list(found.values())


SLEEP = groups("r-sleep.csv", "group", "extra")


def difference_of_means(
    samples: list[list[float]], spreads: list[Spread | None], pooled: Spread | None
) -> Difference:
    """Difference of the means of two samples without any error but their scatter."""
    ledger = Ledger()
    first, second = (
        figure(ledger, ("mean", str(place)), [ledger.exact(each) for each in sample], spread, unit="1")
        for place, (sample, spread) in enumerate(zip(samples, spreads, strict=True))
    )
    return difference(ledger, first, second, pooled)


def test_pooled_t_of_the_handbook() -> None:
    samples = groups("nist-ehandbook-auto83b.csv", "group", "mpg")
    pooled = pooled_spread(samples)
    assert pooled is not None
    # NIST e-Handbook 1.3.5.3: pooled standard deviation 6.34260, ν = 326, T = −12.62059.
    assert pooled.deviation == pytest.approx(6.34260, abs=5e-6)
    assert pooled.dof == 326
    found = difference_of_means(samples, [pooled, pooled], pooled)
    t = found.estimate.value / found.estimate.standard_uncertainty
    assert t == pytest.approx(-12.62059, abs=5e-6)
    # R's t.test on the same data: 95 % interval −11.947653 to −8.725216.
    assert (found.estimate.low, found.estimate.high) == pytest.approx((-11.947653, -8.725216), abs=1e-6)


def test_welch_of_five_and_more_pieces_each() -> None:
    samples = groups("nist-ehandbook-auto83b.csv", "group", "mpg")
    found = difference_of_means(samples, [own_spread(each) for each in samples], None)
    t = found.estimate.value / found.estimate.standard_uncertainty
    # Boost.Math, students_t_examples.qbk, same data: t = −12.946, ν = 136.87.
    assert t == pytest.approx(-12.946, abs=5e-4)
    assert found.estimate.dof == pytest.approx(136.87, abs=5e-3)
    assert (found.estimate.low, found.estimate.high) == pytest.approx((-11.915248, -8.757621), abs=1e-6)


def test_p_values_of_the_sleep_data() -> None:
    samples = groups("r-sleep.csv", "group", "extra")
    pooled = pooled_spread(samples)
    # R, stats-Ex.Rout.save: Welch ν = 17.776, p = 0.07939; pooled p = 0.07919.
    by_own = difference_of_means(samples, [own_spread(each) for each in samples], pooled)
    assert by_own.estimate.dof == pytest.approx(17.776, abs=5e-4)
    assert by_own.p == pytest.approx(0.07939, abs=5e-6)
    by_pooled = difference_of_means(samples, [pooled, pooled], pooled)
    assert by_pooled.p == pytest.approx(0.07919, abs=5e-6)


def test_the_other_interval_of_the_sleep_data() -> None:
    samples = groups("r-sleep.csv", "group", "extra")
    pooled = pooled_spread(samples)
    # R's t.test on the same data: Welch −3.365483 to 0.205483, with equal variances −3.363874 to 0.203874.
    for spreads, ends in (
        ([own_spread(each) for each in samples], (-3.365483, 0.205483)),
        ([pooled, pooled], (-3.363874, 0.203874)),
    ):
        found = difference_of_means(samples, spreads, pooled).estimate
        assert (found.low, found.high) == pytest.approx(ends, abs=1e-6)


@pytest.mark.parametrize(
    ("further", "t", "dof", "p", "ends"),
    [
        ([], -5.4349, 21.982, 1.855e-05, (-11.052802, -4.947198)),
        ([200.0], -1.6329, 14.165, 0.1245, (-47.242900, 6.376233)),
    ],
)
def test_welch_of_one_to_ten(
    further: list[float], t: float, dof: float, p: float, ends: tuple[float, float]
) -> None:
    # R, t.test(1:10, y = c(7:20)) and c(7:20, 200), wch/r-source tests/Examples/stats-Ex.Rout.save.
    samples = [[float(each) for each in range(1, 11)], [*map(float, range(7, 21)), *further]]
    found = difference_of_means(samples, [own_spread(each) for each in samples], None)
    assert found.estimate.value / found.estimate.standard_uncertainty == pytest.approx(t, abs=5e-5)
    assert found.estimate.dof == pytest.approx(dof, abs=5e-4)
    assert found.p == pytest.approx(p, rel=5e-4)
    assert (found.estimate.low, found.estimate.high) == pytest.approx(ends, abs=1e-6)


def test_the_atomic_weight_of_silver() -> None:
    # NIST StRD, analysis of variance, AtmWtAg: two instruments, F = 15.9467335677930 certified, which is the
    # square of a pooled t. Values of nine digits that differ in the last two: 8 digits of F are left of them.
    samples = groups("nist-strd-atmwtag.csv", "group", "y")
    pooled = pooled_spread(samples)
    found = difference_of_means(samples, [pooled, pooled], pooled).estimate
    assert (found.value / found.standard_uncertainty) ** 2 == pytest.approx(15.9467335677930, rel=1e-8)
    assert found.dof == 46
    # As two samples of unlike variance: ν = 43.2518, p = 0.00024856 (computed by others with scipy).
    welch = difference_of_means(samples, [own_spread(each) for each in samples], pooled)
    assert welch.estimate.dof == pytest.approx(43.2518, abs=5e-5)
    assert welch.p == pytest.approx(0.00024856, rel=1e-4)


@pytest.mark.parametrize(
    ("kind", "held"),
    # R, pairwise.t.test(Ozone, Month), stats-Ex.Rout.save: by Holm below 5 %, with pooled SD and with Welch.
    [
        ("pooled", {"May-Jul", "May-Aug", "Jun-Aug", "Jul-Sep", "Aug-Sep"}),
        ("welch", {"May-Jul", "May-Aug", "Jun-Jul", "Jun-Aug", "Jul-Sep", "Aug-Sep"}),
    ],
)
def test_ozone_by_month(kind: str, held: set[str]) -> None:
    samples = groups("r-airquality-ozone.csv", "month", "ozone")
    pooled = pooled_spread(samples)
    names = ("May", "Jun", "Jul", "Aug", "Sep")
    with (PUBLISHED / "r-pairwise-holm.csv").open(encoding="utf-8") as opened:
        rows = list(csv.DictReader(opened))
    found = []
    for row in rows:
        pair = [samples[names.index(row[side])] for side in ("a", "b")]
        spreads = [pooled, pooled] if kind == "pooled" else [own_spread(each) for each in pair]
        found.append(difference_of_means(pair, spreads, pooled).p)
        assert found[-1] == pytest.approx(float(row[f"p_{kind}_raw"]), rel=1e-5), row
    shown = {f"{row['a']}-{row['b']}" for row, each in zip(rows, holm(found), strict=True) if each.shown}
    assert shown == held == {f"{r['a']}-{r['b']}" for r in rows if float(r[f"p_{kind}_holm"]) <= 0.05}
    # Bonferroni, which is not used, would hold Jun-Aug back with pooled SD (R prints .08312).
    if kind == "pooled":
        by_bonferroni = {f"{r['a']}-{r['b']}" for r, p in zip(rows, found, strict=True) if 10 * p <= 0.05}
        assert by_bonferroni == held - {"Jun-Aug"}


@given(
    samples=st.lists(st.lists(st.floats(20, 90), min_size=5, max_size=12), min_size=2, max_size=2),
)
def test_against_another_library(samples: list[list[float]]) -> None:
    # Reference: statsmodels.stats.weightstats.ttest_ind, variances equal and not.
    pooled = pooled_spread(samples)
    assume(all(own.deviation > 0.01 for each in samples if (own := own_spread(each)) is not None))
    for spreads, usevar in (
        ([pooled, pooled], "pooled"),
        ([own_spread(each) for each in samples], "unequal"),
    ):
        found = difference_of_means(samples, spreads, pooled)
        t, p, dof = ttest_ind(*samples, usevar=usevar)
        assert found.estimate.value / found.estimate.standard_uncertainty == pytest.approx(t, abs=1e-9)
        assert found.estimate.dof == pytest.approx(dof, rel=1e-9)
        assert found.p == pytest.approx(p, rel=1e-4, abs=1e-9)


@given(a=st.integers(2, 8), b=st.integers(2, 8))
def test_few_pieces_take_the_pooled_spread(a: int, b: int) -> None:
    samples = [[40.0 + 0.3 * place for place in range(count)] for count in (a, b)]
    pooled = Spread(0.9, 11, "pooled")
    found = difference_of_means(samples, [spread_for(each, pooled, None) for each in samples], pooled)
    assert found.spread_known
    if min(a, b) < 5:
        assert combined(found.components) == pytest.approx(0.9 * math.sqrt(1 / a + 1 / b))
        assert found.estimate.dof == pytest.approx(11)
    else:
        assert combined(found.components) == pytest.approx(
            math.hypot(*(0.3 * math.sqrt((n + 1) / 12) for n in (a, b)))
        )


def piece(ledger: Ledger, value: float, run: str, probe: str) -> Uncertain:
    """A rise with a gain of ± 1 %, an offset ± 0.6 K of its probe and ± 0.2 K new in the run."""
    return (
        value * (1.0 + ledger.input(rectangle(("gain",), "gain", 0.01, "1", "shared")))
        + ledger.input(rectangle(("offset", probe), "offset", 0.6, "K", "shared"))
        + ledger.input(rectangle(("run", run), "new in the run", 0.2, "K", "run"))
    )


def single(ledger: Ledger, item: str, value: float, probe: str, spread: Spread | None = None) -> Figure:
    return figure(ledger, ("rise", item), [piece(ledger, value, item, probe)], spread, unit="K")


def test_shared_errors_cancel_and_others_do_not() -> None:
    ledger = Ledger()
    one, two = (
        difference(
            ledger, single(ledger, f"a{probe}", 45.0, "k1"), single(ledger, f"b{probe}", 41.0, probe), None
        )
        for probe in ("k1", "k2")
    )
    # One probe: ± 1 % of the 4 K between them and ± 0.2 K of each run; two probes: ± 0.6 K of each besides.
    assert combined(one.components) == pytest.approx(math.sqrt((0.04**2 + 2 * 0.2**2) / 3))
    assert combined(two.components) == pytest.approx(math.sqrt((0.04**2 + 2 * 0.2**2 + 2 * 0.6**2) / 3))


def test_single_pieces_without_a_declared_spread_speak_of_pieces_only() -> None:
    ledger = Ledger()
    found = difference(ledger, single(ledger, "a", 45.0, "k1"), single(ledger, "b", 41.0, "k1"), None)
    assert not found.spread_known
    assert all(part.input.scope != "spread" for part in found.components)


def test_single_pieces_with_a_declared_spread() -> None:
    ledger = Ledger()
    declared = Spread(1.2, 9, "declared")
    first, second = (
        single(ledger, item, value, "k1", declared) for item, value in (("a", 45.0), ("b", 41.0))
    )
    found = difference(ledger, first, second, Spread(0.7, 4, "pooled"))
    assert found.spread_known
    (spread,) = [part for part in found.components if part.input.scope == "spread"]
    assert abs(spread.contribution) == pytest.approx(1.2 * math.sqrt(2))
    assert spread.input.dof == 9


@given(first=st.floats(20, 90), second=st.floats(20, 90))
def test_the_order_changes_the_sign_only(first: float, second: float) -> None:
    ledger = Ledger()
    a, b = single(ledger, "a", first, "k1"), single(ledger, "b", second, "k2")
    there, back = difference(ledger, a, b, None), difference(ledger, b, a, None)
    assert there.estimate.value == -back.estimate.value
    assert there.estimate.half_width == pytest.approx(back.estimate.half_width, rel=1e-12)
    assert there.p == pytest.approx(back.p, rel=1e-9)


def test_p_and_interval_tell_the_same() -> None:
    ledger = Ledger()
    base = single(ledger, "a", 41.0, "k1", Spread(0.5, 6, "declared"))
    apart = difference(ledger, base, single(ledger, "b", 42.0, "k2", Spread(0.5, 6, "declared")), None)
    at_the_edge = figure(
        ledger,
        ("rise", "c"),
        [piece(ledger, 41.0 + apart.estimate.half_width, "b", "k2")],
        Spread(0.5, 6, "declared"),
        unit="K",
    )
    assert difference(ledger, base, at_the_edge, None).p == pytest.approx(0.05, abs=2e-4)


def test_p_of_a_known_error() -> None:
    # Two-sided p of z = 1.96 is 5 %; of no difference 1; of a difference without any error 0.
    ledger = Ledger()
    known = Spread(1.0, math.inf, "declared")
    sides = [
        figure(ledger, ("m", str(value)), [ledger.exact(value)], known, unit="K") for value in (3.0, 0.0, 0.0)
    ]
    z = 3 / math.sqrt(2)
    assert difference(ledger, sides[0], sides[1], None).p == pytest.approx(2 * (1 - NormalDist().cdf(z)))
    assert difference(ledger, sides[1], sides[1], None).p == 1
    bare = [figure(ledger, ("n", str(v)), [ledger.exact(v)], None, unit="K") for v in (1.0, 2.0)]
    assert difference(ledger, bare[0], bare[1], None).p == 0


@pytest.mark.parametrize(
    ("values", "against", "p", "places"),
    [
        # J. C. Miller and J. N. Miller 1994, mercury, as Boost.Math quotes it: t = −1.97566 against 38.9.
        ([38.9, 37.4, 37.1], 38.9, 0.186857, 6),
        # R, t.test(extra) of the sleep data: p = 0.002918; of the ten differences (paired) 0.002833.
        ([*SLEEP[0], *SLEEP[1]], 0.0, 0.002918, 6),
        ([one - other for one, other in zip(*SLEEP, strict=True)], 0.0, 0.002833, 6),
    ],
    ids=["mercury", "sleep", "sleep, paired"],
)
def test_p_of_one_mean_against_a_value(values: list[float], against: float, p: float, places: int) -> None:
    ledger, own = Ledger(), own_spread(values)
    pieces = [ledger.exact(each) for each in values]
    mean = figure(ledger, ("mean",), pieces, own, unit="1")
    value = figure(ledger, ("value",), [ledger.exact(against)], None, unit="1")
    # Each with the spread that it has: of a value without one the mean's alone is left.
    found = difference(ledger, mean, value, own)
    assert found.p == pytest.approx(p, abs=0.6 * 10**-places)


def test_units_must_agree() -> None:
    ledger = Ledger()
    sides = [figure(ledger, ("m", unit), [ledger.exact(1.0)], None, unit=unit) for unit in ("K", "N")]
    with pytest.raises(ValueError, match="difference of K and N"):
        difference(ledger, sides[0], sides[1], None)
