"""Infra-red meters: how one was set, what may be made of what it showed, and the surface behind it.

No arithmetic library is loaded, so that a check of records stays quick.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.infrared import ZERO, Settings, surface
from generator.analysis.radiation import THERMAL, Band, NoTemperature, radiance
from generator.evaluation.conditions import AMBIENT
from generator.evaluation.worked import WorkedSurface
from generator.fault import Fault, Place

if TYPE_CHECKING:
    from generator.evaluation.why_not import WhyNot
    from generator.records.bench import Bench
    from generator.records.run import Run
    from generator.records.schema.optics import Infrared, InfraredSettings

LEAST_EMISSIVITY = 0.6
"""Below it a small error of the emissivity is a large one of the temperature; common practice, no source."""

SPOTS = 3.0
"""Spots that a target is wide, so that what lies round it is not averaged in; common practice, no source."""

MOST_TILT = math.radians(45)
"""From square; beyond it the emissivity of most surfaces falls; common practice, no source."""

SEEN_BADLY: frozenset[WhyNot] = frozenset(
    {
        "settings-not-recorded",
        "emissivity-too-low",
        "target-too-small",
        "seen-too-slanted",
        "seen-through-a-window",
        "no-such-surface",
    }
)
"""Why what an infra-red meter showed is told as it was read, and nothing is made of it."""


def refused(bench: Bench, run: Run, column: str, quantity: str = "temperature") -> WhyNot | None:
    """Why an infra-red reading gives no main figure; None where it may, and for any other meter.

    Args:
        bench: Where the instruments are.
        run: The run.
        column: What was read, `temperature@body`.
        quantity: What that is.
    """
    optics, settings = optics_of(bench, run, column, quantity), run.infrared
    if optics is None:
        return None
    if settings is None or settings.unsaid(optics) or _reckoned(run, optics, settings) is None:
        return "settings-not-recorded"
    return _seen_badly(optics, settings)


def optics_of(bench: Bench, run: Run, column: str, quantity: str) -> Infrared | None:
    """The optics of what read a temperature; None for any other meter. The air cannot be seen by any."""
    use = run.uses.get(column)
    if use is None or quantity != "temperature" or column == AMBIENT:
        return None
    return bench.instruments[use.instrument].infrared


@dataclass(frozen=True)
class Look:
    """How an infra-red meter looked in a run.

    Attributes:
        settings: How it was set.
        emissivity: Of the surface.
        reflected: Temperature of what the surface mirrors, °C.
        surface: The surface as the record has it.
        own: Whether the meter reckoned with its own temperature.
    """

    settings: Settings
    emissivity: float
    reflected: float
    surface: str
    own: bool

    def worked(self, indicated: float) -> WorkedSurface:
        """From an indication in °C to the surface behind it, step by step; or NoTemperature."""
        found = surface(indicated, self.settings, self.emissivity, self.reflected)
        settings, band = self.settings, self.settings.band
        black = (radiance(each + ZERO, band) for each in (indicated, settings.reflected, self.reflected))
        return WorkedSurface(
            indicated=indicated,
            emissivity_set=settings.emissivity,
            reckoned=None if settings.mirrors == "none" else settings.reflected,
            band=(band.low, band.high),
            signal=found.signal,
            surface=self.surface,
            emissivity=self.emissivity,
            reflected=self.reflected,
            own=found.own,
            black=(next(black), next(black), next(black)),
            temperature=found.temperature,
            magnified=found.per_indication,
        )


def look_of(bench: Bench, run: Run, column: str, quantity: str = "temperature") -> Look | None:
    """How a column of a run was seen; None by a meter of another kind, and where it gives no figure."""
    optics, settings = optics_of(bench, run, column, quantity), run.infrared
    if optics is None or settings is None or refused(bench, run, column, quantity) is not None:
        return None
    reckoned = _reckoned(run, optics, settings)
    assert reckoned is not None  # noqa: S101
    band = Band(optics.band.low.si, optics.band.high.si) if optics.band is not None else THERMAL
    told = settings.reflected_set is not None and optics.reflected != "none"
    mirrors = "set" if told else optics.reflected
    return Look(
        Settings(settings.emissivity_set, mirrors, reckoned, band),
        settings.emissivity,
        settings.reflected.si if settings.reflected is not None else 0.0,
        settings.surface.text,
        mirrors == "own-temperature",
    )


def magnified(bench: Bench, run: Run, column: str, shown: float) -> float:
    """How many K of the surface a K of the indication is, at what the meter showed; 1 for other meters."""
    try:
        look = look_of(bench, run, column)
        return 1.0 if look is None else look.worked(shown).magnified
    except NoTemperature:
        return 1.0


def without_surface(bench: Bench) -> Iterator[Fault]:
    """Readings that no surface can have made, with the settings that the record has."""
    for run in bench.standing:
        for column, quantity, place, shown, text in _shown(run) if run.infrared else ():
            look = look_of(bench, run, column, quantity)
            try:
                if look is not None:
                    look.worked(shown)
            except NoTemperature as none:
                yield Fault(place, "", str(none), text)


def _shown(run: Run) -> Iterator[tuple[str, str, Place, float, str]]:
    """What a run has in numbers that count: column, quantity, place, value in SI and text."""
    for measure, value in run.values.items():
        if not value.bound:
            yield (
                measure if measure in run.uses else value.quantity,
                value.quantity,
                run.source,
                value.si,
                value.text,
            )
    for column in run.readings.columns if run.readings else ():
        key = f"{column.name}@{column.point}" if column.point else column.name
        for row, cell in enumerate(column.cells):
            if cell is not None and not cell.bound and row not in run.excluded:
                yield key, column.quantity, cell.place, cell.value, cell.text


def _seen_badly(optics: Infrared, settings: InfraredSettings) -> WhyNot | None:
    if settings.emissivity < LEAST_EMISSIVITY:
        return "emissivity-too-low"
    if settings.through:
        return "seen-through-a-window"
    if _spots(optics, settings) < SPOTS * (1 - 1e-9):
        return "target-too-small"
    if settings.angle is not None and settings.angle.si > MOST_TILT * (1 + 1e-9):
        return "seen-too-slanted"
    return None


def _spots(optics: Infrared, settings: InfraredSettings) -> float:
    """Spots that the target is wide."""
    if settings.distance is None or settings.target is None or optics.distance_to_spot is None:
        return 0.0
    return settings.target.si * optics.distance_to_spot / settings.distance.si


def _reckoned(run: Run, optics: Infrared, settings: InfraredSettings) -> float | None:
    """The mirrored temperature that the meter reckoned with, °C: its own is about the air's."""
    said = settings.reckoned_with
    if optics.reflected == "none":
        return 0.0
    if optics.reflected == "set" or settings.reflected_set is not None:
        return said.si if said is not None else None
    return _air(run)


def _air(run: Run) -> float | None:
    """The mean air of a run; None where nothing but the part itself tells it."""
    if run.ambient is not None:
        return run.ambient.si
    read = run.readings.column(AMBIENT) if run.readings is not None else None
    if run.readings is None or read is None:
        return None
    known = [cell.value for cell in run.readings.counted(read) if not cell.bound]
    return math.fsum(known) / len(known) if known else None
