"""The sheet of 2021: what the same products came to in the same box, by a kitchen probe that nobody checked.

The pieces, the probe and its errors are drawn like all others; the figures are written in whole degrees and
whole newtons, and how far off they may be is not known to the bench.
"""

from __future__ import annotations

from dataclasses import dataclass

from tests.simulator.bench import GRIPS
from tests.simulator.meters import Accuracy
from tests.simulator.populations import CLAMP, SEED, VOLTMETER, place
from tests.simulator.pull import pulled
from tests.simulator.rig import Plan, Rig

NAME = "older/2021-spreadsheet.yml"

PROBE = Accuracy(share=0.01, fixed=2.0, resolution=1.0, noise=0.3)
LUGGAGE_SCALE = Accuracy(share=0.03, fixed=5.0, resolution=1.0, noise=2.0)
KITCHEN = Rig(SEED, PROBE, CLAMP, VOLTMETER, calibrated="never")


@dataclass(frozen=True)
class Heated:
    """A row of the sheet: a piece that was heated.

    Attributes:
        date: As far as the sheet tells it.
        item: Id of the item.
        air: Temperature of the room at the start, °C.
        minutes: When it was read.
        published: Where it was first told; empty where it was not.
    """

    date: str
    item: str
    air: float
    minutes: int
    published: str = ""

    @property
    def rise(self) -> float:
        """What the probe showed less what it had shown at the start, K."""
        plan = Plan(f"sheet-{self.date}-{self.item}", (0, self.minutes), self.air, 0.5)
        body = KITCHEN.heat(plan, (place(self.item, "sheet", "K1"),)).bodies[0]
        return float(body[-1] - body[0])


HEATED = (
    Heated("2021", "tessvik-t30", 20.0, 60),
    Heated("2021-05", "okvarn-ih30", 21.0, 60, "first video, at 6:40"),
    Heated("2021-05", "pallsto-f30", 21.0, 45, "first video, at 8:15"),
)
PULLED = ("2021-06-12", "pallsto-f30")


def sheet() -> str:
    """The batch as it stands in the bench."""
    heads = ["date", "item", "measure", "value", "±", "air_degC", "minutes", "pieces", "meter", "published"]
    rows = [[head.replace("_", " ") for head in heads]]
    for each in HEATED:
        told = [each.date, each.item, "rise", f"{each.rise:.0f} K", "unknown", f"{each.air:.0f}"]
        rows.append([*told, str(each.minutes), "1", "kitchen probe", each.published])
    date, item = PULLED
    force = pulled(SEED, item, "sheet", GRIPS[item], LUGGAGE_SCALE).shown
    rows.append([date, item, "pull", f"{force:.0f} N", "unknown", "", "", "1", "luggage scale", ""])
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = [" | ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in rows]
    return "\n".join(
        [
            "title: From my spreadsheet of 2021",
            "method: The same box at 30 A, the probe under tape; the meters were never checked",
            "results: |",
            *(f"  {line.rstrip()}" for line in lines),
            "",
        ]
    )
