"""One rise and one difference, each part worked by hand beside what the code makes of it.

The readings and meters are made up for the purpose. The arithmetic is that of JCGM 100: a rectangle of
half-width a has u = a/√3, a component is |∂y/∂x|·u, components add in squares; the interval is JCGM 101's.
"""

from __future__ import annotations

import math
from statistics import NormalDist

import numpy as np
import pytest

from generator.analysis.accuracy import ErrorSpec, ProbeSpec
from generator.analysis.budget import budget
from generator.analysis.comparison import difference
from generator.analysis.heating import (
    at_mark,
    at_set_current,
    current_exponent,
    filled,
    reads_low,
    rises,
    rms_current,
)
from generator.analysis.instrument import Reading, measured, probe_error
from generator.analysis.interval import estimate, parts
from generator.analysis.specimens import figure, pooled_spread, spread_for
from generator.analysis.uncertainty import Ledger, Uncertain

MINUTES = (0, 55, 60)
COMMON, OWN = math.sqrt(1 - 0.25**2), 0.25
"""Of a stated half-width 0.968246 is common to the runs and 0.25 new in each."""


def logger(channel: str) -> ErrorSpec:
    """Logger, ± (0.5 % + 0.5 °C), resolution 0.1 °C."""
    return ErrorSpec(f"logger-1 {channel}", "K", relative=0.005, absolute=0.5, resolution=0.1)


def temperature(ledger: Ledger, celsius: float, channel: str, run: str, number: int) -> Uncertain:
    """A channel of the logger with a type K class 1 probe of its own, ± 1.5 °C."""
    reading = Reading(("logger-1", channel), channel, run, number)
    probe = ProbeSpec(f"probe of {channel}", 1.5, 0.004)
    indication = measured(ledger, celsius, logger(channel), reading)
    return indication + probe_error(ledger, celsius, probe, ("probe", channel), run)


def current(ledger: Ledger, amperes: float, run: str, number: int) -> Uncertain:
    """Clamp, ± (1.5 % + 3 digits of 0.1 A)."""
    spec = ErrorSpec("clamp-2", "A", relative=0.015, digits=3, last_digit=0.1, resolution=0.1)
    return measured(ledger, amperes, spec, Reading(("clamp-2",), "current", run, number))


def rise_at_60_minutes(
    ledger: Ledger, run: str, hot: list[float], cool: list[float], driven: list[float]
) -> Uncertain:
    """Rise at the mark of a run with readings at 0, 55 and 60 min, corrected to 30 A."""
    times = [60.0 * minute for minute in MINUTES]
    bodies = [temperature(ledger, celsius, "CH3", run, row) for row, celsius in enumerate(hot)]
    air = filled(times, [temperature(ledger, celsius, "CH1", run, row) for row, celsius in enumerate(cool)])
    mark = at_mark(ledger, times, rises(bodies, air), 3600, within=30, key=(run,))
    whole = mark.rise + reads_low(ledger, 1.5, ("closed box", "body"), run[0])
    amperes = [current(ledger, each, run, row) for row, each in enumerate(driven)]
    rms = rms_current(times, amperes, mark.time)
    return at_set_current(whole, rms, 30.0, current_exponent(ledger, ("closed box",)))


