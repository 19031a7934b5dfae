"""What a meter wrote, kept beside the record that holds its readings, so that each can be followed back."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import Field, ValidationInfo

from generator.records.schema.base import Record
from generator.records.schema.fields import TEXT, Text, matching
from generator.records.schema.measured import Moment
from generator.records.schema.reads import Reads
from generator.records.schema.told import problem

FOLDER = "originals"
"""Stands beside runs/ in a report's folder, and in sittings/."""

_NAME = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._-]{0,99}")


def _name(node: Any, _: ValidationInfo) -> str:
    text = str(node)
    if _NAME.fullmatch(text):
        return text
    what = "not a file's name: letters, digits, points, hyphens, and no folder; it lies in originals/"
    raise problem(what, found=text)


Digest = Annotated[
    str, matching(r"[0-9a-f]{64}", "a SHA-256", "64 of the signs 0 to 9 and a to f, as sha256sum prints them")
]
_SPAN = r"[1-9]\d{0,7}(?: to [1-9]\d{0,7})?"
LineNumbers = Annotated[str, matching(rf"{_SPAN}(?:, {_SPAN})*", "numbers of lines", "as `4 to 11, 13`")]
OriginalName = Annotated[str, Reads("a file's name", _name, TEXT)]


class Original(Record):
    """One file of a meter, as it came."""

    file: OriginalName = Field(description="its name in originals/")
    sha256: Digest = Field(description="SHA-256 of its bytes; the file may never change again")
    sheet: Text | None = Field(None, description="the sheet of a workbook that was read")
    lines: LineNumbers = Field(description="its lines that became rows, in their order, as `4 to 11, 13`")
    columns: dict[Text, Text] = Field(
        min_length=1, description="its columns to ours, as `CH3: temperature@body`"
    )
    began: Text | None = Field(None, description="time of the first reading, as the meter's clock had it")
    starts_at: Moment | None = Field(
        None, description="when the first reading was, from the start of the run; its start where left out"
    )
    settings: dict[Text, Text] = Field(
        default_factory=dict, description="what the file says that belongs to its readings: emissivity, range"
    )
    metadata: dict[Text, Text] = Field(
        default_factory=dict, description="what else the file says before its readings"
    )
