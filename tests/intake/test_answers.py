"""Answers are read by the types of the fields that they go to, and refused in their words."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.intake.answers import field, new_name, one_of, quantity
from generator.intake.names import free, id_from
from generator.intake.taking import NotTaken, either, number, parts, readable, several, words
from generator.records.schema.instrument import Instrument
from generator.records.schema.item import Item
from generator.records.schema.method import Method
from generator.records.schema.run import RunRecord


@pytest.mark.parametrize(
    ("check", "answer"),
    [
        (field(Item, "maker"), "M\u00fcller & S\u00f6hne: 'no' # 1"),
        (field(Item, "specimens", "A", "paid"), "4.80 EUR"),
        (field(Item, "specimens", "A", "date"), "2026-03-08"),
        (field(Method, "stop-limit"), "90 degC"),
        (field(Method, "conditions", "conductor"), "4 mm2 class 5"),
        (field(Instrument, "probes", "p1"), "type K class 1"),
        (field(RunRecord, "termination", "strip"), "10 mm"),
        (quantity("current"), "30 A"),
    ],
)
def test_what_the_record_takes_is_kept_as_typed(check: object, answer: str) -> None:
    assert callable(check)
    assert check(answer) == answer


@pytest.mark.parametrize(
    ("check", "answer", "why"),
    [
        (field(Item, "maker"), "", "no"),
        (field(Item, "specimens", "A", "date"), "2026-02-30", "there is no day 2026-02-30"),
        (field(Item, "specimens", "A", "paid"), "4.80", "not a price"),
        (field(Instrument, "probes", "p1"), "type Z class 1", "no tolerance of type Z class 1 is known here"),
        (field(Method, "stop-limit"), "90", "a number without a unit"),
        (quantity("force"), "3 kg", "'kg' is not the unit here; did you mean 'kgf'?"),
        (one_of(["okvarn"], "there is no item"), "okvran", "of this name; did you mean 'okvarn'?"),
        (one_of([], "there is no item"), "okvarn", "there is no item of this name, and none at all"),
        (words("dc", "ac"), "DC", "not one of the words"),
        (number(26), "0", "a number from 1 to 26"),
        (number(26), "1" * 5000, "a number from 1 to 26"),
        (number(26), "\u00b2", "a number from 1 to 26"),
        (readable, "a\udcffb", "bytes that are no text"),
    ],
)
def test_what_it_would_refuse_is_refused_in_its_words(check: object, answer: str, why: str) -> None:
    assert callable(check)
    with pytest.raises(NotTaken) as refused:
        check(answer)
    assert why in refused.value.what


def test_several_answers_on_one_line() -> None:
    check = several(one_of(["a", "b"], "there is no item"))
    assert check("a, b  a") == "a b"
    assert parts(" , ") == ()
    with pytest.raises(NotTaken):
        check("a c")
    assert either("never", number(2))("never") == "never"


def test_a_name_is_free_and_one_that_its_place_takes(tmp_path: Path) -> None:
    check = new_name(tmp_path, lambda each: f"items/{each}.yml")
    assert check("okvarn-ih30") == "okvarn-ih30"
    (tmp_path / "reports/items").mkdir(parents=True)
    (tmp_path / "reports/items/okvarn-ih30.yml").touch()
    with pytest.raises(NotTaken, match=r"reports/items/okvarn-ih30\.yml exists already"):
        check("okvarn-ih30")
    with pytest.raises(NotTaken) as refused:
        check("Okvarn IH30!")
    assert refused.value.accepted == ("okvarn-ih30",)
    for name in ("control", "a/b", "..", "", "x" * 41):
        with pytest.raises(NotTaken):
            check(name)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("Okvarn IH30", "okvarn-ih30"),
        ("M\u00fcller & S\u00f6hne 4,5", "muller-sohne-4-5"),
        ("Which 30 A in-line fuse holder stays coolest?", "which-30-a-in-line-fuse-holder-stays"),
        ("\u65e5\u672c", ""),
        ("x" * 60, "x" * 40),
    ],
)  # fmt: skip
def test_a_name_is_made_from_words(said: str, name: str) -> None:
    assert id_from(said) == name


def test_the_next_free_name(tmp_path: Path) -> None:
    long = "x" * 40
    for name in ("a", "a-2", long):
        (tmp_path / f"{name}.yml").touch()
    assert free(tmp_path, "a", ".yml") == "a-3"
    assert free(tmp_path, "b", ".yml") == "b"
    assert free(tmp_path, long, ".yml") == "x" * 38 + "-2"
    assert free(tmp_path, "") == ""