def test_budget_of_one_rise() -> None:
    ledger = Ledger()
    rise = rise_at_60_minutes(ledger, "a1", [21.4, 62.9, 63.2], [21.2, 21.9, 21.9], [30.1, 30.1, 30.1])

    # The figure. 63.2 − 21.9 = 41.3 K; the probe reads up to 1.5 K low, so 0.75 K more: 42.05 K.
    # The current was 30.1 A all along; 42.05·(30/30.1)² = 42.05·0.993367 = 41.771 K.
    scale = (30 / 30.1) ** 2
    value = 42.05 * scale
    assert value == pytest.approx(41.771, abs=5e-4)
    assert rise.x == pytest.approx(value, rel=1e-12)

    # Half-widths in K. A part of a temperature acts on the figure by 0.993367; a part of the current by
    # 2·41.771/30.1 = 2.7755 K/A; the exponent by 41.771·ln(30/30.1) = −0.1390 K.
    per_ampere = 2 * value / 30.1
    # The three current readings weigh 3300/2, 3600/2 and 300/2 of 3600 s.
    steps = math.sqrt(1650**2 + 1800**2 + 150**2) / 3600
    half_widths = {
        "logger-1 CH3: gain": 0.005 * 63.2 * scale,  # 0.314
        "logger-1 CH3: offset": 0.5 * scale,  # 0.497
        "logger-1 CH3: resolution": 0.05 * scale,
        "probe of CH3: tolerance": 1.5 * scale,  # 1.490
        "logger-1 CH1: gain": 0.005 * 21.9 * scale,  # 0.109
        "logger-1 CH1: offset": 0.5 * scale,
        "logger-1 CH1: resolution": 0.05 * scale,
        "probe of CH1: tolerance": 1.5 * scale,
        # 41.0 K at 55 min, 41.3 K at 60 min: 1 mK/s for ± 30 s.
        "time of the reading": 0.001 * 30 * scale,
        "probe draws heat off": 0.75 * scale,
        "clamp-2: gain": 0.015 * 30.1 * per_ampere,  # 0.4515 A, 1.253 K
        "clamp-2: offset": 0.3 * per_ampere,  # 0.833
        "clamp-2: resolution": 0.05 * per_ampere * steps,
        "exponent of the current": 0.4 * value * math.log(30.1 / 30),  # 0.0556
    }
    found = ledger.components(rise)
    table = budget(found, "K")
    squares: dict[str, float] = {}
    for row in table.rows:
        part = row.label.split(",")[0]
        squares[part] = squares.get(part, 0.0) + row.contribution**2
    assert {part: math.sqrt(3 * square) for part, square in squares.items()} == pytest.approx(half_widths)

    # Of each accuracy 0.968246 is common and 0.25 new in each run.
    by_label = {row.label: row.contribution * math.sqrt(3) for row in table.rows}
    assert by_label["clamp-2: gain, common to its runs"] == pytest.approx(0.968246 * 1.2531, abs=1e-4)
    assert by_label["clamp-2: gain, new in each run"] == pytest.approx(0.25 * 1.2531, abs=1e-4)

    # Together: the squares of the half-widths come to 7.881 K²; a third is 2.627 K², its root 1.621 K.
    u = math.sqrt(sum(width**2 for width in half_widths.values()) / 3)
    assert u == pytest.approx(1.6208, abs=5e-5)
    assert table.standard_uncertainty == pytest.approx(u)
    assert table.dof == math.inf
    assert sum(row.share for row in table.rows) == pytest.approx(100)

    # The interval. The largest rectangle is the common part of one probe, 0.968246·1.5·0.993367 = 1.4427 K;
    # all else is taken as normal, √(1.6208² − 1.4427²/3) = 1.3904 K. U is where
    # (s/2a)·(ψ((U + a)/s) − ψ((U − a)/s)) = 0.975.
    a = 1.5 * scale * COMMON
    s = math.sqrt(u**2 - a**2 / 3)
    assert (a, s) == pytest.approx((1.4427, 1.3904), abs=5e-5)
    result = estimate(rise.x, found, "K")
    assert s / (2 * a) * (psi((result.half_width + a) / s) - psi((result.half_width - a) / s)) == (
        pytest.approx(0.975, abs=1e-9)
    )
    # Its printed form, 41.8 K ± 3.2 K.
    assert result.half_width == pytest.approx(3.2, abs=0.05)


def psi(z: float) -> float:
    """ψ(z) = zΦ(z) + φ(z)."""
    return z * NormalDist().cdf(z) + NormalDist().pdf(z)


