"""How much work something is, in calls of functions: the same on any machine, however busy."""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Mapping
from types import FrameType


def calls_of(work: Callable[[], object]) -> int:
    """Calls of Python functions that some work takes."""
    count = 0

    def told(_: FrameType, event: str, __: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(told)
    try:
        work()
    finally:
        sys.setprofile(None)
    return count


def exponent(found: Mapping[int, float]) -> float:
    """The power with which something grows: the slope of a line of least squares through both logarithms."""
    points = [(math.log(size), math.log(value)) for size, value in found.items()]
    middle = [math.fsum(each) / len(points) for each in zip(*points, strict=True)]
    across = math.fsum((x - middle[0]) ** 2 for x, _ in points)
    return math.fsum((x - middle[0]) * (y - middle[1]) for x, y in points) / across
