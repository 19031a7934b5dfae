"""What the Data Package standard, version 2, requires of a description, written out.

Source: datapackage.org/standard, pages "Data Package", "Data Resource" and "Table Schema" (version 2.0, 2024), the
requirements that these call MUST, as far as they speak of what may be written here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

TYPES = {"string", "number", "integer", "boolean", "object", "array", "list", "datetime", "date", "time",
         "year", "yearmonth", "duration", "geopoint", "geojson", "any"}  # fmt: skip
"""Types of a field, "Table Schema"."""


def faults(package: Mapping[str, Any], files: Mapping[str, bytes]) -> list[str]:
    """What is wrong with a description.

    Args:
        package: The description, read.
        files: The files beside it, by their paths.
    """
    return [*_package(package), *_resources(package.get("resources"), files)]


def _package(package: Mapping[str, Any]) -> Iterator[str]:
    for key in ("$schema", "name", "id", "title", "description", "homepage", "version", "created"):
        if key in package and not (isinstance(package[key], str) and package[key]):
            yield f"{key}: no text"
    if "created" in package and not re.fullmatch(
        r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)", str(package["created"])
    ):
        yield "created: no time of RFC 3339"
    for key, needed in (("licenses", {"name", "path"}), ("sources", {"title", "path", "email"})):
        yield from _objects(package, key, needed)
    yield from _objects(package, "contributors", {"title", "givenName", "familyName", "email", "organization"})


def _objects(package: Mapping[str, Any], key: str, needed: set[str]) -> Iterator[str]:
    """A list of objects each of which has one at least of some keys."""
    if key not in package:
        return
    if not isinstance(package[key], list) or not package[key]:
        yield f"{key}: no list"
        return
    for each in package[key]:
        if not isinstance(each, dict) or not needed & set(each):
            yield f"{key}: none of {', '.join(sorted(needed))}"
        elif not all(isinstance(value, str | list) and value for value in each.values()):
            yield f"{key}: an empty value"
        elif "path" in each and not _is_path(each["path"]):
            yield f"{key}: no path"


def _resources(found: object, files: Mapping[str, bytes]) -> Iterator[str]:
    if not isinstance(found, list) or not found:
        yield "resources: there must be one at least"
        return
    names = [each.get("name") for each in found]
    if len(set(names)) < len(names) or not all(isinstance(name, str) and name for name in names):
        yield "resources: each needs a name of its own"
    for each in found:
        if ("path" in each) == ("data" in each):
            yield f"{each.get('name')}: either path or data"
        elif not _is_path(each["path"]) or each["path"] not in files:
            yield f"{each.get('name')}: path leads nowhere"
        yield from _fields(each, files)


def _fields(resource: Mapping[str, Any], files: Mapping[str, bytes]) -> Iterator[str]:
    """A schema has fields with names and known types, those of the file's head in their order."""
    fields = resource.get("schema", {}).get("fields")
    if not isinstance(fields, list) or not fields:
        yield f"{resource.get('name')}: a schema needs fields"
        return
    if any(not each.get("name") or each.get("type", "any") not in TYPES for each in fields):
        yield f"{resource.get('name')}: a field without a name or of no known type"
    head = files.get(str(resource.get("path")), b"").decode().split("\r\n")[0]
    if len(re.findall(r'(?:^|,)("(?:[^"]|"")*"|[^,]*)', head)) != len(fields):
        yield f"{resource.get('name')}: other fields than the file has columns"


def _is_path(path: object) -> bool:
    """A full address, or a path below the description with `/` that leads nowhere up."""
    if not isinstance(path, str):
        return False
    return bool(re.match(r"https?://", path)) or bool(re.fullmatch(r"(?!/)(?!.*\.\.)[^\\:]+", path))
