"""The command line. Exit codes: 0 fine, 1 faults in the records, 2 wrong use.

Commands import what they need inside their functions, so that `--help` and a typing error answer at once.
"""

from __future__ import annotations

import click

from generator import __version__
from generator.cli.build import build, serve
from generator.cli.check import check
from generator.cli.new import new
from generator.cli.results import results


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="provebook")
def main() -> None:
    """Published test reports from YAML records of bench tests.

    Stand in the folder of your bench (the one that holds mkdocs.yml and reports/).
    Without one yet, begin with: provebook new bench FOLDER --example
    """


for _command in (new, check, build, serve, results):
    main.add_command(_command)
