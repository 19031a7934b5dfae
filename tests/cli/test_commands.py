"""What the commands print and how they end, as a person in a shell sees it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments), catch_exceptions=False)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    assert run("new", "bench", "b", "--example").exit_code == 0
    monkeypatch.chdir(tmp_path / "b")
    return tmp_path / "b"


COMMANDS = [["check"], ["build"], ["serve"], ["results", "x"], ["check", "--json"], ["build", "--json"]]


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_without_a_bench_each_command_says_what_would_do(
    command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    done = run(*command)
    assert done.exit_code == 2
    assert "no reports/bench.yml in this folder" in done.stderr
    assert "provebook new bench" in done.stderr
    assert done.stdout == ""
    assert list(tmp_path.iterdir()) == []


def test_below_a_bench_the_way_to_it_is_told(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(bench / "reports")
    done = run("check")
    assert done.exit_code == 2
    assert f"The bench is at {bench}" in done.stderr


@pytest.mark.usefixtures("bench")
def test_the_example_is_sound() -> None:
    done = run("check")
    assert done.exit_code == 0, done.output
    assert "no faults" in done.stdout


def test_a_fault_is_told_with_its_place_and_ends_with_one(bench: Path) -> None:
    record = next((bench / "reports" / "items").glob("*.yml"))
    record.write_text(record.read_text(encoding="utf-8") + "colour: red\n", encoding="utf-8")
    done = run("check")
    assert done.exit_code == 1
    assert f"reports/items/{record.name}:" in done.stderr
    assert "colour: unknown key" in done.stderr
    assert done.stderr.rstrip().splitlines()[-1].startswith("1 fault")
    told = json.loads(run("check", "--json").stdout)
    assert [each["path"] for each in told["faults"]] == ["colour"]
    assert told["faults"][0]["file"] == f"reports/items/{record.name}"
    assert run("build").exit_code == 1
    assert not (bench / "site").exists()
    assert json.loads(run("build", "--json").stdout)["faults"] == told["faults"]


def test_results_are_told_in_words_and_as_data(bench: Path) -> None:
    report = next(path.parent.name for path in (bench / "reports").glob("*/report.yml"))
    words = run("results", report)
    assert words.exit_code == 0
    assert "±" in words.stdout
    told = json.loads(run("results", report, "--json").stdout)
    assert told["format"] == 1
    figure = told["measures"][0]["figures"][0]
    assert figure["interval"][0] < figure["value"] < figure["interval"][1]
    assert figure["unit"] == "K"
    assert len(figure["specimens"]) == figure["n"]


def test_an_unknown_report_is_answered_with_the_known_ones(bench: Path) -> None:
    known = next(path.parent.name for path in (bench / "reports").glob("*/report.yml"))
    done = run("results", "no-such")
    assert done.exit_code == 2
    assert known in done.stderr


def test_build_says_which_page_to_open(bench: Path) -> None:
    done = run("build")
    assert done.exit_code == 0, done.output
    page = done.stdout.rstrip().splitlines()[-1].removeprefix("Open ").split(" in a browser")[0]
    assert (bench / page).is_file()
    assert "draft" in done.stdout


@pytest.mark.usefixtures("bench")
def test_build_as_json_prints_json_alone() -> None:
    done = run("build", "--json")
    told = json.loads(done.stdout)
    assert (Path(told["site"]) / told["reports"][0]["page"]).is_file()
    assert told["faults"] == []
