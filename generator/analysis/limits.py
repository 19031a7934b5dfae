"""A figure against a limit: within, beyond or undecided, and how probable it is that the limit is kept.

Decision rules are those of JCGM 106:2012 (probability of conformity, 7.2 and 7.3) and ILAC-G8:09/2019.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.counts import Share
from generator.analysis.interval import Parts
from generator.analysis.uncertainty import Key, Ledger, Uncertain

Outcome = Literal["within", "beyond", "undecided"]
FourOutcome = Literal["within", "conditionally within", "conditionally beyond", "beyond"]
ItemOutcome = Literal["all-within", "one-beyond", "undecided"]
Side = Literal["at most", "at least"]


@dataclass(frozen=True)
class Limit:
    """A limit.

    Attributes:
        value: In the figure's unit.
        side: Whether the figure may be at most or must be at least this.
    """

    value: float
    side: Side = "at most"


@dataclass(frozen=True)
class Statement:
    """One specimen against a limit.

    Attributes:
        outcome: By three outcomes.
        probability: That the limit is kept, 0 to 1.
        half_width: U, half-width of the figure's 95 % interval.
    """

    outcome: Outcome
    probability: float
    half_width: float


@dataclass(frozen=True)
class ItemStatement:
    """All specimens of an item against a limit.

    Attributes:
        outcome: All within, at least one beyond, or undecided.
        beyond: Specimens beyond, of those tested, with the exact interval of the share; None where one is
            undecided.
    """

    outcome: ItemOutcome
    beyond: Share | None


def probability_kept(value: float, error: Parts, limit: Limit) -> float:
    """Probability that the true value keeps the limit (JCGM 106:2012, 7.2), by the figure's own interval."""
    raise NotImplementedError


def against(value: float, error: Parts, limit: Limit, reach: float | None = None) -> Statement:
    """Three outcomes: within by at least U, beyond by at least U, else undecided.

    Args:
        value: The specimen's figure at the mark.
        error: Everything but the spread between pieces.
        limit: In the same unit.
        reach: Upper limit of the settled rise where one is printed: *within* asks it of this, too.
    """
    raise NotImplementedError


def four_outcomes(value: float, half_width: float, limit: Limit) -> FourOutcome:
    """Four outcomes with a guard band of U (ILAC-G8:09/2019, 4.2.3)."""
    raise NotImplementedError


def simple(value: float, limit: Limit) -> Literal["within", "beyond"]:
    """Simple acceptance (ILAC-G8:09/2019, 4.2.1): the risk is up to 50 % at the limit."""
    raise NotImplementedError


def of_item(outcomes: Sequence[Outcome]) -> ItemStatement:
    """An item by its specimens' outcomes, at least one."""
    raise NotImplementedError


def at_reference_ambient(
    ledger: Ledger, rise: Uncertain, ambient: float, reference: float, *, key: Key, share: float | None = None
) -> Uncertain:
    """A rise carried to the reference ambient: θ·(1 ± share·|T_ref − T_amb|/20 K), rectangular.

    Args:
        ledger: Where the input is made.
        rise: θ, K.
        ambient: T_amb, °C.
        reference: T_ref, °C: a convention, without uncertainty.
        key: Identity of the method.
        share: Measured by the method at two ambients; None: 0.06, which has no source.
    """
    raise NotImplementedError
