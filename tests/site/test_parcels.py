"""Every edition of the demo to take away: it verifies by itself, and says what the standard asks."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from generator.history.parcel.archive import unpacked
from tests.history.benches import ROOT, run
from tests.site.package_rules import faults

EDITIONS = sorted(
    f"r/{path.parts[-3]}/{path.stem}/data/{path.parts[-3]}-edition-{path.stem}.zip"
    for path in (ROOT / "reports").glob("*/editions/*.yml")
)
WITHDRAWN = "r/ring-terminals-m6/2/data/ring-terminals-m6-edition-2.zip"


def package_of(files: dict[str, bytes]) -> dict[str, Any]:
    found = json.loads(files["datapackage.json"])
    assert isinstance(found, dict)
    return found


def test_each_edition_has_one_and_nothing_else_has(demo: Path) -> None:
    assert len(EDITIONS) >= 6
    assert sorted(path.relative_to(demo).as_posix() for path in demo.rglob("*.zip")) == EDITIONS


@pytest.mark.parametrize("name", EDITIONS)
def test_it_verifies_away_from_the_bench(
    demo: Path, name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    done = run("verify", str(demo / name))
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize("name", EDITIONS)
def test_its_description_keeps_the_standard_and_names_the_licence(demo: Path, name: str) -> None:
    files = unpacked(demo / name)
    package = package_of(files)
    assert faults(package, files) == []
    assert package["licenses"] == [
        {
            "name": "CC-BY-4.0",
            "path": "https://creativecommons.org/licenses/by/4.0/",
            "title": "Creative Commons Attribution 4.0 International",
        }
    ]
    page = (demo / name).parents[1] / "index.html"
    told = page.read_text(encoding="utf-8")
    # The page of an edition that takes its report back offers nothing to take away.
    offers = f'href="data/{page.parents[1].name}-edition-' in told
    assert offers == ('href="https://creativecommons.org/licenses/by/4.0/" rel="license"' in told)
    assert offers == (name != WITHDRAWN)


def without_name(package: dict[str, Any]) -> None:
    package["licenses"] = [{"title": "x"}]


def nowhere(package: dict[str, Any]) -> None:
    package["resources"][0]["path"] = "../data/x.csv"


def twice(package: dict[str, Any]) -> None:
    package["resources"].append(package["resources"][0])


def no_fields(package: dict[str, Any]) -> None:
    package["resources"][0]["schema"] = {}


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (without_name, "licenses: none of name, path"),
        (lambda package: package.update(licenses={"name": "x"}), "licenses: no list"),
        (lambda package: package.update(resources=[]), "resources: there must be one at least"),
        (lambda package: package.update(created="2026-10-20"), "created: no time of RFC 3339"),
        (nowhere, "path leads nowhere"),
        (twice, "resources: each needs a name of its own"),
        (no_fields, "a schema needs fields"),
    ],
)
def test_a_wrong_description_would_be_found(
    demo: Path, wrong: Callable[[dict[str, Any]], object], told: str
) -> None:
    files = unpacked(demo / EDITIONS[0])
    package = copy.deepcopy(package_of(files))
    wrong(package)
    assert any(told in each for each in faults(package, files))
