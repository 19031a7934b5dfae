"""Pictures to publish: sizes, names, and nothing of the original but its pixels."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from generator.photos.published import photo, stem_of
from tests.photos.pictures import PLANTED, corners, jpeg, png, webp


@pytest.mark.parametrize("content", [jpeg(), png(), webp()], ids=["jpeg", "png", "webp"])
def test_nothing_planted_in_an_original_is_published(content: bytes) -> None:
    assert any(word.encode() in content for word in PLANTED), "the test plants what it looks for"
    for each in photo("lever.jpg", content).renditions:
        assert not [
            word for word in (*PLANTED, "Exif", "ICC_PROFILE", "xmpmeta") if word.encode() in each.content
        ]
        read = Image.open(io.BytesIO(each.content))
        assert set(read.info) <= {
            "jfif",
            "jfif_version",
            "jfif_unit",
            "jfif_density",
            "progressive",
            "progression",
        }


@pytest.mark.parametrize(
    ("size", "sizes"),
    [
        ((4000, 3000), [(400, 300), (800, 600), (1600, 1200)]),
        ((3000, 4000), [(400, 533), (800, 1067), (1200, 1600)]),
        ((900, 600), [(400, 267), (900, 600)]),
        ((300, 200), [(300, 200)]),
        ((5000, 10), [(400, 1), (800, 2), (1600, 3)]),
    ],
)
def test_widths_are_those_that_a_page_wants_and_never_larger(
    size: tuple[int, int], sizes: list[tuple[int, int]]
) -> None:
    made = photo("rig.jpg", jpeg(corners(*size), planted=False))
    assert [(each.width, each.height) for each in made.renditions] == sizes
    for each in made.renditions:
        assert Image.open(io.BytesIO(each.content)).size == (each.width, each.height)


def test_the_same_photo_has_the_same_names_and_bytes() -> None:
    assert photo("rig.jpg", jpeg()) == photo("rig.jpg", jpeg())
    assert photo("rig.jpg", jpeg()).largest.name != photo("rig.jpg", png()).largest.name


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("IH30 lever.JPG", "ih30-lever"),
        ("Prüfung.jpg", "prufung"),
        ("Pru\u0308fung.jpg", "prufung"),
        ("写真.jpg", "photo"),
        ("..", "photo"),
        ("a" * 90 + ".png", "a" * 40),
        (".jpg", "jpg"),
    ],
)
def test_names_are_fit_for_an_address(name: str, stem: str) -> None:
    assert stem_of(name) == stem
