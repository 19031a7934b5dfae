"""What every `provebook new` ends with: the record in its place, and what comes next."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.cli.bench import FAULTS, near, refused, wrong_use
from generator.fault import message

if TYPE_CHECKING:
    from collections.abc import Iterable

    from generator.cli.new.asking import Asker
    from generator.intake.begun import Begun
    from generator.intake.offers import Offers
    from generator.intake.taking import Check


def day(check: Check) -> Check:
    """A check of a date that takes the word `today`, too."""
    return lambda answer: date.today().isoformat() if answer == "today" else check(answer)  # noqa: DTZ011


def read(folder: Path) -> Offers:
    """What the bench offers; says so where some records are at fault."""
    from generator.intake.offers import offers  # noqa: PLC0415

    found = offers(folder)
    if found.unread:
        click.echo("Some records here are at fault and are not offered; see: provebook check", err=True)
    return found


def write(begun: Begun, after: Iterable[str]) -> None:
    """Write a record if a check has nothing against it, and say what comes next."""
    from generator.records.store import Occupied  # noqa: PLC0415

    faults = begun.faults()
    if faults:
        for each in faults:
            click.echo(message(each, Path.cwd()), err=True)
        click.echo("Nothing was written.", err=True)
        sys.exit(FAULTS)
    name = near(begun.path)
    try:
        begun.write()
    except Occupied:
        wrong_use(f"{name} exists already, and nothing is written over it.")
    except OSError as error:
        wrong_use(f"nothing was written: {refused(error)}")
    click.echo(f"wrote {name}\n\nNext:")
    for line in after:
        click.echo(f"  {line}")


def name_of(asker: Asker, made: str, check: Check) -> str:
    """The id of a new record, as made from its names or as the person wants it."""
    from generator.cli.new.asking import Question  # noqa: PLC0415

    if asker.lacks and not made:
        return ""
    text = "Its id, which is its file's name and stands in its address for ever?"
    return asker.ask(Question("--id", text, "okvarn-ih30", default=made, check=check))
