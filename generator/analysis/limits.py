"""A figure against a limit: within, beyond or undecided, and how probable it is that the limit is kept.

Decision rules are those of JCGM 106:2012 (probability of conformity, 7.2 and 7.3) and ILAC-G8:09/2019.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.counts import Share, share
from generator.analysis.interval import Parts, cdf, half_width
from generator.analysis.linear import deferred
from generator.analysis.uncertainty import Key, Ledger, Uncertain, rectangle

CARRIED = 0.06
"""Part of a rise that it may change by for 20 K of ambient, where the method knows no better; no source."""

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
    """Probability that the true value keeps the limit, by the distribution that the interval comes from.

    JCGM 106:2012, 7.2: the share of the values that the measurement leaves possible which conform.

    Args:
        value: The figure.
        error: What is uncertain about it.
        limit: In the same unit.
    """
    room = limit.value - value
    return cdf(room if limit.side == "at most" else -room, error)


def against(value: float, error: Parts, limit: Limit, reach: float | None = None) -> Statement:
    """Three outcomes: within by at least U, beyond by at least U, else undecided.

    Args:
        value: The specimen's figure at the mark.
        error: Everything but the spread between pieces.
        limit: In the same unit.
        reach: Upper limit of the settled rise where one is printed: *within* asks it of this, too.
    """
    u = half_width(error)
    room = _room(value, limit)
    outcome: Outcome = "undecided"
    if room <= -u:
        outcome = "beyond"
    elif room >= u and (reach is None or _room(reach, limit) >= 0):
        outcome = "within"
    return Statement(outcome, probability_kept(value, error, limit), u)


def four_outcomes(value: float, half_width: float, limit: Limit) -> FourOutcome:
    """Four outcomes with a guard band of w = U (ILAC-G8:09/2019, 4.2.3).

    Within up to the limit less U, conditionally within up to the limit, conditionally beyond up to the limit
    and U, beyond above.
    """
    room = _room(value, limit)
    if room >= half_width:
        return "within"
    if room >= 0:
        return "conditionally within"
    return "conditionally beyond" if room >= -half_width else "beyond"


def simple(value: float, limit: Limit) -> Literal["within", "beyond"]:
    """Simple acceptance without a guard band: the risk is up to 50 % (ILAC-G8:09/2019, 4.2.1)."""
    return "within" if _room(value, limit) >= 0 else "beyond"


def of_item(outcomes: Sequence[Outcome]) -> ItemStatement:
    """An item by the outcomes of its specimens: one beyond decides, all must be within; never by the mean.

    Raises:
        ValueError: There are no outcomes.
    """
    if not outcomes:
        raise ValueError("an item without specimens")
    beyond = share(outcomes.count("beyond"), len(outcomes)) if "undecided" not in outcomes else None
    if "beyond" in outcomes:
        return ItemStatement("one-beyond", beyond)
    return ItemStatement("undecided" if beyond is None else "all-within", beyond)


def at_reference_ambient(
    ledger: Ledger, rise: Uncertain, ambient: float, reference: float, *, key: Key, part: float | None = None
) -> Uncertain:
    """A rise carried to the reference ambient: θ·(1 ± part·|T_ref − T_amb|/20 K), rectangular.

    The part covers radiation, which grows with temperature, against copper's resistance, which does too.

    Args:
        ledger: Where the input is made.
        rise: θ, K.
        ambient: T_amb, °C.
        reference: T_ref, °C: a convention, without uncertainty.
        key: Identity of the method: the error is the same for all that it measures.
        part: By 20 K, as the method found it at two ambients; None: 0.06, which has no source.
    """
    name = (*key, "reference ambient")
    by_20 = CARRIED if part is None else part

    def made() -> Uncertain:
        words = "carried to the reference ambient, by 20 K"
        return ledger.input(rectangle(name, words, by_20, "1", "shared", assumed=part is None))

    carried = ledger.once((*name, by_20), made)
    return deferred(rise.x, ((1.0, rise), (rise.x * (reference - ambient) / 20, carried)))


def _room(value: float, limit: Limit) -> float:
    """What is left up to the limit, below zero beyond it."""
    return limit.value - value if limit.side == "at most" else value - limit.value
