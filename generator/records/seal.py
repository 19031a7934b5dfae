"""An edition's own fingerprint, so that its file cannot be edited in silence either."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from generator.records.fingerprint import Canonical, fingerprint, marks

HASH = "hash"
MARKS = "marks"
CONTENT = "content"

_DEPTH = {CONTENT: 4}
"""How deep parts are told apart: in the copy down to a key of an item."""


def edition_hash(content: Mapping[str, Canonical]) -> str:
    """The fingerprint of an edition's canonical content, all but the fingerprint itself."""
    return fingerprint({key: each for key, each in content.items() if key != HASH})


def edition_marks(content: Mapping[str, Canonical]) -> dict[str, str]:
    """The beginnings of the fingerprints of an edition's parts."""
    found: dict[str, str] = {}
    for key, each in content.items():
        if key not in {HASH, MARKS}:
            found |= marks({key: each}, _DEPTH.get(key, 1))
    return found


def sealed(content: Mapping[str, Any]) -> dict[str, Any]:
    """An edition's content with its marks and its fingerprint."""
    marked = {**content, MARKS: edition_marks(content)}
    return {**marked, HASH: edition_hash(marked)}
