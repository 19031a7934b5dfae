"""The closed table of units: what may stand behind a number, and what it is worth in SI."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from generator.records.lookalikes import plain

TEMPERATURE = "temperature"
INTERVAL = "interval"
TIME = "time"


def in_words(quantity: str) -> str:
    """A quantity as messages call it: `interval` is a difference of temperatures to a reader."""
    return "a difference of temperatures" if quantity == INTERVAL else quantity


@dataclass(frozen=True)
class Unit:
    """A unit of one quantity.

    The value in SI is (value − offset) · times / over: two whole numbers where the factor has no exact binary
    form, so that 386 mV is 0.386 V to the last bit.

    Attributes:
        symbol: As printed on a page.
        variants: As typed; the first is the one that messages offer.
        quantity: What it measures: a key of `QUANTITIES`.
        times: Numerator of the factor to SI.
        over: Denominator of the factor to SI.
        offset: What is taken off first; other than 0 for points on a temperature scale alone.
    """

    symbol: str
    variants: tuple[str, ...]
    quantity: str
    times: float = 1.0
    over: float = 1.0
    offset: float = 0.0

    @property
    def typed(self) -> str:
        """As messages offer it."""
        return self.variants[0] if self.variants else self.symbol

    @property
    def factor(self) -> float:
        """What one step of this unit is worth in SI."""
        return self.times / self.over

    def to_si(self, value: float) -> float:
        """A value in this unit, in SI; points of temperature in °C."""
        return (value - self.offset) * self.times / self.over

    def from_si(self, value: float) -> float:
        """A value in SI (points of temperature in °C), in this unit."""
        return value * self.over / self.times + self.offset

    def width_to_si(self, width: float) -> float:
        """A difference, half-width or last digit in this unit, in SI (of temperatures in K)."""
        return width * self.times / self.over


@dataclass(frozen=True)
class Gauge(Unit):
    """American Wire Gauge, as an area.

    Source: ASTM B258, diameter d = 0.127 mm · 92^((36 − n)/39); 1/0 to 4/0 are n = 0 to −3.
    """

    def to_si(self, value: float) -> float:
        """The conductor's area in m² of gauge `value`."""
        diameter = 0.127e-3 * math.pow(92.0, (36.0 - value) / 39.0)
        return 0.25 * math.pi * diameter * diameter

    def from_si(self, value: float) -> float:
        """The gauge of an area in m², seldom a whole number."""
        diameter = math.sqrt(4.0 * value / math.pi)
        return 36.0 - 39.0 * math.log(diameter / 0.127e-3) / math.log(92.0)

    def width_to_si(self, width: float) -> float:
        """Not to be had: a step of the gauge is worth another area at each gauge."""
        raise ValueError(f"{width} AWG is no width")


def _scaled(quantity: str, symbol: str, variants: str, times: float = 1.0, over: float = 1.0) -> Unit:
    return Unit(symbol, tuple(variants.split(",")) if variants else (), quantity, times, over)


# Exact by definition: the inch 25.4 mm, the pound 0.45359237 kg, standard gravity 9.80665 m/s²
# (NIST SP 811, appendix B), so that one pound-force is 4.4482216152605 N.
_INCH = 25.4e-3
_POUND = 0.45359237
_GRAVITY = 9.80665
_LBF = 4.4482216152605

