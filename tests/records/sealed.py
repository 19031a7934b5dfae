"""Editions for tests: of any content, sealed as `publish` seals them."""

from __future__ import annotations

from pathlib import Path
from typing import Any, cast

from generator.records.fingerprint import canonical
from generator.records.seal import HASH, MARKS, sealed
from generator.records.source import read_text
from generator.records.writer import OneLine, document


def edition_text(content: dict[str, Any]) -> str:
    """The text of an edition that holds this content.

    Args:
        content: Its keys and values; a seal among them is made anew.
    """
    own = {key: each for key, each in content.items() if key not in {HASH, MARKS}}
    seal = sealed(content_of(document(own)))
    return document({**own, MARKS: OneLine(seal[MARKS]), HASH: seal[HASH]})


def content_of(text: str) -> dict[str, Any]:
    """The content of an edition's text, its seal among it."""
    root = read_text(text, Path("edition.yml")).root
    assert root is not None
    return cast("dict[str, Any]", canonical(root))


def resealed(text: str, **changes: object) -> str:
    """An edition with keys changed (None takes one away), sealed anew; `rests_on` is the key `rests-on`."""
    content = content_of(text)
    for name, value in changes.items():
        key = name.replace("_", "-")
        content = {k: v for k, v in content.items() if k != key} if value is None else {**content, key: value}
    return edition_text(content)
