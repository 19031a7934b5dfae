"""What a method's page says of each kind of measure: what is told, how it is computed, what its ± is."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.bench import load
from tests.evaluation.small import BENCH
from tests.pages.rendered import parsed
from tests.pages.sites import made

METHOD = """\
title: All of it
hazard: [mechanical]
conditions: {current: {value: 30 A, within: 2 %%}}
measures:
  - {id: it, %s}
cannot-show: [ageing]
"""
FORCE = "kind: scalar, quantity: force"
FROM_PIECES = "From two pieces on the ± also holds how much pieces differ"
SAID = [
    (FORCE, ("one figure a run", "Neither way is better", "what the meter may be off by", FROM_PIECES)),
    (f"{FORCE}, better: higher, reduce: max", ("the largest is its figure", "Higher is better")),
    (
        f"{FORCE}, better: higher, spread: {{value: 12 N, freedom: 6, origin: a report of 2024}}",
        ("a spread between pieces that the method declares (a report of 2024)",),
    ),
    (
        "kind: drop, supply: dc, emf: 20 uV, leads: {length: 100 mm, within: 2 mm, conductor: 4 mm2 class 5}",
        (
            "mean of its runs, those of each termination first",
            "the lead with its length and warmth",
            "thermal EMF where the current was not reversed",
            FROM_PIECES,
        ),
    ),
    ("kind: resistance, supply: dc, leads: none, coefficient: copper", ("and the way to 20 °C (68 °F)",)),
    (
        "kind: count, what: openings",
        ("as so many of so many", "Clopper and Pearson", "Nothing is ranked by it"),
    ),
    (
        "kind: endurance, cycles: openings, failure: the lid no longer holds",
        ("Counted: openings, until the lid no longer holds.", "survivor", "Kaplan and Meier"),
    ),
    (
        'kind: check, question: Does it hold?, good: "yes"',
        ("Asked: Does it hold?", "One hopes for yes", "“could not tell” is in neither number"),
    ),
    ("kind: check, question: Is it grey?", ("the answers are told and no share",)),
]


@pytest.mark.parametrize(("stated", "said"), SAID)
def test_each_kind_is_told_whole(tmp_path: Path, stated: str, said: tuple[str, ...]) -> None:
    for name, text in (("bench.yml", BENCH), ("methods/all/1.yml", METHOD % stated)):
        path = tmp_path / "reports" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    bench = load(tmp_path)
    assert bench.faults == ()
    page = next(each for each in made(bench).pages if each.uri == "m/all/1/index.md")
    told = " ".join("".join(parsed(page).texts).split())
    for words in said:
        assert words in told
    # Each says how sure it is: by a ±, or by an interval.
    assert "95 times in 100" in told or "no share" in told
