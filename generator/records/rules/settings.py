"""bench.yml: the version of the shapes, and the columns of the comparison table."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.rules.common import absent, twice
from generator.records.schema.settings import FORMAT, Settings


def newer_format(settings: Settings) -> Fault | None:
    """The one fault of a bench that was written for a newer program; nothing else is then looked at."""
    if settings.format <= FORMAT:
        return None
    what = (
        f"these records are in format {settings.format}, and this program reads formats up to {FORMAT}; "
        "install a newer provebook"
    )
    return settings.fault(("format",), what)


def check(library: Library) -> Iterator[Fault]:
    """Columns of the comparison table name a method and one of its measures, each once."""
    settings = library.settings
    if settings is None or settings.comparison is None:
        return
    columns = settings.comparison.columns
    for number, name in twice(f"{column.method} {column.measure}" for column in columns):
        yield settings.fault(("comparison", "columns", number), f"a column of {name} is there already")
    for number, column in enumerate(columns):
        path = ("comparison", "columns", number)
        versions = library.methods.get(column.method, {})
        if not versions:
            if not any(
                kind == "methods" and name.startswith(f"{column.method}/") for kind, name in library.broken
            ):
                place, where = settings.place_of(*path, "method"), settings.path_of(*path, "method")
                yield absent("there is no method", column.method, sorted(library.methods), place, where)
        elif not any(method.measure(column.measure) for method in versions.values()):
            known = sorted({each.id for method in versions.values() for each in method.measures})
            place, where = settings.place_of(*path, "measure"), settings.path_of(*path, "measure")
            yield absent("this method has no measure", column.measure, known, place, where)
