"""What was asked for: a file, what was said about it, where its readings go."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Literal

from generator.intake.meter.hints import Hints


@dataclass(frozen=True)
class Request:
    """An import.

    Attributes:
        name: The file's name.
        data: Its bytes.
        options: What was said about it.
        into: Run or sitting that its readings go into; empty for a look at it.
        meter: Whose file it is, as said; empty where it was not.
        standing: What becomes of readings that stand in a column already: they stop the import, or go.
        root: The folder of the bench; None outside of one.
        starts_at: When its first reading was, s from the start of the run, as said; None where it was not.
    """

    name: str
    data: bytes = field(repr=False)
    options: Hints = field(default_factory=Hints)
    into: str = ""
    meter: str = ""
    standing: Literal["keep", "replace"] = "keep"
    root: Path | None = None
    starts_at: Decimal | None = None
