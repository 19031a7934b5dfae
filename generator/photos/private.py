"""What an original photo would tell of where and by whom it was taken."""

from __future__ import annotations

import io
import re
import warnings
from dataclasses import dataclass

from PIL import ExifTags, Image

from generator.photos.kind import HEIC, JPEG, kind_of
from generator.photos.original import MOST_BYTES, PhotoRefused, upright

_POSITION_TAGS = frozenset({ExifTags.GPS.GPSLatitude, ExifTags.GPS.GPSLongitude})
_SERIAL_TAGS = frozenset({ExifTags.Base.BodySerialNumber, ExifTags.Base.LensSerialNumber})
_NAME_TAGS = frozenset({ExifTags.Base.Artist, ExifTags.Base.CameraOwnerName, ExifTags.Base.Copyright})

# In XMP, a packet of RDF anywhere in the file (ISO 16684-1), properties of the exif and aux namespaces.
_XMP_POSITION = re.compile(rb"exif:GPS(?:Latitude|Longitude)")
_XMP_SERIAL = re.compile(rb"(?:aux|exifEX):(?:BodySerialNumber|SerialNumber|LensSerialNumber)")
_XMP_NAME = re.compile(rb"dc:creator|aux:OwnerName|exifEX:CameraOwnerName")


@dataclass(frozen=True)
class Told:
    """What stands in an original besides its picture.

    Attributes:
        position: The place where it was taken.
        serial: The serial number of a camera or a lens.
        name: A person's name.
    """

    position: bool
    serial: bool
    name: bool

    @property
    def any(self) -> bool:
        """Whether there is any of them."""
        return self.position or self.serial or self.name


def told_by(content: bytes) -> Told:
    """Look for a place, a serial number and a name in an original.

    Args:
        content: The file's bytes; a file that is no picture tells nothing here.
    """
    tags = _tags(content)
    return Told(
        bool(tags & _POSITION_TAGS) or bool(_XMP_POSITION.search(content)),
        bool(tags & _SERIAL_TAGS) or bool(_XMP_SERIAL.search(content)),
        bool(tags & _NAME_TAGS) or bool(_XMP_NAME.search(content)),
    )


def _tags(content: bytes) -> set[int]:
    """Numbers of the tags of EXIF that are there; of those of the position only they have those numbers."""
    if len(content) > MOST_BYTES:
        return set()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            exif = Image.open(io.BytesIO(content)).getexif()
            camera = set(exif) | set(exif.get_ifd(ExifTags.IFD.Exif))
            place = set(exif.get_ifd(ExifTags.IFD.GPSInfo))
    except Exception:  # noqa: BLE001 - a stranger's tags break in every way there is; the pixels are another matter
        return set()
    return (camera - _POSITION_TAGS) | (place & _POSITION_TAGS)


def stripped(content: bytes) -> bytes:
    """The same photo in full size, upright, in sRGB, with nothing else in its file.

    Args:
        content: The original's bytes.

    Returns:
        A file of the same kind: a PNG or WebP without loss, a JPEG of high quality.

    Raises:
        PhotoRefused: The original is no photo that is read, or of a kind that is not written.
    """
    kind = kind_of(content)
    if kind == HEIC:
        raise PhotoRefused("a HEIC picture can't be written; export it as JPEG", kind)
    picture, written = upright(content), io.BytesIO()
    if kind == JPEG:
        picture.save(written, "JPEG", quality=95, optimize=True, subsampling="4:4:4")
    else:
        picture.save(written, kind, lossless=True)
    return written.getvalue()
