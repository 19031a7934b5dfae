"""No two sources may write to one address, on any disk; the generated pages' addresses are theirs alone."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from pathlib import PurePosixPath

RESERVED = frozenset({"r", "m", "i", "compare", "glossary", "corrections", "changes", "changes.xml"})
"""First parts of the generated pages' addresses, those of pages yet to come among them: they are for ever."""


def reserved(hand_written: Iterable[tuple[str, str]]) -> list[str]:
    """Hand-written files at addresses that belong to the generated pages.

    Args:
        hand_written: For each of them its address on the site and its name.

    Returns:
        One sentence a file, sorted.
    """
    return sorted(
        f"{source} would be written to /{address.removesuffix('index.html')}, "
        "an address of the generated pages; name the file otherwise"
        for address, source in hand_written
        if _as_lax_disks_see(address).split("/")[0] in RESERVED
    )


def clashes(written: Iterable[tuple[str, str]]) -> list[str]:
    """Sources that would overwrite each other.

    A disk may ignore case, and may keep accented letters composed or decomposed, so addresses are compared
    without either difference. A file may not stand where another needs a folder.

    Args:
        written: For each file of the site, its address there and the name of its source.

    Returns:
        One sentence a clash, sorted, naming the address and all its sources.
    """
    sources: dict[str, list[tuple[str, str]]] = {}
    for address, source in written:
        sources.setdefault(_as_lax_disks_see(address), []).append((address, source))
    found = [_told(each) for each in sources.values() if len(each) > 1]
    for seen, each in sources.items():
        for folder in PurePosixPath(seen).parents:
            if str(folder) in sources:
                found.append(_told([*sources[str(folder)], *each]))
    return sorted(found)


def _as_lax_disks_see(address: str) -> str:
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", address).casefold())


def _told(each: list[tuple[str, str]]) -> str:
    ordered = sorted(each)
    return f"{' and '.join(source for _, source in ordered)} would both be written to /{ordered[0][0]}"
