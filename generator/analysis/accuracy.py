"""What an instrument and a probe state of their errors, in plain numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

UNSHARED = 0.25
"""Part of a stated half-width that is new in each run where nothing better is known; no source."""


@dataclass(frozen=True)
class ErrorSpec:
    """Stated accuracy of one range of an instrument, in plain numbers of the unit of its indication.

    Attributes:
        name: Words for the budget ("logger-1 CH3").
        unit: Unit of its errors; K for a temperature, whose indications are then °C, since a percentage of a
            temperature in °C has no meaning in K or °F.
        relative: Part in proportion to the indication: 0.005 for 0.5 % of reading.
        absolute: Fixed part, in `unit`.
        digits: Number of digits, each worth `last_digit`.
        last_digit: Value of the last digit of the range, in `unit`.
        distribution: Rectangular, or normal where the statement gives a coverage factor.
        coverage_factor: k of a normal statement; the standard uncertainty is the stated figure over k.
        resolution: Smallest step of the indication, in `unit`; None where not stated.
        repeatability: Standard deviation of repeated indications, in `unit`; None where not stated.
        unshared: Part of the stated half-width that is new in each run, 0 to 1.
        assumed: Names of those of these attributes that are printed defaults.
        source: Where the statement comes from.
    """

    name: str
    unit: str
    relative: float = 0.0
    absolute: float = 0.0
    digits: float = 0.0
    last_digit: float = 0.0
    distribution: Literal["rectangular", "normal"] = "rectangular"
    coverage_factor: float = 2.0
    resolution: float | None = None
    repeatability: float | None = None
    unshared: float = UNSHARED
    assumed: frozenset[str] = frozenset({"unshared"})
    source: str = ""

    @property
    def offset(self) -> float:
        """Stated half-width of the fixed part, digits included, in `unit`."""
        return self.absolute + self.digits * self.last_digit

    @property
    def cancels(self) -> bool:
        """Whether an error may be taken as shared: only with a stated resolution or repeatability."""
        return self.resolution is not None or self.repeatability is not None


@dataclass(frozen=True)
class ProbeSpec:
    """Tolerance of a temperature probe, by its temperature t in °C.

    Thermocouples have the larger of `absolute` and `relative`·|t| (IEC 60584-1), resistance thermometers
    the sum of the two (IEC 60751).

    Attributes:
        name: Words for the budget ("probe k3, type K class 1").
        absolute: K.
        relative: Share of |t|.
        rule: Whether the greater of the two counts, or their sum.
        unshared: Part of the tolerance that is new in each run, 0 to 1.
        assumed: Names of those of these attributes that are printed defaults.
        source: Where the tolerance comes from.
    """

    name: str
    absolute: float
    relative: float = 0.0
    rule: Literal["greater", "sum"] = "greater"
    unshared: float = UNSHARED
    assumed: frozenset[str] = frozenset({"unshared"})
    source: str = ""

    def half_width(self, celsius: float) -> float:
        """Tolerance in K at a temperature in °C."""
        by_reading = self.relative * abs(celsius)
        return max(self.absolute, by_reading) if self.rule == "greater" else self.absolute + by_reading


def limit_of_error(spec: ErrorSpec, indication: float) -> float:
    """The stated limit ± (relative·|indication| + absolute + digits·last digit), in the indication's unit."""
    return spec.relative * abs(indication) + spec.offset
