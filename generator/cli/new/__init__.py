"""`provebook new`: a bench, and the records that it is made of.

Every command asks what it cannot know, one question a fact; each question is an option too, so that a script
is asked nothing. What can be left out is asked only where no option is given.
"""

from __future__ import annotations

import click

from generator.cli.new.bench import bench
from generator.cli.new.instrument import instrument
from generator.cli.new.item import item
from generator.cli.new.method import method
from generator.cli.new.report import report
from generator.cli.new.run import run
from generator.cli.new.sitting import sitting


class InOrder(click.Group):
    """Lists its commands in the order in which a bench needs them."""

    def list_commands(self, _: click.Context) -> list[str]:
        """The commands in that order."""
        return list(self.commands)


@click.group(cls=InOrder, short_help="Begin a bench, or a record in it.")
def new() -> None:
    """Begin a bench, or a record in it: the questions come one by one, and nothing that exists is changed."""


for _command in (bench, method, instrument, item, report, run, sitting):
    new.add_command(_command)
