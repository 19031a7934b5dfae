"""`provebook schema`: JSON Schemas, by which an editor completes and underlines records."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

import click

from generator.cli.bench import folder_of_bench


@click.command(short_help="Write JSON Schemas, for editors.")
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), required=False)
@click.option(
    "--of", "name", metavar="TYPE", help="Print the schema of one type of record, and write nothing."
)
def schema(*, folder: Path | None, name: str | None) -> None:
    """Write the JSON Schema of each type of record into FOLDER (schemas/ of the bench, if none is named).

    Files of these names are written anew; do so after each new version of provebook.
    """
    from generator.records.schemas import FOLDER, NAMES, line_for, schema_files, schema_text  # noqa: PLC0415

    if name is not None:
        kinds = {each: kind for kind, each in NAMES.items()}
        if name not in kinds:
            known = ", ".join(kinds)
            raise click.BadParameter(
                f"there is no type of record '{name}'; there are: {known}", param_hint="--of"
            )
        click.echo(schema_text(kinds[name]), nl=False)
        return
    into = folder_of_bench() / FOLDER if folder is None else folder
    into.mkdir(parents=True, exist_ok=True)
    for file, content in schema_files().items():
        (into / file).write_bytes(content)
        click.echo(f"wrote {(into / file).as_posix()}")
    if folder is None:
        click.echo("\nAn editor finds the schema of a record by its first line, as in an item:")
        click.echo(f"  {line_for(PurePosixPath('reports/items/okvarn-ih30.yml'))}", nl=False)
