"""How a figure was worked out: the numbers that are printed give the figure again."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest

from generator.analysis.rounding import rounded
from generator.evaluation.ends import State
from generator.evaluation.report import evaluate
from generator.evaluation.spreads import SpreadOrigin
from generator.evaluation.statements import PieceOutcome
from generator.evaluation.worked import By, TauOrigin
from generator.history.frozen import as_published
from generator.pages.derivation import item_way, run_way
from generator.pages.explain import explained
from generator.pages.format import day
from generator.pages.locate import templates
from generator.pages.render import Renderer
from generator.pages.ways import RunWay, Step
from generator.records.bench import load
from tests.evaluation.pulls import SCALE, Pulls

ROOT = Path(__file__).parents[2]
BENCH = load(ROOT)
REPORT = BENCH.reports["fuse-holders-30a"]
FINDING = evaluate(BENCH, REPORT)
RISE = FINDING.measure("rise")
NAMES = {each.item: each.item for each in (*RISE.items, *RISE.controls)}
RUNS = [
    run.run
    for item in (*RISE.items, *RISE.controls)
    for piece in item.pieces
    for run in piece.runs
    if run.figure is not None
]
WORDS = "".join(
    (templates() / "words" / f"{name}.jinja").read_text(encoding="utf-8") for name in ("derivation", "ends")
)


def way_of(run: str) -> RunWay:
    found = run_way(RISE, run, NAMES)
    assert found is not None
    return found


def step(way: RunWay, code: str) -> dict[str, float]:
    found = next(each for each in way.steps if each.code == code)
    return {
        key: float(value.replace("−", "-"))
        for key, value in found.numbers.items()
        if re.fullmatch(r"−?[\d.]+", value)
    }


@pytest.mark.parametrize("run", RUNS)
def test_the_printed_numbers_give_the_figure_again(run: str) -> None:
    way = way_of(run)
    assert way.result is not None
    rise = step(way, "rise")
    felt = rise["temperature"] - rise.get("offset", 0.0) - rise["felt"]
    assert felt == pytest.approx(rise["rise"], abs=2e-3)
    whole = rise["rise"]
    if way.seen:
        # No probe leads heat away from what an infra-red meter looks at.
        assert "probe" not in {each.code for each in way.steps}
        assert step(way, "surface")["temperature"] == pytest.approx(rise["temperature"], abs=2e-3)
    else:
        probe = step(way, "probe")
        assert rise["rise"] + probe["probe"] == pytest.approx(probe["whole"], abs=2e-3)
        whole = probe["whole"]
    current = step(way, "current")
    again = whole * (current["set"] / current["current"]) ** current["exponent"]
    assert again == pytest.approx(float(way.result.value), abs=5e-3)
    told = rounded(float(way.result.value), float(way.result.half_width))
    assert (told.value_text, told.uncertainty_text) == (way.result.rounded, way.result.rounded_half_width)


def test_the_mean_is_that_of_the_printed_pieces() -> None:
    way = item_way(RISE, RISE.items[0], "Tessvik T30")
    mean = next(each for each in way.steps if each.code == "mean")
    pieces = [float(each) for each in mean.numbers["sum"].split(" + ")]
    assert len(pieces) == 5
    assert sum(pieces) / 5 == pytest.approx(float(mean.numbers["mean"]), abs=1e-3)


def test_the_probability_of_keeping_a_limit_stands_here_alone() -> None:
    first = evaluate(*as_published(BENCH, REPORT, REPORT.editions[1])).measure("rise")
    told: dict[str, str] = {}
    for rise in (first, RISE):
        okvarn = next(item for item in rise.items if item.item == "okvarn-ih30")
        steps = item_way(rise, okvarn, "Okvarn IH30").steps
        limits = [each.numbers for each in steps if each.code == "temperature-limit"]
        told |= {each["piece"]: each["probability"] for each in limits}
    assert all(0 < float(told[piece]) < 100 for piece in "ABCD")
    # The changed ones are far over it, and no probability is told smaller than it can be known.
    assert [told[piece] for piece in "EFG"] == ["<\N{NO-BREAK SPACE}0.1"] * 3


def test_what_the_terminal_tells_names_run_figure_and_every_step() -> None:
    run = next(each for each in RUNS if "okvarn" in each)
    text = explained(BENCH, REPORT, RISE, run)
    way = way_of(run)
    assert way.result is not None
    assert text.startswith(f"{run}, rise: ")
    assert f"→ {way.result.rounded} ± {way.result.rounded_half_width} K" in text
    assert len(re.findall(r"^ ?\d+\. ", text, re.M)) == len(way.steps) + 2
    assert "&" not in text
    assert "<" not in text.replace("< 0.1", "")
    assert "\N{NO-BREAK SPACE}" not in text


def test_a_run_that_stopped_tells_its_readings_and_why_there_is_no_figure() -> None:
    run = next(
        run.run
        for item in RISE.items
        for piece in item.pieces
        for run in piece.runs
        if run.why_not == "stopped"
    )
    text = explained(BENCH, REPORT, RISE, run)
    assert "stopped" in text
    assert "rise K" in text


@pytest.mark.parametrize(
    ("macro", "codes"),
    [
        ("whose", get_args(TauOrigin)),
        ("state_briefly", get_args(State)),
        ("origin", [each for each in get_args(SpreadOrigin) if each != "none"]),
        ("by_limit", get_args(PieceOutcome)),
    ],
)
def test_every_code_has_its_words(macro: str, codes: list[str]) -> None:
    body = WORDS.split(f"{{% macro {macro}(code) %}}", 1)[1].split("endmacro", 1)[0]
    assert set(re.findall(r'"([a-z-]+)": ', body)) == set(codes)


def test_every_way_to_the_mark_has_its_words() -> None:
    body = WORDS.split("{% macro step(s) %}", 1)[1].split("{%- endmacro", 1)[0]
    assert set(get_args(By)) <= set(re.findall(r's.code == "([a-z-]+)"', body))


def test_between_readings_is_said() -> None:
    numbers = {"mark": "60", "time": "60", "point": "body", "temperature": "61.2"}
    for by in get_args(By):
        way = RunWay(
            "r/a",
            "Tessvik",
            "A",
            day("2026-03-01"),
            "heat/1",
            (),
            (Step(by, numbers),),
            None,
            "no-run",
            (),
            counted=False,
        )
        text = Renderer(ROOT).text("text/explain.txt.jinja", way=way, measure="rise")
        assert ("No reading at the 60\N{NO-BREAK SPACE}min mark" in text) == (by != "reading")


def told(pulls: Pulls) -> str:
    finding = pulls.finding()
    bench = load(pulls.root)
    (run, *_) = bench.reports["r"].runs
    return explained(bench, bench.reports["r"], finding.measure("pull"), run)


@pytest.mark.parametrize(
    ("reduce", "value", "sentence"),
    [
        ("", "388 N", "As read: 388.000 N"),
        (
            ", reduce: mean",
            "pull N\n388\n391\n385\n20 ! not yet taut",
            "(388.000 + 391.000 + 385.000) / 3 = 388.000 N; not counted: 20.000 (not yet taut)",
        ),
        (", reduce: max", "pull N\n388\n391", "The largest of 2 readings (388.000, 391.000): 391.000 N"),
        (", reduce: min", "pull N\n388\n391", "The smallest of 2 readings (388.000, 391.000): 388.000 N"),
    ],
)
def test_the_way_to_a_value_is_told(tmp_path: Path, reduce: str, value: str, sentence: str) -> None:
    pulls = Pulls(tmp_path, reduce)
    pulls.pull("tessvik", "A", value)
    text = told(pulls)
    assert sentence in text
    assert "This is the run that the piece stands by." in text


def test_a_piece_of_several_runs_tells_their_mean(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path)
    for number, value in ((1, 380), (2, 392)):
        pulls.pull("tessvik", "A", f"{value} N", termination=number)
    assert "The piece stands by the mean of its 2 runs" in told(pulls)
    (item,) = pulls.evaluated().measure("pull").items
    steps = item_way(pulls.evaluated().measure("pull"), item, "Tessvik").steps
    assert [each.code for each in steps] == ["piece", "one"]
    assert (steps[0].numbers["runs"], steps[0].numbers["mean"]) == ("380.000, 392.000", "386.000")


def test_small_figures_keep_their_digits(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path)
    pulls.write("instruments/scale.yml", SCALE.replace("2 N", "0.02 mN").replace("1 N", "0.01 mN"))
    pulls.pull("tessvik", "A", "1.23 mN")
    assert re.search(r"As read: 1\.23\d* mN", told(pulls))
