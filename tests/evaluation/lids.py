"""A small bench of openings: a count and a question, on disk."""

from __future__ import annotations

from pathlib import Path

from tests.evaluation.small import Small

METHOD = """\
title: Opening by hand
hazard: [mechanical]
measures:
  - {id: opened, kind: count, what: openings after which the lid did not hold}
  - {id: by-hand, kind: check, question: "Does it open by hand when hot?", good: "%s"}
cannot-show: [vibration]
"""
REPORT = """\
question: Which opens?
initiative: own
main: opened
measures: [opened, by-hand]
items: [%s]
controls: [%s]
runs: all
"""


class Lids(Small):
    """A bench of openings."""

    def __init__(self, root: Path) -> None:
        super().__init__(root)
        self.report = REPORT
        self.write("methods/open/1.yml", METHOD % "no")

    def look(self, item: str, specimen: str, *said: str, day: int = 1, version: int = 1) -> None:
        """One run: `counts: …` and `observations: …` as typed."""
        self.count += 1
        self.items.setdefault(item, set()).add(specimen)
        head = (
            f"method: open/{version}",
            f"item: {item}",
            f"specimen: {specimen}",
            f"date: 2026-03-{day:02}",
        )
        self.write(f"r/runs/run-{self.count:03}.yml", "\n".join((*head, *said)) + "\n")
