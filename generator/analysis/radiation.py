"""Radiance of a black body within a band of wavelengths, and the temperature that has it.

Temperatures are absolute, in K; wavelengths in m; radiances in W/(m²·sr). No arithmetic library is loaded, so
that a check of records stays quick.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

H, C, K = 6.62607015e-34, 299792458.0, 1.380649e-23
"""h in J·s, c in m/s, k in J/K: exact in the SI of 2019 (BIPM, SI brochure, 9th edition)."""

SIGMA = 2 * math.pi**5 * K**4 / (15 * H**3 * C**2)
"""Constant of Stefan and Boltzmann, W/(m²·K⁴)."""

C2 = H * C / K
"""Second radiation constant hc/k of Planck's law, m·K."""

_SHARE = 15 / math.pi**4
_SLOW = 1.0
"""Below this c₂/(λT) the sum over exponentials converges slowly, and the power series is used."""

_COLDEST, _HOTTEST, _ROOM = 20.0, 5000.0, 300.0
"""Where a temperature is sought, K, beyond what any bench meets, and where the search begins."""

_STEPS, _CLOSE = 200, 1e-13
"""How often a step is taken at most (halving alone would be there sooner), and the last one as a share."""


class NoTemperature(ValueError):
    """No temperature within reach has the radiance."""


@dataclass(frozen=True)
class Band:
    """A band of wavelengths.

    Attributes:
        low: Shortest wavelength, m, above zero.
        high: Longest, m, above `low`.
    """

    low: float
    high: float

    def __post_init__(self) -> None:
        if not 0 < self.low < self.high < math.inf:
            raise ValueError(f"no band from {self.low} m to {self.high} m")


THERMAL = Band(7.5e-6, 14e-6)
"""The band of thermal cameras and hand thermometers where the maker states none."""


def share_below(wavelength: float, temperature: float) -> float:
    """Share of a black body's radiance at wavelengths up to one, F(0 → λT), 0 to 1.

    Planck's law, integrated term by term: 15/π⁴·Σ e^(−nz)/n·(z³ + 3z²/n + 6z/n² + 6/n³) with z = c₂/(λT);
    for small z the power series of z³/(e^z − 1) with Bernoulli's numbers, from above (M. F. Modest, Radiative
    Heat Transfer, chapter 1).

    Args:
        wavelength: λ, m.
        temperature: T, K.
    """
    z = C2 / (wavelength * temperature)
    if z < _SLOW:
        above = z**3 * (
            1 / 3
            - z / 8
            + z**2 / 60
            - z**4 / 5040
            + z**6 / 272160
            - z**8 / 13305600
            + z**10 / 622702080
            - 691 * z**12 / 19615115520000
        )
        return 1 - _SHARE * above
    found = 0.0
    for n in range(1, 60):
        term = math.exp(-n * z) / n * (z**3 + 3 * z**2 / n + 6 * z / n**2 + 6 / n**3)
        found += term
        if term <= 1e-17 * found:
            break
    return _SHARE * found


def radiance(temperature: float, band: Band = THERMAL) -> float:
    """Radiance of a black body within the band, W/(m²·sr): σT⁴/π times its share of the spectrum."""
    share = share_below(band.high, temperature) - share_below(band.low, temperature)
    return SIGMA * temperature**4 / math.pi * share


def slope(temperature: float, band: Band = THERMAL) -> float:
    """Change of the radiance with temperature, W/(m²·sr·K)."""
    share = share_below(band.high, temperature) - share_below(band.low, temperature)
    ends = _of_end(band.high, temperature) - _of_end(band.low, temperature)
    return SIGMA * temperature**3 / math.pi * (4 * share + _SHARE * ends)


def temperature_of(wanted: float, band: Band = THERMAL) -> float:
    """Temperature in K of the black body that has a radiance within the band.

    Raises:
        NoTemperature: The radiance is not above zero, or no body between 20 K and 5000 K has it.
    """
    lowest, highest = radiance(_COLDEST, band), radiance(_HOTTEST, band)
    if not lowest < wanted < highest:
        raise NoTemperature(f"no black body has {wanted:.4g} W/(m²·sr) in the band")
    cold, hot, kelvin = _COLDEST, _HOTTEST, _ROOM
    for _ in range(_STEPS):
        found = radiance(kelvin, band)
        cold, hot = (kelvin, hot) if found < wanted else (cold, kelvin)
        # Newton's step of ln L over 1/T, which is nearly a straight line; half way where it leads out.
        rate = slope(kelvin, band) / found if found > 0 else 0.0
        inverse = 1 / kelvin + math.log(found / wanted) / (rate * kelvin**2) if rate > 0 else 0.0
        after = 1 / inverse if inverse > 0 and cold <= 1 / inverse <= hot else (cold + hot) / 2
        if abs(after - kelvin) <= _CLOSE * kelvin:
            return after
        kelvin = after
    return kelvin


def _of_end(wavelength: float, temperature: float) -> float:
    z = C2 / (wavelength * temperature)
    return z**4 / math.expm1(z) if z < 700 else 0.0
