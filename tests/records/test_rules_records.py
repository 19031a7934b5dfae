"""Rules of items, instruments, methods, settings, reports and what stands round them, beyond bad/."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.fault import Place
from generator.records.bench import load
from generator.records.rules.common import absent, offered, plainly, twice
from tests.records.laid import EDITION, GOOD, REPORT, changed, good, laid, whats
from tests.records.sealed import content_of, resealed

ITEM = "items/okvarn-ih30.yml"
METHOD = "methods/closed-box-heating/2.yml"
REPORT_FILE = f"{REPORT}/report.yml"


def test_a_piece_that_was_bought_without_a_price(tmp_path: Path) -> None:
    bench = changed(tmp_path, ITEM, (", paid: 4.80 EUR", ""))
    assert whats(bench.doubts) == [
        "specimens.A: bought, and what was paid is not said; the page can then show no price"
    ]


def test_a_stock_of_no_piece(tmp_path: Path) -> None:
    bench = changed(tmp_path, ITEM, (", stock: since-march", ""))
    assert whats(bench.doubts) == ["stocks.since-march: no piece is of this stock"]


@pytest.mark.parametrize(
    ("rating", "fine"),
    [
        ("limit: rise, value: 45 K", True),
        ("limit: rise, value: 45 A", False),
        ("limit: temperature, value: 105 degC", True),
        ("limit: screw, value: 1.2 N m", True),
    ],
)
def test_ratings_are_of_what_they_say(tmp_path: Path, rating: str, fine: bool) -> None:
    bench = changed(tmp_path, ITEM, ("limit: current, value: 30 A", rating))
    assert (bench.faults == ()) is fine


def test_a_probe_that_leads_nothing_away(tmp_path: Path) -> None:
    bench = changed(tmp_path, METHOD, ("reads-low-by-at-most: 1.5 K", "reads-low-by-at-most: 0 K"))
    assert [each.path for each in bench.doubts] == ["points.body.reads-low-by-at-most"]


@pytest.mark.parametrize(
    ("change", "path", "what"),
    [
        (("id: opens-by-hand", "id: rise"), "measures.2.id", "two measures of one method cannot have one id"),
        (("id: wait", "id: torque"), "steps.2.id", "two steps of one method cannot have one id"),
        (("[extra-low voltage]", "[mechanical, mechanical]"), "hazard.2", "named twice"),
        (
            ("spread: {value: 1.2 K", "spread: {value: 1.2 N"),
            "measures.1.spread.value",
            "a difference of temperatures is wanted here",
        ),
        (("schedule: 0 2 5 10 15 20 25 30 40 45 50 55 60 min\n", ""), "schedule", "missing: when to read"),
        (
            ("comparable-with: [1]", "comparable-with: [1, 2]"),
            "comparable-with.2",
            "only earlier versions can be named here",
        ),
        (
            ("change: 2 K", "change: 0 K"),
            "measures.1.settled.change",
            "a difference of temperatures above nought is needed",
        ),
    ],
)
def test_methods(tmp_path: Path, change: tuple[str, str], path: str, what: str) -> None:
    faults = [each for each in changed(tmp_path, METHOD, change).faults if each.place.file.name == "2.yml"]
    assert [each.path for each in faults] == [path]
    assert faults[0].what.startswith(what)


def test_a_version_that_is_gone(tmp_path: Path) -> None:
    bench = laid(tmp_path, {"methods/closed-box-heating/1.yml": None})
    assert whats(bench.faults) == [
        "comparable-with.1: there is no earlier version of this name, and none at all"
    ]


def test_a_point_called_hottest(tmp_path: Path) -> None:
    name = "methods/closed-box-heating/1.yml"
    bench = changed(
        tmp_path,
        name,
        ("  body: {", "  hottest: {where: x, held-by: tape, reads-low-by-at-most: 1 K}\n  body: {"),
    )
    assert whats(bench.faults) == [
        "points.hottest: 'hottest' means the hottest of all points; a point needs another name"
    ]


@pytest.mark.parametrize(
    ("change", "path", "what"),
    [
        (("resolution: 0.01 A, ", ""), "ranges.1.resolution", "missing: the accuracy counts digits"),
        (("due: 2027-02-10", "due: 2025-02-10"), "calibrations.1.due", "due before the calibration itself"),
        (
            ("due: 2027-02-10}", "due: 2027-02-10}\n  - {date: 2024-02-10, by: Pallsto Metrology}"),
            "calibrations.2.date",
            "calibrations stand in order of date; 2025-02-10",
        ),
    ],
)
def test_instruments(tmp_path: Path, change: tuple[str, str], path: str, what: str) -> None:
    (fault,) = changed(tmp_path, "instruments/clamp-2.yml", change).faults
    assert fault.path == path
    assert fault.what.startswith(what)


def test_the_accuracy_of_temperatures_may_be_the_probes_alone(tmp_path: Path) -> None:
    name = "instruments/logger-1.yml"
    assert changed(tmp_path, name, ('accuracy: "±(0.5 % + 0.5 degC)", ', "")).faults == ()


def test_hints_without_their_instrument(tmp_path: Path) -> None:
    bench = laid(tmp_path, {"instruments/logger-2.import.yml": "decimal: comma\n"})
    assert "there is no logger-2.yml beside them" in bench.faults[0].what


@pytest.mark.parametrize(
    ("change", "path", "accepted"),
    [
        (("measure: pull}", "measure: pul}"), "comparison.columns.2.measure", ("endured", "opened", "pull")),
        (
            ("method: pull-out", "method: pull-ou"),
            "comparison.columns.2.method",
            ("closed-box-heating", "joint-resistance", "pull-out", "socket-impedance"),
        ),
    ],
)
def test_columns_of_the_comparison(
    tmp_path: Path, change: tuple[str, str], path: str, accepted: tuple[str, ...]
) -> None:
    (fault,) = changed(tmp_path, "bench.yml", change).faults
    assert (fault.path, fault.accepted) == (path, accepted)


@pytest.mark.parametrize(
    ("change", "path", "what"),
    [
        (("items: [okvarn-ih30, ", "items: [okvarn-ih30, okvarn-ih30, "), "items.2", "named twice"),
        (("measures: [rise, ", "measures: [rise, rise, "), "measures.2", "named twice"),
        (("choice: okvarn-ih30\n", ""), "because", "a reason, and no `choice` that it is for"),
        (("- {item: okvarn-ih30", "- {item: okvarn-ih3"), "opinions.1.item", "not among the report's items"),
        (("runs: all", "runs: [okvarn-a, okvarn-a, veldrun-b, okvarn-a-pull]"), "runs.2", "named twice"),
        (
            ("runs: all", "runs: [okvarn-a, cable-1, veldrun-b, okvarn-a-pull]"),
            "runs.2",
            "this is a control run; name it under `controls`",
        ),
        (
            ("controls: [cable-1]", "controls: [cable-9]"),
            "controls.1",
            "there is no run of this name; did you mean 'cable-1'?",
        ),
        (
            ("condition: {conductor:", "condition: {conducter:"),
            "limits.1.condition.conducter",
            "no method of this report's runs has a condition of this name",
        ),
        (("value: 105 degC", "value: -5 degC"), "limits.1.value", "a limit above nought is needed"),
    ],
)
def test_reports(tmp_path: Path, change: tuple[str, str], path: str, what: str) -> None:
    (fault,) = changed(tmp_path, REPORT_FILE, change).faults
    assert fault.path == path
    assert fault.what.startswith(what)


AT_LEAST = "  - {kind: at least, measure: pull, value: 200 N, standing: claimed, source: the seller's page}\n"


def test_a_list_of_runs_takes_those_of_sittings_and_of_other_reports(tmp_path: Path) -> None:
    other = good(
        REPORT_FILE,
        ("runs: all", f"runs: [2026-03-09/okvarn-ih30:E, {REPORT}/veldrun-b]"),
        ("[rise, opens-by-hand, pull, opened]", "[rise]"),
        ("controls: [cable-1]\n", ""),
        ("photos: {ih30-lever.png: The lever of piece A at the end of its travel}\n", ""),
        (", basis: [ih30-lever.png]", ", basis: [by hand]"),
        (AT_LEAST, ""),
    )
    bench = laid(tmp_path, {"2026-again/report.yml": other})
    assert bench.faults == ()
    assert sorted(bench.reports["2026-again"].runs) == ["2026-03-09/okvarn-ih30:E", f"{REPORT}/veldrun-b"]
    assert bench.reports["2026-again"].own == {}


def test_with_all_runs_a_report_takes_no_runs_of_another_report(tmp_path: Path) -> None:
    other = good(
        REPORT_FILE,
        ("[rise, opens-by-hand, pull, opened]", "[rise]"),
        ("controls: [cable-1]\n", ""),
        ("photos: {ih30-lever.png: The lever of piece A at the end of its travel}\n", ""),
        (", basis: [ih30-lever.png]", ", basis: [by hand]"),
    )
    bench = laid(tmp_path, {"2026-again/report.yml": other})
    assert sorted(bench.reports["2026-again"].runs) == [
        "2026-03-09/okvarn-ih30:E",
        "2026-03-09/veldrun-v30:A",
    ]


def test_a_basis_of_no_photo(tmp_path: Path) -> None:
    bench = changed(tmp_path, REPORT_FILE, ("basis: [ih30-lever.png]", "basis: [ih30-side.jpg]"))
    assert whats(bench.doubts) == ["opinions.1.basis.1: no such photo in the report's photos/"]
    assert bench.faults == ()


def test_a_control_that_the_report_does_not_name(tmp_path: Path) -> None:
    bench = changed(tmp_path, REPORT_FILE, ("controls: [cable-1]\n", ""))
    assert len(bench.doubts) == 1
    assert f"{REPORT}/cable-1" not in bench.reports[REPORT].runs
    assert f"{REPORT}/cable-1" in bench.runs


def next_edition(number: int, **changes: object) -> str:
    """Another edition of the good bench's report, sealed."""
    first = good(EDITION)
    return resealed(first, edition=str(number), follows=content_of(first)["hash"], **changes)