_TEMPERATURES = (
    Unit("°C", ("degC", "deg C", "celsius"), TEMPERATURE),
    Unit("°F", ("degF", "deg F", "fahrenheit"), TEMPERATURE, 5.0, 9.0, 32.0),
    _scaled(INTERVAL, "K", "K,kelvin"),
    _scaled(INTERVAL, "K", "degC,deg C"),
    _scaled(INTERVAL, "°F", "degF,deg F", 5.0, 9.0),
    _scaled(INTERVAL, "mK", "mK", 1.0, 1e3),
)
_ELECTRICAL = (
    _scaled("current", "A", "A,amp,amps,ampere,amperes"),
    _scaled("current", "mA", "mA", 1.0, 1e3),
    _scaled("current", "µA", "uA", 1.0, 1e6),
    _scaled("current", "kA", "kA", 1e3),
    _scaled("voltage", "V", "V,volt,volts"),
    _scaled("voltage", "mV", "mV", 1.0, 1e3),
    _scaled("voltage", "µV", "uV", 1.0, 1e6),
    _scaled("voltage", "kV", "kV", 1e3),
    _scaled("resistance", "Ω", "ohm,ohms,Ohm"),
    _scaled("resistance", "mΩ", "mohm,milliohm", 1.0, 1e3),
    _scaled("resistance", "µΩ", "uohm,microohm", 1.0, 1e6),
    _scaled("resistance", "kΩ", "kohm", 1e3),
    _scaled("resistance", "MΩ", "Mohm,megohm", 1e6),
    _scaled("resistance", "GΩ", "Gohm", 1e9),
    _scaled("resistance per length", "Ω/m", "ohm/m"),
    _scaled("resistance per length", "mΩ/m", "mohm/m", 1.0, 1e3),
    _scaled("resistance per length", "Ω/km", "ohm/km", 1.0, 1e3),
    _scaled("power", "W", "W,watt,watts"),
    _scaled("power", "mW", "mW", 1.0, 1e3),
    _scaled("power", "kW", "kW", 1e3),
    _scaled("frequency", "Hz", "Hz,hertz"),
    _scaled("frequency", "kHz", "kHz", 1e3),
)
MINUTE = _scaled(TIME, "min", "min,mins,minute,minutes", 60.0)
SECOND = _scaled(TIME, "s", "s,sec,secs,second,seconds")
_TIMES = (
    MINUTE,
    SECOND,
    _scaled(TIME, "h", "h,hr,hrs,hour,hours", 3600.0),
    _scaled(TIME, "ms", "ms", 1.0, 1e3),
    _scaled(TIME, "d", "d,day,days", 86400.0),
    _scaled(TIME, "weeks", "weeks,week", 604800.0),
)
_SIZES = (
    _scaled("length", "mm", "mm", 1.0, 1e3),
    _scaled("length", "cm", "cm", 1.0, 1e2),
    _scaled("length", "m", "m,metre,metres,meter,meters"),
    _scaled("length", "km", "km", 1e3),
    _scaled("length", "µm", "um", 1.0, 1e6),
    _scaled("length", "in", "in,inch,inches", _INCH),
    _scaled("length", "ft", "ft,foot,feet", 0.3048),
    _scaled("area", "mm²", "mm2,mm^2,sq mm,sqmm", 1.0, 1e6),
    _scaled("area", "cm²", "cm2,cm^2,sq cm", 1.0, 1e4),
    _scaled("area", "m²", "m2,m^2,sq m"),
    _scaled("area", "in²", "in2,in^2,sq in", _INCH * _INCH),
    Gauge("AWG", ("AWG", "awg"), "area"),
    _scaled("volume", "l", "l,L,litre,litres,liter,liters", 1.0, 1e3),
    _scaled("volume", "ml", "ml,mL", 1.0, 1e6),
    _scaled("volume", "cm³", "cm3,cm^3", 1.0, 1e6),
    _scaled("volume", "dm³", "dm3,dm^3", 1.0, 1e3),
    _scaled("volume", "m³", "m3,m^3"),
    _scaled("volume", "in³", "in3,in^3", _INCH * _INCH * _INCH),
    _scaled("angle", "°", "deg,degrees", math.pi, 180.0),
)
_MECHANICAL = (
    _scaled("mass", "g", "g,gram,grams", 1.0, 1e3),
    _scaled("mass", "mg", "mg", 1.0, 1e6),
    _scaled("mass", "kg", "kg"),
    _scaled("mass", "oz", "oz", _POUND, 16.0),
    _scaled("mass", "lb", "lb,lbs", _POUND),
    _scaled("force", "N", "N,newton,newtons"),
    _scaled("force", "mN", "mN", 1.0, 1e3),
    _scaled("force", "kN", "kN", 1e3),
    _scaled("force", "lbf", "lbf", _LBF),
    _scaled("force", "kgf", "kgf", _GRAVITY),
    _scaled("force", "gf", "gf", _GRAVITY, 1e3),
    _scaled("torque", "N·m", "N m,N*m,Nm,N.m,N-m"),
    _scaled("torque", "N·cm", "N cm,N*cm,Ncm,N.cm", 1.0, 1e2),
    _scaled("torque", "mN·m", "mN m,mN*m,mNm,mN.m", 1.0, 1e3),
    _scaled("torque", "lbf·in", "lbf in,lbf*in,lbf.in,lbf-in,in-lb,in lb,in.lb,in-lbf,in lbf", _LBF * _INCH),
    _scaled("torque", "lbf·ft", "lbf ft,lbf*ft,lbf.ft,lbf-ft,ft-lb,ft lb,ft.lb,ft-lbf,ft lbf", _LBF * 0.3048),
    _scaled("torque", "kgf·cm", "kgf cm,kgf*cm,kgf.cm", _GRAVITY, 1e2),
)
_RATIOS = (
    _scaled("ratio", "%", "%,percent", 1.0, 1e2),
    _scaled("ratio", "ppm", "ppm", 1.0, 1e6),
    _scaled("temperature coefficient", "/K", "/K,1/K,per K,K^-1"),
    _scaled("temperature coefficient", "%/K", "%/K,% per K,% / K", 1.0, 1e2),
    _scaled("temperature coefficient", "ppm/K", "ppm/K,ppm per K", 1.0, 1e6),
    _scaled("rate", "% per hour", "% per hour,%/h,% / h,% per h", 1.0, 360000.0),
    _scaled("rate", "% per minute", "% per minute,%/min,% per min", 1.0, 6000.0),
    _scaled("temperature rate", "K/h", "K/h,K per hour,K per h,degC/h,degC per hour", 1.0, 3600.0),
    _scaled("temperature rate", "K/min", "K/min,K per minute,K per min,degC/min,degC per minute", 1.0, 60.0),
    _scaled("temperature rate", "°F/h", "degF/h,degF per hour", 5.0, 9.0 * 3600.0),
)

