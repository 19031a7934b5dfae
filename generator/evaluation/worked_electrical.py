"""How a drop, a resistance, an impedance or a power was worked out, number by number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.records.schema.electrical import Supply

LeadBy = Literal["control", "reel", "class", "gauge", "area"]
"""How a lead's resistance is known: best first."""


@dataclass(frozen=True)
class ReadPair:
    """A drop at a current, and where the current was reversed the drop the other way.

    Attributes:
        drop: V.
        current: A.
        back: Drop with the current reversed, V, and that current's amount, A; None without.
        ohms: What they give, Ω.
        emf: Thermal EMF, V; None where the current was not reversed.
    """

    drop: float
    current: float
    back: tuple[float, float] | None
    ohms: float
    emf: float | None


@dataclass(frozen=True)
class TakenOff:
    """The lead between the probe points.

    Attributes:
        by: How its resistance is known.
        length: m.
        per_metre: At 20 °C, Ω/m.
        temperature: It was taken to be so warm, °C.
        ohms: Taken off, Ω.
        source: The control's name, the conductor's, or the standard.
        over: How long the lead of the controls was, m; empty where none says its resistance.
    """

    by: LeadBy
    length: float
    per_metre: float
    temperature: float
    ohms: float
    source: str
    over: tuple[float, ...] = ()

    @property
    def same_length(self) -> bool:
        """Whether the controls were as long."""
        return self.over == (self.length,)


@dataclass(frozen=True)
class WorkedElectrical:
    """One run, from drops and currents to the figure.

    Attributes:
        kind: drop, resistance, impedance or power.
        supply: What the current is.
        time: Time of the reading at the mark, s; None for one without.
        pairs: What was read; empty where a meter told the resistance itself.
        between: Between the probe points, Ω.
        lead: What was taken off; None where nothing was.
        included: Whether a lead that is not known is in the figure.
        ohms: Of the part, Ω.
        temperature: Of the part, °C; None where not known.
        coefficient: By which it was reduced to 20 °C, 1/K; None where it was not.
        within: Half-width of that, 1/K; None where it was not reduced.
        assumed: Whether that is the default for assemblies.
        current: As it was, A; None where not known.
        set_current: That a drop or a power is told at, A; None for the others.
        emf_allowed: What thermal EMF may be in it by the method, V; None where it does not say.
        figure: In its own unit.
    """

    kind: str
    supply: Supply
    time: float | None
    pairs: tuple[ReadPair, ...]
    between: float
    lead: TakenOff | None
    included: bool
    ohms: float
    temperature: float | None
    coefficient: float | None
    within: float | None
    assumed: bool
    current: float | None
    set_current: float | None
    emf_allowed: float | None
    figure: float

    @property
    def reversed(self) -> bool:
        """Whether each drop was read both ways."""
        return bool(self.pairs) and all(pair.back is not None for pair in self.pairs)

    @property
    def emf(self) -> float | None:
        """Mean thermal EMF, V; None where the current was not reversed."""
        known = [pair.emf for pair in self.pairs if pair.emf is not None]
        return sum(known) / len(known) if known and self.reversed else None
