"""Where the newest edition of a report has its page, or the draft of the next."""

from __future__ import annotations

import re
from collections.abc import Iterable


def newest(addresses: Iterable[str], report: str) -> str:
    """The folder `r/<report>/<n>/` of the highest number among addresses of pages or files."""
    found = (re.match(rf"r/{report}/(\d+)/", each) for each in addresses)
    return f"r/{report}/{max(int(each[1]) for each in found if each)}/"
