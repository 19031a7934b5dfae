"""Inputs made once, their components, and degrees of freedom."""

from __future__ import annotations

import csv
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from generator.analysis.interval import estimate, half_width, parts
from generator.analysis.uncertainty import (
    NEW_IN_EACH_RUN,
    Input,
    Ledger,
    Uncertain,
    combined,
    effective_dof,
    rectangle,
    scatter,
    total,
)

PUBLISHED = Path(__file__).parents[1] / "published"


def published_inputs() -> dict[str, Input]:
    with (PUBLISHED / "gum-h1.csv").open(encoding="utf-8") as file:
        return {
            row["quantity"]: scatter(
                (row["quantity"],),
                row["quantity"],
                float(row["standard_uncertainty"]),
                row["unit"],
                "shared",
                dof=float(row["dof"]),
            )
            for row in csv.DictReader(file)
        }


def end_gauge(ledger: Ledger, distance: Uncertain, inputs: dict[str, Input]) -> Uncertain:
    """Length in nm by the model of GUM H.1.2: l = l_S + d − l_S·(δα·θ + α_S·δθ)."""
    length = ledger.input(inputs["l_s"], 50_000_623.0)
    alpha = ledger.input(inputs["alpha_s"], 11.5e-6)
    theta = ledger.input(inputs["theta_mean"], -0.1) + ledger.input(inputs["theta_cyclic"])
    apart = ledger.input(inputs["delta_alpha"]) * theta + alpha * ledger.input(inputs["delta_theta"])
    return length + distance - length * apart


def test_end_gauge_with_the_printed_uncertainties() -> None:
    ledger = Ledger()
    # GUM H.1.3.2 and H.1.6: u(d) = 9.7 nm, ν_eff(d) = 25.6.
    distance = ledger.input(scatter(("d",), "d", 9.7, "nm", "shared", dof=25.6), 215.0)
    gauge = end_gauge(ledger, distance, published_inputs())
    found = ledger.components(gauge)
    # GUM H.1.4: l = 50.000 838 mm; contributions 25, 9.7, 2.9 and 16.6 nm; u_c = 32 nm, 31.71 unrounded.
    assert gauge.x == 50_000_838
    contributions = {part.input.label: abs(part.contribution) for part in found}
    assert contributions == pytest.approx(
        {"l_s": 25, "d": 9.7, "delta_alpha": 2.9, "delta_theta": 16.6}, abs=0.08
    )
    assert combined(found) == pytest.approx(31.71, abs=0.005)
    # GUM H.1.6: ν_eff = 16.7, from these rounded uncertainties 16.66.
    assert effective_dof(found) == pytest.approx(16.66, abs=0.005)
    # GUM H.1.6: U99 = 93 nm = 2.92 × 32 nm, with ν cut to 16; neither cut nor rounded 92.1 nm.
    assert half_width(parts(found), 0.99) == pytest.approx(92.1, abs=0.1)


def test_end_gauge_with_unrounded_rectangles() -> None:
    ledger = Ledger()
    inputs = published_inputs()
    for name, half in (("delta_alpha", 1e-6), ("delta_theta", 0.05)):
        inputs[name] = replace(inputs[name], standard_uncertainty=half / math.sqrt(3))
    # GUM H.1.3.2: observations 5.8 nm, ν 24; comparator 3.9 nm, ν 5, and 6.7 nm, ν 8.
    apart = [ledger.input(inputs[name]) for name in ("d_obs", "d_random", "d_systematic")]
    gauge = end_gauge(ledger, 215.0 + total(apart), inputs)
    result = estimate(gauge.x, ledger.components(gauge), "nm")
    # GUM H.1.4 and H.1.6: u_c² = 1002 nm², u_c = 32 nm, ν_eff = 16.7.
    assert result.standard_uncertainty**2 == pytest.approx(1002, abs=1)
    assert result.dof == pytest.approx(16.7, abs=0.06)
    # Welch and Satterthwaite with the rounded 32 nm in it would give 17.5.
    assert result.dof * (32 / result.standard_uncertainty) ** 4 == pytest.approx(17.5, abs=0.05)


