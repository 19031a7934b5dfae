"""What pieces not yet tested may be like: the next one, and most of them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from scipy.stats import nct, norm

from generator.analysis.interval import Parts, half_width, quantile
from generator.analysis.specimens import OWN_FROM, Spread
from generator.analysis.uncertainty import welch_satterthwaite

NEXT_FROM = 3
"""Fewer pieces say nothing of the next one that would be of use."""

MOST = 0.90
"""The share of all pieces that a limit is told for."""

CONFIDENCE = 0.95
"""How often such a limit holds."""

Below = Literal["below", "above"]
"""On which side of a limit most pieces are to be expected."""


@dataclass(frozen=True)
class NextPiece:
    """Where the next piece of the same purchase is to be expected, with 95 % confidence.

    Attributes:
        low: In the figure's unit.
        high: In the figure's unit.
        pieces: n behind it.
    """

    low: float
    high: float
    pieces: int


def next_piece(mean: float, shared: Parts, spread: Spread, pieces: int) -> NextPiece | None:
    """The prediction interval of one further piece: mean ± k·√(s²(1 + 1/n) + u_shared²).

    NIST/SEMATECH e-Handbook 7.1.4 has the factor without an instrument's error; k is from the convolution of
    the scatter's t with the errors that all pieces share.

    Args:
        mean: Mean over the pieces.
        shared: Its errors without the scatter and without what is new in each run.
        spread: Standard deviation between pieces, with ν.
        pieces: n.

    Returns:
        None for fewer than three pieces.
    """
    if pieces < NEXT_FROM:
        return None
    error = _with_scatter(shared, spread, math.sqrt(1 + 1 / pieces))
    reach = half_width(error)
    return NextPiece(mean - reach, mean + reach, pieces)


@dataclass(frozen=True)
class MostPieces:
    """A limit that most pieces of the same purchase keep, with 95 % confidence.

    Attributes:
        limit: In the figure's unit.
        side: On which side of it they lie.
        pieces: n behind it.
    """

    limit: float
    side: Below
    pieces: int


def most_pieces(mean: float, shared: Parts, spread: Spread, pieces: int, side: Below) -> MostPieces | None:
    """The one-sided tolerance limit: 95 % confidence, 90 % of pieces.

    mean ± (z·s + √(((k₁ − z)·s)² + q²)), with k₁ as in `tolerance_factor`, z the normal quantile of the share
    and q the 95 % quantile of the errors that all pieces share. Without those it is mean ± k₁·s
    (NIST/SEMATECH e-Handbook 7.2.6.3). That what s leaves open and what is shared go together in squares is
    our choice; `tests/studies` counts how often the limit holds.

    Args:
        mean: Mean over the pieces.
        shared: Its errors without the scatter and without what is new in each run.
        spread: Standard deviation of the item's own pieces.
        pieces: n.
        side: Where most pieces are to be expected.

    Returns:
        None for fewer than five pieces, and where the spread is not their own.
    """
    if pieces < OWN_FROM or spread.origin != "own":
        return None
    z = float(norm.ppf(MOST)) * spread.deviation
    unsure = tolerance_factor(pieces, MOST, CONFIDENCE) * spread.deviation - z
    reach = z + math.hypot(unsure, quantile(CONFIDENCE, shared))
    return MostPieces(mean + reach if side == "below" else mean - reach, side, pieces)


def _with_scatter(shared: Parts, spread: Spread, factor: float) -> Parts:
    u_t = spread.deviation * factor
    if math.isinf(spread.dof):
        return replace(shared, u_normal=math.hypot(shared.u_normal, u_t))
    dof = welch_satterthwaite([(shared.u_t, shared.dof), (u_t, spread.dof)])
    return replace(shared, u_t=math.hypot(shared.u_t, u_t), dof=dof)


def tolerance_factor(n: int, share: float = MOST, confidence: float = CONFIDENCE) -> float:
    """How many s from the mean a one-sided limit holds a share of all pieces, with a confidence.

    k₁ = t′/√n with t′ the quantile of a noncentral t of n − 1 degrees of freedom and noncentrality z·√n
    (NIST/SEMATECH e-Handbook 7.2.6.3).

    Args:
        n: Pieces behind mean and s, at least two.
        share: Of all pieces, 0 to 1.
        confidence: 0 to 1.

    Raises:
        ValueError: Fewer than two pieces, or a share or confidence that is none.
    """
    if n < 2 or not 0 < share < 1 or not 0 < confidence < 1:
        raise ValueError(f"no limit for {share} of all from {n} at {confidence}")
    return float(nct.ppf(confidence, n - 1, float(norm.ppf(share)) * math.sqrt(n))) / math.sqrt(n)