@pytest.mark.parametrize(
    ("name", "text", "path", "what"),
    [
        (
            "3.yml",
            next_edition(3, date="2026-06-01", reason="retest", summary="Anew."),
            "",
            "edition 3 is here and edition 2 is not",
        ),
        (
            "2.yml",
            next_edition(2, date="2026-03-01", reason="retest", summary="Anew."),
            "date",
            "before the edition before it, which is of 2026-03-20",
        ),
        (
            "2.yml",
            next_edition(2, date="2026-06-01", reason="retest"),
            "summary",
            "missing: what changed, in a sentence",
        ),
        ("1.yml", resealed(good(EDITION), reason="retest"), "reason", "the first edition amends none"),
        (
            "1.yml",
            resealed(good(EDITION), follows=f"1:{'0' * 64}"),
            "follows",
            "the first edition follows none",
        ),
        (
            "2.yml",
            resealed(next_edition(2, date="2026-06-01", reason="retest", summary="Anew."), follows=None),
            "follows",
            "this is not the fingerprint of edition 1, so one of the two was edited; put it back",
        ),
    ],
)
def test_editions(tmp_path: Path, name: str, text: str, path: str, what: str) -> None:
    bench = laid(tmp_path, {f"{REPORT}/editions/{name}": text})
    assert [(each.path, each.what) for each in bench.faults] == [(path, what)]


