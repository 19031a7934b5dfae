"""Rise, ambient, current and the reading at the mark."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from generator.analysis.heating import (
    NoReadingAtMark,
    at_mark,
    at_set_current,
    current_exponent,
    filled,
    interpolated,
    reads_low,
    rises,
    rms_current,
)
from generator.analysis.uncertainty import Ledger, Uncertain, combined, rectangle, scatter

LEDGER = Ledger()
"""For tests whose numbers carry no uncertainty."""


def exact(values: list[float]) -> list[Uncertain]:
    return [LEDGER.exact(value) for value in values]


def values(numbers: tuple[Uncertain | None, ...]) -> list[float | None]:
    return [None if number is None else number.x for number in numbers]


def test_rise_is_temperature_less_ambient() -> None:
    hot: list[Uncertain | None] = [*exact([21.4, 63.2]), None, LEDGER.exact(64.0)]
    cool: list[Uncertain | None] = [*exact([21.2, 21.9, 22.0]), None]
    assert values(rises(hot, cool)) == [pytest.approx(0.2), pytest.approx(41.3), None, None]


def test_the_same_heat_gives_one_rise_in_a_cool_and_in_a_hot_room() -> None:
    for ambient in (10.0, 35.0):
        hot = exact([ambient + 41.3 * (1 - math.exp(-minute / 12)) for minute in (0, 20, 60)])
        found = values(rises(hot, exact([ambient] * 3)))
        assert found == pytest.approx([0.0, 33.4993, 41.0217], abs=1e-3)


def test_a_missing_cell_lies_between_its_neighbours() -> None:
    cells: list[Uncertain | None] = [None, *exact([21.2]), None, None, *exact([22.1]), None]
    found = filled([0, 120, 300, 480, 600, 900], cells)
    assert values(found) == [None, 21.2, pytest.approx(21.5375), pytest.approx(21.875), 22.1, None]


def test_a_filled_cell_carries_the_errors_of_its_neighbours() -> None:
    ledger = Ledger()
    common = ledger.input(rectangle(("offset",), "offset", 0.3, "K", "shared"))
    ends = [20.0 + common + ledger.input(scatter((name,), name, 0.1, "K", "reading")) for name in "ab"]
    middle = filled([0, 100, 400], [ends[0], None, ends[1]])[1]
    assert middle is not None
    found = {part.input.key[0]: part.contribution for part in ledger.components(middle)}
    # Weights ¾ and ¼; the common part stays whole.
    assert found == pytest.approx({"a": 0.075, "b": 0.025, "offset": 0.3 / math.sqrt(3)})


def test_ambient_read_at_start_and_end() -> None:
    found = interpolated([0, 900, 1800, 3600, 3700], [(0, LEDGER.exact(21.0)), (3600, LEDGER.exact(23.0))])
    assert values(found) == [21.0, pytest.approx(21.5), pytest.approx(22.0), 23.0, None]


def test_correction_to_the_set_current() -> None:
    # A load in proportion to I²: 50 K at 125 A are 62.72 K at 140 A and 23.12 K at 85 A
    # (rises of UL 486A-486B's currents as quoted in a code forum; arithmetic only).
    for set_current, rise in ((140.0, 62.72), (85.0, 23.12)):
        n = Ledger().input(rectangle(("n",), "n", 0.0, "1", "shared"), 2.0)
        assert at_set_current(LEDGER.exact(50.0), LEDGER.exact(125.0), set_current, n).x == pytest.approx(
            rise
        )


@pytest.mark.parametrize("base", [21.9, 21.1, 20.2])
def test_eight_tenths_are_of_the_current_and_not_of_the_rise(base: float) -> None:
    # IEC 60512-5-2 by a maker's sheets: derated to 0.8 of the base current (21.9 A to 17.52 A); by a load in
    # proportion to I² the rise is then 0.64 of what it was.
    n = LEDGER.exact(2.0)
    assert at_set_current(LEDGER.exact(50.0), LEDGER.exact(base), 0.8 * base, n).x == pytest.approx(32.0)


def test_the_exponent_matters_only_off_the_set_current() -> None:
    for current, share in ((30.0, 0.0), (30.6, 0.4 / math.sqrt(3) * math.log(30 / 30.6))):
        ledger = Ledger()
        exponent = current_exponent(ledger, ("closed-box",))
        rise = at_set_current(ledger.exact(40.0), ledger.exact(current), 30.0, exponent)
        # ∂θ/∂n = θ·ln(I_set/I).
        assert combined(ledger.components(rise)) == pytest.approx(abs(rise.x * share))
        assert all(part.input.assumed and part.estimate == 2.0 for part in ledger.components(rise))


def test_a_corrected_rise_against_another_library() -> None:
    # Reference: `uncertainties`.
    ledger = Ledger()
    gain = ledger.input(rectangle(("gain",), "gain", 0.015, "1", "shared"))
    offset = ledger.input(rectangle(("offset",), "offset", 0.3, "A", "shared"))
    steps = [ledger.input(rectangle((str(i),), "step", 0.05, "A", "reading")) for i in range(3)]
    currents = [
        level + gain * level + offset + step for level, step in zip((30.4, 30.1, 29.8), steps, strict=True)
    ]
    rms = rms_current([0, 600, 1800], currents, 1500)
    rise = at_set_current(ledger.exact(41.3), rms, 30.0, current_exponent(ledger, ("m",)))

    third = 3**-0.5
    g, o, n = ufloat(0, 0.015 * third), ufloat(0, 0.3 * third), ufloat(2, 0.4 * third)
    a, b, c = (level * (1 + g) + o + ufloat(0, 0.05 * third) for level in (30.4, 30.1, 29.8))
    d = b + (c - b) * 0.75
    square = ((a * a + a * b + b * b) * 600 + (b * b + b * d + d * d) * 900) / 3 / 1500
    theirs = 41.3 * (30.0 / square**0.5) ** n
    assert rise.x == pytest.approx(theirs.n, rel=1e-12)
    assert combined(ledger.components(rise)) == pytest.approx(theirs.s, rel=1e-9)


def test_the_reading_at_the_mark_and_the_error_of_the_clock() -> None:
    ledger = Ledger()
    found = at_mark(
        ledger,
        [3000, 3300, 3610],
        [ledger.exact(40.1), ledger.exact(40.7), ledger.exact(41.01)],
        3600,
        within=30,
        key=("run-1", "rise"),
    )
    assert (found.index, found.time, found.rise.x) == (2, 3610, 41.01)
    # 0.31 K in 310 s is 1 mK/s; ± 30 s of it is ± 0.03 K, rectangular.
    (clock,) = ledger.components(found.rise)
    assert found.slope == pytest.approx(0.001)
    assert clock.half_width == pytest.approx(0.03)
    assert (clock.input.scope, clock.input.distribution) == ("run", "rectangular")


def test_the_steeper_neighbour_decides() -> None:
    falls = at_mark(Ledger(), [0, 60, 120], [*exact([10.0, 13.0, 9.0])], 60, within=5, key=("r",))
    assert falls.slope == pytest.approx(-4 / 60)
    rests = at_mark(Ledger(), [0, 60, 120], [*exact([10.0, 13.0, 13.0])], 60, within=5, key=("r",))
    assert rests.slope == pytest.approx(3 / 60)


def test_a_lone_reading_takes_its_chord() -> None:
    alone = at_mark(Ledger(), [3590], exact([41.3]), 3600, within=30, key=("r",))
    assert alone.slope == pytest.approx(41.3 / 3600)


def test_of_two_readings_as_near_the_earlier_is_used() -> None:
    found = at_mark(Ledger(), [3580, 3620], exact([41.0, 41.1]), 3600, within=30, key=("r",))
    assert found.time == 3580


def test_a_rise_of_nothing_is_a_reading_too() -> None:
    found = at_mark(Ledger(), [0, 600], exact([0.0, 0.0]), 600, within=30, key=("r",))
    assert (found.index, found.rise.x) == (1, 0.0)


@pytest.mark.parametrize(
    ("times", "nearest"), [([0.0, 3300.0], 3300.0), ([3569.0, 3700.0], 3569.0), ([], None)]
)
def test_no_reading_at_the_mark(times: list[float], nearest: float | None) -> None:
    with pytest.raises(NoReadingAtMark) as raised:
        at_mark(Ledger(), times, exact([40.0] * len(times)), 3600, within=30, key=("r",))
    assert (raised.value.mark, raised.value.within, raised.value.nearest) == (3600, 30, nearest)


def test_a_reading_without_a_rise_is_passed_over() -> None:
    with pytest.raises(NoReadingAtMark):
        at_mark(Ledger(), [3300, 3600], [LEDGER.exact(40.0), None], 3600, within=30, key=("r",))


def test_a_probe_that_draws_heat_off() -> None:
    ledger = Ledger()
    place = ("closed-box/2", "body", "cement", "0.25 mm")
    first, again, other = (reads_low(ledger, 1.5, place, item) for item in ("a", "a", "b"))
    # 0 to 1.5 K low: 0.75 K are added, ± 0.75 K rectangular in all.
    assert first.x == 0.75
    assert combined(ledger.components(first)) == pytest.approx(0.75 / math.sqrt(3))
    assert ledger.components(first - again) == ()
    # Of two items only the quarter that is each one's own remains.
    assert combined(ledger.components(first - other)) == pytest.approx(0.25 * 0.75 * math.sqrt(2 / 3))
    assert all(part.input.scope == "shared" for part in ledger.components(first))


@given(
    times=st.lists(st.floats(60, 4000), min_size=1, max_size=8, unique=True),
    place=st.integers(0, 7),
    off=st.floats(-30, 30),
)
def test_the_nearest_reading_is_found(times: list[float], place: int, off: float) -> None:
    ordered = sorted(times)
    mark = ordered[place % len(ordered)] + off
    found = at_mark(Ledger(), ordered, exact([20.0] * len(ordered)), mark, within=31, key=("r",))
    assert abs(found.time - mark) == min(abs(time - mark) for time in ordered)
