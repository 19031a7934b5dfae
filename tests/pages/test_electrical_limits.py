"""Limits of drops, resistances and powers from the record to the pages, in the unit of the figures."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.records.bench import load
from tests.evaluation.drops import Drops
from tests.pages.rendered import parsed
from tests.pages.sites import site_of

LIMIT = "limits:\n  - {kind: %s, measure: %s, value: %s, standing: %s, source: %s}\n"
QUOTED = '"as quoted by makers, the standard not seen"'
PAIR = "drop mV | current A\n%s | 30.0\n-%s | -30.0"
WITHIN, CLOSE = ("14.0", "14.1", "14.2"), ("15.1", "14.0", "14.1")
CLAIMED, SEEN, OWN = "claimed", '"standard, seen"', "reviewer's own"


@dataclass(frozen=True)
class Stated:
    """A limit of a report: of which kind of measure, on which side, as its record has it."""

    kind: str
    side: str
    value: str
    standing: str


QUOTED_DROP = Stated("drop", "at most", "15 mV", CLAIMED)


def told(root: Path, limit: Stated, reads: tuple[str, ...]) -> dict[str, str]:
    """The text of each page of a report of one item, by address."""
    drops = Drops(root, limit.kind)
    for letter, read in zip("ABC", reads, strict=False):
        one_way = f"drop mV | current A\n{read} | 30.0"
        drops.read("lug", letter, one_way if ">" in read else PAIR % (read, read))
    drops.report += LIMIT % (limit.side, limit.kind, limit.value, limit.standing, QUOTED)
    drops.finish()
    assert load(root).faults == ()
    return {page.uri: " ".join("".join(parsed(page).texts).split()) for page in site_of(root).pages}


@pytest.mark.parametrize(
    ("limit", "reads", "words", "held"),
    [
        (QUOTED_DROP, WITHIN, "Below the figure the maker prints", "14.20 ± 0.19 mV"),
        (Stated("drop", "at most", "15 mV", SEEN), WITHIN, "Within the limit", "14.20 ± 0.19 mV"),
        (Stated("drop", "at most", "15 mV", OWN), CLOSE, "Too close to call", "15.10 ± 0.20 mV"),
        (
            Stated("drop", "at most", "10 mV", CLAIMED),
            WITHIN,
            "Above the figure the maker",
            "14.20 ± 0.19 mV",
        ),
        (
            Stated("drop", "at least", "15 mV", CLAIMED),
            WITHIN,
            "Below the figure the maker",
            "14.00 ± 0.19 mV",
        ),
        (Stated("resistance", "at most", "0.5 mohm", CLAIMED), WITHIN, "Below the figure", "473.3 ± 6.4 µΩ"),
        (Stated("power", "at most", "0.45 W", OWN), WITHIN, "Within the limit", "426.0 ± 5.8 mW"),
        (Stated("power", "at most", "400 mW", OWN), WITHIN, "Over the limit", "426.0 ± 5.8 mW"),
    ],
    ids=str,
)
def test_each_kind_side_and_standing_has_its_words(
    tmp_path: Path, limit: Stated, reads: tuple[str, ...], words: str, held: str
) -> None:
    pages = told(tmp_path, limit, reads)
    report, item = pages["r/r/index.md"], pages["i/lug/index.md"]
    printed = limit.value.replace("mohm", "mΩ")
    for page in (report, item):
        assert words in page
        assert f"{limit.side} {printed}" in page
    assert f"{held}, against {limit.side} {printed}" in report
    assert "as quoted by makers, the standard not seen" in report


def test_past_the_meters_range_it_says_past(tmp_path: Path) -> None:
    pages = told(tmp_path, QUOTED_DROP, (">200",))
    past = "The one piece: past 200.0 ± 3.0 mV, where the meter’s range ends, against at most 15 mV"
    assert past in pages["r/r/index.md"]
    assert "read out of the meter’s range, so it lies past that" in pages["r/r/1/how/lug/index.md"]


def test_the_steps_hold_each_piece(tmp_path: Path) -> None:
    pages = told(tmp_path, QUOTED_DROP, CLOSE)
    step = "against at most 15 mV: not told apart from the figure the maker prints; probability that it"
    assert step in pages["r/r/1/how/lug/index.md"]
