"""The JSON Schemas for editors, against jsonschema: good records are not underlined, bad ones are."""

from __future__ import annotations

import json
from pathlib import Path, PurePosixPath
from typing import Any

import pytest
from jsonschema import Draft7Validator, Draft202012Validator
from ruamel.yaml.error import YAMLError

from generator.pages.locate import templates
from generator.records.corrections import alone, is_correction
from generator.records.library import MODELS
from generator.records.nodes import Node, Scalar
from generator.records.schema.base import FileRecord, Record
from generator.records.schema.for_editors import DRAFT, json_schema
from generator.records.source import read
from generator.records.tree import Kind, RecordFile, kind_of, survey
from tests.records.editors import as_an_editor_sees, errors
from tests.records.laid import GOOD

DEMO = Path(__file__).parents[2] / "reports"
BAD = Path(__file__).parent / "bad"
FILES = survey(GOOD / "reports").records
EXAMPLE = (
    *survey(templates() / "bench" / "reports").records,
    *survey(templates() / "example" / "reports").records,
)


def singles() -> list[tuple[str, RecordFile]]:
    """Bad records of one file, each as the record that its first line says it is."""
    found = []
    for path in sorted(BAD.glob("*.yml")):
        place = path.read_text(encoding="utf-8").split("\n", 1)[0].removeprefix("# ")
        known = [each for each in survey_of(place) if each.path.name == Path(place).name]
        found += [(path.stem, RecordFile(path, each.kind, each.name, each.report)) for each in known]
    return found


def survey_of(place: str) -> tuple[RecordFile, ...]:
    kind = kind_of(PurePosixPath(place))
    name = PurePosixPath(place)
    stem = f"{name.parent.name}/{name.stem}" if kind == "methods" else name.stem
    return (RecordFile(Path(place), kind, stem),) if kind else ()


def is_block(node: Node | None) -> bool:
    return isinstance(node, Scalar) and node.style == "block"


@pytest.mark.parametrize("kind", sorted(MODELS))
def test_every_type_of_record_has_a_schema(kind: Kind) -> None:
    schema = json_schema(MODELS[kind])
    Draft7Validator.check_schema(schema)
    Draft202012Validator.check_schema({key: each for key, each in schema.items() if key != "$schema"})
    assert (schema["$schema"], schema["type"]) == (DRAFT, "object")
    assert json.loads(json.dumps(schema)) == schema
    described = [name for name, each in schema["properties"].items() if "description" in each]
    assert described == list(schema["properties"]) == list(MODELS[kind].spelt())


@pytest.mark.parametrize("kind", sorted(MODELS))
def test_no_schema_names_another_place_or_proposes_nothing_as_a_value(kind: Kind) -> None:
    text = json.dumps(json_schema(MODELS[kind]))
    assert '"default": null' not in text
    assert '"title": "' not in text, "what pydantic makes of names"
    assert {each.split('"')[0] for each in text.split('"$ref": "')[1:]} <= {
        f"#/$defs/{name}" for name in json_schema(MODELS[kind]).get("$defs", {})
    }


@pytest.mark.parametrize(
    "file", [*FILES, *survey(DEMO).records, *EXAMPLE], ids=lambda each: f"{each.kind}-{each.path.stem}"
)
def test_good_records_are_not_underlined(file: Any) -> None:
    assert errors(file.kind, as_an_editor_sees(file.path.read_text(encoding="utf-8"))) == []


def test_a_correction_may_say_one_key_of_a_mapping_and_a_whole_run_may_not() -> None:
    one = {"infrared": {"emissivity-set": "0.85"}}
    assert errors("runs", {"corrects": "a", "because": "x", **one}) == []
    assert errors("runs", {"method": "m/1", "date": "2026-03-01", **one}) != []


