"""Makes the demonstration bench anew, readings and editions: `python -m tests.simulator.publish`.

Each edition is published by the program itself, in a folder where the records stand as they did on its day;
only the edition's own file is taken out of it.
"""

from __future__ import annotations

import contextlib
import re
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from click.testing import CliRunner

from generator.cli import main as provebook
from tests.simulator import write
from tests.simulator.editions import EDITIONS, Published
from tests.simulator.write import REPORTS

_DATED = re.compile(r"(?:zero-)?(\d{4}-\d\d-\d\d)")
"""How the name of a file of readings begins."""


def editions(reports: Path) -> dict[str, bytes]:
    """Every edition: path below `reports/` to its file.

    Args:
        reports: The records as they are now; editions among them are not looked at.
    """
    made: dict[str, bytes] = {}
    for report in dict.fromkeys(each.report for each in EDITIONS):
        own = [each for each in EDITIONS if each.report == report]
        before: dict[str, bytes] = {}
        for number, edition in enumerate(own, 1):
            before = published({**as_of(reports, edition, own[number:]), **before}, edition)
        made |= before
    return made


def as_of(reports: Path, edition: Published, later: list[Published]) -> dict[str, bytes]:
    """The records that an edition could rest on, as they stood on its day.

    Args:
        reports: The records as they are now.
        edition: The edition.
        later: The report's editions after it.
    """
    came = {name for each in later for name in each.came}
    files = {
        name: (reports / name).read_bytes()
        for name in _names(reports, edition.report)
        if name not in came and _day(name) <= edition.date
    }
    for change in (change for each in reversed(later) for change in reversed(each.typed)):
        now, before = change.now.encode(), change.before.encode()
        if files[change.file].count(now) != 1:
            raise ValueError(f"{change.file} holds not once what was typed for an edition: {change.now!r}")
        files[change.file] = files[change.file].replace(now, before)
    return files


def _names(reports: Path, report: str) -> Iterator[str]:
    """Files of the bench and of one report, but for what no edition covers."""
    others = {path.parent.name for path in reports.glob("*/report.yml")} - {report}
    for path in sorted(reports.rglob("*")):
        name = path.relative_to(reports)
        beside = name.parts[0] in others or "editions" in name.parts or name.name == "links.yml"
        if path.is_file() and not beside:
            yield name.as_posix()


def _day(name: str) -> str:
    """The day of a file of readings; empty of another."""
    folder, _, stem = name.rpartition("/")
    found = _DATED.match(stem) if folder.rpartition("/")[2] in {"runs", "sittings"} else None
    return found[1] if found else ""


def published(files: dict[str, bytes], edition: Published) -> dict[str, bytes]:
    """The files of a report's editions after one more was published.

    Args:
        files: The records, and the editions before it, below `reports/`.
        edition: The one to publish.
    """
    said = (("--reason", edition.reason), ("--summary", edition.summary), ("--date", edition.date))
    options = [word for option, text in said if text for word in (option, text)]
    with tempfile.TemporaryDirectory() as folder:
        reports = Path(folder) / "reports"
        for name, data in files.items():
            (reports / name).parent.mkdir(parents=True, exist_ok=True)
            (reports / name).write_bytes(data)
        with contextlib.chdir(folder):
            done = CliRunner().invoke(provebook, ["publish", edition.report, *options])
        if done.exit_code != 0:
            raise ValueError(f"{edition.report} was not published on {edition.date}:\n{done.output}")
        folder_of_editions = reports / edition.report / "editions"
        return {
            path.relative_to(reports).as_posix(): path.read_bytes()
            for path in folder_of_editions.glob("*.yml")
        }


def main(reports: Path = REPORTS) -> None:
    """Write the readings, publish all editions, and take away editions that are none any more."""
    write.main(reports)
    wanted = editions(reports)
    for path in reports.glob("*/editions/*.yml"):
        if path.relative_to(reports).as_posix() not in wanted:
            path.unlink()
    for name, data in wanted.items():
        (reports / name).parent.mkdir(exist_ok=True)
        (reports / name).write_bytes(data)
    sys.stdout.write(f"published {len(wanted)} editions under {reports}\n")


if __name__ == "__main__":
    main()
