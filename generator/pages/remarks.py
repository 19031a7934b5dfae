"""What must be said of a row beside its figure, as facts; the templates have a mark and words for each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.charts.groups import Group
from generator.charts.rows import Bar
from generator.pages.alone import amount, amounts
from generator.pages.format import Both, Span
from generator.pages.older import OlderView

FEW = 3
"""So many names are told; of more, how many they are."""

RemarkCode = Literal[
    "alike", "single", "kept", "some", "over", "others", "worsening", "still-rising", "warming", "stock",
    "retested", "corrected", "older",
]  # fmt: skip


@dataclass(frozen=True)
class Remark:
    """One remark.

    Attributes:
        code: What it says.
        names: Items that it names.
        count: How many things it speaks of.
        of: Of how many, where these are some of them; else 0.
        value: A figure that it tells.
        span: Figures that it tells, from and to.
        older: The newest result from before; `count` more stand behind it.
        beside: Whether that stands beside a newer figure.
    """

    code: RemarkCode
    names: tuple[str, ...] = ()
    count: int = 0
    of: int = 0
    value: Both | None = None
    span: Span | None = None
    older: OlderView | None = None
    beside: bool = False


def remarks(
    bar: Bar, group: Group, unit: str, names: Mapping[str, str], older: Sequence[OlderView] = ()
) -> tuple[Remark, ...]:
    """What must be said of a row.

    Args:
        bar: The row.
        group: Its group: what its heading says of all its rows is not said again.
        unit: Of the measure.
        names: Names of all items by id.
        older: Its results from before, the newest first.
    """
    return tuple(_remarks(bar, group, unit, names, older))


def _remarks(
    bar: Bar, group: Group, unit: str, names: Mapping[str, str], older: Sequence[OlderView]
) -> Iterator[Remark]:
    here = {row.item for row in group.rows} if group.untold else set()
    alike = [names[item] for item in bar.alike if item not in here]
    if alike:
        yield Remark("alike", tuple(alike) if len(alike) <= FEW else (), len(alike))
    yield from _of_its_pieces(bar, group)
    if bar.figure is None:
        yield from _without_mean(bar, group, unit)
    for state in bar.states:
        if state in {"worsening", "still-rising"}:
            yield Remark(state)
    if bar.warming:
        yield Remark("warming")
    if bar.earlier is not None:
        yield Remark(bar.earlier.kind, count=bar.earlier.n, value=amount(bar.earlier.value, unit))
    if older:
        yield Remark("older", count=len(older) - 1, older=older[0], beside=group.code != "older")


def _of_its_pieces(bar: Bar, group: Group) -> Iterator[Remark]:
    if bar.meter_only:
        yield Remark("single")
    if group.code == "single" and bar.outcome == "within":
        yield Remark("kept")
    if group.code == "beyond" and 0 < bar.beyond < bar.of:
        yield Remark("some", count=bar.beyond, of=bar.of)


def _without_mean(bar: Bar, group: Group, unit: str) -> Iterator[Remark]:
    if len(bar.pieces) == 1:
        yield Remark("others", count=1, value=amount(bar.pieces[0], unit))
    elif bar.pieces:
        yield Remark("others", count=len(bar.pieces), span=amounts(bar.pieces[0], bar.pieces[-1], unit))
    if bar.outcome == "beyond" and group.code != "beyond":
        yield Remark("over")
