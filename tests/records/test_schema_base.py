from __future__ import annotations

from pathlib import Path
from typing import Literal

import pytest
from pydantic import Field, ValidationError

from generator.fault import Fault, message
from generator.records.schema.base import FileRecord, Record, key_of, node_kind
from generator.records.schema.fields import Text, Words
from generator.records.source import read_text


class Part(Record):
    from_: Text = Field(description="from whom")
    tell_by: Text | None = Field(None, description="how to tell it")


class Whole(FileRecord):
    name: Text = Field(description="its name")
    kind: Words[Literal["one", "two"]] = Field("one", description="which")
    parts: tuple[Part, ...] = Field((), description="its parts")
    by_letter: dict[Text, Part] = Field(default_factory=dict, description="parts by letter")


FILE = Path("/bench/reports/a.yml")
TEXT = """name: a whole
parts:
  - {from: here, tell-by: its colour}
  - from: there
by-letter:
  A: {from: elsewhere}
"""


def whole(text: str = TEXT) -> Whole:
    found = read(text)
    assert isinstance(found, Whole)
    return found


def read(text: str) -> Whole | tuple[Fault, ...]:
    root = read_text(text, FILE).root
    assert root is not None
    return Whole.from_nodes(root, "a")


def messages(text: str) -> list[str]:
    found = read(text)
    assert isinstance(found, tuple)
    return [message(each, Path("/bench/reports")) for each in found]


@pytest.mark.parametrize(
    ("attribute", "key"), [("stop_limit", "stop-limit"), ("from_", "from"), ("id", "id"), ("a_b_c", "a-b-c")]
)
def test_key_of(attribute: str, key: str) -> None:
    assert key_of(attribute) == key


def test_attributes_are_the_keys_with_underscores() -> None:
    found = whole()
    assert found.parts[0].tell_by == "its colour"
    assert found.by_letter["A"].from_ == "elsewhere"
    assert (found.id, found.kind) == ("a", "one")


@pytest.mark.parametrize(
    ("path", "line", "column"),
    [
        ((), 1, 1),
        (("name",), 1, 7),
        (("parts", 0, "tell_by"), 3, 27),
        (("parts", 0, "tell-by"), 3, 27),
        (("parts", 1), 4, 5),
        (("by_letter", "A", "from_"), 6, 13),
        (("kind",), 1, 1),
        (("parts", 1, "tell_by"), 4, 5),
    ],
)
def test_place_of(path: tuple[str | int, ...], line: int, column: int) -> None:
    place = whole().place_of(*path)
    assert (place.line, place.column) == (line, column)


def test_a_record_inside_another_tells_its_own_places_and_whole_paths() -> None:
    part = whole().parts[1]
    assert (part.place_of("from_").line, part.path_of("from_")) == (4, "parts.2.from")
    assert part.path_of("tell_by") == "parts.2.tell-by"


def test_the_place_of_a_key_is_not_that_of_its_value() -> None:
    found = whole()
    assert (found.key_place_of("by_letter", "A").column, found.place_of("by_letter", "A").column) == (3, 6)
    assert found.fault_of_key(("by_letter", "A"), "so").path == "by-letter.A"


def test_fault_and_doubt_name_what_is_written_and_what_is_not() -> None:
    found = whole()
    fault = found.fault(("parts", 0, "from_"), "not here", "here", ("there",))
    assert (fault.path, fault.place.column, fault.found) == ("parts.1.from", 12, "here")
    assert found.doubt(("kind",), "left out").word == "doubt"
    assert found.fault(("kind",), "left out").path == "kind"


def test_records_do_not_change() -> None:
    with pytest.raises(ValidationError):
        whole().name = "another"  # type: ignore[misc]


def test_a_record_made_by_a_default_stands_nowhere() -> None:
    with pytest.raises(LookupError):
        Part.model_construct(from_="x").place_of()


