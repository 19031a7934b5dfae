"""Good records with slips in them: only faults, each with a place inside its file, or a sound record."""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import pytest
from ruamel.yaml.error import YAMLError

from generator.evaluation.checks import checked
from generator.fault import Fault, message
from generator.records.bench import NoBench, load
from generator.records.csv_table import read_csv
from generator.records.library import MODELS
from generator.records.schema.base import FileRecord
from generator.records.source import read
from generator.records.table import Table
from generator.records.tree import RecordFile, survey
from tests.records.editors import as_an_editor_sees, errors
from tests.records.guard import guarded
from tests.records.laid import GOOD
from tests.records.mutations import CHANGES, mutated, seeded

TREE = survey(GOOD / "reports")
MANY = 20_000
PARTS = 8
BENCHES = 300


def inside(found: Iterable[Fault], data: bytes, file: Path) -> None:
    """Every fault and doubt has words and a place that is there."""
    lines = data.decode("utf-8", "replace").removeprefix("\ufeff").split("\n")
    for each in found:
        assert each.what
        assert message(each, file.parent)
        assert each.place.file == file
        assert 0 <= each.place.line <= len(lines), (each, data)
        if each.place.line:
            width = len(lines[each.place.line - 1].removesuffix("\r"))
            assert 1 <= each.place.column <= width + 1, (each, data)


def told(file: RecordFile, path: Path) -> tuple[str, tuple[Fault, ...]]:
    """How one record is read: `sound`, or where it was stopped, and what is said of it."""
    source = read(path)
    if source.root is None:
        assert source.faults
        return "yaml", source.faults
    found = MODELS[file.kind].from_nodes(source.root, file.name)
    if isinstance(found, FileRecord):
        return "sound", (*source.doubts, *found.doubts)
    assert found
    return "form", (*found, *source.doubts)


@pytest.mark.parametrize("part", range(PARTS))
def test_any_slip_in_any_record_is_read_or_told_with_its_place(part: int, tmp_path: Path) -> None:
    chance = seeded(f"records {part}")
    texts = {file.path: file.path.read_bytes() for file in TREE.records}
    ends: Counter[str] = Counter()
    path = tmp_path / "record.yml"
    with guarded(300):
        for _ in range(MANY // PARTS):
            file, other = chance.choice(TREE.records), chance.choice(TREE.records)
            data = mutated(chance, texts[file.path], texts[other.path])
            path.write_bytes(data)
            end, found = told(file, path)
            inside(found, data, path)
            ends[end] += 1
    # Each of the three ends is there in earnest, so that none of them is tested in name alone.
    assert min(ends["yaml"], ends["form"], ends["sound"]) > MANY // PARTS // 20, ends


def test_any_slip_in_a_file_of_readings_is_read_or_told_with_its_place(tmp_path: Path) -> None:
    chance = seeded("readings")
    texts = [path.read_bytes() for path in TREE.csv]
    path = tmp_path / "readings.csv"
    sound = 0
    with guarded(120):
        for _ in range(2000):
            data = mutated(chance, chance.choice(texts), chance.choice(texts))
            path.write_bytes(data)
            found = read_csv(path)
            sound += isinstance(found, Table)
            inside(found.doubts if isinstance(found, Table) else found, data, path)
    assert 200 < sound < 1800


def test_any_slip_in_a_bench_is_told_in_its_files(tmp_path: Path) -> None:
    """Rules between files meet slips too; a fault may stand in another record than the slip."""
    bench = tmp_path / "bench"
    shutil.copytree(GOOD, bench)
    chance = seeded("benches")
    names = [each.path.relative_to(GOOD) for each in TREE.records] + [
        each.relative_to(GOOD) for each in TREE.csv
    ]
    faulty = 0
    with guarded(300):
        for _ in range(BENCHES):
            name, other = bench / chance.choice(names), GOOD / chance.choice(names)
            kept = name.read_bytes()
            name.write_bytes(mutated(chance, kept, other.read_bytes()))
            try:
                made = checked(load(bench))
            except NoBench:
                pytest.fail("bench.yml is there")
            for each in (*made.faults, *made.doubts):
                assert each.place.file.is_relative_to(bench)
                if each.place.file.is_file():
                    inside([each], each.place.file.read_bytes(), each.place.file)
                else:
                    assert each.place.line == 0
            faulty += bool(made.faults)
            name.write_bytes(kept)
    assert BENCHES // 5 < faulty < BENCHES
    assert load(bench).faults == ()


def test_what_a_slip_leaves_sound_no_editor_underlines(tmp_path: Path) -> None:
    """The schemas may be milder than the program, never stricter."""
    chance = seeded("editors")
    path = tmp_path / "record.yml"
    sound = 0
    for _ in range(1200):
        file, other = chance.choice(TREE.records), chance.choice(TREE.records)
        data = mutated(chance, file.path.read_bytes(), other.path.read_bytes())
        path.write_bytes(data)
        if told(file, path)[0] != "sound":
            continue
        try:
            seen = as_an_editor_sees(data.decode("utf-8-sig"))
        except (YAMLError, ValueError):
            continue
        sound += 1
        assert errors(file.kind, seen) == [], data
    assert sound > 150


@pytest.mark.parametrize("change", CHANGES, ids=lambda each: each.__name__)
def test_each_kind_of_slip_changes_something(change: object) -> None:
    assert callable(change)
    chance = seeded("kinds")
    data = TREE.records[0].path.read_bytes()
    assert any(change(chance, data, data) != data for _ in range(5))
