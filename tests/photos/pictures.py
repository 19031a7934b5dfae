"""Pictures made for the tests: small, with what the tests look for planted in them."""

from __future__ import annotations

import io
import struct

import numpy as np
from PIL import ExifTags, Image, PngImagePlugin

PLANTED = ("QUAYSIDE-LANE-7", "SN-4417-0093", "Ottoline Brask")
"""A place, a serial number and a name, all invented; nowhere in a built site."""

XMP = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    '<rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="54,19.5N" '
    f'xmlns:aux="http://ns.adobe.com/exif/1.0/aux/" aux:SerialNumber="{PLANTED[1]}">{PLANTED[0]} {PLANTED[2]}'
    "</rdf:Description></rdf:RDF></x:xmpmeta>"
)


def corners(width: int = 60, height: int = 40) -> Image.Image:
    """Red, green, blue and yellow quarters: top left, top right, bottom left, bottom right."""
    pixels = np.zeros((height, width, 3), dtype=np.uint8)
    pixels[: height // 2, : width // 2] = (230, 20, 20)
    pixels[: height // 2, width // 2 :] = (20, 200, 20)
    pixels[height // 2 :, : width // 2] = (20, 20, 230)
    pixels[height // 2 :, width // 2 :] = (230, 220, 20)
    return Image.fromarray(pixels)


def exif(orientation: int = 1, planted: bool = True) -> Image.Exif:
    tags = Image.Exif()
    tags[ExifTags.Base.Orientation] = orientation
    if planted:
        tags[ExifTags.Base.ImageDescription] = PLANTED[0]
        tags[ExifTags.Base.Artist] = PLANTED[2]
        camera = tags.get_ifd(ExifTags.IFD.Exif)
        camera[ExifTags.Base.BodySerialNumber] = PLANTED[1]
        camera[ExifTags.Base.MakerNote] = b"NOTE\x00" + " ".join(PLANTED).encode()
        camera[ExifTags.Base.UserComment] = b"ASCII\x00\x00\x00" + PLANTED[0].encode()
        place = tags.get_ifd(ExifTags.IFD.GPSInfo)
        place[ExifTags.GPS.GPSLatitudeRef] = "N"
        place[ExifTags.GPS.GPSLatitude] = (54.0, 19.0, 30.0)
        place[ExifTags.GPS.GPSLongitudeRef] = "E"
        place[ExifTags.GPS.GPSLongitude] = (9.0, 43.0, 12.0)
        place[ExifTags.GPS.GPSAreaInformation] = b"ASCII\x00\x00\x00" + PLANTED[0].encode()
    return tags


def jpeg(picture: Image.Image | None = None, orientation: int = 1, planted: bool = True) -> bytes:
    """A JPEG with EXIF, and if planted XMP, IPTC, a comment, a thumbnail and a trailer as well."""
    written = io.BytesIO()
    tags = exif(orientation, planted)
    (picture or corners()).save(written, "JPEG", quality=95, subsampling="4:4:4", exif=tags)
    if not planted:
        return written.getvalue()
    told = " ".join(PLANTED).encode()
    start, rest = written.getvalue()[:2], written.getvalue()[2:]
    return b"".join(
        [
            start,
            _segment(0xE1, b"http://ns.adobe.com/xap/1.0/\x00" + XMP.encode()),
            _segment(0xED, b"Photoshop 3.0\x00" + _iptc(told)),
            _segment(0xFE, told),
            _segment(0xE2, b"MPF\x00" + told),
            _segment(0xEA, b"THUMB\x00" + jpeg(corners(16, 12), planted=False) + told),
            rest,
            b"TRAILER" + told + jpeg(corners(16, 12), planted=False),
        ]
    )


def png(planted: bool = True) -> bytes:
    """A PNG with text chunks of each kind, EXIF and a trailer."""
    written = io.BytesIO()
    texts = PngImagePlugin.PngInfo()
    if planted:
        texts.add_text("Author", PLANTED[2])
        texts.add_text("Comment", PLANTED[0], zip=True)
        texts.add_itxt("XML:com.adobe.xmp", XMP)
        corners().save(written, "PNG", pnginfo=texts, exif=exif(3))
        return written.getvalue() + " ".join(PLANTED).encode()
    corners().save(written, "PNG")
    return written.getvalue()


def webp() -> bytes:
    written = io.BytesIO()
    corners().save(written, "WEBP", lossless=True, exif=exif(6), xmp=XMP.encode())
    return written.getvalue()


def heic_head() -> bytes:
    """The first box of a HEIC file, as ISO/IEC 23008-12 has it: enough to know it by."""
    return struct.pack(">I4s4sI4s4s", 24, b"ftyp", b"heic", 0, b"mif1", b"heic") + bytes(200)


def _segment(marker: int, body: bytes) -> bytes:
    return struct.pack(">BBH", 0xFF, marker, len(body) + 2) + body


def _iptc(told: bytes) -> bytes:
    record = struct.pack(">BBBH", 0x1C, 2, 90, len(told)) + told  # 2:90 is the city
    padded = record + bytes(len(record) % 2)
    return b"8BIM" + struct.pack(">HHI", 0x0404, 0, len(record)) + padded
