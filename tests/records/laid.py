"""The good bench, copied and changed: what the tests of rules and of loading begin with."""

from __future__ import annotations

import shutil
from pathlib import Path

from generator.fault import Fault
from generator.records.bench import Bench, load

GOOD = Path(__file__).parent / "good"
REPORT = "2026-fuse-holders"
RUN = f"{REPORT}/runs/okvarn-a.yml"
SITTING = "sittings/2026-03-09.yml"
EDITION = f"{REPORT}/editions/1.yml"


def laid(folder: Path, files: dict[str, str | None] | None = None) -> Bench:
    """Load the good bench with files added, replaced or (None) taken away; paths below reports/."""
    bench = folder / "bench"
    shutil.copytree(GOOD, bench)
    for name, text in (files or {}).items():
        path = bench / "reports" / name
        if text is None:
            path.unlink()
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
    return load(bench)


def good(name: str, *changes: tuple[str, str]) -> str:
    """The text of a file of the good bench, changed."""
    text = (GOOD / "reports" / name).read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, f"{name} has no {old!r}"
        text = text.replace(old, new)
    return text


def changed(folder: Path, name: str, *changes: tuple[str, str]) -> Bench:
    """Load the good bench with one file changed."""
    return laid(folder, {name: good(name, *changes)})


def whats(found: tuple[Fault, ...]) -> list[str]:
    """Path and words of each."""
    return [f"{each.path}: {each.what}" for each in found]