def test_what_an_editor_underlines_is_at_fault_and_much_of_what_is_at_fault_is_underlined() -> None:
    underlined, of_form = set(), set()
    for name, file in singles():
        root = read(file.path).root
        if root is None:
            continue
        whole = alone(root) if file.kind == "runs" and is_correction(root) else root
        found = MODELS[file.kind].from_nodes(whole, file.name)
        marked = errors(file.kind, as_an_editor_sees(file.path.read_text(encoding="utf-8")))
        if isinstance(found, FileRecord):
            assert not marked, (name, marked)
            continue
        # A table is one text to a schema.
        if all(is_block(root.get(each.path.split(".")[0])) for each in found):
            continue
        of_form.add(name)
        if marked:
            underlined.add(name)
        words = " ".join(each.what for each in found)
        if any(
            each in words for each in ("unknown key", "missing:", "not one of the words", "this is a list")
        ):
            assert marked, (name, words)
    assert len(of_form) > 120
    assert len(underlined) > 0.55 * len(of_form), sorted(of_form - underlined)


def test_what_yaml_itself_refuses_the_other_reader_refuses_or_reads_as_something_else() -> None:
    """Anchors, tags and the like are YAML; quotes that are not closed are none to any reader."""
    refused = set()
    for name, file in singles():
        try:
            as_an_editor_sees(file.path.read_text(encoding="utf-8"))
        except YAMLError:
            refused.add(name)
    assert {"key-twice", "quote-left-open", "brace-left-open", "at-sign-at-the-start"} <= refused
    assert all(read(file.path).root is None for name, file in singles() if name in refused)


@pytest.mark.parametrize("kind", sorted(MODELS))
def test_an_unknown_key_is_underlined(kind: Kind) -> None:
    assert any("'nonsense'" in each for each in errors(kind, {"nonsense": 1}))


ITEM = {"maker": "Okvarn", "model": "IH30", "specimens": {"A": {"got": "bought"}}}


@pytest.mark.parametrize(
    ("changes", "fine"),
    [
        ({"model": 30}, True),
        ({"model": 1.10}, True),
        ({"model": True}, True),
        ({"model": None}, False),
        ({"model": ["IH30"]}, False),
        ({"specimens": {"A": {"got": "bought", "date": "2026-03-08"}}}, True),
        ({"specimens": {"A": {"got": "bought", "pack": 6}}}, True),
        ({"specimens": {"A": {"got": "gift"}}}, False),
        ({"specimens": {"A": {}}}, False),
        ({"specimens": {}}, False),
        ({"ratings": [{"limit": "current", "value": 30, "standing": "claimed", "source": "x"}]}, False),
    ],
)
def test_items_as_an_editor_sees_them(changes: dict[str, Any], fine: bool) -> None:
    assert (errors("items", ITEM | changes) == []) is fine


def test_a_measure_is_checked_by_its_kind() -> None:
    method = {
        "title": "x",
        "hazard": ["mechanical"],
        "measures": [{"id": "pull", "kind": "scalar", "quantity": "force"}],
    }
    assert errors("methods", method) == []
    assert errors("methods", method | {"measures": [{"id": "pull", "kind": "scalar", "at": "60 min"}]})


def test_a_sitting_takes_columns_beside_the_keys_of_a_run() -> None:
    run = {"method": "closed-box-heating/2", "temperature@body": "logger-1/CH3"}
    assert errors("sittings", {"date": "2026-03-09", "runs": {"okvarn-ih30:A": run}}) == []


def test_every_record_below_another_forbids_unknown_keys_too() -> None:
    open_ones = {
        f"{model.__name__}.{name}"
        for model in MODELS.values()
        for name, each in json_schema(model).get("$defs", {}).items()
        if each.get("type") == "object" and each.get("additionalProperties") is not False
    }
    assert open_ones == {"Sitting.SittingRun"}
    assert issubclass(MODELS["items"], Record)


def test_the_good_bench_has_every_type_of_record() -> None:
    assert {each.kind for each in FILES} == set(MODELS)
    assert all(isinstance(each.path, Path) for each in FILES)
