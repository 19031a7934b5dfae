"""`provebook verify FILE.zip`: a downloaded edition, where no bench is."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from generator.cli.bench import FAULTS, near, refused, wrong_use
from generator.fault import message, shown


def is_parcel(name: str) -> bool:
    """Whether what was given names a file: an id of a report has no such sign in it."""
    return any(sign in name for sign in "./\\")


def verify_parcel(name: str) -> None:
    """Tell what was found of a downloaded edition; ends with 1 where it is not as it was published."""
    from generator import __version__  # noqa: PLC0415
    from generator.cli.versions import deciding  # noqa: PLC0415
    from generator.history.parcel.archive import Unsound, unpacked  # noqa: PLC0415
    from generator.history.parcel.looked import looked  # noqa: PLC0415
    from generator.history.past import told_program  # noqa: PLC0415
    from generator.pages.locate import templates  # noqa: PLC0415
    from generator.pages.parcel_tables import other_cells  # noqa: PLC0415
    from generator.pages.render import Renderer  # noqa: PLC0415

    path = Path(name)
    renderer = Renderer(templates())  # never words that come with the parcel, or of the folder one stands in
    try:
        files = unpacked(path)
        found, whole = looked(files)
    except OSError as error:
        wrong_use(refused(error))
    except Unsound as error:
        told = renderer.text("text/unsound.txt.jinja", file=near(path), why=error.why, entry=error.name)
        click.echo(_plain(told), nl=False, err=True)
        sys.exit(FAULTS)
    cells = other_cells(files, found.finding, whole[1]) if whole and found.finding else ()
    told = renderer.text(
        "text/verify_parcel.txt.jinja",
        found=found,
        file=near(path),
        files=len(files),
        cells=cells,
        faults=[message(each, Path()) for each in found.alone.faults],
        settings=whole[0].settings if whole else None,
        question=whole[1].record.question if whole else "",
        here=told_program(__version__, deciding()),
    )
    click.echo(_plain(told), nl=False)
    if cells or not found.holds:
        sys.exit(FAULTS)


def _plain(text: str) -> str:
    """The same without what a terminal would act on: the parcel may be a stranger's."""
    return "".join(f"{shown(line)}\n" for line in text.splitlines())
