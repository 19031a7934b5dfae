"""One digit of anything that the demo's editions are or rest on: told, in the file where it stands."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from generator.records.bench import load
from tests.history.benches import ROOT, run, tree
from tests.history.test_edited import rewritten

REPORTS = ROOT / "reports"
RUNS_EACH = 6
"""Of the runs each sixth is tried: they are all alike to what looks at them."""

DIGIT = (
    ("instruments/", r"(accuracy: [^\n]*?)(\d)"),
    ("sittings/zero-", r"(\n[^\n]*?)(\d)(?=\n)"),
    ("sittings/", r"(readings: \|\n[^\n]*\n  0[^\n]*?\.|counts: \{\w+: )(\d)"),
    ("/editions/", r"(unrounded: [^\n]*?\d\.\d*)(\d)"),
    ("/runs/", r"(?s)(.*[^#\d][^#\n]*)(\d)(?=[^#\d]*$)"),
    ("methods/", r"(?m)(^(?:apparatus|title|steps|stop-limit|conditions|measures)(?:.|\n)*?[a-z: ])(\d)"),
)
"""A digit of each kind of file that an edition covers: a range's accuracy, a reading, a published figure."""

WITHOUT = ("methods/plug-insertion/1.yml",)
"""Has none, but in comments."""


def covered() -> list[str]:
    """Files below reports/ that an edition is or rests on, of the runs each sixth."""
    bench = load(ROOT)
    names: set[str] = set()
    for report in bench.reports.values():
        for number, edition in report.editions.items():
            names |= {*edition.rests_on, f"{report.id}/editions/{number}.yml"}
    runs = sorted(name for name in names if "/runs/" in name)
    return sorted(names - set(runs) - set(WITHOUT) | set(runs[::RUNS_EACH]))


def other_digit(name: str, text: str) -> str:
    """The text with one digit changed."""
    pattern = next(each for part, each in DIGIT if part in name)
    changed, times = re.subn(pattern, lambda m: f"{m[1]}{(int(m[2]) + 1) % 10}", text, count=1)
    assert times == 1, f"{name} has no digit of its kind"
    return changed


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("published") / "bench"
    shutil.copytree(REPORTS, made / "reports")
    shutil.copy(ROOT / "mkdocs.yml", made)
    return made


@pytest.mark.parametrize("name", covered())
def test_one_digit_is_told_where_it_stands(folder: Path, name: str) -> None:
    file = folder / "reports" / name
    kept = file.read_bytes()
    try:
        file.write_bytes(other_digit(name, kept.decode()).encode())
        told = [each for each in load(folder).faults if each.place.file == file.absolute()]
    finally:
        file.write_bytes(kept)
    assert told, name
    assert any("put it back" in each.what or "fingerprint" in each.what for each in told), name


@pytest.mark.parametrize("command", ["check", "build", "verify"])
@pytest.mark.parametrize(
    "name",
    [
        "fuse-holders-30a/runs/2026-02-24-tessvik-b.yml",
        "methods/closed-box-heating/2.yml",
        "instruments/logger-1.yml",
        "fuse-holders-30a/editions/2.yml",
    ],
)
def test_every_command_that_relies_on_it_refuses(
    folder: Path, name: str, command: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = folder / "reports" / name
    kept = file.read_bytes()
    monkeypatch.chdir(folder)
    try:
        file.write_bytes(other_digit(name, kept.decode()).encode())
        done = run(command)
    finally:
        file.write_bytes(kept)
    assert done.exit_code == 1
    assert f"reports/{name}:" in done.output


def test_how_all_of_it_is_written_is_free(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = tree(folder / "reports")
    monkeypatch.chdir(folder)
    try:
        for name, data in kept.items():
            if name.endswith(".yml"):
                (folder / "reports" / name).write_bytes(rewritten(data))
        done = run("verify")
    finally:
        for name, data in kept.items():
            (folder / "reports" / name).write_bytes(data)
    assert done.exit_code == 0, done.output