def test_chapters_stand_in_order(tmp_path: Path) -> None:
    (fault,) = changed(tmp_path, f"{REPORT}/links.yml", ('"4:12"', '"0:00"')).faults
    assert fault.what == "chapters stand in order of time; 0:00 stands before this one"


def test_twice() -> None:
    assert list(twice(["a", "b", "a", "a"])) == [(2, "a"), (3, "a")]


def test_long_lists_offer_only_what_is_near() -> None:
    known = [f"holder-{number}" for number in range(40)]
    assert offered("holder-7", known[:12]) == tuple(known[:12])
    assert 0 < len(offered("holdr-7", known)) <= 5
    assert "holder-7" in offered("holdr-7", known)


def test_absent() -> None:
    fault = absent("there is no item", "okvarn", ["okvarn-1"], Place(Path("/a.yml"), 1, 1), "item")
    assert (fault.what, fault.found) == ("there is no item of this name; did you mean 'okvarn-1'?", "okvarn")


@pytest.mark.parametrize(
    ("quantity", "told"),
    [("interval", "a difference of temperatures"), ("area", "an area"), ("force", "a force")],
)
def test_plainly(quantity: str, told: str) -> None:
    assert plainly(quantity) == told


@pytest.mark.parametrize(
    ("value", "fine"), [("spread: {value: 3 K, ", True), ("spread: {value: 3 N, ", False)]
)
def test_the_spread_of_a_temperature_is_a_difference(tmp_path: Path, value: str, fine: bool) -> None:
    text = f"""title: Warmth of the lid
hazard: [mechanical]
measures:
  - {{id: lid, kind: scalar, quantity: temperature, {value}origin: x, freedom: 3}}}}
"""
    assert (laid(tmp_path, {"methods/lid/1.yml": text}).faults == ()) is fine