def test_what_the_first_order_leaves_out_of_the_end_gauge() -> None:
    # GUM H.1.7: two terms of the second order, 11.7 and 1.7 nm (from memory), make 34 nm of 32; with the
    # inputs as printed 11.89, 1.74 and 33.91. Propagation is of the first order:
    # the model itself, drawn, has the 34 nm.
    ledger, inputs = Ledger(), published_inputs()
    distance = scatter(("d",), "d", 9.7, "nm", "shared")
    first = combined(ledger.components(end_gauge(ledger, ledger.input(distance, 215.0), inputs)))
    assert first == pytest.approx(31.71, abs=0.01)
    draw = np.random.default_rng(47)
    off = {name: draw.normal(0.0, entry.standard_uncertainty, 1_000_000) for name, entry in inputs.items()}
    theta = -0.1 + off["theta_mean"] + off["theta_cyclic"]
    length = 50_000_623.0 + off["l_s"]
    apart = off["delta_alpha"] * theta + (11.5e-6 + off["alpha_s"]) * off["delta_theta"]
    drawn = float(np.std(length + 215.0 + draw.normal(0.0, 9.7, 1_000_000) - length * apart))
    assert drawn == pytest.approx(33.91, rel=0.004)
    assert drawn == pytest.approx(math.hypot(first, 11.89, 1.74), rel=0.004)


def test_four_equal_contributions_have_four_times_the_dof() -> None:
    ledger = Ledger()
    figure = total([ledger.input(scatter((name,), name, 2.0, "K", "shared", dof=10)) for name in "abcd"])
    # GUM G.4: four equal contributions of ν = 10 give ν_eff = 40.
    assert effective_dof(ledger.components(figure)) == pytest.approx(40)


def test_dof_are_infinite_without_a_finite_part() -> None:
    ledger = Ledger()
    known = ledger.input(rectangle(("a",), "a", 1.0, "K", "shared"))
    assert effective_dof(ledger.components(known)) == math.inf
    assert effective_dof(()) == math.inf


def test_dof_survive_small_units() -> None:
    ledger = Ledger()
    figure = total([ledger.input(scatter((name,), name, 1e-90, "T", "shared", dof=3)) for name in "ab"])
    assert effective_dof(ledger.components(figure)) == pytest.approx(6)


def test_the_same_key_is_the_same_error() -> None:
    ledger = Ledger()
    entry = rectangle(("logger-1", "offset"), "offset", 0.5, "K", "shared")
    first, second = ledger.input(entry), ledger.input(entry)
    assert first is second
    assert ledger.components((3.0 + first) - (1.0 + second)) == ()


def test_a_key_stands_for_one_input_only() -> None:
    ledger = Ledger()
    ledger.input(rectangle(("a",), "a", 0.5, "K", "shared"))
    with pytest.raises(ValueError, match="is now"):
        ledger.input(rectangle(("a",), "a", 0.6, "K", "shared"))
    with pytest.raises(ValueError, match="is now"):
        ledger.input(rectangle(("a",), "a", 0.5, "K", "shared"), 1.0)


def test_an_input_without_uncertainty_is_no_component() -> None:
    ledger = Ledger()
    sure = ledger.input(rectangle(("a",), "a", 0.0, "K", "shared"), 2.0)
    assert ledger.components(sure * ledger.exact(3.0)) == ()
    assert (sure * 3.0).x == 6.0


def test_components_are_ordered_signed_and_in_the_units_of_both() -> None:
    ledger = Ledger()
    small = ledger.input(scatter(("small",), "small", 0.1, "A", "shared"), 5.0)
    large = ledger.input(rectangle(("large",), "large", 0.3, "K", "run"), 7.0)
    first, second = ledger.components(small * -1.5 + large * 4.0)
    assert (first.input.key, second.input.key) == (("large",), ("small",))
    assert (first.sensitivity, second.sensitivity) == pytest.approx((4.0, -1.5))
    assert second.contribution == pytest.approx(-0.15)
    assert (first.estimate, second.estimate) == (7.0, 5.0)
    assert first.half_width == pytest.approx(1.2)


def test_equal_components_stand_by_their_keys() -> None:
    ledger = Ledger()
    numbers = [ledger.input(scatter((name,), name, 1.0, "K", "shared")) for name in "cab"]
    keys = [part.input.key for part in ledger.components(total(numbers))]
    assert keys == [("a",), ("b",), ("c",)]


def test_scopes_can_be_left_out() -> None:
    ledger = Ledger()
    shared = ledger.input(rectangle(("s",), "s", 0.4, "K", "shared"))
    fresh = ledger.input(rectangle(("r",), "r", 0.3, "K", "run"))
    noise = ledger.input(rectangle(("n",), "n", 0.2, "K", "reading"))
    figure = 41.3 + shared * 2.0 + fresh + noise
    assert [part.input.key for part in ledger.components(figure, NEW_IN_EACH_RUN)] == [("s",)]
    kept = ledger.without(figure, NEW_IN_EACH_RUN)
    assert kept.x == figure.x
    assert ledger.components(kept) == ledger.components(figure, NEW_IN_EACH_RUN)


