"""Infra-red meters: how they were set is said where one read a temperature, and only there."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Doubt, Fault
from generator.records.conditions import AMBIENT
from generator.records.drafts import BoundColumn, Draft
from generator.records.header import QUANTITY_OF
from generator.records.library import Library
from generator.records.schema.optics import Infrared, InfraredSettings
from generator.records.units import TEMPERATURE


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """What a run says of its infra-red meter against what that is and what it read."""
    read = list(_read(draft, library))
    settings = draft.body.infrared
    if settings is None and read:
        what = "how the infra-red meter was set is not said under `infrared`, so there is no main figure"
        yield Doubt(read[0][0].place, read[0][0].path, what)
    # Of a meter whose own record is at fault nobody knows whether it is one.
    known = all(each.binding.instrument in library.instruments for each in draft.bound.values())
    if settings is not None and not read and known:
        what = "settings of an infra-red meter, and none reads a temperature here"
        yield draft.body.fault_of_key(("infrared",), what)
    if settings is not None and read:
        yield from _settings(draft, settings, read)


def _settings(
    draft: Draft, settings: InfraredSettings, read: list[tuple[BoundColumn, Infrared]]
) -> Iterator[Fault]:
    within = settings.emissivity_within
    if within is not None and within >= settings.emissivity:
        what = "the surface could then have no emissivity at all"
        path = ("infrared", "emissivity_within")
        yield draft.body.fault(path, what, f"{within:g}", (f"below {settings.emissivity:g}",))
    if settings.reflected_set is not None and all(optics.reflected == "none" for _, optics in read):
        what = "the meter reckons with no mirrored temperature: its record says `reflected: none`"
        yield draft.body.fault_of_key(("infrared", "reflected_set"), what)
    unsaid = dict.fromkeys(key for _, optics in read for key in settings.unsaid(optics))
    if unsaid:
        what = f"not said, so there is no main figure: {', '.join(unsaid)}"
        yield draft.body.doubt(("infrared",), what)


def _read(draft: Draft, library: Library) -> Iterator[tuple[BoundColumn, Infrared]]:
    """What infra-red meters read here: temperatures, but for the air's, which none can see."""
    for key, bound in draft.bound.items():
        meter = library.instruments.get(bound.binding.instrument)
        if meter is not None and meter.infrared is not None and _is_seen(key, draft, library):
            yield bound, meter.infrared


def _is_seen(key: str, draft: Draft, library: Library) -> bool:
    name = key.partition("@")[0]
    if name in QUANTITY_OF:
        return name != AMBIENT and QUANTITY_OF[name] == TEMPERATURE
    method = library.method(draft.body.method.id, draft.body.method.version)
    measure = method.measure(name) if method is not None else None
    return getattr(measure, "quantity", "") == TEMPERATURE
