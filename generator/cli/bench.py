"""What every command shares: finding the bench, telling faults, and how to stop."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from generator.fault import Fault, count_line, in_order, message

if TYPE_CHECKING:
    from generator.records.bench import Bench

FAULTS = 1
WRONG_USE = 2


def folder_of_bench() -> Path:
    """The bench that the user stands in; says what would do and stops with 2 where there is none."""
    here = Path.cwd()
    if (here / "reports" / "bench.yml").is_file():
        return here
    above = next((each for each in here.parents if (each / "reports" / "bench.yml").is_file()), None)
    if above:
        told = f"The bench is at {above}: go there first."
    else:
        told = "Make one with:  provebook new bench FOLDER --example"
    return wrong_use(f"no reports/bench.yml in this folder, so there is no bench here.\n{told}")


def wrong_use(told: str) -> NoReturn:
    """Say on standard error what is wrong and what would do, and stop with 2."""
    click.echo(f"provebook: {told}", err=True)
    sys.exit(WRONG_USE)


def load_or_stop(folder: Path, *, as_json: bool) -> Bench:
    """Read the records; where they hold faults, tell all of them and stop with 1."""
    from generator.records.bench import load  # noqa: PLC0415

    bench = load(folder)
    if bench.faults:
        tell(bench, as_json=as_json)
        sys.exit(FAULTS)
    return bench


def tell(bench: Bench, *, as_json: bool) -> None:
    """Print every fault and doubt in the order of files and lines, then the count."""
    found = in_order((*bench.faults, *bench.doubts))
    if as_json:
        click.echo(json.dumps(data_of(bench), ensure_ascii=False, indent=2))
        return
    for each in found:
        click.echo(message(each, Path.cwd()), err=True)
    click.echo(count_line(found, bench.left_out), err=bool(bench.faults))


def data_of(bench: Bench) -> dict[str, object]:
    """Faults and doubts as plain data, paths relative to the bench."""
    return {
        "format": 1,
        "records": len(bench.files),
        "left_out": bench.left_out,
        "faults": faults_as_data(bench.faults, bench.root),
        "doubts": faults_as_data(bench.doubts, bench.root),
    }


def faults_as_data(faults: Iterable[Fault], root: Path) -> list[dict[str, object]]:
    """Faults as plain data, in the order of files and lines."""
    return [
        {
            "file": _name(each.place.file, root),
            "line": each.place.line,
            "column": each.place.column,
            "path": each.path,
            "what": each.what,
            "found": each.found,
            "accepted": list(each.accepted),
        }
        for each in in_order(faults)
    ]


def _name(file: Path, root: Path) -> str:
    return file.relative_to(root).as_posix() if file.is_relative_to(root) else str(file)
