"""Readings as plain facts, and facts that are sought where they are asked for."""

from __future__ import annotations

from generator.evaluation.sought import Sought, known
from generator.evaluation.values import Reading


def reading(reach: float | Sought[float] | None) -> Reading:
    return Reading(0.0, 60.0, 20.0, 30.0, 40.0, reach)


def test_a_half_width_is_the_same_known_or_sought() -> None:
    assert reading(0.98).half_width == reading(Sought(lambda: 0.98)).half_width == 0.98
    assert reading(None).half_width is None


def test_what_is_sought_is_sought_once_and_not_before() -> None:
    asked: list[float] = []

    def seek() -> float:
        asked.append(0.98)
        return asked[-1]

    found = reading(Sought(seek))
    assert asked == []
    assert [found.half_width, found.half_width] == [0.98, 0.98]
    assert asked == [0.98]


def test_facts_are_compared_by_what_they_come_to() -> None:
    one, same, other = (reading(Sought(lambda each=each: each)) for each in (0.5, 0.5, 0.7))  # type: ignore[misc]
    assert one == same == reading(0.5)
    assert hash(one) == hash(same) == hash(reading(0.5))
    assert one != other
    assert repr(one) == repr(reading(0.5))
    word: str | Sought[str] = Sought(lambda: "a")
    assert known(word) == "a"
