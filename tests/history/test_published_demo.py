"""One digit of anything that the demo's editions are or rest on: told, in the file where it stands."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.records.bench import load
from tests.history.benches import ROOT, run, tree
from tests.history.otherwise import TABLES, Quotes, quoted, turned

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


@pytest.fixture
def bench(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The same to write in, put back after each test."""
    kept = tree(folder / "reports")
    monkeypatch.chdir(folder)
    yield folder
    for name, data in kept.items():
        (folder / "reports" / name).write_bytes(data)


COMMANDS = ("check", "build", "verify")
FUSES = "fuse-holders-30a"


@pytest.mark.parametrize(
    ("name", "was", "now", "key"),
    [
        (f"{FUSES}/runs/2026-02-24-tessvik-b.yml", r"(\n  30 .*?\.)\d", r"\g<1>9", "readings"),
        (f"{FUSES}/runs/2026-08-19-okvarn-g-2.yml", r"0\.85\"", r'0.86"', "infrared"),
        ("methods/closed-box-heating/2.yml", r"stop-limit: 110", "stop-limit: 111", "stop-limit"),
        ("instruments/clamp-2.yml", r"D-2025-1187", "D-2025-1188", "calibrations"),
        (f"{FUSES}/editions/2.yml", r'value: "74\.0"', 'value: "73.0"', "figures"),
        (f"{FUSES}/editions/3.yml", r"4\.90 EUR", "4.91 EUR", "content.items.okvarn-ih30.specimens"),
        ("sittings/zero-2026-03-04.csv", r"(\n[^\n]*\.)\d(?=\n)", r"\g<1>9", ""),
    ],
)
def test_every_command_that_relies_on_it_names_the_place(
    bench: Path, name: str, was: str, now: str, key: str
) -> None:
    file = bench / "reports" / name
    text = file.read_bytes().decode()
    other = re.sub(was, now, text, count=1)
    assert other != text
    file.write_bytes(other.encode())
    for command in COMMANDS:
        done = run(command)
        assert done.exit_code == 1, command
        assert re.search(rf"reports/{name}:\d+:\d+: {re.escape(key)}", done.output), (command, done.output)
        assert "put it back" in done.output
    assert not (bench / "site").exists()


def test_how_all_of_it_is_written_is_free(bench: Path) -> None:
    """Turned round and in other quotes; a digit on top of that is told all the same."""
    for name, data in tree(bench / "reports").items():
        if name.endswith(".yml"):
            (bench / "reports" / name).write_bytes(quoted(turned(data), "double"))
        elif name.endswith(".csv"):
            (bench / "reports" / name).write_bytes(TABLES["semicolons"](TABLES["CRLF"](data)))
    for command in COMMANDS:
        done = run(command)
        assert done.exit_code == 0, (command, done.output)
    shutil.rmtree(bench / "site")
    file = bench / "reports" / FUSES / "runs/2026-02-24-tessvik-b.yml"
    file.write_bytes(file.read_bytes().replace(b'"specimen": "B"', b'"specimen": "C"'))
    done = run("check")
    assert done.exit_code == 1
    assert "tessvik-b.yml:" in done.output


@pytest.mark.parametrize("quotes", ["plain", "single", "double"])
def test_the_quotes_of_texts_and_keys_are_free(bench: Path, quotes: Quotes) -> None:
    changed = set()
    for name, data in tree(bench / "reports").items():
        if name.endswith(".yml"):
            other = quoted(data, quotes)
            changed |= {name} if other != data else set()
            (bench / "reports" / name).write_bytes(other)
    # Most records are written without quotes already; an edition never is.
    assert len([name for name in changed if "/editions/" in name]) == 8
    assert quotes == "plain" or len(changed) > 100
    for command in ("check", "verify"):
        done = run(command)
        assert done.exit_code == 0, (command, done.output)


@pytest.mark.parametrize("way", TABLES)
def test_how_a_table_beside_is_written_is_free_and_its_digits_are_not(bench: Path, way: str) -> None:
    tables = [name for name in tree(bench / "reports") if name.endswith(".csv")]
    assert len(tables) >= 4
    for name in tables:
        file = bench / "reports" / name
        file.write_bytes(TABLES[way](file.read_bytes()))
    for command in ("check", "verify"):
        done = run(command)
        assert done.exit_code == 0, (command, done.output)
    file = bench / "reports" / tables[0]
    file.write_bytes(
        re.sub(
            rb"(\n[^\n]*?\.)(\d)",
            lambda m: m[1] + str((int(m[2]) + 1) % 10).encode(),
            file.read_bytes(),
            count=1,
        )
    )
    done = run("check")
    assert done.exit_code == 1
    assert f"reports/{tables[0]}:2:" in done.output
