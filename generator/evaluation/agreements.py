"""Two meters that read one thing: whether they agree within what both state."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.agreement import Agreement, normalized_error
from generator.evaluation.ranges import range_of, steadiness
from generator.fault import Doubt
from generator.records.grammar import QuantityError

if TYPE_CHECKING:
    from generator.records.accuracy import Accuracy
    from generator.records.bench import Bench
    from generator.records.quantity import Quantity
    from generator.records.schema.instrument import Instrument

COVERAGE = 2.0
"""Of the expanded uncertainties in E_n (ISO 13528:2022, 9.7: about 95 %)."""


@dataclass(frozen=True)
class SideBySide:
    """One check of a meter beside another.

    Attributes:
        number: Its place among the meter's checks, from 0.
        other: Id of the other meter.
        first_within: Expanded uncertainty (k = 2) of what the meter read, in SI (of temperatures in K).
        second_within: Of what the other read.
        found: E_n and whether they agree.
        bare: Ids of those of the two whose probe is not in this: the check does not say which was used, and
            theirs are not all good to the same.
    """

    number: int
    other: str
    first_within: float
    second_within: float
    found: Agreement
    bare: tuple[str, ...] = ()


def side_by_side(instruments: Mapping[str, Instrument], key: str) -> tuple[SideBySide, ...]:
    """The checks of a meter beside another, of which both state how far off they may be.

    Args:
        instruments: Those of a bench that are without faults.
        key: Id of the meter.
    """
    meter, told = instruments[key], []
    for number, check in enumerate(meter.checks):
        beside = check.beside
        other = instruments.get(beside.instrument) if beside is not None else None
        if check.read is None or beside is None or other is None:
            continue
        first = _within(meter, check.channel, check.read)
        second = _within(other, beside.channel, beside.read)
        if first and second:
            found = normalized_error(check.read.si, first, beside.read.si, second)
            named = ((key, meter, check.channel), (beside.instrument, other, beside.channel))
            bare = tuple(name for name, each, channel in named if each.probes and not _probes(each, channel))
            told.append(SideBySide(number, beside.instrument, first, second, found, bare))
    return tuple(told)


def doubts(bench: Bench) -> Iterator[Doubt]:
    """Meters that do not agree: one of the two is further off than it states."""
    broken = {fault.place.file for fault in bench.faults}
    sound = {key: each for key, each in bench.instruments.items() if each.place_of().file not in broken}
    for key, meter in sound.items():
        for each in side_by_side(sound, key):
            check = meter.checks[each.number]
            if each.found.agree or check.read is None or check.beside is None:
                continue
            what = (
                f"does not agree with '{each.other}', which read {check.beside.read.text}: E_n ="
                f" {abs(each.found.number):.1f}, and 1 is the most that both accuracies allow (ISO 13528);"
                " one of the two is further off than it states"
            )
            yield meter.doubt(("checks", each.number, "read"), what, check.read.text)


def _within(meter: Instrument, channel: str | None, read: Quantity) -> float:
    """Expanded uncertainty of a reading by what its meter and probe state, in SI; 0 where they state none."""
    found = range_of(meter, read.quantity, read.si)[1]
    steady = steadiness(found, read.last_digit)
    digit = steady.resolution or read.last_digit
    stated = _probes(meter, channel)
    if found.accuracy is not None:
        stated.append(found.accuracy)
    try:
        halves = [(each.half_width(read.si, digit), each) for each in stated]
    except QuantityError:
        return 0.0
    parts = [half / (each.k if each.distribution == "normal" else math.sqrt(3)) for half, each in halves]
    return COVERAGE * math.hypot(*parts, steady.noise or 0.0) if any(parts) else 0.0


def _probes(meter: Instrument, channel: str | None) -> list[Accuracy]:
    """What the probe of a channel states; without a channel, what all probes state alike, else none."""
    if channel is not None:
        return [meter.probes[meter.channels[channel]]] if meter.channels else []
    stated = list(meter.probes.values())
    return stated[:1] if all(each == stated[0] for each in stated) else []