def test_an_error_that_is_new_in_each_reading_is_one_for_each() -> None:
    ledger = Ledger()
    entry = scatter(("logger", "noise"), "noise", 0.1, "K", "reading")
    first, again, other = (ledger.each((entry,)).of((number,)) for number in ("0", "0", "1"))
    assert (first - again).u == 0.0
    assert (first - other).u == pytest.approx(0.1 * math.sqrt(2))
    keys = {part.input.key for part in ledger.components(first - other)}
    assert keys == {("logger", "noise", "0"), ("logger", "noise", "1")}


def test_parts_are_the_components_in_the_order_of_making() -> None:
    ledger = Ledger()
    small = ledger.input(scatter(("small",), "small", 0.1, "K", "shared"))
    noise = ledger.each([scatter(("noise",), "noise", 0.2, "K", "reading")]).of(("3",))
    figure = total([ledger.input(rectangle(("large",), "large", 1.0, "K", "run")), noise, small])
    assert [part.input.label for part in ledger.parts(figure)] == ["small", "noise", "large"]
    assert [part.input.label for part in ledger.components(figure)] == ["large", "noise", "small"]
    assert combined(ledger.parts(figure)) == pytest.approx(combined(ledger.components(figure)), rel=1e-15)
    assert ledger.noise(figure) == pytest.approx(0.2)


def test_numbers_of_two_ledgers_do_not_mix() -> None:
    mine, other = Ledger(), Ledger()
    entry = rectangle(("a",), "a", 0.5, "K", "shared")
    figure = mine.input(entry) + other.input(entry)
    with pytest.raises(ValueError, match="another ledger"):
        mine.components(figure)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"standard_uncertainty": -1.0}, "standard uncertainty"),
        ({"standard_uncertainty": math.nan}, "standard uncertainty"),
        ({"dof": 0.5}, "degrees of freedom"),
        ({"distribution": "t"}, "finite degrees"),
        ({"key": ()}, "key"),
    ],
)
def test_an_input_that_means_nothing_is_refused(change: dict[str, object], words: str) -> None:
    sound: dict[str, object] = {
        "key": ("a",),
        "label": "a",
        "distribution": "normal",
        "standard_uncertainty": 1.0,
        "unit": "K",
        "scope": "shared",
    }
    with pytest.raises(ValueError, match=words):
        Input(**(sound | change))  # type: ignore[arg-type]


def test_only_a_rectangle_has_a_half_width() -> None:
    # GUM 4.3.7: a rectangle of half-width a has u = a/√3.
    entry = rectangle(("a",), "a", 0.6, "K", "shared")
    assert entry.standard_uncertainty == pytest.approx(0.34641, abs=1e-5)
    assert entry.half_width == pytest.approx(0.6)
    with pytest.raises(ValueError, match="no half-width"):
        _ = scatter(("b",), "b", 0.6, "K", "shared").half_width


@given(
    x=st.floats(0.5, 50),
    y=st.floats(0.5, 50),
    n=st.floats(1.2, 3),
    shares=st.tuples(*[st.floats(0.001, 0.2)] * 3),
)
def test_propagation_agrees_with_another_library(
    x: float, y: float, n: float, shares: tuple[float, float, float]
) -> None:
    # Reference: `uncertainties` (first-order propagation with correlations, E. O. Lebigot).
    ledger = Ledger()
    ours = [
        ledger.input(scatter((name,), name, value * share, "1", "shared"), value)
        for name, value, share in zip("xyn", (x, y, n), shares, strict=True)
    ]
    theirs = [ufloat(value, value * share) for value, share in zip((x, y, n), shares, strict=True)]
    mine = (ours[0] - ours[1]) * (30.0 / ours[1]) ** ours[2] + 2.0 * ours[0]
    other = (theirs[0] - theirs[1]) * (30.0 / theirs[1]) ** theirs[2] + 2.0 * theirs[0]
    assert mine.x == pytest.approx(other.n, rel=1e-12)
    assert combined(ledger.components(mine)) == pytest.approx(other.s, rel=1e-9)


def test_errors_that_cancel_leave_no_row() -> None:
    # 0.1·3 less 0.3 of one error is 5e-17 of it, which is no component; a small one of its own is.
    ledger = Ledger()
    common = ledger.input(rectangle(("offset",), "offset", 0.5, "K", "shared"))
    small = ledger.input(scatter(("noise",), "noise", 1e-9, "K", "reading"))
    own = ledger.input(scatter(("own",), "own", 0.1, "K", "reading"))
    left = common * 0.1 * 3.0 - common * 0.3 + small + own
    assert left.u > 0
    assert [part.input.key for part in ledger.components(left)] == [("own",), ("noise",)]
    assert ledger.without(left, {"reading"}).u == 0.0
