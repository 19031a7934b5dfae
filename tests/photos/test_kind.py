"""Kinds of pictures, told by their bytes."""

from __future__ import annotations

import io

import pytest

from generator.photos.kind import HEIC, JPEG, PNG, WEBP, kind_of
from tests.photos.pictures import corners, heic_head, jpeg, png, webp


def _saved(kind: str) -> bytes:
    written = io.BytesIO()
    corners().save(written, kind)
    return written.getvalue()


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (jpeg(), JPEG),
        (png(), PNG),
        (webp(), WEBP),
        (heic_head(), HEIC),
        (heic_head().replace(b"heic", b"avif"), "AVIF"),
        (_saved("GIF"), "GIF"),
        (_saved("TIFF"), "TIFF"),
        (_saved("BMP"), "BMP"),
        (b"%PDF-1.7\n", "PDF"),
        (b'<?xml version="1.0"?>\n<SVG xmlns="http://www.w3.org/2000/svg"/>', "SVG"),
        (b"", ""),
        (b"RIFF....WAVE", ""),
        (b"date: 2026-03-08\n", ""),
    ],
)
def test_a_kind_is_told_by_the_bytes(content: bytes, kind: str) -> None:
    assert kind_of(content) == kind
