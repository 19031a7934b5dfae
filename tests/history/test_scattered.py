"""A retest of many pieces says whether they scatter otherwise than those before."""

from __future__ import annotations

import re
import statistics
from pathlib import Path

import pytest

from generator.history.past import past
from generator.pages.history import history_pages
from generator.pages.past import told_editions
from generator.pages.render import Renderer
from generator.records.bench import load
from tests.history.benches import published, run
from tests.pages import shelf

RISES = {"A": 20.0, "B": 21.0, "C": 19.0, "D": 20.5, "E": 19.5, "F": 20.0}
LATER = {"G": 24.0, "H": 30.0, "I": 18.0, "J": 27.0, "K": 21.0, "L": 24.0}
PIECE = "  {letter}: {{got: bought, from: shop, date: 2026-0{day}-08, paid: 5.50 EUR{more}}}\n"


def bench(folder: Path) -> Path:
    """A report of six pieces, then of those of another stock, too."""
    pieces = "".join(PIECE.format(letter=letter, day=1, more="") for letter in RISES)
    pieces += "".join(PIECE.format(letter=letter, day=3, more=", stock: since-march") for letter in LATER)
    head = shelf.STOCKED.partition("specimens:\n")[0]
    files = {**shelf.FILES, "items/halvenor-c2.yml": f"{head}specimens:\n{pieces}"}
    runs = {f"grey-lever/runs/halvenor-{key.lower()}.yml": rise for key, rise in RISES.items()}
    files = {key: text for key, text in files.items() if "/runs/" not in key}
    files |= {key: shelf.heating("halvenor-c2", key[-5].upper(), rise) for key, rise in runs.items()}
    shelf.write(folder, files)
    return folder


def retested(folder: Path, later: dict[str, float], monkeypatch: pytest.MonkeyPatch) -> Path:
    bench(folder)
    monkeypatch.chdir(folder)
    done = published("grey-lever", "--date", "2026-03-12")
    assert done.exit_code == 0, done.output
    for letter, rise in later.items():
        text = shelf.heating("halvenor-c2", letter, rise, date="2026-04-01")
        path = folder / f"reports/grey-lever/runs/halvenor-{letter.lower()}.yml"
        path.write_text(text, encoding="utf-8")
    done = published(
        "grey-lever", "--date", "2026-04-02", "--reason", "retest", "--summary", "The new stock."
    )
    assert done.exit_code == 0, done.output
    return folder


def test_six_pieces_on_both_sides_are_compared(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = retested(tmp_path / "b", LATER, monkeypatch)
    loaded = load(folder)
    first, second = past(loaded, loaded.reports["grey-lever"])
    assert first.scattered == ()
    (found,) = second.scattered
    assert (found.item, found.measure, found.pieces) == ("halvenor-c2", "rise", (6, 6))
    ratio = statistics.stdev(LATER.values()) / statistics.stdev(RISES.values())
    # The readings have one decimal, and each is corrected to the set current and the air: near to that.
    assert found.spread.ratio == pytest.approx(ratio, rel=0.02)
    assert found.spread.shown
    page = next(iter(history_pages(loaded, told_editions(loaded), (), Renderer(folder))))
    said = re.sub(r"<[^>]+>", "", page.slots["editions"])
    words = re.search(
        r"the 6 pieces scatter (\S+) times as much as the 6 before \((\S+) to (\S+) times", said
    )
    assert words
    assert f"{found.spread.ratio:.2g}" == words[1]
    assert "their spread is another one." in said
    assert words[0] in run("history", "grey-lever").output


def test_five_pieces_are_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fewer = {key: rise for key, rise in LATER.items() if key != "L"}
    loaded = load(retested(tmp_path / "b", fewer, monkeypatch))
    assert [each.scattered for each in past(loaded, loaded.reports["grey-lever"])] == [(), ()]
