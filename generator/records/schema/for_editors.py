"""JSON Schemas of the models: what an editor completes a record by, and underlines."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from generator.records.schema.base import Record

DRAFT = "http://json-schema.org/draft-07/schema#"
"""The draft's name; editors know it by heart, and nothing is fetched from there."""

_ORDER = ("$schema", "description", "type", "required", "properties")


class _Schema(GenerateJsonSchema):
    """A key that may be left out may not be empty: YAML's null is refused when a record is read."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """Without defaults that stand for nothing: an editor would put them in, as `control: null`."""
        found = super().default_schema(schema)
        if "default" in found and found["default"] in (None, [], ()):
            del found["default"]
        return found


def json_schema(model: type[Record]) -> JsonSchemaValue:
    """The JSON Schema of a type of record; draft 7, which every editor knows."""
    made = model.model_json_schema(by_alias=True, schema_generator=_Schema)
    for each in _schemas(made):
        # Titles are made of the names of keys and models, and say nothing beside them.
        each.pop("title", None)
        if "patternProperties" in each:
            each["additionalProperties"] = False
    if "anyOf" in made:
        _ask_of_the_whole_alone(made)
    order = {key: number for number, key in enumerate(model.spelt())}
    made["properties"] = dict(sorted(made["properties"].items(), key=lambda each: order[each[0]]))
    found = {"$schema": DRAFT, **made}
    return {key: found[key] for key in dict.fromkeys((*_ORDER, *found)) if key in found}


def _ask_of_the_whole_alone(schema: dict[str, Any]) -> None:
    """Ask for what a mapping needs in a whole run: one that corrects another may say one key of it."""
    whole, parts = schema["anyOf"][-1], schema.get("$defs", {})
    named = [each["$ref"] for each in _schemas(schema) if "$ref" in each]
    for name, each in schema["properties"].items():
        part = parts.get(each.get("$ref", "").rpartition("/")[2], {})
        if part.get("required") and named.count(each["$ref"]) == 1:
            whole.setdefault("properties", {})[name] = {"required": part.pop("required")}


def _schemas(node: Any) -> Iterator[dict[str, Any]]:
    """Every schema in a schema: names of keys, which may be `title` too, are none."""
    if isinstance(node, list):
        for each in node:
            yield from _schemas(each)
    if not isinstance(node, dict):
        return
    yield node
    for key, value in node.items():
        if key in {"properties", "patternProperties", "$defs"}:
            yield from (inner for each in value.values() for inner in _schemas(each))
        elif key not in {"enum", "const", "default", "required"}:
            yield from _schemas(value)
