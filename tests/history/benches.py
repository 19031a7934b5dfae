"""Benches with editions, and commands run in them."""

from __future__ import annotations

import contextlib
import shutil
from pathlib import Path

from click.testing import CliRunner, Result

from generator.cli import main
from generator.intake.new_bench import new_bench
from tests.pages import shelf

REPORT = "connectors-10a"
EDITIONS = f"reports/{REPORT}/editions"
RUN = f"reports/{REPORT}/runs/2026-01-12-halvenor-a.yml"
FIRST_RUNS = (
    "2026-01-12-halvenor-a",
    "2026-01-13-halvenor-b",
    "2026-01-12-quorsby-a",
    "2026-01-13-quorsby-b",
)
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


def amended(folder: Path) -> Path:
    """A bench of two reports: one corrected and reworded, one tested anew and withdrawn.

    Editions by day: 1 February, connectors 1; 12 March, grey lever 1; 20 March, connectors 2, a correction;
    2 April, grey lever 2, a retest with a new run; 3 April, connectors 3, of wording; 5 May, grey lever 3,
    withdrawn.
    """
    shelf.write(folder)
    with contextlib.chdir(folder):
        first, grey = folder / f"reports/{REPORT}/report.yml", folder / "reports/grey-lever"
        edited(first, ("runs: all", f"runs: [{', '.join(FIRST_RUNS)}]"))
        _done(REPORT, "--date", "2026-02-01")
        _done("grey-lever", "--date", "2026-03-12")
        edited(first, (f", {FIRST_RUNS[-1]}]", "]"), ("choice: halvenor-c2", "choice: quorsby-q2"))
        _done(REPORT, "--date", "2026-03-20", "--reason", "correction", "--summary", "A probe had come off.")
        later = shelf.heating("halvenor-c2", "E", 31.0, date="2026-04-01")
        (grey / "runs/halvenor-e.yml").write_text(later, encoding="utf-8")
        _done(
            "grey-lever", "--date", "2026-04-02", "--reason", "retest", "--summary", "A third & <last> piece."
        )
        edited(first, ("cold hands", "wet hands"))
        _done(REPORT, "--date", "2026-04-03", "--reason", "wording", "--summary", "Hands may be wet.")
        _done(
            "grey-lever", "--date", "2026-05-05", "--reason", "withdrawal", "--summary", "The lever is gone."
        )
    return folder


def _done(*arguments: str) -> None:
    result = published(*arguments)
    assert result.exit_code == 0, result.output
