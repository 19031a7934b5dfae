"""Originals opened: turned, in sRGB, refused where they must be."""

from __future__ import annotations

import io
import struct
import sys
import types
import zlib

import numpy as np
import pytest
from PIL import Image, ImageCms

from generator.photos.original import PhotoRefused, upright
from tests.photos.pictures import corners, heic_head, jpeg, png, webp
from tests.photos.profiles import P3, display_p3, p3_as_srgb, to_xyz

_TURNED = {
    1: corners(),
    2: corners().transpose(Image.Transpose.FLIP_LEFT_RIGHT),
    3: corners().transpose(Image.Transpose.ROTATE_180),
    4: corners().transpose(Image.Transpose.FLIP_TOP_BOTTOM),
    5: corners().transpose(Image.Transpose.TRANSPOSE),
    6: corners().transpose(Image.Transpose.ROTATE_90),
    7: corners().transpose(Image.Transpose.TRANSVERSE),
    8: corners().transpose(Image.Transpose.ROTATE_270),
}
"""As the sensor saw it, by the tag that says how to turn it (Exif 2.3, tag 0x0112)."""


@pytest.mark.parametrize("orientation", range(1, 9))
def test_all_eight_orientations_come_out_upright(orientation: int) -> None:
    seen = upright(jpeg(_TURNED[orientation], orientation))
    assert seen.size == (60, 40)
    told = [seen.getpixel(at) for at in ((10, 8), (50, 8), (10, 32), (50, 32))]
    wanted = [(230, 20, 20), (20, 200, 20), (20, 20, 230), (230, 220, 20)]
    assert np.abs(np.array(told) - np.array(wanted)).max() <= 4


@pytest.mark.parametrize("content", [jpeg(), png(), webp()], ids=["jpeg", "png", "webp"])
def test_nothing_but_pixels_is_kept(content: bytes) -> None:
    seen = upright(content)
    assert not seen.info
    assert not dict(seen.getexif())
    assert seen.mode == "RGB"


def test_png_and_webp_are_turned_too() -> None:
    assert upright(webp()).size == (40, 60)
    assert np.abs(np.array(upright(png()).getpixel((10, 8))) - (230, 220, 20)).max() <= 1


@pytest.mark.parametrize(
    "colour", [(255, 0, 0), (200, 80, 60), (184, 115, 51), (40, 160, 90), (30, 60, 200), (128, 128, 128)]
)
def test_a_colour_of_display_p3_stays_the_colour_it_is(colour: tuple[int, int, int]) -> None:
    """Reference: primaries of SMPTE RP 431-2 and IEC 61966-2-1, by plain arithmetic."""
    written = io.BytesIO()
    Image.new("RGB", (8, 8), colour).save(written, "PNG", icc_profile=display_p3())
    seen = np.array(upright(written.getvalue()).getpixel((4, 4)))
    assert np.abs(seen - np.array(p3_as_srgb(colour))).max() <= 2
    assert (np.abs(np.array(colour) - np.array(p3_as_srgb(colour))).max() > 2) == (
        len(set(colour)) > 1 and colour != (255, 0, 0)
    )


def test_the_profile_of_the_tests_has_the_published_matrix() -> None:
    """Display P3 to XYZ, as published with CSS Color 4, section 17 (W3C)."""
    published = [
        [0.4865709, 0.2656677, 0.1982173],
        [0.2289746, 0.6917385, 0.0792869],
        [0.0, 0.0451134, 1.0439444],
    ]
    assert np.allclose(to_xyz(P3), published, atol=5e-4)


def test_grey_of_16_bits_keeps_its_levels() -> None:
    written = io.BytesIO()
    Image.fromarray(np.array([[0, 32896, 65535]], dtype=np.uint16)).save(written, "PNG")
    seen = upright(written.getvalue())
    assert [seen.getpixel((x, 0)) for x in range(3)] == [(0,) * 3, (128,) * 3, (255,) * 3]


