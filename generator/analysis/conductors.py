"""Resistance of a length of conductor, by its size.

Areas are in mm², resistances in Ω/m at 20 °C.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

RESISTIVITY = 1 / 58
"""Of annealed copper at 20 °C, Ω·mm²/m (IEC 60028, 1925)."""

COPPER = 0.00393
"""Temperature coefficient of resistance of annealed copper at 20 °C, 1/K (IEC 60028, 1925)."""

STRANDED = 0.03
"""Strands lie in a helix, so that their resistance is up to 3 % above the solid wire's (common practice)."""

Class = Literal[1, 2, 5]

_CLASSES: tuple[Class, ...] = (1, 2, 5)

# IEC 60228:2004, tables 1 to 3, plain copper: the most that a conductor may have at 20 °C, Ω/km, for classes
# 1 (solid), 2 (stranded) and 5 (flexible); as three makers of cable reprint it, the standard itself not seen.
_MOST: dict[float, tuple[float, float, float]] = {
    0.5: (36.0, 36.0, 39.0),
    0.75: (24.5, 24.5, 26.0),
    1.0: (18.1, 18.1, 19.5),
    1.5: (12.1, 12.1, 13.3),
    2.5: (7.41, 7.41, 7.98),
    4.0: (4.61, 4.61, 4.95),
    6.0: (3.08, 3.08, 3.30),
    10.0: (1.83, 1.83, 1.91),
    16.0: (1.15, 1.15, 1.21),
    25.0: (0.727, 0.727, 0.780),
    35.0: (0.524, 0.524, 0.554),
}

SIZES: tuple[float, ...] = tuple(_MOST)
"""Nominal areas that the table has, mm²."""

AREA_ALONE = 0.16
"""A conductor of that nominal area may have so much more than ρ/A: IEC 60228's most of class 5 lies 4 to
16 % above it."""


@dataclass(frozen=True)
class PerMetre:
    """Resistance of a metre of conductor at 20 °C.

    Attributes:
        value: Ω/m.
        half_width: It lies anywhere within ± this, Ω/m.
        source: What it was taken from.
    """

    value: float
    half_width: float
    source: str


def awg_diameter(gauge: int) -> float:
    """Diameter in mm of a solid wire by its American gauge: 0.127·92^((36 − n)/39) (ASTM B258).

    Args:
        gauge: The number; 0 for 1/0, −1 for 2/0, −3 for 4/0.
    """
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def awg_area(gauge: int) -> float:
    """Area in mm² of a solid wire by its American gauge."""
    return math.pi / 4 * awg_diameter(gauge) ** 2


def of_area(area: float) -> float:
    """Resistance of solid annealed copper by its area alone, Ω/m at 20 °C: ρ/A."""
    if area <= 0:
        raise ValueError(f"no conductor of {area} mm²")
    return RESISTIVITY / area


def of_gauge(gauge: int, make: Literal["solid", "stranded"]) -> PerMetre:
    """By the American gauge: ρ/A of ASTM B258's area; stranded, anywhere from that to 3 % above it."""
    solid = of_area(awg_area(gauge))
    if make == "solid":
        return PerMetre(solid, 0.0, "ASTM B258")
    return PerMetre(solid * (1 + STRANDED / 2), solid * STRANDED / 2, "ASTM B258, 0 to 3 % more for strands")


def of_class(area: float, of: Class) -> PerMetre:
    """By nominal area and class of IEC 60228, which states the most and no least.

    Midway between ρ/A of the nominal area and the standard's maximum, with half of what lies between them to
    either side: by area alone a conductor would come out 4 to 13 % too low.

    Args:
        area: Nominal area, mm².
        of: Class of the conductor.

    Raises:
        KeyError: The standard has no such size (as far as this table goes: 0.5 to 35 mm²).
    """
    if area not in _MOST:
        raise KeyError(f"no size of {area:g} mm²: {', '.join(f'{each:g}' for each in _MOST)}")
    most = _MOST[area][_CLASSES.index(of)] / 1000
    least = of_area(area)
    return PerMetre((most + least) / 2, (most - least) / 2, f"IEC 60228, class {of}")


def of_named_class(area: float, name: str) -> PerMetre:
    """The same by the class's name; KeyError for one that the standard's tables here do not have.

    Args:
        area: Nominal area, mm².
        name: `class 1`, `class 2` or `class 5`.
    """
    by_name: dict[str, Class] = {f"class {of}": of for of in _CLASSES}
    nominal = min(SIZES, key=lambda size: abs(size - area))
    return of_class(nominal if abs(nominal - area) < 1e-6 * nominal else area, by_name[name])


def of_area_alone(area: float) -> PerMetre:
    """By nominal area with nothing said of its class: from ρ/A to 16 % above it."""
    least = of_area(area)
    more = least * AREA_ALONE / 2
    return PerMetre(least + more, more, "area alone, 0 to 16 % more than ρ/A")


def at(resistance: float, temperature: float, coefficient: float = COPPER) -> float:
    """A resistance at 20 °C as it is at a temperature in °C: R₂₀·(1 + α(T − 20 °C)) (IEC 60028)."""
    return resistance * (1 + coefficient * (temperature - 20))
