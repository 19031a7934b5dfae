"""One build through the Python interface: what it says, where, and what it leaves."""

from __future__ import annotations

import logging
from pathlib import Path

import pytest

from generator.host import plugin
from generator.host.build import BuildRefused, build
from generator.pages.site import Site


def test_standard_output_stays_free_for_data(bench: Path, capfd: pytest.CaptureFixture[str]) -> None:
    site = build(bench)
    said = capfd.readouterr()
    assert site == bench / "site"
    assert (said.out, said.err) == ("", "")


def test_a_warning_goes_to_standard_error_and_is_a_fault_when_strict(
    bench: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    (bench / "reports" / "pages" / "about.md").write_text("# About\n\n[Gone](gone.md)\n", encoding="utf-8")
    build(bench)
    said = capfd.readouterr()
    assert said.out == ""
    assert said.err.startswith("warning: Doc file 'about.md' contains a link 'gone.md'")
    with pytest.raises(BuildRefused, match="1 warnings in strict mode"):
        build(bench, strict=True)


def test_another_folder_may_be_given(bench: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert build(bench, site_dir=Path("out")) == tmp_path / "out"
    assert (tmp_path / "out" / "index.html").is_file()
    assert not (bench / "site").exists()


def test_missing_and_broken_settings_are_told(tmp_path: Path) -> None:
    with pytest.raises(BuildRefused, match=r"mkdocs\.yml' does not exist"):
        build(tmp_path)
    (tmp_path / "mkdocs.yml").write_text("site_name: [\n", encoding="utf-8")
    with pytest.raises(BuildRefused, match=r"(?s)mkdocs\.yml.*line"):
        build(tmp_path)


def test_a_fault_of_the_code_keeps_its_traceback(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(_: Path, **__: object) -> Site:
        raise ZeroDivisionError("of ours")

    monkeypatch.setattr(plugin, "generated", fail)
    with pytest.raises(ZeroDivisionError, match="of ours"):
        build(bench)


def test_listening_to_mkdocs_ends_with_the_build(bench: Path) -> None:
    logger = logging.getLogger("mkdocs")
    before = (list(logger.handlers), logger.propagate)
    build(bench)
    with pytest.raises(BuildRefused):
        build(bench / "nowhere")
    assert (list(logger.handlers), logger.propagate) == before
