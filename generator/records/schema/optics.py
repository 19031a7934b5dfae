"""What an infra-red meter looked at, and how it was set."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal, cast, get_args

from pydantic import Field, ValidationInfo

from generator.records.quantity import Quantity, plain_quantity
from generator.records.schema.base import Record
from generator.records.schema.fields import TEXT, Above, Emissivity, Text, Words, form, parsed
from generator.records.schema.measured import Interval, Length, Lengths, Temperature
from generator.records.schema.reads import SCALAR_SCHEMA, Reads
from generator.records.schema.told import problem

How = Literal["tape", "paint", "measured"]
"""How an emissivity was had: by a coat that has a known one, or measured on the bare surface."""

COATED: frozenset[How] = frozenset({"tape", "paint"})

_SURFACE = re.compile(r"([a-z]+)(?:,\s*(\S.*))?", re.DOTALL)
_RATIO = re.compile(r"(\d{1,5}(?:\.\d{1,3})?)\s*(?::|to)\s*(\d{1,3}(?:\.\d{1,3})?)", re.ASCII)
_SQUARE = math.pi / 2


@dataclass(frozen=True)
class Surface:
    """What the meter looked at.

    Attributes:
        text: As written: `tape, black vinyl`.
        how: How its emissivity was had.
    """

    text: str
    how: How

    @property
    def coated(self) -> bool:
        """Whether it is a coat, and not the bare part."""
        return self.how in COATED


def _surface(node: Any, _: ValidationInfo) -> Surface:
    text = str(node).strip()
    found = _SURFACE.fullmatch(text)
    if found is None or found[1] not in get_args(How):
        what = "how the emissivity was had comes first: tape, paint or measured; then a comma and what it is"
        raise problem(what, found=text, accepted=("tape, black vinyl", "paint, matt black", "measured"))
    return Surface(text, cast("How", found[1]))


def _ratio(node: Any, _: ValidationInfo) -> float:
    text = str(node).strip()
    found = _RATIO.fullmatch(text)
    if found is None or not float(found[1]) > 0 or not float(found[2]) > 0:
        what = "not a distance to a spot's size: two numbers without units, the distance first"
        raise problem(what, found=text, accepted=("12 to 1",))
    return float(found[1]) / float(found[2])


def _tilt(node: Any, info: ValidationInfo) -> Quantity:
    found = cast("Quantity", parsed(lambda text: plain_quantity(text, "angle"))(node, info))
    if not 0 <= found.si < _SQUARE:
        raise problem("an angle off square lies from 0 to below 90 deg", found=str(node))
    return found


SurfaceSeen = Annotated[Surface, Reads("what the meter looked at, as `tape, black vinyl`", _surface, TEXT)]
SpotRatio = Annotated[float, Reads("distance to spot size, as `12 to 1`", _ratio, dict(SCALAR_SCHEMA))]
Tilt = Annotated[Quantity, Reads("an angle with its unit", _tilt, form(r"^(?!.*\d,\d).*\d.*[^\d\s.,].*$"))]


class Infrared(Record):
    """What the maker of an infra-red meter says about its optics."""

    reflected: Words[Literal["set", "own-temperature", "none"]] = Field(
        description="where the mirrored temperature comes from: set by hand, the meter's own, or none"
    )
    band: Lengths | None = Field(None, description="its band, as `7.5 to 14 um`; that one where left out")
    distance_to_spot: SpotRatio | None = Field(None, description="distance to spot size, as `12 to 1`")


class InfraredSettings(Record):
    """How an infra-red meter was set, and what it looked at."""

    emissivity_set: Emissivity = Field(description="emissivity set in the meter")
    emissivity: Emissivity = Field(description="emissivity of the surface")
    emissivity_within: Above | None = Field(
        None, description="how far off that may be, either way; 0.05 where left out"
    )
    surface: SurfaceSeen = Field(
        description="tape, paint or measured: how the emissivity was had; then what it is"
    )
    reflected: Temperature | None = Field(None, description="temperature of what the surface mirrors")
    reflected_within: Interval | None = Field(
        None, description="how far off that may be, either way; 5 K where left out"
    )
    reflected_set: Temperature | None = Field(
        None, description="the mirrored temperature that the meter reckoned with, where it was another"
    )
    distance: Length | None = Field(None, description="distance to the surface")
    target: Length | None = Field(None, description="size of the surface looked at")
    angle: Tilt | None = Field(
        None, description="angle off square, as `30 deg`; left out where it was square"
    )
    through: Text | None = Field(None, description="a window or lid looked through")

    def unsaid(self, optics: Infrared) -> tuple[str, ...]:
        """What a main figure would need and neither this nor the meter's record says, as keys."""
        said = {
            "reflected": self.reflected,
            "distance": self.distance,
            "target": self.target,
            "distance-to-spot": optics.distance_to_spot,
        }
        return tuple(key for key, value in said.items() if value is None)

    @property
    def reckoned_with(self) -> Quantity | None:
        """The mirrored temperature that a meter which is set to one reckoned with."""
        return self.reflected if self.reflected_set is None else self.reflected_set
