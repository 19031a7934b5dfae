"""The JSON Schemas that editors complete and underline records by, as files, and the line that names one."""

from __future__ import annotations

import json
from pathlib import PurePosixPath

from generator.records.library import MODELS
from generator.records.schema.for_editors import json_schema
from generator.records.tree import Kind, kind_of

FOLDER = "schemas"
"""Beside reports/: what lies in it is made anew by `provebook schema`, and no record."""

NAMES: dict[Kind, str] = {
    "settings": "bench",
    "instruments": "instrument",
    "hints": "import",
    "methods": "method",
    "items": "item",
    "sittings": "sitting",
    "older": "older",
    "reports": "report",
    "links": "links",
    "runs": "run",
    "editions": "edition",
}
"""What each type of record is called where a person names it."""


def schema_files() -> dict[str, bytes]:
    """Every schema, by the name of its file."""
    return {f"{name}.json": schema_text(kind).encode() for kind, name in NAMES.items()}


def schema_text(kind: Kind) -> str:
    """The schema of a type of record, as JSON."""
    return json.dumps(json_schema(MODELS[kind]), indent=2, ensure_ascii=False) + "\n"


def line_for(file: PurePosixPath) -> str:
    """The comment that names a record's schema to editors, by the record's path in the bench.

    Args:
        file: As `reports/items/okvarn-ih30.yml`.

    Returns:
        The line with its end; empty for what is no record. The schema is named by its path from the
        record, so that nothing is fetched and the bench may lie anywhere.
    """
    root, *below = file.parts
    kind = kind_of(PurePosixPath(*below)) if root == "reports" and below else None
    if kind is None:
        return ""
    up = "../" * len(below)
    return f"{_COMMENT} $schema={up}{FOLDER}/{NAMES[kind]}.json\n"


_COMMENT = " ".join(("#", "yaml-language-server:"))
"""What editors look for that know YAML by this server."""
