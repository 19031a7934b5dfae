"""`provebook new bench`: the folder that everything stands in."""

from __future__ import annotations

import re
from pathlib import Path

import click

from generator.cli.bench import refused, wrong_use


@click.command(short_help="Make a bench: the folder of your records.")
@click.argument("folder", type=click.Path(path_type=Path), default=Path())
@click.option("--example", is_flag=True, help="Add a method, two instruments, two items and four short runs.")
def bench(*, folder: Path, example: bool) -> None:
    """Make a bench in FOLDER (here, if none is named). Nothing that exists is changed."""
    from generator.intake.new_bench import Occupied, new_bench  # noqa: PLC0415

    try:
        written = new_bench(folder, parts=("bench", "example") if example else ("bench",))
    except Occupied as taken:
        wrong_use(f"{taken}\nName another folder, or a new one.")
    except OSError as error:
        wrong_use(f"nothing was written: {refused(error)}\nName a folder that is yours to write in.")
    for each in written:
        click.echo(f"wrote {each.as_posix()}")
    here = folder.resolve() == Path.cwd()
    click.echo("\nNext:")
    next_ones = ("provebook check", "provebook build") if example else (_YOURSELF, "provebook new method")
    for line in (*(() if here else (f"cd {_typed(folder)}",)), *next_ones):
        click.echo(f"  {line}")


_YOURSELF = "say who you are in reports/bench.yml and mkdocs.yml"


def _typed(folder: Path) -> str:
    """The folder as a shell takes it: in quotes where it holds a space or the like."""
    name = folder.as_posix()
    name = f"./{name}" if name.startswith("-") else name
    return name if re.fullmatch(r"[\w./:~-]+", name) else f'"{name}"'
