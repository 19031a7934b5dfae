"""What every command shares: finding the bench, telling faults, and how to stop."""

from __future__ import annotations

import errno
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from generator.cli.streams import print_data
from generator.fault import Fault, count_line, in_order, message

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report

FAULTS = 1
WRONG_USE = 2

SETTINGS = "reports/bench.yml"

NO_REPORT = """No report yet. Begin with:  provebook new method, then instrument, item, report and run.
To see a whole one:  provebook new bench FOLDER --example"""
"""What a bench without a report is told: nothing is wrong, and what comes next."""

NO_READINGS = "No report has readings yet."
"""What a bench is told whose reports all wait; a doubt says what for."""


def folder_of_bench() -> Path:
    """The bench that the user stands in; says what would do and stops with 2 where there is none."""
    try:
        here = Path.cwd()
    except FileNotFoundError:
        return wrong_use("this folder is not there any more; go to another one.")
    if (here / SETTINGS).is_file():
        _finish(here / "reports")
        return here
    return wrong_use(f"no {SETTINGS} in this folder, so there is no bench here.\n{_instead(here)}")


def _finish(reports: Path) -> None:
    """Finish what a command was stopped over, and say so; stops with 2 where the machine does not let it."""
    from generator.records.together import NoList, finish  # noqa: PLC0415

    try:
        count = finish(reports)
    except NoList as none:
        wrong_use(f"{near(none.path)} is no list of files that a command was stopped over; take it away.")
    except OSError as error:
        wrong_use(f"a command was stopped before all of its files were written: {refused(error)}")
    if count:
        click.echo(f"A command was stopped over its {count} files; they are written now.", err=True)


_NEARLY = {"bench.yml", "bench.yaml", "bench.yml.txt", "bench.yaml.txt"}


def _instead(here: Path) -> str:
    """What would do where there is no bench."""
    if (here / SETTINGS).is_symlink() or (here / SETTINGS).exists():
        return "What is there under that name is no file: put a text file in its place."
    misspelt = [each.name for each in (here / "reports").glob("*") if each.name.lower() in _NEARLY]
    if misspelt:
        return f"There is reports/{min(misspelt)}: rename it to bench.yml."
    above = next((each for each in here.parents if (each / SETTINGS).is_file()), None)
    if above:
        return f"The bench is at {above}: go there first."
    return "Make one with:  provebook new bench FOLDER --example"


def without_report(folder: Path) -> str:
    """What is told of a bench that has no report to show."""
    begun = any((folder / "reports").glob("*/report.yml"))
    return NO_READINGS if begun else NO_REPORT


def wrong_use(told: str) -> NoReturn:
    """Say on standard error what is wrong and what would do, and stop with 2."""
    click.echo(f"provebook: {told}", err=True)
    sys.exit(WRONG_USE)


def refused(error: OSError) -> str:
    """What the machine would not do, with the file: `permission denied: site/index.html`."""
    why = (error.strerror or str(error)).lower()
    if error.errno in {errno.EEXIST, errno.ENOTDIR}:
        why = "a file is in the way"
    return f"{why}: {near(Path(str(error.filename)))}" if error.filename else why


def near(path: Path) -> str:
    """A path as it is shortest to a person who stands in the bench."""
    here = Path.cwd()
    return path.relative_to(here).as_posix() if path.is_relative_to(here) else str(path)


def load_or_stop(folder: Path, *, as_json: bool) -> Bench:
    """Read and check the records; where they hold faults, tell all of them and stop with 1."""
    from generator.evaluation.checks import checked  # noqa: PLC0415
    from generator.records.bench import load  # noqa: PLC0415

    bench = checked(load(folder))
    if bench.faults:
        tell(bench, as_json=as_json)
        sys.exit(FAULTS)
    return bench


def report_or_stop(bench: Bench, report: str | None, command: str) -> Report:
    """The report of an id; says which there are and stops with 2 where there is none of it.

    Args:
        bench: The records.
        report: Its id as given; None where none was.
        command: What it was given to.
    """
    if report in bench.reports:
        return bench.reports[report]
    known = ", ".join(sorted(bench.reports)) or "none yet"
    asked = f"which report? write its id behind `{command}`"
    return wrong_use(
        f"{asked if report is None else f'no report {report!r} here'}; reports of this bench: {known}"
    )


def tell(bench: Bench, *, as_json: bool) -> None:
    """Print every fault and doubt in the order of files and lines, then the count."""
    found = in_order((*bench.faults, *bench.doubts))
    if as_json:
        print_data(data_of(bench))
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
