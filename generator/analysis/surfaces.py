"""The temperature of a surface from what an infra-red meter shows, as an uncertain number."""

from __future__ import annotations

from generator.analysis.infrared import Settings, surface
from generator.analysis.linear import deferred
from generator.analysis.number import Uncertain


def uncertain_surface(
    indicated: Uncertain,
    settings: Settings,
    emissivity: Uncertain,
    reflected: Uncertain,
    reckoned: Uncertain | None = None,
) -> Uncertain:
    """A surface's temperature with uncertain numbers, to first order (GUM 5.1.2).

    Accuracy and noise of the meter act on the indication; the emissivity of one tape or paint, and what it
    mirrors, are inputs that readings share.

    Args:
        indicated: What the meter showed, °C.
        settings: How it was set.
        emissivity: Of the surface.
        reflected: Temperature of what the surface mirrors, °C.
        reckoned: Around 0, by how much what the meter took for reflected is not known, K; None where it is.

    Raises:
        NoTemperature: No surface shows that.
    """
    found = surface(indicated.x, settings, emissivity.x, reflected.x)
    terms = [
        (found.per_indication, indicated),
        (found.per_emissivity, emissivity),
        (found.per_reflected, reflected),
    ]
    if reckoned is not None:
        terms.append((found.per_reckoned, reckoned))
    return deferred(found.temperature, terms)
