"""What the documents say is there, and what is there they say."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import click

import generator
from generator.analysis.interval import Estimate
from generator.cli import main
from generator.evaluation.as_data import report_as_data
from generator.evaluation.findings import (
    ItemFinding,
    MeasureFinding,
    PairFinding,
    PieceFinding,
    ReportFinding,
)
from generator.evaluation.spreads import Spread
from generator.host.options import Options

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def commands(group: click.Group, words: tuple[str, ...] = ()) -> Iterator[tuple[str, click.Command]]:
    for name, command in group.commands.items():
        if isinstance(command, click.Group):
            yield from commands(command, (*words, name))
        else:
            yield " ".join((*words, name)), command


def test_every_command_and_option_is_in_the_readme() -> None:
    for name, command in commands(main):
        row = next((line for line in README.splitlines() if line.startswith(f"| `provebook {name}")), None)
        assert row, f"provebook {name} is not in README's table"
        for parameter in command.params:
            said = (
                parameter.opts[0] if isinstance(parameter, click.Option) else (parameter.name or "").upper()
            )
            assert said in row, f"{said} of provebook {name}"
        assert command.help, name


def test_readme_names_no_command_that_is_not_there() -> None:
    known = {name for name, _ in commands(main)}
    for said in re.findall(r"^\| `provebook ([a-z]+(?: [a-z]+)*)", README, re.M):
        assert said.strip() in known


def test_the_job_stands_in_the_first_paragraph() -> None:
    first = README.split("\n\n")[1]
    assert first.startswith("Provebook is for a person who tests things on a bench")
    assert len(first.split()) < 130


def test_quick_start_has_exactly_two_blocks() -> None:
    section = README.split("## Quick start", 1)[1].split("\n## ", 1)[0]
    blocks = re.findall(r"^```(\w*)\n(.*?)^```$", section, re.S | re.M)
    assert [language for language, _ in blocks] == ["sh", "sh"]
    assert blocks[0][1].rstrip().endswith("provebook build")
    assert blocks[1][1].rstrip().endswith("-m pytest")
    assert "Windows" in section


def test_every_setting_of_the_plugin_is_in_the_readme() -> None:
    for name, _ in Options._schema:
        assert f"{name}:" in README, name


def keys(data: object) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from keys(value)
    elif isinstance(data, list):
        for value in data:
            yield from keys(value)


def test_every_key_of_the_results_is_in_the_readme() -> None:
    figure = Estimate(
        value=1.0,
        standard_uncertainty=0.5,
        half_width=1.0,
        coverage_factor=2.0,
        dof=9.0,
        low=0.0,
        high=2.0,
        unit="K",
    )
    piece = PieceFinding(specimen="A", stock="", runs=(), figure=figure)
    item = ItemFinding(
        item="x", control=False, stock="", pieces=(piece,), n=1, runs=1, figure=figure, budget=None,
        spread=Spread("pooled", 0.5, 4.0),
    )  # fmt: skip
    pair = PairFinding(first="x", second="y", difference=figure, half_width=1.0, p=0.5, shown=False)
    measure = MeasureFinding(
        measure="rise", kind="heating", unit="K", method="m", versions=(1,), at=3600.0, set_current=30.0,
        point="body", items=(item,), controls=(), pairs=(pair,),
    )  # fmt: skip
    finding = ReportFinding(report="r", main="rise", measures=(measure,), dates=("2026-03-08",), pieces=1)
    data = report_as_data(finding)
    json.dumps(data, allow_nan=False)
    section = README.split("## For other programs", 1)[1]
    told = {name.split(".")[-1].removesuffix("[]") for name in re.findall(r"`([^`]+)`", section)}
    told = {name.lstrip("…") for name in told}
    assert set(keys(data)) <= told


def test_the_version_has_one_value() -> None:
    assert PROJECT["project"]["version"] == generator.__version__


def test_the_site_builder_is_held_below_its_next_major_version() -> None:
    asked = PROJECT["project"]["dependencies"]
    assert "mkdocs>=1.6,<2" in asked
    assert "mkdocs-material>=9.8,<10" in asked
    assert all(re.search(r"<\d", each) for each in asked), "a dependency without an upper bound"


def test_constraints_pin_every_dependency() -> None:
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pinned = {line.split("==")[0].lower() for line in lines if "==" in line}
    extras = PROJECT["project"]["optional-dependencies"]
    for asked in (*PROJECT["project"]["dependencies"], *extras["test"], *extras["lint"]):
        assert re.split(r"[<>=!;\[ ]", asked)[0].lower() in pinned, asked


def test_the_changelog_has_one_unreleased_section_that_speaks_of_figures() -> None:
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert text.count("## Unreleased") == 1
    assert "published figure" in text.split("## Unreleased", 1)[1]


def test_the_developers_document_names_every_layer() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for folder in sorted(
        path.name for path in (ROOT / "generator").iterdir() if (path / "__init__.py").exists()
    ):
        assert f"`generator/{folder}/`" in text, folder
