"""Puts fragments into a finished page, byte for byte.

Charts, derivations and JSON blocks would be torn by a pass through Markdown (blank lines, indents and
asterisks mean something there), and a pass costs time and memory. So a page's Markdown holds an empty
`div` with `data-slot`, and the fragment goes into it when the page is written.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping

_SLOT = re.compile(r'(<div(?=\s)[^<>]*\sdata-slot="([^"<>]*)"[^<>]*>)(<[/]div>)')
_MARK = re.compile(r'<[^<>]*\sdata-slot="([^"<>]*)"[^<>]*>')


class SlotFault(Exception):
    """The slots of a page and its fragments do not fit together."""


def fill(html: str, fragments: Mapping[str, str]) -> str:
    """Put each fragment into its slot.

    Args:
        html: The page as rendered, with one empty `div` a fragment.
        fragments: The fragments by name of slot.

    Returns:
        The page with every fragment in place, otherwise unchanged; of an empty one the slot goes, too. What a
        fragment holds is not read.

    Raises:
        SlotFault: A fragment without a slot, a slot without a fragment, one name twice, or a slot that
            is not empty; all of them in one message.
    """
    pieces = _SLOT.split(html)
    names = pieces[2::4]
    faults = _faults(names, _MARK.findall(html), fragments)
    if faults:
        raise SlotFault("; ".join(faults))
    filled = pieces[:1]
    for opening, name, closing, rest in zip(pieces[1::4], names, pieces[3::4], pieces[4::4], strict=True):
        filled += [opening, fragments[name], closing, rest] if fragments[name] else [rest]
    return "".join(filled)


def _faults(slots: list[str], marks: list[str], fragments: Mapping[str, str]) -> list[str]:
    found = [f"slot {name!r} is not an empty div" for name in sorted(Counter(marks) - Counter(slots))]
    found += [
        f"slot {name!r} is there {times} times" for name, times in sorted(Counter(slots).items()) if times > 1
    ]
    found += [f"slot {name!r} has no fragment" for name in sorted(set(slots) - set(fragments))]
    found += [f"fragment {name!r} has no slot" for name in sorted(set(fragments) - set(marks))]
    return found