def test_every_fault_is_told_at_once() -> None:
    told = messages(
        "nam: x\nkind: three\nparts:\n  - {from: [a]}\n  - tell-by: x\nby-letter: {A: {fro: b}}\n"
    )
    assert [line.split(": ")[1] for each in told for line in each.splitlines()[:1]] == [
        "name",
        "kind",
        "parts.1.from",
        "parts.2.from",
        "by-letter.A.from",
        "by-letter.A.fro",
        "nam",
    ]


def test_an_unknown_key_offers_the_nearest_and_lists_the_others() -> None:
    told = messages("name: x\nparts: [{from: here, tellby: it}]\n")
    assert told == [
        (
            "a.yml:2:22: parts.1.tellby: unknown key; did you mean 'tell-by'?\n"
            "    accepted: from, tell-by\n"
            "   2 | parts: [{from: here, tellby: it}]\n"
            "     |                      ^"
        )
    ]


def test_a_key_with_an_underscore_is_not_its_attribute() -> None:
    assert "did you mean 'tell-by'?" in messages("name: x\nparts: [{from: here, tell_by: it}]\n")[0]


def test_a_missing_key_says_what_it_is_for() -> None:
    assert messages("kind: two\n")[0].startswith("a.yml:1:1: name: missing: its name\n")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "name: x\nparts: here\n",
            "a list is expected here: [one, two], or a line each after a dash, found 'here'",
        ),
        ("name: x\nparts: {a: b}\n", "or a line each after a dash; this is keys with values"),
        ("name: x\nparts:\n", "no value here; a list is expected here"),
        (
            "name: x\nparts: [here]\n",
            "keys with values are expected here, a line each or in { }, found 'here'",
        ),
        (
            "name: x\nby-letter: []\n",
            "keys with values are expected here, a line each or in { }: parts by letter; this is a list",
        ),
        ("name: {a: b}\n", "a text is expected here; this is keys with values"),
        ("name:\n", "no value here; a text is expected"),
        ("name: ~\n", "no value here; a text is expected"),
    ],
)
def test_a_wrong_form_is_told_in_plain_words(text: str, told: str) -> None:
    assert told in messages(text)[0]


def test_empty_quotes_are_a_text_that_is_missing_all_the_same() -> None:
    assert "nothing between the quotes; a text is expected" in messages('name: ""\n')[0]


@pytest.mark.parametrize(("node", "kind"), [({}, "mapping"), ([], "sequence"), ("", "scalar")])
def test_node_kind(node: object, kind: str) -> None:
    assert node_kind(node) == kind


def test_where_keys_are_wanted_they_are_told_those_that_must_be_there_first() -> None:
    assert "    accepted: from, tell-by" in messages("name: x\nparts: [here]\n")[0]
    assert Whole.first() == ("name", "kind", "parts", "by-letter")
    assert Part.required() == ("from",)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "{from: a box, a bin}",
            "parts.1.a bin: unknown key; inside { } a comma begins the next key, so quote",
        ),
        ("{from: 1,5 mm}", "parts.1.5 mm: a decimal comma parts a number in two inside { }; write a point"),
        ("{from: a, bin: }", "parts.1.bin: unknown key\n"),
        ("{from: a, bin: b}", "parts.1.bin: unknown key\n"),
        ("{from: a, whom: b}", "parts.1.whom: unknown key; did you mean 'from'?"),
        ("{from: a, how: b}", "parts.1.how: unknown key; did you mean 'tell-by'?"),
        ("{from: a, it: b}", "parts.1.it: unknown key; did you mean 'tell-by'?"),
    ],
)
def test_an_unknown_key_is_told_by_what_it_probably_is(text: str, told: str) -> None:
    (only,) = messages(f"name: x\nparts:\n  - {text}\n")
    assert told in only


def test_a_number_parted_by_its_comma_is_told_once() -> None:
    (only,) = messages(
        "name: x\nkind: one\nparts:\n  - {from: a}\nby-letter: {A: {from: a, tell-by: 2,5 mm}}\n"
    )
    assert "a decimal comma" in only
