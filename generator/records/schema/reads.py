"""How a field's own type is read from a scalar as written, and what editors are told of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from generator.records.nodes import Mapping, Sequence
from generator.records.schema.told import nearest, problem

# What YAML's editors may make of a text that is not in quotes: 41.0 is a number to them, true a truth value.
SCALAR_SCHEMA: JsonSchemaValue = {"type": ["string", "number", "boolean"]}
TEXT_SCHEMA: JsonSchemaValue = {"type": "string"}


def written(node: object, wanted: str) -> str:
    """The scalar as written, or the problem that there is none.

    Args:
        node: A node, or a key of an open mapping.
        wanted: What belongs there, in plain words: `a date`.
    """
    if isinstance(node, Mapping | Sequence):
        kind = "keys with values" if isinstance(node, Mapping) else "a list"
        raise problem(f"{wanted} is expected here; this is {kind}")
    text = str(node)
    if getattr(node, "is_null", not text):
        raise problem(f"no value here; {wanted} is expected")
    if not text.strip():
        style = getattr(node, "style", "quoted")
        where = "between the quotes" if style == "quoted" else "below this line"
        raise problem(f"nothing {where}; {wanted} is expected")
    return text


@dataclass(frozen=True)
class Reads:
    """A type that is read by a function from the scalar as written.

    Attributes:
        wanted: What belongs there, in plain words.
        read: From the scalar (and what was read of its record so far) to the value; raises `problem(…)`.
        schema: What editors are told.
    """

    wanted: str
    read: Callable[[Any, ValidationInfo], object]
    schema: JsonSchemaValue = field(default_factory=lambda: dict(SCALAR_SCHEMA), hash=False)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Read by our function in place of pydantic's own types."""

        def validate(node: object, info: ValidationInfo) -> object:
            written(node, self.wanted)
            return self.read(node, info)

        return core_schema.with_info_plain_validator_function(validate)

    def __get_pydantic_json_schema__(self, _: CoreSchema, __: GetJsonSchemaHandler) -> JsonSchemaValue:
        """What editors are told."""
        return dict(self.schema)


@dataclass(frozen=True)
class OneOf:
    """One of the words of a Literal, or of a list that is made elsewhere.

    Attributes:
        words: The words, where the type is no Literal.
    """

    words: tuple[str, ...] = ()

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Compare the text as written with each word."""
        words: tuple[str, ...] = self.words or get_args(source)
        wanted = words[0] if len(words) == 1 else "one of " + ", ".join(words)

        def validate(node: object) -> str:
            text = written(node, wanted)
            if text in words:
                return text
            what = f"not one of the words for this{nearest(text, words)}"
            raise problem(what, found=text, accepted=words)

        return core_schema.no_info_plain_validator_function(
            validate, json_schema_input_schema=core_schema.literal_schema(list(words))
        )
