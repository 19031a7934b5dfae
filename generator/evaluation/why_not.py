"""Why a figure is missing."""

from __future__ import annotations

from typing import Literal

WhyNot = Literal[
    "no-reading-at-mark",
    "no-ambient",
    "no-current",
    "current-outside-tolerance",
    "over-range",
    "under-range",
    "stopped",
    "not-finished",
    "no-run",
    "no-reading",
    "no-accuracy",
    "no-time-constant",
    "no-drop",
    "no-lead",
    "no-temperature",
    "other-method",
    "other-conditions",
    "other-heating",
    "settings-not-recorded",
    "emissivity-too-low",
    "target-too-small",
    "seen-too-slanted",
    "seen-through-a-window",
    "no-such-surface",
    "other-surface",
]
"""Why a figure is missing; each has its words in the page templates."""
