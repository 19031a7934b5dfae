"""What a meter's file comes to: looked up by name, and refused with a place."""

from __future__ import annotations

from pathlib import Path

from generator.fault import Place, message
from generator.intake.meter.series import Problem, Unreadable


def test_a_problem_becomes_a_fault_that_quotes_its_line_and_says_what_settles_it() -> None:
    problem = Problem(2, 1, "03/11/26;20,4", "may be two days", "03/11/26", ("--date-order dmy",))
    fault = problem.as_fault(Path("/bench/a.csv"))
    assert fault.place == Place(Path("/bench/a.csv"), 2, 1)
    assert message(fault, Path("/bench")) == (
        "a.csv:2:1: may be two days, found '03/11/26'\n"
        "    accepted: --date-order dmy\n"
        "   2 | 03/11/26;20,4\n"
        "     | ^"
    )


def test_unreadable_tells_all_of_its_problems() -> None:
    error = Unreadable([Problem(0, 0, "", "empty"), Problem(1, 1, "x", "odd")])
    assert str(error) == "empty; odd"
    assert len(error.problems) == 2
