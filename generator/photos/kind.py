"""What kind of picture some bytes are, by the bytes alone: a name may lie."""

from __future__ import annotations

JPEG, PNG, WEBP = "JPEG", "PNG", "WebP"
HEIC = "HEIC"

READ = (JPEG, PNG, WEBP)
"""Kinds that are read without any more software."""

_HEIF_BRANDS = frozenset({b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1"})
"""Brands of a file type box that mean pictures of that family (ISO/IEC 23008-12, Annex B)."""

_OTHERS = (
    (b"GIF8", "GIF"),
    (b"II*\x00", "TIFF"),
    (b"MM\x00*", "TIFF"),
    (b"BM", "BMP"),
    (b"%PDF", "PDF"),
)
"""First bytes of what people save by mistake."""


def kind_of(content: bytes) -> str:
    """The kind of a picture.

    Args:
        content: The file's bytes, or at least its first 4,096.

    Returns:
        JPEG, PNG, WebP or HEIC; of others the name a person knows (SVG, AVIF, GIF, TIFF, BMP, PDF); empty
        for what is none of them.
    """
    if content.startswith(b"\xff\xd8\xff"):
        return JPEG
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return PNG
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return WEBP
    if content[4:8] == b"ftyp":
        return _of_boxes(content)
    for start, name in _OTHERS:
        if content.startswith(start):
            return name
    return "SVG" if b"<svg" in content[:4096].lower() else ""


def _of_boxes(content: bytes) -> str:
    brands = {content[8:12], *(content[at : at + 4] for at in range(16, 64, 4))}
    if b"avif" in brands:
        return "AVIF"
    return HEIC if brands & _HEIF_BRANDS else ""
