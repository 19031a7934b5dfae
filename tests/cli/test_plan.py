"""`provebook plan`, as a person in a shell sees it."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.cli.fresh import CLAMP, COUNT, DROP, PULL_OUT, SCALE, VOLTMETER, made, run

ROOT = Path(__file__).parents[2]


@pytest.fixture
def demo(monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(ROOT)
    return ROOT


@pytest.fixture
def bare(fresh: Path) -> Path:
    """A bench with a pull-out method, a scale, and nothing measured."""
    made(PULL_OUT, SCALE)
    return fresh


def said(*arguments: str) -> str:
    done = run("plan", *arguments)
    assert (done.exit_code, done.stdout) == (2, ""), done.output
    return done.stderr


@pytest.mark.usefixtures("demo")
def test_the_demo_in_words() -> None:
    done = run("plan", "closed-box-heating", "--gap", "5 K", "--per-day", "5")
    assert done.exit_code == 0
    text = done.stdout
    assert re.search(
        r"With (\d+) of each you would see a gap of [\d.]+ °C \([\d.]+ °F\) or more between two items, "
        r"8 times in 10\.\nThat is enough for the gap of 5 °C \(9 °F\)",
        text,
    )
    assert re.search(
        r"pooled over 13 pieces of 3 items in your own results \(ν = 10\): fuse-holders-30a", text
    )
    assert "all 10 pairs held together at 5 % (Holm), the first of them at 0.5 %" in text
    assert re.search(r"\n +2  [\d.]+ °C \(\d+ °F\) +5  34\.80 €\n", text)
    assert "okvarn-ih30: 4.75 € each, 2026-08-13, web shop\n" in text
    assert "1 of 21 runs so far gave no figure" in text
    days = text.split("  day ")[1:]
    assert all(day.count("unbroken-cable") == 2 for day in days)
    assert not re.search(r"(?i)\b(?:pass|safe|certified|approved)\b", text)


def test_us_units_stand_first_where_the_bench_says_so(bare: Path) -> None:
    settings = bare / "reports/bench.yml"
    told = settings.read_text(encoding="utf-8")
    settings.write_text(told.replace("units: metric", "units: us"), encoding="utf-8")
    text = run("plan", "pull-out", "--items", "2", "--spread", "20 N").stdout
    # 3.0709 standard deviations for 3 of each: 61 N, 14 lbf.
    assert "With 3 of each you would see a gap of 14 lbf (61 N) or more" in text
    assert "The spread is assumed: 4.5 lbf (20 N)" in text


@pytest.mark.usefixtures("demo")
def test_as_data_and_in_the_readme() -> None:
    done = run("plan", "pull-out/1", "--items", "okvarn-ih30, new-one", "--price", "new-one=3 USD", "--json")
    told = json.loads(done.stdout)
    assert (told["measure"], told["unit"], told["pairs"], told["level_first"]) == ("pull", "N", 1, 0.05)
    assert told["rows"][1]["cost"] == [
        {"amount": "14.25", "currency": "EUR"},
        {"amount": "9", "currency": "USD"},
    ]
    section = (ROOT / "README.md").read_text(encoding="utf-8").split("`provebook plan METHOD --json`")[1]
    named = set(re.findall(r"`([a-z_]+)`", section.split("\n\n")[0]))
    assert set(keys(told)) <= named


def keys(data: Any) -> set[str]:
    if isinstance(data, dict):
        return set(data).union(*map(keys, data.values()))
    return set().union(*map(keys, data)) if isinstance(data, list) else set()


@pytest.mark.usefixtures("demo")
def test_the_sheet_has_cautions_first_and_a_table_a_run(tmp_path: Path) -> None:
    sheet, again = tmp_path / "sheet.md", tmp_path / "deeper/sheet.md"
    options = ("--items", "2", "--pieces", "2", "--seed", "march")
    done = run("plan", "closed-box-heating", *options, "--sheet", str(sheet))
    assert done.stdout.endswith(f"\nwrote {sheet}\n")
    text = sheet.read_text(encoding="utf-8")
    heads = re.findall(r"^## (.*)$", text, re.M)
    assert heads[0] == "Warning. A hot joint can start a fire."
    assert heads[1:6] == ["What it can show", "What must be so", "Where to read", "Steps", "Order of runs"]
    assert [head.split(":")[0] for head in heads[6:]] == [f"Run {number}" for number in range(1, 7)]
    assert text.count("| time min | temperature@body degC | ambient degC | current A | drop mV |") == 6
    assert text.count("| 60       |") == 6
    assert "Switch off at 110 °C (230 °F)" in text
    assert "Stay beside it. Keep a fire blanket" in text  # what the method adds
    assert "current: 30 A ± 2 %" in text
    assert "\N{NO-BREAK SPACE}" not in text
    assert run("plan", "closed-box-heating", *options, "--sheet", str(again)).exit_code == 0
    assert again.read_bytes() == sheet.read_bytes()
    refused = run("plan", "closed-box-heating", "--sheet", str(sheet))
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert "exists already" in refused.stderr
    assert again.read_bytes() == sheet.read_bytes()


def test_a_new_bench_says_its_spread(bare: Path) -> None:
    told = said("pull-out", "--items", "3")
    assert "nothing says how far apart pieces of one item lie in" in told
    assert '--spread "…"' in told
    done = run("plan", "pull-out", "--items", "3", "--spread", "20 N")
    assert done.exit_code == 0, done.output
    assert "as you said with --spread" in done.stdout
    assert "the pieces cost" in done.stdout
    assert "not known" in done.stdout
    assert "What the meters bring is not in the table" in done.stdout
    sheet = bare / "sheet.md"
    assert run("plan", "pull-out", "--items", "3", "--spread", "5 lbf", "--sheet", str(sheet)).exit_code == 0
    text = sheet.read_text(encoding="utf-8")
    assert text.index("Parts under force break without notice") < text.index("## Order of runs")
    assert re.search(r"^.+ N: _{10}", text, re.M)


@pytest.mark.usefixtures("bare")
def test_what_cannot_be_planned_is_said_with_what_would_do() -> None:
    assert said("pull-aut").endswith("no method 'pull-aut' here; methods of this bench: pull-out\n")
    assert said("pull-out/7").endswith("no version '7' of pull-out; it has: 1\n")
    assert "say how many items, or which:  --items 5" in said("pull-out")
    for items in ("1", "41", "anvo"):
        assert "a comparison is of 2 to 40 items" in said("pull-out", "--items", items)
    assert "an item is named twice" in said("pull-out", "--items", "anvo anvo")
    assert "'Anvo' is no id" in said("pull-out", "--items", "Anvo, belk")
    assert "'bare cable' is no id" in said("pull-out", "--items", "2", "--control", "bare cable")
    assert "has no measure 'pul'; with figures: " in said("pull-out", "--measure", "pul")
    told = said("pull-out", "--items", "2", "--gap", "2 K")
    assert told.startswith("provebook: --gap '2 K': ")
    assert "above nought" in said("pull-out", "--items", "2", "--spread", "0 N")
    assert "decimal comma" in said("pull-out", "--items", "2", "--spread", "5 N", "--price", "4,80 EUR")
    told = said("pull-out", "--items", "anvo belk", "--spread", "5 N", "--price", "corin=4 EUR")
    assert "'corin' is none of the items: anvo, belk" in told


@pytest.mark.usefixtures("fresh")
def test_what_is_counted_has_no_gap() -> None:
    made(COUNT)
    name = json.loads(run("check", "--json").stdout)
    assert name["faults"] == []
    method = next(Path("reports/methods").iterdir()).name
    told = said(method, "--items", "2")
    assert "no figure whose gaps could be planned; with figures: none" in told


@pytest.mark.usefixtures("fresh")
def test_gaps_of_drops_are_told_in_millivolts_with_rows_for_both_directions(tmp_path: Path) -> None:
    made(DROP, VOLTMETER, CLAMP)
    sheet = tmp_path / "sheet.md"
    options = ("--items", "3", "--gap", "1 mV", "--spread", "0.6 mV")
    done = run("plan", "drop-10-a", *options, "--sheet", str(sheet))
    assert done.exit_code == 0, done.output
    assert re.search(r"^ +3 +2\.1 mV ", done.stdout, re.M), done.stdout
    assert "0.6 mV" in done.stdout
    assert not re.search(r"\d (V|Ω)\b", done.stdout)
    text = sheet.read_text(encoding="utf-8")
    (head, *_) = [line for line in text.splitlines() if line.startswith("| way")]
    assert re.findall(r"\w[\w@ ]*\w", head) == ["way", "ambient", "current A", "drop mV"]
    first = text[text.index(head) :].splitlines()[2:8]
    assert [line.split("|")[1].strip() for line in first] == ["+", "−"] * 3
    assert "read each drop both ways" in text
