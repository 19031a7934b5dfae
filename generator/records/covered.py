"""Which part of a file a published edition rests on: that part must stay as it was, and all else may grow.

A run, a version of a method, a photo, a meter's file: the whole. A sitting: what all its runs share, and the
edition's own runs with their columns, so that runs of another report beside them stay a draft. A meter: its
ranges, the channels and probes that read the edition's runs, and the calibrations in force on their days, so
that it may get new probes, checks and calibrations.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, cast

from generator.records.fingerprint import EXCLUDED, Canonical, Row, keys_of

CONTROL = "control"
TIME = "time"

OF_A_METER = ("ranges", "infrared", "channels", "probes")
"""Keys of a meter that editions rest on; of the last two what was used."""


@dataclass(frozen=True)
class Read:
    """What read a column of a run, and when.

    Attributes:
        instrument: Id of the meter.
        channel: Its channel; empty for a meter with one input.
        probe: The probe plugged in; empty without.
        day: ISO date of the run.
    """

    instrument: str
    channel: str
    probe: str
    day: str


def of_sitting(content: Canonical, owners: Iterable[str]) -> Canonical:
    """What some runs of a sitting rest on.

    Args:
        content: The sitting.
        owners: Keys of the runs, `okvarn-ih30:A` or `control`.
    """
    own, whole = frozenset(owners), keys_of(content)
    found = {key: _of_owners(each, own) for key, each in whole.items()}
    found["runs"] = {key: each for key, each in keys_of(whole.get("runs", {})).items() if key in own}
    if "zero-check" in whole:
        found["zero-check"] = _zero_check(keys_of(whole["zero-check"]), own)
    if "originals" in whole:
        found["originals"] = _originals(whole["originals"], own)
    return found


def _zero_check(content: dict[str, Any], own: frozenset[str]) -> Canonical:
    found = {key: _of_owners(each, own) for key, each in content.items()}
    columns = content.get("columns")
    if isinstance(columns, list):
        found["columns"] = [each for each in columns if _owner(str(each)) in {"", *own}]
    return found


def _originals(content: Canonical, own: frozenset[str]) -> Canonical:
    """The meters' files that hold a shared column or one of those runs."""
    files = [keys_of(each) for each in content] if isinstance(content, list) else []
    return [
        each
        for each in files
        if any(_owner(str(label)) in {"", *own} for label in keys_of(each.get("columns", {})).values())
    ]


def _of_owners(content: Any, own: frozenset[str]) -> Canonical:
    is_table = isinstance(content, list) and bool(content) and all(isinstance(row, list) for row in content)
    return [row for _, row in of_table(enumerate(content), own)] if is_table else content


def of_table(numbered: Iterable[tuple[int, Row]], owners: Iterable[str]) -> Sequence[tuple[int, Row]]:
    """The shared columns of a sitting's table and those of some runs, in the rows in which these were read.

    Args:
        numbered: Its rows with their numbers, the header first.
        owners: As of `of_sitting`.
    """
    known, own = list(numbered), {"", *owners}
    heads = known[0][1] if known else []
    kept = [number for number, head in enumerate(heads) if _owner(str(head)) in own]
    read = [number for number in kept if str(heads[number]).partition(" ")[0] != TIME]
    found = []
    for number, row in known:
        if any(at < len(row) and row[at] not in ("", None) for at in read):
            ending = [each for each in row if isinstance(each, dict) and EXCLUDED in each]
            cells = [row[at] for at in kept if at < len(row) - len(ending)]
            found.append((number, [*cells, *ending]))
    return found


def _owner(label: str) -> str:
    """Whose a column of a sitting is; empty for a shared one."""
    base = label.partition(" ")[0].partition("@")[0]
    return base if ":" in base or base == CONTROL else ""


def of_instrument(content: Canonical, reads: Iterable[Read]) -> Canonical:
    """What some runs rest on of the meter that read them.

    Args:
        content: The instrument.
        reads: What of it read them, and when.
    """
    whole, known = keys_of(content), tuple(reads)
    found: dict[str, Canonical] = {key: whole[key] for key in OF_A_METER[:2] if key in whole}
    for key, used in (
        ("channels", {each.channel for each in known}),
        ("probes", {each.probe for each in known}),
    ):
        if parts := {name: each for name, each in keys_of(whole.get(key, {})).items() if name in used}:
            found[key] = parts
    if done := _in_force(whole.get("calibrations"), {each.day for each in known}):
        found["calibrations"] = done
    return found


def _in_force(calibrations: Canonical | None, days: Iterable[str]) -> list[Canonical]:
    """The calibrations in force on some days, each once, in the order of the record."""
    done = [keys_of(each) for each in calibrations] if isinstance(calibrations, list) else []
    dates = [str(each.get("date", "")) for each in done]
    found = {
        max(range(len(done)), key=lambda at: (dates[at] <= day, dates[at], at))
        for day in days
        if any(date <= day for date in dates)
    }
    return [cast(Canonical, done[at]) for at in sorted(found)]
