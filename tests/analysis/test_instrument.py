"""What a stated accuracy makes of an indication."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from generator.analysis.accuracy import ErrorSpec, ProbeSpec, limit_of_error
from generator.analysis.instrument import Reading, measured, probe_error, probe_of, sensor
from generator.analysis.interval import half_width, parts
from generator.analysis.uncertainty import Component, Ledger, Uncertain, combined

CLAMP = ErrorSpec("clamp-2", "A", relative=0.025, digits=5, last_digit=0.01, resolution=0.01)
LOGGER = ErrorSpec("logger-1 CH3", "K", relative=0.005, absolute=0.5, resolution=0.1)
# IEC 60584-1:2013, type K class 1: the larger of 1.5 K and 0.004·|t|; class 2: 2.5 K and 0.0075·|t|.
K1 = ProbeSpec("probe k3", 1.5, 0.004)
K2 = ProbeSpec("probe k4", 2.5, 0.0075)


def at(channel: str, run: str, number: int = 0, quantity: str = "temperature") -> Reading:
    return Reading(("logger-1", "range-0", "never", channel), quantity, run, number)


def by_scope(found: tuple[Component, ...]) -> dict[str, float]:
    return {
        scope: combined([part for part in found if part.input.scope == scope])
        for scope in ("shared", "run", "reading")
    }


def test_a_clamp_of_2_5_percent_and_5_digits() -> None:
    # Common practice for "% + digits": 30.0 A, ± (2.5 % + 5 digits of 0.01 A) is ± 0.80 A.
    assert limit_of_error(CLAMP, 30.0) == pytest.approx(0.80)
    assert CLAMP.offset == pytest.approx(0.05)
    # With a rise in proportion to I², ± 0.80 A is ± 5.3 % of it: 2 × 0.80/30.
    ledger = Ledger()
    current = measured(ledger, 30.0, CLAMP, at("", "run-1"))
    rise = 41.3 * (30.0 / current) ** 2
    widths: dict[str, float] = {}
    for part in ledger.components(rise):
        kind = part.input.key[4]
        widths[kind] = math.hypot(widths.get(kind, 0.0), part.half_width)
    assert widths["gain"] + widths["offset"] == pytest.approx(0.0533 * 41.3, rel=1e-3)
    assert widths["gain"] == pytest.approx(0.05 * 41.3)


def test_each_part_of_an_accuracy_by_hand() -> None:
    ledger = Ledger()
    value = measured(ledger, 63.2, LOGGER, at("CH3", "run-1"))
    assert value.x == 63.2
    found = {part.input.key[4:]: part for part in ledger.components(value)}
    expected = {
        # 0.5 % of 63.2 °C is 0.316 K; of it 0.968246 is common to the runs, 0.25 new in each.
        ("gain",): 0.316 * 0.968246 / math.sqrt(3),
        ("gain", "run", "run-1"): 0.316 * 0.25 / math.sqrt(3),
        ("offset",): 0.5 * 0.968246 / math.sqrt(3),
        ("offset", "run", "run-1"): 0.5 * 0.25 / math.sqrt(3),
        # ± half of 0.1 K (GUM F.2.2.1).
        ("resolution", "run-1", "temperature", "0"): 0.05 / math.sqrt(3),
    }
    assert {key: part.contribution for key, part in found.items()} == pytest.approx(expected, rel=1e-6)
    assert found["gain",].input.unit == "1"
    assert found["gain",].sensitivity == pytest.approx(63.2)
    assert found["offset",].input.half_width == pytest.approx(0.4841, abs=1e-4)


def test_the_whole_keeps_the_variance_of_the_stated_rectangles() -> None:
    for unshared in (0.0, 0.25, 0.6, 1.0):
        ledger = Ledger()
        value = measured(ledger, 63.2, replace(LOGGER, unshared=unshared, resolution=0.0), at("CH3", "run-1"))
        found = ledger.components(value)
        assert combined(found) ** 2 == pytest.approx((0.316**2 + 0.5**2) / 3)
        assert by_scope(found)["run"] == pytest.approx(unshared * combined(found), abs=1e-12)


def test_a_normal_statement_is_divided_by_its_factor() -> None:
    ledger = Ledger()
    spec = ErrorSpec(
        "meter-1", "V", absolute=0.002, distribution="normal", coverage_factor=2.0, resolution=0.0
    )
    found = ledger.components(measured(ledger, 100.0, spec, at("", "run-1")))
    # GUM 4.3.3: a stated multiple of the standard deviation is divided by it.
    assert combined(found) == pytest.approx(0.001)
    assert {part.input.distribution for part in found} == {"normal"}


def test_repeatability_is_normal_and_new_in_each_reading() -> None:
    ledger = Ledger()
    spec = ErrorSpec("meter-1", "V", repeatability=0.3)
    pair = measured(ledger, 5.0, spec, at("", "run-1", 0)) - measured(ledger, 4.0, spec, at("", "run-1", 1))
    found = ledger.components(pair)
    assert combined(found) == pytest.approx(0.3 * math.sqrt(2))
    assert {(part.input.distribution, part.input.scope) for part in found} == {("normal", "reading")}


def temperature(ledger: Ledger, celsius: float, channel: str, probe: str, run: str) -> Uncertain:
    spec = replace(LOGGER, relative=0.0, resolution=0.0)
    indication = measured(ledger, celsius, spec, at(channel, run))
    return indication + probe_error(ledger, celsius, replace(K1, name=probe), ("probe", probe), run)


@given(first=st.floats(20, 110), second=st.floats(20, 110))
def test_one_probe_cancels_and_two_do_not(first: float, second: float) -> None:
    ledger = Ledger()
    one = temperature(ledger, first, "CH3", "k3", "run-1")
    again = temperature(ledger, second, "CH3", "k3", "run-2")
    other = temperature(ledger, second, "CH4", "k4", "run-2")
    shared = by_scope(ledger.components(one))["shared"]
    # The fixed parts of one channel and probe leave nothing that is shared in the difference of two runs;
    # those of two channels and probes leave √2 of one.
    assert by_scope(ledger.components(one - again))["shared"] == 0
    assert by_scope(ledger.components(one - other))["shared"] == pytest.approx(math.sqrt(2) * shared)
    for pair in (one - again, one - other):
        assert by_scope(ledger.components(pair))["run"] == pytest.approx(
            math.sqrt(2) * math.hypot(0.125, 0.375) / math.sqrt(3)
        )


@given(first=st.floats(20, 110), second=st.floats(20, 110))
def test_of_one_gain_the_difference_remains(first: float, second: float) -> None:
    ledger = Ledger()
    spec = replace(LOGGER, absolute=0.0, resolution=0.0, unshared=0.0)
    one, two = (
        measured(ledger, celsius, spec, at("CH3", run)) for celsius, run in ((first, "a"), (second, "b"))
    )
    remains = combined(ledger.components(one - two))
    assert remains == pytest.approx(0.005 * abs(first - second) / math.sqrt(3), abs=1e-12)


def test_one_thermometer_for_air_and_item_cancels_its_fixed_error() -> None:
    ledger = Ledger()
    spec = ErrorSpec("thermometer", "K", absolute=1.0, resolution=0.1)
    hot = measured(ledger, 63.2, spec, at("", "run-1", 1, "temperature"))
    cool = measured(ledger, 21.9, spec, at("", "run-1", 1, "ambient"))
    # Only the two resolutions remain, ± 0.05 K each.
    assert combined(ledger.components(hot - cool)) == pytest.approx(0.05 * math.sqrt(2 / 3))


def test_an_instrument_that_states_neither_step_nor_scatter_cancels_nothing() -> None:
    spec = ErrorSpec("thermometer", "K", absolute=1.0)
    assert not spec.cancels

    def read(ledger: Ledger, run: str, quantity: str, apart: str = "") -> Uncertain:
        return measured(ledger, 50.0, spec, replace(at("", run, 0, quantity), apart=apart))

    ledger = Ledger()
    whole = 1.0 / math.sqrt(3)
    two_runs = read(ledger, "run-1", "temperature") - read(ledger, "run-2", "temperature")
    two_quantities = read(ledger, "run-1", "temperature") - read(ledger, "run-1", "ambient")
    for pair in (two_runs, two_quantities):
        assert combined(ledger.components(pair)) == pytest.approx(whole * math.sqrt(2))
    # As if each item had a meter of its own: the runs of one item carry one error, two items carry two,
    # and the scatter between pieces never stands in for it.
    ledger = Ledger()
    mean = (read(ledger, "1", "t", "item-a") + read(ledger, "2", "t", "item-a")) / 2.0
    assert by_scope(ledger.components(mean)) == pytest.approx({"shared": whole, "run": 0, "reading": 0})
    pair = mean - read(ledger, "3", "t", "item-b")
    assert combined(ledger.components(pair)) == pytest.approx(whole * math.sqrt(2))


@pytest.mark.parametrize(
    ("spec", "celsius", "tolerance"),
    [(K1, 25, 1.5), (K1, 400, 1.6), (K2, 25, 2.5), (K2, 300, 2.5), (K2, 400, 3.0)]
    # Type T class 1: the larger of 0.5 K and 0.004·|t|.
    + [(ProbeSpec("t1", 0.5, 0.004), celsius, k) for celsius, k in ((100, 0.5), (200, 0.8), (350, 1.4))]
    # Pt100 class A: 0.15 + 0.002·|t|; class B: 0.3 + 0.005·|t|.
    + [(ProbeSpec("pt", 0.15, 0.002, "sum"), 100, 0.35), (ProbeSpec("pt", 0.3, 0.005, "sum"), 100, 0.80)],
)
def test_probe_tolerances(spec: ProbeSpec, celsius: float, tolerance: float) -> None:
    # IEC 60584-1:2013 and IEC 60751:2008 as makers of sensors quote them, the standards not seen.
    assert spec.half_width(celsius) == pytest.approx(tolerance)
    ledger = Ledger()
    found = ledger.components(probe_error(ledger, celsius, spec, ("probe", "x"), "run-1"))
    assert combined(found) == pytest.approx(tolerance / math.sqrt(3))


def test_a_tolerance_in_proportion_only() -> None:
    ledger = Ledger()
    spec = ProbeSpec("p", 0.0, 0.002)
    one = probe_error(ledger, 100.0, spec, ("probe", "p"), "run-1")
    two = probe_error(ledger, 40.0, spec, ("probe", "p"), "run-1")
    assert combined(ledger.components(one)) == pytest.approx(0.2 / math.sqrt(3))
    assert combined(ledger.components(one - two)) == pytest.approx(0.12 / math.sqrt(3))
    assert ledger.components(probe_error(ledger, 40.0, ProbeSpec("q", 0.0), ("probe", "q"), "r")) == ()


def test_printed_defaults_are_marked() -> None:
    ledger = Ledger()
    value = measured(ledger, 63.2, LOGGER, at("CH3", "run-1"))
    assumed = {part.input.scope: part.input.assumed for part in ledger.components(value)}
    assert assumed == {"shared": False, "run": True, "reading": False}
    spec = replace(LOGGER, assumed=frozenset({"distribution", "repeatability"}), repeatability=0.1)
    value = measured(ledger, 63.2, spec, at("CH5", "run-1"))
    marks = {(part.input.key[4], part.input.assumed) for part in ledger.components(value)}
    assert marks == {("gain", True), ("offset", True), ("resolution", False), ("repeatability", True)}


@pytest.mark.parametrize("unshared", [-0.1, 1.1])
def test_a_part_is_between_nothing_and_all(unshared: float) -> None:
    with pytest.raises(ValueError, match="not between 0 and 1"):
        measured(Ledger(), 20.0, replace(LOGGER, unshared=unshared), at("CH3", "run-1"))


def test_against_another_library() -> None:
    # Reference: `uncertainties`, the same errors written out by hand.
    ledger = Ledger()
    hot = measured(ledger, 63.2, LOGGER, at("CH3", "run-1", 0)) + probe_error(ledger, 63.2, K1, ("k3",), "1")
    cool = measured(ledger, 21.9, LOGGER, at("CH3", "run-1", 1)) + probe_error(ledger, 21.9, K1, ("k3",), "1")
    gain, offset = ufloat(0, 0.005 / 3**0.5), ufloat(0, 0.5 / 3**0.5)
    tolerance = ufloat(0, 1.5 / 3**0.5)
    steps = [ufloat(0, 0.05 / 3**0.5) for _ in range(2)]
    theirs = (63.2 * (1 + gain) + offset + tolerance + steps[0]) - (
        21.9 * (1 + gain) + offset + tolerance + steps[1]
    )
    found = ledger.components(hot - cool)
    assert combined(found) == pytest.approx(theirs.s)
    assert half_width(parts(found)) < 1.96 * theirs.s


def test_a_probe_in_the_same_step_or_added_after_is_one() -> None:
    ledger = Ledger()
    logger = ErrorSpec("logger", "K", relative=0.005, absolute=0.5, resolution=0.1, repeatability=0.1)
    of_probe = probe_error(ledger, 60.0, ProbeSpec("probe", 1.5, 0.004), ("probe",), "run-1")
    reading = Reading(("logger", "CH1"), "temperature@body", "run-1", 0)
    added = measured(ledger, 60.0, logger, reading) + of_probe
    joined = measured(ledger, 60.0, logger, reading, (of_probe,))
    assert joined.x == added.x
    ours, theirs = ledger.components(joined), ledger.components(added)
    assert [part.input for part in ours] == [part.input for part in theirs]
    assert [part.contribution for part in ours] == pytest.approx([part.contribution for part in theirs])
    assert {part.input.label for part in ours} >= {"probe: tolerance, common to its runs"}


def test_readings_of_a_sensor_share_what_single_ones_share() -> None:
    ledger = Ledger()
    first, second = (
        Reading(("logger", "CH1"), "body", "run-1", 0),
        Reading(("logger", "CH1"), "body", "run-1", 1),
    )
    of_run = sensor(ledger, LOGGER, first)
    probe = probe_of(ledger, K1, ("probe", "k3"), "run-1")
    for celsius, reading in ((63.2, first), (410.0, second)):
        alone = measured(ledger, celsius, LOGGER, reading) + probe_error(
            ledger, celsius, K1, ("probe", "k3"), "run-1"
        )
        together = of_run.measured(celsius, reading.number, (probe.at(celsius),))
        assert together.x == celsius
        assert (together - alone).u == pytest.approx(0.0, abs=1e-12)
