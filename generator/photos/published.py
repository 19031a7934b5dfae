"""A photo as it is published: several widths, each encoded anew from pixels alone."""

from __future__ import annotations

import hashlib
import io
import re
import unicodedata
from dataclasses import dataclass

from PIL import Image

from generator.photos.original import upright

LONGEST = 1600
"""Pixels of the longest side of the largest picture."""

WIDTHS = (400, 800)
"""Widths besides the largest, for phones; each is made where it is clearly smaller."""

_QUALITY = 82
"""Of JPEG, from 1 to 95: plating and tool marks hold, and 1,600 pixels weigh some 250 kB."""


@dataclass(frozen=True)
class Rendition:
    """One width of a photo.

    Attributes:
        name: Its file's name: letters a to z, digits, hyphens; the width and `.jpg` last.
        width: In pixels.
        height: In pixels.
        content: The file, a JPEG without any metadata.
    """

    name: str
    width: int
    height: int
    content: bytes


@dataclass(frozen=True)
class Photo:
    """A photo in all its widths, narrowest first."""

    renditions: tuple[Rendition, ...]

    @property
    def largest(self) -> Rendition:
        """The widest, which others are chosen from where there is room."""
        return self.renditions[-1]


def photo(name: str, content: bytes) -> Photo:
    """Make the published pictures of an original.

    Args:
        name: The original's file name; what of it can't stand in an address is dropped.
        content: The original's bytes.

    Returns:
        The same photo and the same names for the same name and bytes.

    Raises:
        PhotoRefused: The original can't be published; see `upright`.
    """
    picture = upright(content, LONGEST)
    width, height = _fitted(picture.size)
    widths = [each for each in WIDTHS if each <= 0.8 * width]
    stem = f"{stem_of(name)}-{hashlib.sha256(content).hexdigest()[:12]}"
    sizes = [(each, max(1, round(each * height / width))) for each in widths]
    return Photo(tuple(_rendition(picture, stem, size) for size in [*sizes, (width, height)]))


def stem_of(name: str) -> str:
    """A file's name without its ending, as it may stand in an address.

    Letters with marks lose the marks; what is left of other scripts is empty and becomes `photo`.
    """
    bare = unicodedata.normalize("NFKD", name.rpartition(".")[0] or name)
    kept = re.sub(r"[^a-z0-9]+", "-", bare.encode("ascii", "ignore").decode().lower()).strip("-")
    return kept[:40].strip("-") or "photo"


def _fitted(size: tuple[int, int]) -> tuple[int, int]:
    """The size with its longest side at most LONGEST; never larger than it is."""
    scale = min(1.0, LONGEST / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _rendition(picture: Image.Image, stem: str, size: tuple[int, int]) -> Rendition:
    sized = picture if picture.size == size else picture.resize(size, Image.Resampling.LANCZOS)
    written = io.BytesIO()
    sized.save(written, "JPEG", quality=_QUALITY, progressive=True, optimize=True, subsampling="4:2:0")
    return Rendition(f"{stem}-{size[0]}.jpg", *size, written.getvalue())
