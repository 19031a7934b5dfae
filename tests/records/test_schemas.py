"""The schemas as files, and the line by which an editor finds a record's own."""

from __future__ import annotations

import json
import os
from pathlib import Path, PurePosixPath

import pytest

from generator.intake.new_bench import new_bench
from generator.records.library import MODELS
from generator.records.schemas import NAMES, line_for, schema_files
from generator.records.source import read
from generator.records.tree import survey


def test_there_is_one_for_each_type_of_record() -> None:
    assert set(NAMES) == set(MODELS)
    files = schema_files()
    assert sorted(files) == sorted(f"{name}.json" for name in NAMES.values())
    for content in files.values():
        assert "properties" in json.loads(content)
        assert content.endswith(b"\n")
        assert b"\r" not in content


@pytest.mark.parametrize(
    ("file", "named"),
    [
        ("reports/bench.yml", "../schemas/bench.json"),
        ("reports/items/okvarn-ih30.yml", "../../schemas/item.json"),
        ("reports/instruments/logger-1.import.yml", "../../schemas/import.json"),
        ("reports/methods/closed-box-heating/2.yml", "../../../schemas/method.json"),
        ("reports/fuse-holders/runs/okvarn-a.yml", "../../../schemas/run.json"),
    ],
)
def test_a_record_names_its_schema_by_the_path_from_itself(file: str, named: str) -> None:
    assert line_for(PurePosixPath(file)) == f"# yaml-language-server: $schema={named}\n"
    found = os.path.normpath(PurePosixPath(file).parent / named)
    assert found == f"schemas/{PurePosixPath(named).name}"


@pytest.mark.parametrize(
    "file", ["mkdocs.yml", "reports/pages/about.md", "reports/runs.csv", "reports", "a/b.yml"]
)
def test_what_is_no_record_names_none(file: str) -> None:
    assert line_for(PurePosixPath(file)) == ""


def test_a_new_bench_has_the_schemas_and_every_record_of_it_names_one_that_is_there(tmp_path: Path) -> None:
    new_bench(tmp_path, ("bench", "example"))
    records = survey(tmp_path / "reports").records
    assert len(records) > 8
    for file in records:
        first = file.path.read_text(encoding="utf-8").split("\n", 1)[0]
        named = first.removeprefix("# yaml-language-server: $schema=")
        assert named != first
        schema = file.path.parent / named
        assert schema.resolve() == tmp_path / "schemas" / f"{NAMES[file.kind]}.json"
        assert schema.read_bytes() == schema_files()[schema.name]
        assert read(file.path).faults == ()
