"""Cautions by hazard class: the gravest first, none ever removed."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from generator.pages.cautions import GRAVEST_FIRST, cautions
from generator.pages.render import Renderer
from generator.records.schema.method import Hazard
from tests.pages.factory import ROOT, demo

METHOD = demo().methods["closed-box-heating"][2]


def method(*hazards: str, **more: Any) -> Any:
    return METHOD.model_copy(update={"hazard": hazards, **more})


def test_every_class_has_a_signal_word() -> None:
    assert set(GRAVEST_FIRST) == set(get_args(Hazard))


@pytest.mark.parametrize(
    ("hazards", "signal", "first"),
    [
        (["extra-low voltage"], "warning", False),
        (["mechanical"], "caution", False),
        (["mechanical", "mains"], "danger", True),
        (["overload"], "warning", True),
    ],
)
def test_the_gravest_class_gives_the_signal_word(hazards: list[str], signal: str, first: bool) -> None:
    """ANSI Z535.6, from memory: danger for live mains, warning for fire, caution for minor hurt."""
    found = cautions([method(*hazards)])
    assert (found.signal, found.first) == (signal, first)


def test_methods_add_and_nothing_is_said_twice() -> None:
    found = cautions(
        [method("mechanical", cautions=("a", "b")), method("mains", cautions=("b",), protection="RCD")]
    )
    assert found.hazards == ("mains", "mechanical")
    assert found.added == ("a", "b")
    assert found.protection == ("RCD",)


def test_without_a_method_no_hazard_is_known() -> None:
    with pytest.raises(ValueError, match="no hazard"):
        cautions([])


@pytest.mark.parametrize("hazard", get_args(Hazard))
def test_every_class_has_its_words(hazard: str) -> None:
    made = Renderer(ROOT).fragment(
        "fragments/caution.html.jinja", cautions=cautions([method(hazard)]), anchor="c"
    )
    assert "Don’t copy this test. Not a certificate: only these pieces were tested." in made
    assert 'href="#c"' in made
