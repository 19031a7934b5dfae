"""The types of fields that are texts, ids, words and numbers without a unit."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Any, TypeVar

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from generator.records.quantity import QuantityError
from generator.records.schema.reads import SCALAR_SCHEMA, OneOf, Reads
from generator.records.schema.told import note_signs, problem

W = TypeVar("W")
Words = Annotated[W, OneOf()]
"""`Words[Literal["a", "b"]]`: one of these words, as written."""

TEXT: JsonSchemaValue = {"type": "string"}
# A whole number is a number to an editor, in quotes a text; both are read from what is written.
NUMBER: JsonSchemaValue = {"type": ["number", "string"], "exclusiveMinimum": 0}
WHOLE: JsonSchemaValue = {"type": ["integer", "string"], "minimum": 0, "pattern": r"^\d+$"}


def form(pattern: str) -> JsonSchemaValue:
    """What editors are told of a text that matches a regular expression."""
    return {**TEXT, "pattern": pattern}


_WHOLE = re.compile(r"\d{1,9}", re.ASCII)
_DECIMAL = re.compile(r"[+-]?\d{1,9}(?:\.\d{1,9})?", re.ASCII)
_ADDRESS = re.compile(r"https?://[^\s/]+\.[^\s/]+(?:/\S*)?")
_OUTSIDE = re.compile(r"(^|/)\.\.(/|$)|^/|\\|^[A-Za-z]:")


def _text(node: str, _: ValidationInfo) -> str:
    return str(node).strip()


def matching(pattern: str, wanted: str, hint: str = "") -> Reads:
    """A text of a given form.

    Args:
        pattern: Regular expression that the whole text must match.
        wanted: What it is, in plain words: `an id`.
        hint: What it is made of, for the message.
    """
    compiled = re.compile(pattern)

    def read(node: str, _: ValidationInfo) -> str:
        text = str(node)
        if compiled.fullmatch(text):
            return text
        raise problem(f"not {wanted}" + (f": {hint}" if hint else ""), found=text)

    return Reads(wanted, read, {**SCALAR_SCHEMA, "pattern": f"^(?:{pattern})$"})


def _whole(node: str, _: ValidationInfo) -> int:
    text = str(node)
    if _WHOLE.fullmatch(text) and (text == "0" or text[0] != "0"):
        return int(text)
    raise problem("not a whole number; write digits alone, without a unit", found=text)


def _from_one(node: str, info: ValidationInfo) -> int:
    number = _whole(node, info)
    if number < 1:
        raise problem("a number from 1 on is expected", found=str(node))
    return number


def _decimal(node: str, _: ValidationInfo) -> float:
    text = str(node)
    if _DECIMAL.fullmatch(text):
        return float(text)
    comma = "; write a decimal point" if "," in text else ""
    raise problem(f"not a number{comma}", found=text)


def _number_above_nought(node: str, info: ValidationInfo) -> float:
    number = _decimal(node, info)
    if number <= 0:
        raise problem("a number above nought is needed", found=str(node))
    return number


def _emissivity(node: str, info: ValidationInfo) -> float:
    number = _decimal(node, info)
    if not 0 < number <= 1:
        raise problem("an emissivity is above 0 and at most 1, as 0.95", found=str(node))
    return number


def _truth(node: Any, _: ValidationInfo) -> bool:
    text = str(node)
    if text in {"true", "false"} and getattr(node, "style", "plain") == "plain":
        return text == "true"
    raise problem("true or false is expected, without quotes", found=text, accepted=("true", "false"))


def _address(node: str, _: ValidationInfo) -> str:
    text = str(node)
    if _ADDRESS.fullmatch(text):
        return text
    raise problem("not a full web address; write it with https://", found=text)


def _file_name(node: str, _: ValidationInfo) -> str:
    text = str(node)
    if _OUTSIDE.search(text):
        raise problem("a file's name is expected, inside the report's own folders and with '/'", found=text)
    return text


def parsed(parse: Callable[[str], Any]) -> Callable[[Any, ValidationInfo], Any]:
    """A parser of this package as the reader of a field."""

    def read(node: Any, info: ValidationInfo) -> Any:
        try:
            found = parse(str(node))
        except QuantityError as error:
            raise problem(error.what, found=str(node), accepted=error.accepted) from None
        note_signs(node, info)
        return found

    return read


ID = r"[a-z0-9-]{1,40}"
ID_HINT = "small letters, digits and hyphens, 40 at most"

Text = Annotated[str, Reads("a text", _text)]
Id = Annotated[str, matching(ID, "an id", ID_HINT)]
PieceId = Annotated[
    str, matching(r"[A-Za-z0-9-]{1,12}", "the id of a piece", "a letter or a few, as A or B2")
]
PartId = Annotated[str, matching(r"[A-Za-z0-9._-]{1,40}", "an id", "letters, digits, points and hyphens")]
"""Of a probe or a channel: as printed on it."""

RunName = Annotated[
    str,
    matching(
        rf"{ID}|{ID}/{ID}(?::[A-Za-z0-9-]{{1,12}})?",
        "the id of a run",
        "`run` of this report, `report/run`, or `sitting/item:piece`",
    ),
]
Whole = Annotated[int, Reads("a whole number", _whole, WHOLE)]
FromOne = Annotated[int, Reads("a whole number", _from_one, {**WHOLE, "minimum": 1})]
Above = Annotated[float, Reads("a number above nought", _number_above_nought, NUMBER)]
Emissivity = Annotated[float, Reads("an emissivity, as 0.95", _emissivity, {**NUMBER, "maximum": 1})]
Truth = Annotated[bool, Reads("true or false", _truth, {"type": "boolean"})]
Address = Annotated[str, Reads("a web address", _address, form("^https?://"))]
FileName = Annotated[str, Reads("a file's name", _file_name, form(r"^(?!/)(?!.*\\)(?!(.*/)?\.\.(/|$)).*$"))]
TimeCode = Annotated[str, matching(r"(?:\d{1,2}:[0-5]\d|\d{1,3}):[0-5]\d", "a time code", "1:23 or 1:02:03")]
