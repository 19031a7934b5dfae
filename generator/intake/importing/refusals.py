"""Why an import stops, as facts."""

from __future__ import annotations

from collections.abc import Iterable

from generator.fault import Fault


class Refused(Exception):
    """What was asked for cannot be done as it was asked.

    Attributes:
        what: What stands in the way, lower case, no full stop.
        instead: What would do, a line each.
    """

    def __init__(self, what: str, instead: Iterable[str] = ()) -> None:
        self.what = what
        self.instead = tuple(instead)
        super().__init__(what)


class AtFault(Exception):
    """A file or a record that the import needs is at fault.

    Attributes:
        faults: What it has against it.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(each.what for each in self.faults))
