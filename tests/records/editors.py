"""Records as an editor sees them: read by another reader of YAML 1.2, held against the JSON Schemas."""

from __future__ import annotations

from functools import cache
from typing import Any

from jsonschema import Draft7Validator
from jsonschema.protocols import Validator
from ruamel.yaml import YAML
from ruamel.yaml.constructor import SafeConstructor

from generator.records.library import MODELS
from generator.records.schema.for_editors import json_schema
from generator.records.tree import Kind


class _Plain(SafeConstructor):
    """Dates stay texts: YAML 1.2's core schema has none, and JSON neither."""


for _tag in ("timestamp", "value"):
    _Plain.add_constructor(f"tag:yaml.org,2002:{_tag}", SafeConstructor.construct_yaml_str)


def as_an_editor_sees(text: str) -> Any:
    """A record as plain data; keys are texts, as JSON has them.

    Raises:
        YAMLError: The other reader refuses it.
    """
    reader = YAML(typ="safe", pure=True)
    reader.version = (1, 2)
    reader.Constructor = _Plain
    return _keyed(reader.load(text))


def _keyed(node: Any) -> Any:
    if isinstance(node, dict):
        return {_key(key): _keyed(value) for key, value in node.items()}
    return [_keyed(each) for each in node] if isinstance(node, list) else node


def _key(key: object) -> str:
    return (
        {True: "true", False: "false", None: "null"}.get(key, str(key))
        if key in {True, False, None}
        else str(key)
    )


@cache
def validator(kind: Kind) -> Validator:
    """The schema of a type of record, ready to be held against data."""
    schema = json_schema(MODELS[kind])
    Draft7Validator.check_schema(schema)
    return Draft7Validator(schema)


def errors(kind: Kind, data: Any) -> list[str]:
    """What an editor underlines."""
    return [each.message for each in validator(kind).iter_errors(data)]