@pytest.mark.parametrize(
    ("name", "change", "path", "what"),
    [
        (
            METHOD,
            ("enclosure: closed box 2 l", "enclosure: [box]"),
            "conditions.enclosure",
            "a text or keys with values",
        ),
        (REPORT_FILE, ("runs: all", "runs: {all: yes}"), "runs", "a list or a text is expected here"),
        (
            METHOD,
            ("measures:\n", "measures:\n  - heating\n"),
            "measures.1",
            "keys with values are expected here",
        ),
    ],
)
def test_a_key_of_several_forms(
    tmp_path: Path, name: str, change: tuple[str, str], path: str, what: str
) -> None:
    fault = next(
        each for each in changed(tmp_path, name, change).faults if each.place.file.name == Path(name).name
    )
    assert fault.path == path
    assert what in fault.what


def test_a_range_of_nothing_known_has_one_fault(tmp_path: Path) -> None:
    bench = changed(tmp_path, "instruments/clamp-2.yml", ("quantity: current", "quantity: curent"))
    assert [each.path for each in bench.faults] == ["ranges.1.quantity"]


def test_a_report_whose_method_is_at_fault_is_not_blamed(tmp_path: Path) -> None:
    name = "methods/pull-out/1.yml"
    bench = changed(tmp_path, name, ("kind: scalar", "kind: scalr"))
    assert [each.place.file.name for each in bench.faults] == ["1.yml"]


def test_the_title_of_an_item() -> None:
    assert load(GOOD).items["okvarn-ih30"].title == "Okvarn IH30"


def test_an_item_whose_only_runs_are_in_a_faulty_sitting_is_not_called_untested(tmp_path: Path) -> None:
    name = f"{REPORT}/report.yml"
    files: dict[str, str | None] = {
        "items/tessvik-t30.yml": good("items/veldrun-v30.yml"),
        name: good(name, ("[okvarn-ih30, veldrun-v30]", "[okvarn-ih30, veldrun-v30, tessvik-t30]")),
        "sittings/2026-03-14.yml": "date: 2026-03-14\nruns:\n  tessvik-t30:A: {methd: box/1}\n",
    }
    bench = laid(tmp_path, files)
    assert {each.place.file.name for each in bench.faults} == {"2026-03-14.yml"}


def test_an_item_that_a_sitting_tested_by_a_faulty_method_is_not_called_untested(tmp_path: Path) -> None:
    name = f"{REPORT}/report.yml"
    files: dict[str, str | None] = {
        "items/tessvik-t30.yml": good("items/veldrun-v30.yml"),
        name: good(name, ("[okvarn-ih30, veldrun-v30]", "[okvarn-ih30, veldrun-v30, tessvik-t30]")),
        "methods/box/1.yml": "title: Box\n",
        "sittings/2026-03-14.yml": (
            "date: 2026-03-14\nruns:\n  tessvik-t30:A: {method: box/1, values: {rise: 3 K}}\n"
        ),
    }
    bench = laid(tmp_path, files)
    assert {each.place.file.relative_to(bench.root / "reports").as_posix() for each in bench.faults} == {
        "methods/box/1.yml"
    }


def test_a_set_with_an_item_that_has_no_price(tmp_path: Path) -> None:
    bench = changed(tmp_path, REPORT_FILE, ("{okvarn-ih30: 4}", "{okvarn-ih30: 4, veldrun-v30: 2}"))
    assert whats(bench.doubts) == [
        "sets.1.of.veldrun-v30: no price of this item is recorded, so the set has none"
    ]