UNITS: tuple[Unit, ...] = (*_TEMPERATURES, *_ELECTRICAL, *_TIMES, *_SIZES, *_MECHANICAL, *_RATIOS)
QUANTITIES: tuple[str, ...] = tuple(dict.fromkeys(unit.quantity for unit in UNITS))
"""What can be measured, in the order of the table: the order in which a unit alone is looked up."""

# Typed where another unit is meant; what each most likely means is said, never taken.
MISTAKEN = {
    "C": "degC",
    "F": "degF",
    "c": "degC",
    "f": "degF",
    "Celcius": "degC",
    "a": "A",
    "v": "V",
    "w": "W",
    "sqm": "mm2",
    "mm": "mm2",
    "deg": "degC",
    "lbs": "lbf",
    "lb": "lbf",
    "kg": "kgf",
    "g": "gf",
    "M": "min",
    "m": "min",
}


def _spellings(unit: Unit) -> Iterable[str]:
    return (plain(unit.symbol), *unit.variants)


@cache
def _by_quantity(quantity: str) -> dict[str, Unit]:
    found: dict[str, Unit] = {}
    for unit in UNITS:
        if quantity in ("", unit.quantity):
            for spelling in _spellings(unit):
                found.setdefault(spelling, unit)
    return found


def find_unit(spelling: str, quantity: str = "") -> Unit | None:
    """The unit of a spelling.

    Args:
        spelling: As typed, after `lookalikes.plain`.
        quantity: What is measured; empty where the unit alone decides (`degC` is then a point).

    Returns:
        The unit, or None where the table has none of that spelling for that quantity.
    """
    return _by_quantity(quantity).get(spelling)


def offered(quantity: str = "") -> tuple[str, ...]:
    """The units that messages offer for a quantity, as typed; for no quantity the first of each."""
    if quantity:
        return tuple(dict.fromkeys(unit.typed for unit in UNITS if unit.quantity == quantity))
    first = {unit.quantity: unit.typed for unit in reversed(UNITS)}
    return tuple(first[each] for each in QUANTITIES)


def meant(spelling: str, quantity: str = "") -> str:
    """The unit that a mistyped one most likely stands for, as typed; empty where nothing is near."""
    known = _by_quantity(quantity)
    guess = MISTAKEN.get(spelling, "")
    if guess in known:
        return guess
    same = {known[each].typed for each in known if each.casefold() == spelling.casefold()}
    return same.pop() if len(same) == 1 else ""
