"""Templates are found in an installed package and in a clone."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.pages import locate


def test_a_clone_has_them_beside_the_package() -> None:
    assert locate.templates() == Path(__file__).parents[2] / "site_templates"
    assert (locate.templates() / "theme" / "main.html").is_file()


def test_an_installed_package_has_them_inside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    inside, beside = tmp_path / "generator" / "site_templates", tmp_path / "site_templates"
    inside.mkdir(parents=True)
    beside.mkdir()
    monkeypatch.setattr(locate, "PACKAGE", tmp_path / "generator")
    assert locate.templates() == inside
    inside.rmdir()
    assert locate.templates() == beside


def test_a_broken_installation_says_what_would_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(locate, "PACKAGE", tmp_path / "generator")
    with pytest.raises(FileNotFoundError, match="install provebook again"):
        locate.templates()
