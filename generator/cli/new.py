"""`provebook new`: what a bench begins with."""

from __future__ import annotations

from pathlib import Path

import click

from generator.cli.bench import wrong_use


@click.group(short_help="Begin a bench.")
def new() -> None:
    """Begin something new."""


@new.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), default=Path())
@click.option("--example", is_flag=True, help="Add a method, two instruments, two items and four short runs.")
def bench(*, folder: Path, example: bool) -> None:
    """Make a bench in FOLDER (here, if none is named). Nothing that exists is changed."""
    from generator.intake.new_bench import Occupied, new_bench  # noqa: PLC0415

    try:
        written = new_bench(folder, parts=("bench", "example") if example else ("bench",))
    except Occupied as taken:
        wrong_use(str(taken))
    for each in written:
        click.echo(f"wrote {each.as_posix()}")
    click.echo(f"\nNext:  {_go_to(folder)}provebook check && provebook build")


def _go_to(folder: Path) -> str:
    return "" if folder.resolve() == Path.cwd() else f"cd {folder.as_posix()} && "
