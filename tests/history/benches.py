"""Benches with editions, and commands run in them."""

from __future__ import annotations

import shutil
from pathlib import Path

from click.testing import CliRunner, Result

from generator.cli import main
from generator.intake.new_bench import new_bench

REPORT = "connectors-10a"
EDITIONS = f"reports/{REPORT}/editions"
RUN = f"reports/{REPORT}/runs/2026-01-12-halvenor-a.yml"
ROOT = Path(__file__).parents[2]


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments), catch_exceptions=False)


def published(*arguments: str) -> Result:
    return run("publish", *arguments)


def example(folder: Path) -> Path:
    """A new bench with the example in it."""
    new_bench(folder, ("bench", "example"))
    return folder


def demo(folder: Path) -> Path:
    """A copy of the demo, without editions."""
    shutil.copytree(ROOT / "reports", folder / "reports")
    for editions in folder.glob("reports/*/editions"):
        shutil.rmtree(editions)
    return folder


def edited(path: Path, *changes: tuple[str, str]) -> None:
    """Change texts in a file, each where it stands first."""
    text = path.read_bytes().decode()
    for old, new in changes:
        assert old in text, f"{path.name} has no {old!r}"
        text = text.replace(old, new, 1)
    path.write_bytes(text.encode())


def tree(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
