"""An original photo: opened with care, turned upright, its colours brought to sRGB."""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

from generator.photos.kind import HEIC, READ, kind_of

MOST_PIXELS = 120_000_000
"""Pixels that are opened: a phone's largest picture has 50 to 108 million; at three bytes each 360 MB."""

MOST_BYTES = 100_000_000
"""Bytes of an original that are read."""

_FROM_HEIC = "export it as JPEG, or install what reads it: pip install pillow-heif"
_EXPORT = "export it as JPEG or PNG"


@dataclass(frozen=True)
class PhotoRefused(Exception):
    """A file that can't be published as a photo.

    Attributes:
        what: What is wrong and what would do, lower case.
        found: What it is instead, or its size; none where there is nothing to quote.
    """

    what: str
    found: str | None = None


def upright(content: bytes, at_least: int = 0) -> Image.Image:
    """The picture of an original, as a person sees it.

    Args:
        content: The file's bytes.
        at_least: Pixels that its longest side need have; a JPEG with more than twice as many is read in a
            half, a quarter or an eighth of its size, which is quicker. 0 for the whole.

    Returns:
        An RGB picture of 8 bits in sRGB, turned as the camera was held, what was see-through laid on white.
        It carries no other thing of the file.

    Raises:
        PhotoRefused: Not a picture that is read, broken, cut short, too large, or in colours that can't be
            told.
    """
    picture = opened(content)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Of tags that are broken; they are dropped with the others.
            scale = at_least / max(picture.size)
            if 0 < scale < 1:
                wanted = (max(1, int(picture.width * scale)), max(1, int(picture.height * scale)))
                picture.draft(picture.mode, wanted)
            picture.load()
            turned = ImageOps.exif_transpose(picture)
    except (OSError, SyntaxError, ValueError, EOFError, IndexError, KeyError, TypeError) as broken:
        raise PhotoRefused("the picture is broken or cut short; copy it from the camera again") from broken
    flat = _on_white(_in_srgb(turned))
    # Pixels alone: a copy of the picture would carry its notes along.
    return Image.frombytes("RGB", flat.size, flat.tobytes())


def looked_at(content: bytes) -> None:
    """Look whether an original can be published, without making anything of it; quicker than `upright`.

    Raises:
        PhotoRefused: As `upright`.
    """
    upright(content, 1)


def opened(content: bytes) -> Image.Image:
    """An original's head read: what it is and how large; its pixels are not unpacked.

    Raises:
        PhotoRefused: As `upright`, for what the head can tell.
    """
    if len(content) > MOST_BYTES:
        raise PhotoRefused(f"a photo of more than {MOST_BYTES // 1_000_000} MB is not read; {_EXPORT}")
    kind = kind_of(content)
    if kind == HEIC:
        _read_heic()
    elif kind not in READ:
        raise _not_read(kind)
    formats = [*READ, *(["HEIF"] if "HEIF" in Image.OPEN else [])]
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # The size is held against a limit of our own.
            picture = Image.open(io.BytesIO(content), formats=formats)
    except Image.DecompressionBombError as large:
        raise _too_large(None) from large
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, EOFError) as broken:
        raise PhotoRefused("the picture is broken or cut short; copy it from the camera again") from broken
    if picture.width * picture.height > MOST_PIXELS:
        raise _too_large(picture.size)
    return picture


def _not_read(kind: str) -> PhotoRefused:
    if kind == "SVG":
        return PhotoRefused("an SVG is no photo and may hold scripts; export it as PNG", kind)
    if kind:
        return PhotoRefused(f"a picture of this kind is not read; {_EXPORT}", kind)
    return PhotoRefused(f"not a picture that is read; {_EXPORT}")


def _too_large(size: tuple[int, int] | None) -> PhotoRefused:
    found = f"{size[0]} × {size[1]} pixels" if size else None
    return PhotoRefused(f"more than {MOST_PIXELS // 1_000_000} million pixels; make it smaller", found)


def _read_heic() -> None:
    """Let the library that reads HEIC, where somebody installed it, do so."""
    try:
        from pillow_heif import register_heif_opener  # noqa: PLC0415
    except ImportError as missing:
        raise PhotoRefused(f"this is a HEIC picture, whatever its name; {_FROM_HEIC}", HEIC) from missing
    register_heif_opener()


def _in_srgb(picture: Image.Image) -> Image.Image:
    """In sRGB by the picture's own profile; without one it is taken to be sRGB already, as viewers do."""
    plain = _eight_bits(picture)
    profile = picture.info.get("icc_profile")
    if not profile:
        if plain.mode == "CMYK":
            raise PhotoRefused("colours for print without their profile; export it in sRGB", "CMYK")
        return plain
    try:
        own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        colours = plain if plain.mode in {"CMYK", "L"} else plain.convert("RGB")
        done = ImageCms.profileToProfile(
            colours,
            own,
            ImageCms.createProfile("sRGB"),
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
            outputMode="RGB",
        )
    except (ImageCms.PyCMSError, OSError, ValueError) as broken:
        raise PhotoRefused("its colour profile can't be used; export it in sRGB") from broken
    if done is None:  # Only where the picture itself is changed, which is not asked for.
        return plain
    if "A" in plain.getbands():
        done.putalpha(plain.getchannel("A"))
    return done


def _eight_bits(picture: Image.Image) -> Image.Image:
    if picture.mode in {"I", "F", "I;16", "I;16B", "I;16L"}:
        return picture.convert("I").point(lambda level: level / 256).convert("L")
    if picture.mode in {"P", "PA", "1", "La", "RGBa"} or "transparency" in picture.info:
        return picture.convert("RGBA")
    return picture


def _on_white(picture: Image.Image) -> Image.Image:
    if "A" not in picture.getbands():
        return picture.convert("RGB")
    seen = picture.convert("RGBA")
    white = Image.new("RGBA", seen.size, "white")
    return Image.alpha_composite(white, seen).convert("RGB")
