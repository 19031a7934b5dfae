"""Surfaces that infra-red meters looked at: bare ones that differ are not compared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.evaluation.conditions import plainly
from generator.evaluation.reduced import Reduced

if TYPE_CHECKING:
    from generator.records.run import Run


def on_like_surfaces(runs: Sequence[tuple[Run, Reduced]]) -> list[tuple[Run, Reduced]]:
    """The runs as they may stand side by side.

    Where what infra-red meters saw differs, a run on a bare surface is shown and not compared: how far its
    emissivity is off is its own. Coats have known ones; what a probe touched has none.
    """
    seen = [run for run, reduced in runs if reduced.number is not None and reduced.seen is not None]
    kinds = {plainly(run.infrared.surface.text) for run in seen if run.infrared is not None}
    if len(kinds) < 2:
        return list(runs)
    return [(run, _apart(reduced) if run in seen and _bare(run) else reduced) for run, reduced in runs]


def _bare(run: Run) -> bool:
    return run.infrared is not None and not run.infrared.surface.coated


def _apart(reduced: Reduced) -> Reduced:
    return replace(reduced, number=None, points=(), why_not="other-surface")
