"""How each piece stands against a limit, in numbers."""

from __future__ import annotations

from generator.analysis.rounding import rounded
from generator.charts.numerals import numeral, plain
from generator.evaluation.statements import LimitFinding, PieceAgainst, said_of
from generator.pages.format import significant
from generator.pages.ways import Step


def limit_steps(found: LimitFinding, unit: str) -> tuple[Step, ...]:
    """Each piece against a limit, with the probability that the limit is kept.

    Args:
        found: Of one item.
        unit: Of the measure's figures.
    """
    heats = found.kind in {"temperature", "rise"}
    return tuple(
        Step(
            f"{found.kind}-limit" if heats else "side-limit",
            {
                "piece": piece.specimen,
                "value": numeral(piece.value, _digits(piece, heats=heats)),
                "half_width": numeral(piece.half_width or 0.0, _digits(piece, heats=heats)),
                "limit": plain(round(found.limit, 2)) if heats else significant(found.limit, 4),
                "reference": "" if found.reference is None else plain(round(found.reference, 2)),
                "outcome": said_of(piece.outcome, found.kind, found.standing),
                "claimed": "yes" if found.claimed else "",
                "probability": "" if piece.probability is None else _share(piece.probability),
                "side": found.kind,
                "unit": unit,
            },
        )
        for piece in found.pieces
        if piece.value is not None
    )


def _digits(piece: PieceAgainst, *, heats: bool) -> int:
    """Decimals of what is held against a limit: two of K and °C, else two more than are told."""
    if heats or piece.value is None or not piece.half_width:
        return 2
    return rounded(piece.value, piece.half_width).decimals + 2


def _share(probability: float) -> str:
    """A probability in percent; one that rounds to all or nothing is told as a bound."""
    percent = 100 * probability
    if percent < 0.1:
        return "<\N{NO-BREAK SPACE}0.1"
    return ">\N{NO-BREAK SPACE}99.9" if percent > 99.9 else numeral(percent, 1)
