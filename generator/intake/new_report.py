"""A report begun: a question, items, and the measures that answer it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.intake.begun import Begun, begun


@dataclass(frozen=True)
class NewReport:
    """What a person said of a report.

    Attributes:
        id: Its id.
        question: Its question.
        initiative: On whose initiative.
        methods: The methods, `heating-30-a/1`; the first has the main measure.
        main: The measure that answers the question.
        measures: The measures shown.
        items: The items compared.
    """

    id: str
    question: str
    initiative: str
    methods: tuple[str, ...]
    main: str
    measures: tuple[str, ...]
    items: tuple[str, ...]


def new_report(root: Path, report: NewReport) -> Begun:
    """Begin the record of a report."""
    return begun(root, f"{report.id}/report.yml", "report.yml.jinja", report=report)
