"""Fragments come out of a page as they went in."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.host.slots import SlotFault, fill
from tests.host.samples import FRAGMENT

PAGE = (
    '<p>before</p><div data-slot="a"></div><p>between</p><div class="wide" data-slot="b" id="x"></div>after'
)


@given(a=st.text(min_size=1), b=st.text(min_size=1))
def test_fragments_go_in_byte_for_byte_and_nothing_else_moves(a: str, b: str) -> None:
    assert fill(PAGE, {"a": a, "b": b}) == PAGE.replace("></div><p>bet", f">{a}</div><p>bet").replace(
        'id="x"></div>', f'id="x">{b}</div>'
    )


def test_an_empty_fragment_takes_its_slot_with_it_and_nothing_else_moves() -> None:
    assert fill(PAGE, {"a": "", "b": "x"}) == (
        '<p>before</p><p>between</p><div class="wide" data-slot="b" id="x">x</div>after'
    )


def test_what_a_fragment_holds_is_not_read() -> None:
    filled = fill('<div data-slot="a"></div>', {"a": r'<div data-slot="z"></div>\1\g<0>' + FRAGMENT})
    assert filled == rf'<div data-slot="a"><div data-slot="z"></div>\1\g<0>{FRAGMENT}</div>'


def test_a_page_without_slots_is_left_alone() -> None:
    page = "<p>Write <code>&lt;div data-slot=&quot;x&quot;&gt;</code></p>"
    assert fill(page, {}) == page


@pytest.mark.parametrize(
    ("html", "fragments", "told"),
    [
        ('<div data-slot="a"></div>', {}, "slot 'a' has no fragment"),
        ("<p></p>", {"a": "x"}, "fragment 'a' has no slot"),
        ('<div data-slot="a"></div><div data-slot="a"></div>', {"a": "x"}, "slot 'a' is there 2 times"),
        ('<div data-slot="a">text</div>', {"a": "x"}, "slot 'a' is not an empty div"),
        ('<span data-slot="a"></span>', {"a": "x"}, "slot 'a' is not an empty div"),
        ('<div data-slot="b"></div>', {"a": "x"}, "slot 'b' has no fragment; fragment 'a' has no slot"),
    ],
)
def test_slots_and_fragments_that_do_not_fit_are_told(
    html: str, fragments: dict[str, str], told: str
) -> None:
    with pytest.raises(SlotFault, match=f"^{re.escape(told)}$"):
        fill(html, fragments)
