from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.intake.new_bench import new_bench
from generator.records.schemas import NAMES, schema_files


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words))


def test_the_schemas_of_a_bench_are_written_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    new_bench(tmp_path, ("bench",))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "schemas" / "item.json").write_text("{}\n", encoding="utf-8")
    (tmp_path / "schemas" / "run.json").unlink()
    done = run("schema")
    assert done.exit_code == 0
    assert {path.name: path.read_bytes() for path in (tmp_path / "schemas").iterdir()} == schema_files()
    assert "# yaml-language-server: $schema=../../schemas/item.json" in done.stdout


def test_they_may_go_elsewhere_and_need_no_bench_then(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("schema", "a/b").exit_code == 0
    assert {path.name for path in (tmp_path / "a" / "b").iterdir()} == set(schema_files())
    without = run("schema")
    assert without.exit_code == 2
    assert "provebook new bench" in without.stderr


@pytest.mark.parametrize("name", sorted(NAMES.values()))
def test_one_is_printed_alone(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = run("schema", "--of", name)
    assert done.exit_code == 0
    assert json.loads(done.stdout) == json.loads(schema_files()[f"{name}.json"])
    assert list(tmp_path.iterdir()) == []


def test_a_type_that_is_none_is_told_with_those_that_are() -> None:
    done = run("schema", "--of", "runs")
    assert done.exit_code == 2
    assert "there is no type of record 'runs'; there are: bench, instrument" in done.stderr
