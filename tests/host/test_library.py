"""The script that draws live charts: out of a package, once, and none of another version."""

from __future__ import annotations

from pathlib import Path

import pytest
from plotly.offline import get_plotlyjs_version

from generator.host.build import BuildRefused, build
from generator.host.library import BASIC, INSTALLED, LibraryRefused, library, of_package, version_of
from tests.host import samples

VERSION = get_plotlyjs_version()
"""As the Python package itself says."""

OPTION = "  - provebook:\n      plotly_script: scripts/small.js\n"


def notice(version: str, kind: str = " (basic - minified)") -> str:
    return f"/**\n* plotly.js{kind} v{version}\n* Licensed under the MIT license\n*/\nsmall()\n"


def put(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def asking(bench: Path) -> None:
    text = samples.MKDOCS.replace("  - provebook\n", OPTION)
    (bench / "mkdocs.yml").write_text(text, encoding="utf-8")


def in_site(site: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(site.rglob("plotly*")) if path.is_file()}


def test_the_package_s_own_script_goes_into_the_site_once_with_its_licence(bench: Path) -> None:
    site = build(bench)
    found = in_site(site)
    assert list(found) == [f"plotly-{VERSION}.min.js", f"plotly-{VERSION}.min.js.LICENSE.txt"]
    assert found[f"plotly-{VERSION}.min.js"] == of_package().script.read_bytes()
    assert b"MIT" in found[f"plotly-{VERSION}.min.js.LICENSE.txt"]


def test_report_pages_alone_name_it_and_none_loads_it(bench: Path) -> None:
    site = build(bench)
    page = (site / "r/holders-0001/index.html").read_text(encoding="utf-8")
    assert f'data-plotly="../../assets/plotly-{VERSION}.min.js"' in page
    for path in site.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert 'src="../../assets/plotly' not in text
        assert ("data-plotly" in text) == ("kind-report" in text)


def test_a_smaller_one_that_is_asked_for_is_taken(bench: Path) -> None:
    put(bench / "scripts/small.js", notice(VERSION))
    put(bench / "scripts/LICENSE", "MIT, of the small one\n")
    asking(bench)
    assert in_site(build(bench)) == {
        f"plotly-{VERSION}.min.js": notice(VERSION).encode(),
        f"plotly-{VERSION}.min.js.LICENSE.txt": b"MIT, of the small one\n",
    }


def test_an_installed_smaller_one_is_taken_unasked(bench: Path) -> None:
    put(bench / INSTALLED, notice(VERSION))
    assert library(bench, None).script == bench / INSTALLED
    assert library(bench, None).licence == of_package().licence
    other = put(bench / "other.js", notice(VERSION, ""))
    assert library(bench, "other.js").script == other
    assert library(bench, str(other)).script == other


@pytest.mark.parametrize("version", ["3.0.1", f"{VERSION}0", f"{VERSION}-rc.1"])
def test_another_version_is_refused_with_what_would_do(bench: Path, version: str) -> None:
    put(bench / "scripts/small.js", notice(version))
    asking(bench)
    with pytest.raises(BuildRefused) as refused:
        build(bench)
    said = f"another version than the {VERSION} of the Python package plotly, found '{version}'"
    assert str(refused.value).splitlines()[-3:] == [
        f"{bench / 'mkdocs.yml'}: plugins.provebook.plotly_script: {said}",
        f"    accepted: plotly.js {VERSION}, as of: npm install {BASIC}@{VERSION}",
        "1 fault",
    ]
    assert not (bench / "site").exists()


def test_an_installed_one_of_another_version_is_refused_too(bench: Path) -> None:
    put(bench / INSTALLED, notice("2.35.2"))
    with pytest.raises(LibraryRefused, match=INSTALLED) as refused:
        library(bench, None)
    assert refused.value.found == "2.35.2"


def test_a_file_that_is_missing_or_no_plotly_is_refused(bench: Path) -> None:
    with pytest.raises(LibraryRefused, match="no such file"):
        library(bench, "scripts/small.js")
    put(bench / "scripts/small.js", "alert(1)\n")
    with pytest.raises(LibraryRefused, match="is no plotly"):
        library(bench, "scripts/small.js")


def test_the_notice_tells_the_version(tmp_path: Path) -> None:
    assert version_of(put(tmp_path / "a.js", notice("4.1.1"))) == "4.1.1"
    assert version_of(put(tmp_path / "a.js", notice("4.1.1", ""))) == "4.1.1"
    assert version_of(put(tmp_path / "a.js", "x" * 5000 + notice("4.1.1"))) is None


def test_the_setting_is_a_path(bench: Path) -> None:
    text = samples.MKDOCS.replace("  - provebook\n", OPTION.replace("scripts/small.js", "[1]"))
    (bench / "mkdocs.yml").write_text(text, encoding="utf-8")
    with pytest.raises(BuildRefused, match="plotly_script"):
        build(bench)


def test_the_readme_names_the_version_that_fits() -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert f"npm install {BASIC}@{VERSION}\n" in readme