def test_difference_of_two_items() -> None:
    ledger = Ledger()
    # Three pieces each, all on one channel, probe, clamp and at 30.0 A; steady over the last readings.
    readings = {"a": (62.4, 63.1, 63.6), "b": (66.0, 66.9, 67.5)}
    numbers = {
        item: [
            rise_at_60_minutes(ledger, f"{item}{place}", [22.0, hot, hot], [22.0] * 3, [30.0] * 3)
            for place, hot in enumerate(found)
        ]
        for item, found in readings.items()
    }
    values = {item: [number.x for number in found] for item, found in numbers.items()}
    # Rises, with 0.75 K for the probe.
    assert values["a"] == pytest.approx([41.15, 41.85, 42.35])
    assert values["b"] == pytest.approx([44.75, 45.65, 46.25])

    # Means 41.783 K and 45.550 K. Squared deviations 0.72667 and 1.14000 K² together on 2 + 2 degrees of
    # freedom: s² = 0.46667 K², s = 0.68313 K.
    pooled = pooled_spread(values.values())
    assert pooled is not None
    assert (pooled.deviation, pooled.dof) == pytest.approx((0.68313, 4), abs=1e-5)
    first, second = (
        figure(
            ledger,
            ("rise", item),
            found,
            spread_for(values[item], pooled, None),
            unit="K",
            resolution=0.1,
        )
        for item, found in numbers.items()
    )
    found = difference(ledger, second, first, pooled)

    # 45.550 − 41.783 = 3.767 K. What is left of shared errors, in half-widths: gain of the logger 0.5 % of
    # 3.767 K; gain of the clamp 2·1.5 % and offset 2·0.3/30 of it; all of that by 0.968246; the probe's
    # conduction that is new for each item, 0.25·0.75 K for both. Offsets and tolerances are gone, and what
    # is new in each run is in the scatter: 0.68313·√(1/3 + 1/3) = 0.55777 K on 4 degrees of freedom.
    d = 3.76667
    assert found.estimate.value == pytest.approx(d, abs=1e-5)
    conduction = 0.1875 * math.sqrt(2)
    expected = {
        "spread between pieces": 0.55777,
        "logger-1 CH3: gain": 0.005 * d * COMMON / math.sqrt(3),  # 0.0105
        "clamp-2: gain": 0.03 * d * COMMON / math.sqrt(3),  # 0.0632
        "clamp-2: offset": 0.02 * d * COMMON / math.sqrt(3),  # 0.0421
        "probe draws heat off": conduction / math.sqrt(3),  # 0.1531
    }
    rows = {row.label.split(",")[0]: row.contribution for row in budget(found.components, "K").rows}
    assert rows == pytest.approx(expected, abs=1e-5)

    # u = √(0.55777² + 0.0105² + 0.0632² + 0.0421² + 0.1531²) = 0.5835 K, ν_eff = 4·(0.5835/0.55777)⁴ = 4.79.
    assert found.estimate.standard_uncertainty == pytest.approx(0.5835, abs=1e-4)
    assert found.estimate.dof == pytest.approx(4 * (0.5835 / 0.55777) ** 4, abs=5e-3)

    # The interval against two million draws of just these parts.
    source = np.random.default_rng(20250308)
    count = 2_000_000
    drawn = 0.55777 * source.standard_t(4, count)
    for half_width in (0.005 * d * COMMON, 0.03 * d * COMMON, 0.02 * d * COMMON, 0.1875, 0.1875):
        drawn += source.uniform(-half_width, half_width, count)
    assert found.estimate.half_width == pytest.approx(float(np.quantile(np.abs(drawn), 0.95)), rel=0.005)
    assert found.p == pytest.approx(float(np.mean(np.abs(drawn) > d)), rel=0.05)
    # t for 4 degrees of freedom alone would be 2.776·0.55777 = 1.548 K; the other parts add a little.
    assert 1.548 < found.estimate.half_width < 1.65
    assert found.spread_known
    assert parts(found.components).dof == pytest.approx(4)
