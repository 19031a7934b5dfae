"""How sure: pairs and places in the right words, spreads with their origin, what is assumed."""

from __future__ import annotations

import dataclasses
import math
import re
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.findings import MeasureFinding, PairFinding
from generator.evaluation.report import evaluate
from generator.evaluation.spreads import Spread
from generator.evaluation.statements import Place
from generator.pages.render import Renderer
from generator.pages.sure import AssumedRow, errors_in, sure_view
from tests.pages.factory import HOLDERS, ROOT, demo, demo_site, estimate, measure
from tests.pages.rendered import Parsed, parsed

FINDING, _, PULL = evaluate(demo(), demo().reports["fuse-holders-30a"]).measures
NAMES = {key: item.title for key, item in demo().items.items()}
VIEW = sure_view(FINDING, NAMES)


def pair(**more: Any) -> PairFinding:
    return PairFinding("cool", "single", estimate(1.7, 1.4), 2.1, 0.02, **more)


def told(found: MeasureFinding) -> str:
    sure = sure_view(found, {"cool": "A", "single": "B", "stops": "C"})
    return Parsed(Renderer(ROOT).fragment("fragments/pairs.html.jinja", sure=sure)).text


def words(found: PairFinding) -> str:
    return told(measure(*HOLDERS.items, pairs=(found,)))


@pytest.mark.parametrize(
    ("more", "sentences"),
    [
        ({"shown": True}, ("B ran hotter than A", "1.7 ± 2.1 °C (3.1 ± 3.8 °F) apart")),
        (
            {"shown": False, "gap": 3.04},
            (
                "No difference found between A and B: 1.7 ± 2.1 °C (3.1 ± 3.8 °F) apart (2 and 1 pieces).",
                "This test sees gaps of about 3 °C (5.5 °F); a smaller one may exist.",
            ),
        ),
        (
            {"shown": False, "known": False},
            (
                "The pieces tested here: A and B 1.7 ± 2.1 °C (3.1 ± 3.8 °F) apart (2 and 1 pieces)",
                "products differ is not known",
            ),
        ),
    ],
)
def test_a_pair_is_said_with_the_half_width_of_its_own_level(
    more: dict[str, Any], sentences: tuple[str, ...]
) -> None:
    made = words(pair(**more))
    for sentence in sentences:
        assert sentence in made
    for word in ("equal", "same", "joint", "winner", "tie"):
        assert word not in made.lower().split()


def test_a_place_is_told_by_who_is_shown_where_and_a_number_only_as_a_range() -> None:
    stand = (Place(1, 2, best=False), Place(1, 2, best=False), Place(3, 3, best=False))
    items = [dataclasses.replace(each, place=place) for each, place in zip(HOLDERS.items, stand, strict=True)]
    pairs = (
        pair(shown=False, gap=3.0),
        PairFinding("cool", "stops", estimate(20, 2), 3.0, 0.001, shown=True),
        PairFinding("single", "stops", estimate(18, 2), 3.0, 0.001, shown=True),
    )
    made = told(measure(*items, pairs=pairs))
    assert "A: shown cooler than C 1st to 2nd" in made
    assert "B: shown cooler than C 1st to 2nd" in made
    assert "3rd" not in made


def test_what_stopped_stands_behind_and_two_items_need_no_list() -> None:
    stand = (Place(1, 1, best=True), Place(2, 2, best=False), Place(3, 3, best=False))
    items = [dataclasses.replace(each, place=place) for each, place in zip(HOLDERS.items, stand, strict=True)]
    made = told(measure(*items, pairs=(pair(shown=True),)))
    assert "A: shown cooler than every other" in made
    assert "B: shown hotter than A" in made
    assert "C: no figure; it stands behind all that have one" in made
    assert "stands" not in told(measure(*items[:2], pairs=(pair(shown=True),)))


