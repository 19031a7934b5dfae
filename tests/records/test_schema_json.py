"""The JSON Schemas for editors, against jsonschema: good records are not underlined, bad ones are."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from generator.records.library import MODELS
from generator.records.nodes import Mapping, Node, Scalar, Sequence
from generator.records.schema.base import Record, json_schema
from generator.records.source import read
from generator.records.tree import Kind, survey
from tests.records.laid import GOOD

FILES = survey(GOOD / "reports").records


def as_an_editor_sees(node: Node) -> Any:
    """Nodes as a reader of YAML 1.2's core schema has them: the types that an editor checks."""
    if isinstance(node, Mapping):
        return {key: as_an_editor_sees(value) for key, value in node.items()}
    if isinstance(node, Sequence):
        return [as_an_editor_sees(value) for value in node]
    return _scalar(node)


def _scalar(node: Scalar) -> Any:
    text = node.text
    if node.style != "plain":
        return text
    if node.is_null:
        return None
    if text in {"true", "false", "True", "False", "TRUE", "FALSE"}:
        return text.lower() == "true"
    if re.fullmatch(r"[-+]?[0-9]+", text):
        return int(text)
    if re.fullmatch(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", text):
        return float(text)
    return text


def errors(kind: Kind, data: Any) -> list[str]:
    return [each.message for each in Draft202012Validator(json_schema(MODELS[kind])).iter_errors(data)]


@pytest.mark.parametrize("kind", sorted(MODELS))
def test_every_type_of_record_has_a_schema(kind: Kind) -> None:
    schema = json_schema(MODELS[kind])
    Draft202012Validator.check_schema(schema)
    assert schema["type"] == "object"
    assert json.loads(json.dumps(schema)) == schema
    described = [name for name, each in schema["properties"].items() if "description" in each]
    assert described == list(schema["properties"])


@pytest.mark.parametrize("file", FILES, ids=lambda each: f"{each.kind}-{each.path.stem}")
def test_good_records_are_not_underlined(file: Any) -> None:
    root = read(file.path).root
    assert root is not None
    assert errors(file.kind, as_an_editor_sees(root)) == []


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
