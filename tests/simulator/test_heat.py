"""The heat model against closed forms and an independent integrator."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.linalg import expm

from tests.simulator import heat
from tests.simulator.heat import Box, Fitting, Opening


def still(minutes: float, value: float) -> heat.Array:
    return np.full(len(heat.grid(minutes)), value)


def test_constant_power_follows_the_closed_form_of_two_linear_balances() -> None:
    # x' = A x + b has the solution x = (expm(A t) - 1) A^-1 b from zero; scipy's expm is the reference.
    fitting = Fitting(np.array([1.7e-3]), coefficient=0.0)
    box = Box(cable=0.0)
    rises = heat.warm_up(fitting, box, still(60, 30.0), still(60, 0.0)).contact[0]
    matrix = np.array(
        [
            [-fitting.to_box / fitting.capacity, fitting.to_box / fitting.capacity],
            [fitting.to_box / box.capacity, -(fitting.to_box + box.to_room) / box.capacity],
        ]
    )
    source = np.array([900.0 * 1.7e-3 / fitting.capacity, 0.0])
    for minute in (2, 10, 30, 60):
        exact = (expm(matrix * minute * 60.0) - np.eye(2)) @ np.linalg.solve(matrix, source)
        assert rises[int(minute * 60 / heat.STEP)] == pytest.approx(exact[0], abs=1e-6)


def test_moving_room_and_warm_resistance_agree_with_another_integrator() -> None:
    fitting, box = Fitting(np.array([3.1e-3]), worsening=0.05), Box()
    times = heat.grid(60)
    room, current = 20.0 + 2.0 * times / 3600.0, 30.0 * (1.0 + 0.02 * times / 3600.0)

    def slope(time: float, state: heat.Array) -> heat.Array:
        amps, air = 30.0 * (1.0 + 0.02 * time / 3600.0), 20.0 + 2.0 * time / 3600.0
        made = amps**2 * 3.1e-3 * (1.0 + 0.003 * (state[0] - 20.0)) * (1.0 + 0.05 * time / 3600.0)
        cable = amps**2 * box.cable * (1.0 + heat.COPPER * (state[1] - 20.0))
        passed = fitting.to_box * (state[0] - state[1])
        return np.array(
            [
                (made - passed) / fitting.capacity,
                (cable + passed - box.to_room * (state[1] - air)) / box.capacity,
            ]
        )

    reference = solve_ivp(slope, (0.0, 3600.0), [20.0, 20.0], rtol=1e-10, atol=1e-10)
    assert heat.warm_up(fitting, box, current, room).contact[0, -1] == pytest.approx(
        reference.y[0, -1], abs=1e-5
    )


def test_long_heating_ends_where_the_balance_says() -> None:
    fitting = Fitting(np.array([0.5e-3, 1.7e-3, 4.2e-3]))
    assert heat.steady_rise(fitting, Box(), 720, room=35.0) == pytest.approx(
        heat.settled_rise(fitting, Box(), room=35.0), abs=1e-6
    )


def test_settled_heat_all_goes_to_the_room() -> None:
    fitting, box = Fitting(np.array([1.7e-3])), Box()
    warming = heat.warm_up(fitting, box, still(720, 30.0), still(720, 22.0))
    contact, inside = warming.contact[0, -1], warming.box[0, -1]
    made = 900.0 * (
        1.7e-3 * (1.0 + 0.003 * (contact - 20.0)) + box.cable * (1.0 + heat.COPPER * (inside - 20.0))
    )
    assert box.to_room * (inside - 22.0) == pytest.approx(made, rel=1e-9)


def test_it_is_not_one_exponential() -> None:
    # One exponential would lose the same share of what is to come in each five minutes.
    fitting = Fitting(np.array([1.7e-3]))
    settled = heat.settled_rise(fitting, Box())[0]
    left = [float(settled - heat.steady_rise(fitting, Box(), minutes)[0]) for minutes in (5, 10, 40, 45)]
    assert np.log(left[0] / left[1]) > 1.4 * np.log(left[2] / left[3])


def test_an_open_lid_cools_and_a_worsening_joint_heats() -> None:
    sound = Fitting(np.array([1.7e-3]))
    args = still(60, 30.0), still(60, 22.0)
    plain = heat.warm_up(sound, Box(), *args)
    opened = heat.warm_up(sound, Box(openings=(Opening(1800.0, 60.0),)), *args)
    before, after = 1790 // 10, 1860 // 10
    assert opened.box[0, before] == plain.box[0, before]
    assert 0.1 < plain.box[0, after] - opened.box[0, after] < 3.0
    worse = heat.warm_up(Fitting(np.array([1.7e-3]), worsening=0.1), Box(), *args)
    assert worse.contact[0, -1] > plain.contact[0, -1] + 1.0
    warm = heat.resistance(Fitting(np.array([1.7e-3]), worsening=0.1), np.array([20.0]), 3600.0)
    assert warm[0] == pytest.approx(1.87e-3)


def test_pieces_heated_together_are_heated_alone() -> None:
    many = heat.steady_rise(Fitting(np.array([1e-3, 3e-3])), Box(), 60)
    alone = [float(heat.steady_rise(Fitting(np.array([each])), Box(), 60)[0]) for each in (1e-3, 3e-3)]
    assert list(many) == alone
