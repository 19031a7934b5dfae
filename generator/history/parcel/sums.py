"""`SHA256SUMS`: what each file of a parcel is, in the format of `sha256sum -c` (GNU coreutils)."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from hashlib import sha256
from typing import Literal

SUMS = "SHA256SUMS"

_LINE = re.compile(r"([0-9a-fA-F]{64}) [ *](.+)")

Otherwise = Literal["gone", "not-listed", "other-bytes", "no-sums", "odd-line"]
"""What a file is against its line; each has its words in the templates."""


def sums(files: Mapping[str, bytes]) -> bytes:
    """The lines of files by name, sorted."""
    lines = (f"{sha256(content).hexdigest()}  {name}\n" for name, content in sorted(files.items()))
    return "".join(lines).encode()


def otherwise(files: Mapping[str, bytes]) -> Iterator[tuple[Otherwise, str]]:
    """Every file that is not as `SHA256SUMS` has it, with its name; of an odd line the line.

    Args:
        files: Those of a parcel, `SHA256SUMS` among them.
    """
    if SUMS not in files:
        yield "no-sums", SUMS
        return
    listed: dict[str, str] = {}
    for line in files[SUMS].decode("utf-8", "replace").splitlines():
        if found := _LINE.fullmatch(line):
            listed[found[2]] = found[1].lower()
        elif line.strip():
            yield "odd-line", line[:80]
    for name in sorted({*files, *listed} - {SUMS}):
        if name not in files:
            yield "gone", name
        elif name not in listed:
            yield "not-listed", name
        elif sha256(files[name]).hexdigest() != listed[name]:
            yield "other-bytes", name