def test_what_is_see_through_lies_on_white() -> None:
    written = io.BytesIO()
    picture = Image.new("RGBA", (2, 1), (255, 0, 0, 0))
    picture.putpixel((1, 0), (0, 0, 255, 255))
    picture.save(written, "PNG")
    seen = upright(written.getvalue())
    assert [seen.getpixel((0, 0)), seen.getpixel((1, 0))] == [(255, 255, 255), (0, 0, 255)]


def test_few_colours_and_a_profile_go_together() -> None:
    written = io.BytesIO()
    Image.new("RGB", (4, 4), (200, 80, 60)).quantize(4).save(written, "PNG", icc_profile=display_p3())
    seen = np.array(upright(written.getvalue()).getpixel((1, 1)))
    assert np.abs(seen - np.array(p3_as_srgb((200, 80, 60)))).max() <= 2


@pytest.mark.parametrize("name", ["IMG_0001.heic", "IMG_0001.jpg", "IMG_0001.png"])
def test_a_heic_is_told_for_what_it_is(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pillow_heif", None)  # not installed
    with pytest.raises(PhotoRefused, match="export it as JPEG, or install") as refused:
        upright(heic_head())
    assert refused.value.found == "HEIC", name


def test_a_library_that_reads_heic_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[bool] = []
    carrier = types.ModuleType("pillow_heif")
    carrier.register_heif_opener = lambda: asked.append(True)  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "pillow_heif", carrier)
    with pytest.raises(PhotoRefused):  # the head alone is no picture
        upright(heic_head())
    assert asked == [True]


def _noise(kind: str) -> bytes:
    written = io.BytesIO()
    drawn = np.random.default_rng(7).integers(0, 256, (60, 80, 3), dtype=np.uint8)
    Image.fromarray(drawn).save(written, kind)
    return written.getvalue()


@pytest.mark.parametrize("cut", [3, 40, 200, 0.3, 0.6, 0.9])
@pytest.mark.parametrize(
    "content", [_noise("JPEG"), _noise("PNG"), _noise("WEBP")], ids=["jpeg", "png", "webp"]
)
def test_a_picture_cut_short_is_refused(content: bytes, cut: float) -> None:
    kept = int(cut) if cut > 1 else int(len(content) * cut)
    with pytest.raises(PhotoRefused):
        upright(content[:kept])


def test_a_script_in_an_svg_is_never_a_photo() -> None:
    with pytest.raises(PhotoRefused, match="may hold scripts"):
        upright(b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')


def _claims(width: int, height: int) -> bytes:
    """A PNG whose head claims a size; its pixels would unpack to nothing near it."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(bytes(1000))), (b"IEND", b"")]
    body = b"".join(
        struct.pack(">I", len(content)) + name + content + struct.pack(">I", zlib.crc32(name + content))
        for name, content in chunks
    )
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize("size", [(30_000, 30_000), (12_000, 11_000)])
def test_a_picture_beyond_the_limit_is_refused_before_it_is_unpacked(size: tuple[int, int]) -> None:
    with pytest.raises(PhotoRefused, match="million pixels; make it smaller"):
        upright(_claims(*size))


def test_a_picture_of_50_million_pixels_is_read() -> None:
    written = io.BytesIO()
    Image.new("RGB", (8_700, 5_800), (90, 40, 30)).save(written, "JPEG")
    assert upright(written.getvalue()).size == (8_700, 5_800)


def test_colours_for_print_without_a_profile_are_refused() -> None:
    written = io.BytesIO()
    Image.new("CMYK", (4, 4), (0, 200, 200, 0)).save(written, "JPEG")
    with pytest.raises(PhotoRefused, match="export it in sRGB"):
        upright(written.getvalue())


def test_a_broken_profile_is_refused_and_not_ignored() -> None:
    written = io.BytesIO()
    corners().save(written, "PNG", icc_profile=b"no profile" * 20)
    with pytest.raises(PhotoRefused, match="profile can't be used"):
        upright(written.getvalue())


def test_a_profile_of_srgb_changes_nothing() -> None:
    written = io.BytesIO()
    own = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    corners().save(written, "PNG", icc_profile=own)
    assert np.abs(np.array(upright(written.getvalue()), int) - np.array(corners(), int)).max() <= 1
