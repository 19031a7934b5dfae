"""`correct` at a terminal: what it asks, what it shows before it writes, and that no means no."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.cli.new import asking
from generator.records.bench import load
from tests.history.benches import REPORT, example, published, tree

RUN = "2026-01-12-halvenor-a"


@pytest.fixture
def once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The example bench with its first edition, and a terminal to ask at."""
    folder = example(tmp_path / "b")
    monkeypatch.chdir(folder)
    assert published(REPORT, "--date", "2026-02-01").exit_code == 0
    monkeypatch.setattr(asking, "has_terminal", lambda: True)
    monkeypatch.setattr(sys.modules["generator.cli.correct"], "has_terminal", lambda: True)
    return folder


def typed(text: str, *arguments: str) -> Result:
    return CliRunner().invoke(main, ["correct", *arguments], input=text, catch_exceptions=False)


@pytest.mark.parametrize("answer", ["n\n", "\n", "no\n"])
def test_without_a_yes_nothing_is_written(once: Path, answer: str) -> None:
    before = tree(once)
    done = typed(answer, RUN, "--because", "the lid was off", "--set", "place=garage")
    assert done.exit_code == 0
    assert f"new      reports/{REPORT}/runs/{RUN}-2.yml" in done.output
    assert done.output.rstrip().endswith("Nothing was written.")
    assert tree(once) == before


def test_at_the_end_of_what_is_typed_nothing_is_written(once: Path) -> None:
    before = tree(once)
    done = typed("", RUN, "--because", "the lid was off", "--set", "place=garage")
    assert done.exit_code != 0
    assert tree(once) == before


def test_it_asks_what_was_wrong_and_which_keys_are_otherwise(once: Path) -> None:
    keys = "place=garage; by the window; conditions.enclosure=closed box 2 l"
    done = typed(f"the lid was off; a draught came in\n{keys}\ny\n", RUN)
    assert done.exit_code == 0, done.output
    assert "because  the lid was off; a draught came in\n" in done.output
    record = (once / f"reports/{REPORT}/runs/{RUN}-2.yml").read_text(encoding="utf-8")
    assert 'because: "the lid was off; a draught came in"\n' in record
    assert 'place: "garage; by the window"\n' in record
    assert "enclosure: closed box 2 l\n" in record
    (correction,) = load(once).runs[f"{REPORT}/{RUN}-2"].corrections
    assert correction.because == "the lid was off; a draught came in"


def test_a_semicolon_in_a_reason_to_leave_a_reading_out_stays(once: Path) -> None:
    done = typed("y\n", RUN, "--because", "a draught", "--leave-out", "10 min=door open; then shut")
    assert done.exit_code == 0, done.output
    assert load(once).runs[f"{REPORT}/{RUN}-2"].excluded == {2: "door open; then shut"}
