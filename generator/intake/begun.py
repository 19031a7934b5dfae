"""A record that was begun: its text, from a template and the answers, and what a check has against it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from generator.fault import Doubt, Fault
from generator.pages.render import Renderer
from generator.records.bench import load
from generator.records.schemas import FOLDER, line_for
from generator.records.store import write_new
from generator.records.writer import scalar


@dataclass(frozen=True)
class Begun:
    """A record before it is written.

    Attributes:
        root: The folder of the bench.
        path: The file that it is to be.
        text: Its text.
    """

    root: Path
    path: Path
    text: str

    def faults(self) -> tuple[Fault, ...]:
        """What a check of the whole bench would have against this record."""
        found = load(self.root, {self.path: self.text}).faults
        return tuple(each for each in found if each.place.file == self.path and not isinstance(each, Doubt))

    def write(self) -> None:
        """Write it.

        Raises:
            Occupied: Its file exists.
            OSError: The machine does not let it be written.
        """
        write_new({self.path: self.text.encode()})


def begun(root: Path, name: str, template: str, **facts: object) -> Begun:
    """Begin a record.

    Args:
        root: The folder of the bench.
        name: Its file, below reports/.
        template: Below `starters/`; `y` in it writes a text so that it is read back as the same text.
        facts: What the template is given.
    """
    path = root.absolute() / "reports" / name
    text = Renderer(root).text(f"starters/{template}", y=scalar, **facts)
    line = line_for(PurePosixPath("reports", name)) if (root / FOLDER).is_dir() else ""
    return Begun(root.absolute(), path, line + text.strip("\n") + "\n")
