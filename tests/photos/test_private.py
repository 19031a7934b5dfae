"""What an original would give away, found; and a copy without it."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from generator.photos.private import Told, stripped, told_by
from tests.photos.pictures import PLANTED, XMP, corners, exif, heic_head, jpeg, png, webp


@pytest.mark.parametrize("content", [jpeg(), png(), webp()], ids=["jpeg", "png", "webp"])
def test_a_place_a_number_and_a_name_are_found(content: bytes) -> None:
    assert told_by(content) == Told(position=True, serial=True, name=True)


@pytest.mark.parametrize(
    "content", [jpeg(planted=False), png(planted=False), b"", b"no picture", heic_head()]
)
def test_a_file_that_tells_nothing_is_left_alone(content: bytes) -> None:
    assert told_by(content) == Told(position=False, serial=False, name=False)


def test_a_place_in_xmp_alone_is_found() -> None:
    written = io.BytesIO()
    corners().save(written, "WEBP", xmp=XMP.encode())
    assert told_by(written.getvalue()).position


def test_a_place_holder_without_a_place_is_none() -> None:
    tags = exif(planted=False)
    tags.get_ifd(0x8825)[0] = b"\x02\x03\x00\x00"  # the version alone, as some phones write it
    written = io.BytesIO()
    corners().save(written, "JPEG", exif=tags)
    assert not told_by(written.getvalue()).position


@pytest.mark.parametrize("content", [jpeg(orientation=6), png(), webp()], ids=["jpeg", "png", "webp"])
def test_a_stripped_copy_is_upright_and_tells_nothing(content: bytes) -> None:
    copy = stripped(content)
    assert told_by(copy) == Told(position=False, serial=False, name=False)
    assert not [word for word in PLANTED if word.encode() in copy]
    assert not dict(Image.open(io.BytesIO(copy)).getexif())
