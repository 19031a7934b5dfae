"""A run as the evaluation sees it: one shape, whether it was typed as a file or read out of a sitting."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Literal, TypeAlias

from generator.fault import Place
from generator.records.corrections import Correction
from generator.records.quantity import Quantity, Range
from generator.records.schema.optics import InfraredSettings
from generator.records.schema.references import CountOf, LastedTo
from generator.records.schema.run import Event, Observation, Opinion, Stopped, Termination
from generator.records.table import Table

AmbientMode: TypeAlias = Literal["channel", "start-end", "first reading", "single value", "none"]
Said: TypeAlias = Quantity | Range | str


@dataclass(frozen=True)
class Use:
    """What read a column.

    Attributes:
        instrument: Id of the meter.
        channel: Its channel; None for a meter with one input.
        probe: Id of the probe that was plugged in; None where the channel has none.
    """

    instrument: str
    channel: str | None = None
    probe: str | None = None


@dataclass(frozen=True)
class ZeroReading:
    """Probes side by side without current.

    Attributes:
        pairs: How many pairs the record says.
        columns: Which columns were side by side, as keys of `uses` (`temperature@body`, `ambient`).
        table: The readings; its columns are named as `columns`.
    """

    pairs: int
    columns: tuple[str, ...]
    table: Table


@dataclass(frozen=True)
class Run:
    """One method, once, on one piece, on one day.

    Attributes:
        id: `<report>/<run>` of a file, `<sitting>/<item>:<specimen>` or `<sitting>/control` of a sitting.
        source: Where it stands.
        method: Id of the method.
        version: Version of the method.
        date: The day.
        item: Id of the item; empty for a control.
        specimen: Id of the piece; empty for a control.
        control: Name of the control; empty for a piece.
        place: Where it was made; empty where the record says nothing.
        sitting: Id of the sitting; empty for a file of its own.
        termination: How the piece was connected; None where nothing is said.
        heating: Which heating of its piece it was, as the record says; None where it says nothing.
        lead: Length of lead between its probe points, where that is not the method's; else None.
        uses: Column to what read it; keys as `temperature@body`, `ambient`, `current`, `drop`.
        conditions: The conditions as said, typed as the method has them; what is not said is not here.
        ambient_mode: How the air is said: `channel`, a column `ambient`; `start-end`, such a column with a
            first and a last reading alone; `first reading`, the part itself, long without current, showed it;
            `single value`; `none`.
        ambient: The single value; None in every other mode.
        readings: Columns with empty owners, shared ones of a sitting among them; None without readings.
        values: Measure to its value, for measures without readings.
        counts: Measure to its count.
        events: What happened, with times.
        stopped: Where it ended before its schedule.
        observations: Answers to the method's checks.
        opinions: What the reviewer thinks.
        deviations: What was done otherwise than the method says.
        additions: What was done beyond the method.
        made_by: Who made it, where that was not the reviewer; else empty.
        zero_check: Probes side by side, of this run or its sitting.
        infrared: How an infra-red meter was set.
        corrections: What it corrects, the run that was corrected first last; empty for a run as it was made.
    """

    id: str
    source: Place
    method: str
    version: int
    date: date
    item: str = ""
    specimen: str = ""
    control: str = ""
    place: str = ""
    sitting: str = ""
    termination: Termination | None = None
    heating: int | None = None
    lead: Quantity | None = None
    uses: dict[str, Use] = field(default_factory=dict)
    conditions: dict[str, Said] = field(default_factory=dict)
    ambient_mode: AmbientMode = "none"
    ambient: Quantity | None = None
    readings: Table | None = field(default=None, repr=False)
    values: dict[str, Quantity] = field(default_factory=dict)
    counts: dict[str, CountOf | LastedTo] = field(default_factory=dict)
    events: tuple[Event, ...] = ()
    stopped: Stopped | None = None
    observations: tuple[Observation, ...] = ()
    opinions: tuple[Opinion, ...] = ()
    deviations: tuple[str, ...] = ()
    additions: tuple[str, ...] = ()
    made_by: str = ""
    zero_check: ZeroReading | None = None
    infrared: InfraredSettings | None = None
    corrections: tuple[Correction, ...] = ()

    @property
    def made_as(self) -> str:
        """Id of the run as it was made: its own, or of the one that was corrected first."""
        return self.corrections[-1].run if self.corrections else self.id

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files that it is in: its own, and those of the runs that it corrects."""
        return tuple(dict.fromkeys((self.source.file, *(each.source.file for each in self.corrections))))

    @property
    def method_name(self) -> str:
        """Id and version, `closed-box-heating/2`."""
        return f"{self.method}/{self.version}"

    @property
    def excluded(self) -> dict[int, str]:
        """Row of the readings, from 0, to the reason why it counts for nothing."""
        return self.readings.excluded if self.readings else {}
