"""`provebook strip`: originals of photos without the place, the serial numbers and the names in them."""

from __future__ import annotations

from pathlib import Path

import click

from generator.cli.bench import folder_of_bench, near, wrong_use


@click.command(short_help="Take places, serial numbers and names out of photos.")
@click.argument(
    "photos", nargs=-1, required=True, type=click.Path(exists=True, dir_okay=False, path_type=Path)
)
def strip(*, photos: tuple[Path, ...]) -> None:
    """Write each of PHOTOS anew, in place: the same picture, upright, and nothing else in its file.

    The site never shows what an original tells besides its picture. This is for the originals, which go
    along when the records are shared or kept in git. Keep a copy elsewhere first where you may want it.
    """
    from generator.photos.original import PhotoRefused  # noqa: PLC0415
    from generator.photos.private import stripped  # noqa: PLC0415
    from generator.records.bench import load  # noqa: PLC0415
    from generator.records.store import Write, write_all  # noqa: PLC0415

    bench = load(folder_of_bench())
    published = {
        bench.root / "reports" / name
        for report in bench.reports.values()
        for edition in report.editions.values()
        for name in edition.rests_on
    }
    writes = []
    for path in photos:
        whole = path.resolve()
        if whole in published:
            wrong_use(f"{near(whole)} is published, and an edition keeps it as it is; nothing was written.")
        before = path.read_bytes()
        try:
            writes.append(Write(whole, stripped(before), before))
        except PhotoRefused as refused:
            wrong_use(f"{near(whole)}: {refused.what}; nothing was written.")
    write_all(writes)
    for write in writes:
        click.echo(f"Wrote {near(write.path)}, the picture alone.")
