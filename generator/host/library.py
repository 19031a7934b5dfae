"""The script that draws live charts: plotly.js of the Python package plotly, or a smaller one that fits it.

Nothing of it stands in this repository. It is put into the site once, and a reader's browser asks for it only
when a chart is to be drawn live.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib.metadata import distribution
from importlib.util import find_spec
from pathlib import Path

BASIC = "plotly.js-basic-dist-min"
"""The smaller script's package, as `npm install` puts it beside mkdocs.yml where a package.json names it."""

INSTALLED = f"node_modules/{BASIC}/plotly-basic.min.js"

OPTION = "plugins.provebook.plotly_script"

_HEAD = 1024
"""So many bytes hold the notice at a script's start."""

_NOTICE = re.compile(r"plotly\.js (?:\([^)\n]*\) )?v(\d+\.\d+\.\d+\S*)")


@dataclass(frozen=True)
class Library:
    """A plotly.js.

    Attributes:
        version: As its own notice says.
        script: The script.
        licence: Its licence; None where its package came without one: then the notice in the script says it.
    """

    version: str
    script: Path
    licence: Path | None

    @property
    def uri(self) -> str:
        """The script's address under the site: another one for each version, since browsers keep it."""
        return f"assets/plotly-{self.version}.min.js"

    @property
    def files(self) -> tuple[tuple[str, Path], ...]:
        """Address and path of each file that goes into the site."""
        own = (self.uri, self.script)
        return (own,) if self.licence is None else (own, (f"{self.uri}.LICENSE.txt", self.licence))


class LibraryRefused(Exception):
    """A script that is not the one that the charts are made for.

    Attributes:
        key: The setting or the file that names it.
        what: What is wrong.
        found: What was found; None where that says nothing.
        accepted: What would do.
    """

    def __init__(self, key: str, what: str, found: str | None = None, accepted: tuple[str, ...] = ()) -> None:
        self.key = key
        self.what = what
        self.found = found
        self.accepted = accepted
        super().__init__(f"{key}: {what}")


def library(bench: Path, asked: str | None) -> Library:
    """The script that a bench's charts are drawn by.

    Args:
        bench: The folder of mkdocs.yml.
        asked: The path that the settings name, from that folder; None where they name none.

    Returns:
        The one asked for, else an installed smaller one, else the Python package's own.

    Raises:
        LibraryRefused: There is no such file, it is no plotly.js, or it is of another version than the Python
            package's, whose figures the charts are checked against.
    """
    packaged = of_package()
    if asked is not None:
        return _fitting(OPTION, bench / asked, packaged)
    if (bench / INSTALLED).is_file():
        return _fitting(INSTALLED, bench / INSTALLED, packaged)
    return packaged


def of_package() -> Library:
    """The script that the Python package plotly holds; the package itself is not loaded for that."""
    spec = find_spec("plotly")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("the Python package plotly is not installed")
    script = Path(spec.origin).parent / "package_data" / "plotly.min.js"
    version = version_of(script)
    if version is None:
        raise FileNotFoundError(f"{script} does not say its version")
    own = [Path(str(each.locate())) for each in distribution("plotly").files or () if "LICENSE" in each.name]
    return Library(version, script, min(own, default=None))


def version_of(script: Path) -> str | None:
    """The version in the notice at a script's start; None where it is no plotly.js."""
    with script.open("rb") as opened:
        head = opened.read(_HEAD).decode("utf-8", "replace")
    found = _NOTICE.search(head)
    return found[1] if found else None


def _fitting(key: str, script: Path, packaged: Library) -> Library:
    fits = (f"plotly.js {packaged.version}, as of: npm install {BASIC}@{packaged.version}",)
    if not script.is_file():
        raise LibraryRefused(key, "no such file beside mkdocs.yml", str(script), fits)
    version = version_of(script)
    if version is None:
        raise LibraryRefused(key, "is no plotly.js: its first lines do not say so", accepted=fits)
    if version != packaged.version:
        what = f"another version than the {packaged.version} of the Python package plotly"
        raise LibraryRefused(key, what, version, fits)
    beside = script.with_name("LICENSE")
    return Library(version, script, beside if beside.is_file() else packaged.licence)
