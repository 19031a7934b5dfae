"""The demo's correction, as a reader meets it: we were wrong, why, and what is struck."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.pages.rendered import Parsed

REPORT = "r/fuse-holders-30a"
REASON = "because the head was still set to 0.85, from another job; the 0.95 of the tape was written"


def html(demo: Path, address: str) -> str:
    return (demo / address / "index.html").read_text(encoding="utf-8").partition("<article")[2]


def said(markup: str) -> str:
    return " ".join(Parsed(markup).text.split())


def struck(markup: str) -> list[str]:
    return [said(each) for each in re.findall(r"<del>(.*?)</del>", markup, re.DOTALL)]


def test_the_history_says_that_we_were_wrong_and_strikes_the_run_and_its_setting(demo: Path) -> None:
    page = html(demo, f"{REPORT}/history")
    own = re.split(r'id="edition-\d"', page)[2]
    told = said(own)
    assert "14 September 2026 · Correction: we were wrong · amendment to edition 2" in told
    assert f"Corrected: Okvarn IH30, piece G, 19 August 2026, {REASON}" in told
    assert struck(own) == ["Okvarn IH30, piece G, 19 August 2026", "0.95"]
    # Read anew, the figure has no ± of its own difference.
    assert "a difference of" not in told
    assert "within the ± that was published" in told


def test_where_every_figure_is_told_the_wrong_one_is_struck_and_the_others_stand(demo: Path) -> None:
    page = html(demo, f"{REPORT}/history").partition("edition by edition")[2]
    (wrong,) = struck(page)
    assert wrong.startswith("74.0 ± 5.1 °C")
    assert "corrected since" in said(page)


@pytest.mark.parametrize("number", [3, 4])
def test_what_rests_on_the_correction_tells_it_with_the_reason(demo: Path, number: int) -> None:
    page = html(demo, f"{REPORT}/{number}")
    assert f"{REASON}: infrared.emissivity-set 0.95 → 0.85 (Okvarn IH30 G, 19 August 2026" in said(page)
    assert "0.95" in struck(page)
    assert "emissivity 0.95 ± 0.02, the meter set to 0.85" in said(page)


def test_the_edition_that_was_wrong_stays_and_says_so_at_its_top(demo: Path) -> None:
    page = said(html(demo, f"{REPORT}/2"))
    top = page[: page.index("How it was measured")]
    assert "Edition 2 of 25 August 2026. Figures have changed." in top
    assert "Edition 3, 14 September 2026: correction: we were wrong. Piece G of the changed Okvarn" in top
    assert "emissivity 0.95 ± 0.02, the meter set to 0.95" in page
    assert REASON not in page
