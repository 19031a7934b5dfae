"""What is told of infra-red meters: how they were set, and the way from what one showed to the surface."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.charts.numerals import numeral, plain
from generator.evaluation.findings import RunFinding
from generator.evaluation.infrared import EMISSIVITY_WITHIN, REFLECTED_WITHIN
from generator.evaluation.seeing import SEEN_BADLY
from generator.evaluation.worked import WorkedSurface
from generator.pages.format import Both, as_printed, celsius, difference, quantity, significant
from generator.pages.ways import Step
from generator.records.quantity import Quantity
from generator.records.run import Run
from generator.records.schema.optics import InfraredSettings


@dataclass(frozen=True)
class SeenRow:
    """How an infra-red meter was set for some runs, and what it looked at.

    Attributes:
        surface: As the record has it.
        emissivity: Of the surface.
        within: How far off that may be.
        set_to: Emissivity set in the meter.
        reflected: Temperature of what the surface mirrors; None where not recorded.
        off: How far off that may be.
        assumed: What of the two is our choice, as keys.
        reckoned: The mirrored temperature that the meter reckoned with, where it is another.
        distance: To the surface.
        target: Its size.
        angle: Off square; empty where it was square.
        through: A window or lid; empty without.
        items: Names of the items and controls.
    """

    surface: str
    emissivity: str
    within: str
    set_to: str
    reflected: Both | None
    off: Both
    assumed: tuple[str, ...]
    reckoned: Both | None
    distance: Both | None
    target: Both | None
    angle: str
    through: str
    items: tuple[str, ...]


def seen_rows(runs: Iterable[Run], names: Mapping[str, str]) -> tuple[SeenRow, ...]:
    """How infra-red meters were set, each setting once.

    Args:
        runs: Of the report.
        names: Of items and controls, by id.
    """
    found: dict[tuple[object, ...], tuple[InfraredSettings, dict[str, None]]] = {}
    for run in runs:
        if run.infrared is not None:
            _, items = found.setdefault(_same(run.infrared), (run.infrared, {}))
            items[names[run.item or run.control]] = None
    return tuple(_row(settings, tuple(items)) for settings, items in found.values())


def showed(run: RunFinding) -> Both | None:
    """The highest that an infra-red meter showed in a run of which nothing may be made; else None."""
    read = (*(each.temperature for each in run.readings), *(each.value for each in run.values))
    known = [each for each in read if each is not None]
    return celsius(max(known)) if run.why_not in SEEN_BADLY and known else None


def seen_steps(run: RunFinding) -> tuple[Step, ...]:
    """From what an infra-red meter showed to the temperature of the surface; none by another meter."""
    way = run.seen
    if way is None:
        return ()
    which = ""
    if run.worked is None:
        counted = [each for each in run.values if each.value is not None and not each.excluded]
        which = "last" if not run.values or len(counted) > 1 else ""
    elif run.worked.by != "reading":
        which = "nearest"
    return (Step("signal", {"which": which, **_signal(way)}), Step("surface", _surface(way)))


def _signal(way: WorkedSurface) -> dict[str, str]:
    shown, reckoned, _ = way.black
    return {
        "shown": numeral(way.indicated, 2),
        "set": plain(round(way.emissivity_set, 4)),
        "rest": plain(round(1 - way.emissivity_set, 4)),
        "reckoned": "" if way.reckoned is None else numeral(way.reckoned, 1),
        "band": " to ".join(plain(round(1e6 * end, 2)) for end in way.band),
        "black": numeral(shown, 3),
        "around": numeral(reckoned, 3),
        "signal": numeral(way.signal, 3),
    }


def _surface(way: WorkedSurface) -> dict[str, str]:
    return {
        "surface": as_printed(way.surface),
        "emissivity": plain(round(way.emissivity, 4)),
        "rest": plain(round(1 - way.emissivity, 4)),
        "reflected": numeral(way.reflected, 1),
        "around": numeral(way.black[2], 3),
        "signal": numeral(way.signal, 3),
        "own": numeral(way.own, 3),
        "temperature": numeral(way.temperature, 3),
        "magnified": significant(way.magnified, 3),
    }


def _same(settings: InfraredSettings) -> tuple[object, ...]:
    """What two runs share that were seen alike."""
    return tuple(getattr(each, "text", each) for _, each in settings)


def _row(settings: InfraredSettings, items: tuple[str, ...]) -> SeenRow:
    within, off = settings.emissivity_within, settings.reflected_within
    said = {"emissivity": within, "reflected": off}
    return SeenRow(
        as_printed(settings.surface.text),
        plain(settings.emissivity),
        plain(EMISSIVITY_WITHIN if within is None else within),
        plain(settings.emissivity_set),
        _told(settings.reflected),
        difference(REFLECTED_WITHIN) if off is None else quantity(off),
        tuple(key for key, value in said.items() if value is None),
        _told(settings.reflected_set),
        _told(settings.distance),
        _told(settings.target),
        "" if settings.angle is None else f"{plain(round(settings.angle.magnitude_in('°'), 1))}°",
        settings.through or "",
        items,
    )


def _told(given: Quantity | None) -> Both | None:
    return None if given is None else quantity(given)
