"""The command line. Exit codes: 0 fine, 1 faults in the records, 2 wrong use.

Commands import what they need inside their functions, so that `--help` and a typing error answer at once.
"""

from __future__ import annotations

import errno

import click

from generator import __version__
from generator.cli.bench import FAULTS, refused, wrong_use
from generator.cli.build import build, serve
from generator.cli.check import check
from generator.cli.correct import correct
from generator.cli.explain import explain
from generator.cli.history import history, verify
from generator.cli.import_ import import_
from generator.cli.new import new
from generator.cli.plan import plan
from generator.cli.publish import publish
from generator.cli.results import results
from generator.cli.schema import schema
from generator.cli.streams import take_every_sign
from generator.cli.strip import strip
from generator.fault import RecordsRefused, count_line, message

_MACHINE = {
    getattr(errno, name)
    for name in ("EACCES", "EPERM", "EROFS", "ENOSPC", "EDQUOT", "ENOTDIR", "EISDIR", "EEXIST", "EIO")
    if hasattr(errno, name)
}
"""What a machine refuses for its own reasons; all else is a fault of the program and keeps its traceback."""


class Commands(click.Group):
    """The commands; a file or folder that the machine refuses ends each of them with a message."""

    def invoke(self, ctx: click.Context) -> object:
        """Run the command that was named."""
        try:
            return super().invoke(ctx)
        except OSError as error:
            if error.errno in _MACHINE:
                wrong_use(refused(error))
            raise
        except RecordsRefused as no:  # a bench's own template, found as its words were wanted
            faults = [message(each, no.root) for each in no.faults]
            click.echo("\n".join([*faults, count_line(no.faults, no.left_out)]), err=True)
            ctx.exit(FAULTS)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="provebook")
def main() -> None:
    """Published test reports from YAML records of bench tests.

    Stand in the folder of your bench (the one that holds mkdocs.yml and reports/).
    Without one yet, begin with: provebook new bench FOLDER --example
    """
    take_every_sign()


for _command in (
    new,
    check,
    build,
    serve,
    import_,
    results,
    explain,
    plan,
    publish,
    correct,
    history,
    verify,
    strip,
    schema,
):
    main.add_command(_command)
