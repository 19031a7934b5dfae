"""HTML of the whole demo by the Nu Html Checker (W3C and WHATWG, MIT licence): no error, no exceptions.

It is a program for Java: `npm install vnu-jar`, and PROVEBOOK_VNU names its vnu.jar. Without it the test skips
with a reason; a build machine has it.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from generator.host.build import build

ROOT = Path(__file__).parents[2]


def checker() -> list[str]:
    """The command that checks; without one the test skips, on a build machine it fails."""
    jar = os.environ.get("PROVEBOOK_VNU", "")
    if jar and Path(jar).is_file() and shutil.which("java"):
        return ["java", "-jar", jar]
    reason = f"no checker of HTML: PROVEBOOK_VNU is {jar!r}, java is {shutil.which('java')!r}"
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


def test_every_page_is_valid_html(tmp_path: Path) -> None:
    command = checker()
    site = build(ROOT, drafts=True, site_dir=tmp_path / "site")
    done = subprocess.run(  # noqa: S603  # the checker that was named
        [*command, "--format", "json", "--skip-non-html", "--errors-only", "--stdout", str(site)],
        capture_output=True,
        check=False,
        text=True,
    )
    told = [
        f"{Path(each['url'].removeprefix('file:')).relative_to(site)}:{each.get('lastLine')}: {each['message']}"
        for each in json.loads(done.stdout)["messages"]
    ]
    assert not told, "\n".join(told[:20])
    assert len(list(site.rglob("*.html"))) > 60, "the demo has fewer pages than it has"
