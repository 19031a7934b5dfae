"""Infra-red meters: from what one showed to the surface behind it, as uncertain numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.linear import deferred
from generator.analysis.radiation import Band
from generator.analysis.surfaces import uncertain_surface
from generator.analysis.uncertainty import Input, Key, Ledger, Uncertain, rectangle
from generator.evaluation.seeing import Look, look_of
from generator.evaluation.worked import WorkedSurface

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.run import Run
    from generator.records.schema.optics import InfraredSettings

EMISSIVITY_WITHIN, REFLECTED_WITHIN, OWN_WITHIN = 0.05, 5.0, 3.0
"""What is taken where the record says nothing, half-widths; the temperatures in K. Our choice, no source.

The last is how far a meter's own temperature may lie from the air's.
"""


@dataclass(frozen=True)
class Eye:
    """An infra-red meter in a run, and how far off what it reckons with may be.

    Attributes:
        look: How it was set, and what it looked at.
        emissivity: Of the surface.
        reflected: Temperature of what the surface mirrors, °C.
        reckoned: What the meter's own temperature may be off from the air's, K; None where it was set.
    """

    look: Look
    emissivity: Uncertain
    reflected: Uncertain
    reckoned: Uncertain | None

    def sees(self, indicated: Uncertain) -> Uncertain:
        """The surface behind an indication, °C; NoTemperature where there is none."""
        settings = self.look.settings
        return uncertain_surface(indicated, settings, self.emissivity, self.reflected, self.reckoned)

    def worked(self, indicated: float) -> WorkedSurface:
        """The same step by step."""
        return self.look.worked(indicated)


def eye_of(ledger: Ledger, bench: Bench, run: Run, column: str, quantity: str = "temperature") -> Eye | None:
    """What saw a column of a run; None for a meter of another kind, and where it gives no figure anyway."""
    look, settings = look_of(bench, run, column, quantity), run.infrared
    if look is None or settings is None:
        return None
    return ledger.once(("eye", run.id, column), lambda: _eye(ledger, run, look, settings))


def _eye(ledger: Ledger, run: Run, look: Look, settings: InfraredSettings) -> Eye:
    entry, off = _emissivity(run, settings, look.settings.band), ledger.input(_reflected(run, settings))
    own = ledger.input(_own(run)) if look.own else None
    return Eye(look, ledger.input(entry, look.emissivity), deferred(look.reflected, ((1.0, off),)), own)


def _whose(run: Run, settings: InfraredSettings) -> Key:
    """Whose error it is: of a tape or a paint one wherever it is, of a bare surface the item's own."""
    text = _plain(settings)
    return (text,) if settings.surface.coated else (text, run.item or run.control)


def _plain(settings: InfraredSettings) -> str:
    return " ".join(settings.surface.text.split())


def _emissivity(run: Run, settings: InfraredSettings, band: Band) -> Input:
    """An emissivity is of a surface and a band."""
    assumed = settings.emissivity_within is None
    within = EMISSIVITY_WITHIN if settings.emissivity_within is None else settings.emissivity_within
    size = (f"{settings.emissivity:g} ± {within:g}", f"{band.low:g} {band.high:g}", f"{assumed}")
    key: Key = ("emissivity", *_whose(run, settings), *size)
    words, source = "emissivity of the surface", _plain(settings)
    return rectangle(key, words, within, "1", "shared", assumed=assumed, source=source)


def _reflected(run: Run, settings: InfraredSettings) -> Input:
    assumed = settings.reflected_within is None
    within = REFLECTED_WITHIN if settings.reflected_within is None else settings.reflected_within.si
    key: Key = ("reflected", *_whose(run, settings), f"± {within:g}", f"{assumed}")
    words, source = "temperature that the surface mirrors", _plain(settings)
    return rectangle(key, words, within, "K", "shared", assumed=assumed, source=source)


def _own(run: Run) -> Input:
    words = "the meter's own temperature, taken as the air's"
    return rectangle((run.id, "own temperature"), words, OWN_WITHIN, "K", "run", assumed=True)