def test_a_gap_of_another_quantity_keeps_its_unit() -> None:
    force = dataclasses.replace(
        measure(*HOLDERS.items, pairs=(pair(shown=False, gap=34.4),)), kind="scalar", unit="N"
    )
    assert "This test sees gaps of about 34 N (7.7 lbf);" in told(force)
    assert "hotter" not in told(dataclasses.replace(force, pairs=(pair(shown=True),)))


def test_every_pair_of_the_demo_is_told() -> None:
    assert len(VIEW.pairs) == len(FINDING.pairs) == 6
    assert [each.said for each in VIEW.pairs].count("pieces only") == 3


def test_a_force_is_higher_and_never_hotter() -> None:
    html = Renderer(ROOT).fragment("fragments/pairs.html.jinja", sure=sure_view(PULL, NAMES))
    said = Parsed(html).text
    assert "Tessvik T30 was higher than Veldrun V30" in said
    assert "102 ± 43 N" in said
    assert "lbf" in said
    assert "Tessvik T30: shown better than every other" in said
    assert "Grenlo 30: shown lower than" in said
    assert not re.search(r"hott|cool|°", said)


def test_a_spread_of_forces_is_in_their_unit() -> None:
    row = next(row for row in sure_view(PULL, NAMES).spreads if row.name == "Tessvik T30")
    assert row.deviation is not None
    newtons, pounds = (
        float(text.partition("\N{NO-BREAK SPACE}")[0]) for text in (row.deviation.metric, row.deviation.us)
    )
    assert row.deviation.metric.endswith("N")
    assert row.deviation.us.endswith("lbf")
    assert newtons == pytest.approx(4.448222 * pounds, rel=0.05)


def test_a_spread_says_where_it_comes_from() -> None:
    origins = {row.name: (row.rests.n, row.origin) for row in VIEW.spreads}
    assert origins["Tessvik T30"] == (5, "own")
    assert origins["Okvarn IH30"] == (3, "pooled")
    assert origins["Pallsto F-30"] == (1, "none")
    assert "Grenlo 30" not in origins
    assert all((row.deviation is None) == (row.origin == "none") for row in VIEW.spreads)
    assert Spread("none", 0.0, math.inf).declared_from == ""


def test_figures_are_told_together_where_one_assumption_costs_them_most() -> None:
    told = {name: row.what for row in VIEW.assumed for name, _ in row.figures}
    # With five pieces the parts that are new in each run are in the spread already.
    assert told["Tessvik T30"] == "probe draws heat off, new for each item"
    assert told["Pallsto F-30"] == "new in each run"
    assert [type(row) for row in VIEW.assumed] == [AssumedRow] * len(set(told.values()))
    assert VIEW.single == ("Pallsto F-30",)


def test_meters_are_named_once_whatever_they_may_be_wrong_by() -> None:
    errors = errors_in([FINDING], demo().instruments)
    assert errors.meters == ("clamp meter", "eight-channel logger", "infra-red head")
    (probes,) = errors.probes
    assert probes.tolerance == "type K class 1"
    assert probes.ids[:2] == ("k1", "k3")
    assert errors.others[0] == "spread between pieces"
    assert len(set(errors.others)) == len(errors.others)


def test_every_source_of_error_has_plain_words(tmp_path: Path) -> None:
    folder = tmp_path / "site_templates" / "pages"
    folder.mkdir(parents=True)
    text = '{% from "words/sure.jinja" import cause %}{{ cause(label) }}'
    (folder / "cause.html.jinja").write_text(text, encoding="utf-8")
    renderer = Renderer(tmp_path)
    for label in errors_in([FINDING], demo().instruments).others:
        assert renderer.fragment("pages/cause.html.jinja", label=label) != label
    assert renderer.fragment("pages/cause.html.jinja", label="rig") == "rig"


def test_only_pairs_whose_products_compare_are_said_to_be_held_together() -> None:
    assert VIEW.compared == sum(each.known for each in FINDING.pairs) == 3
    told = parsed(next(each for each in demo_site().pages if each.uri == "r/fuse-holders-30a/index.md")).text
    assert "3 of these pairs compare the products. Their ± are wide enough for all of them" in told
