"""What items and controls are called."""

from __future__ import annotations

from generator.pages.names import LONGEST, cut, names_of
from tests.pages.factory import demo


def test_a_maker_s_name_is_enough_where_it_tells_items_apart() -> None:
    bench = demo()
    held = bench.reports["fuse-holders-30a"].record.items
    names = names_of({key: bench.items[key] for key in held}, ("unbroken-cable",))
    assert (names["tessvik-t30"].full, names["tessvik-t30"].short) == ("Tessvik T30", "Tessvik")
    everywhere = names_of(bench.items, ())
    assert everywhere["tessvik-t30"].short == "Tessvik T30"  # its sockets are on the bench, too
    assert names["unbroken-cable"].full == names["unbroken-cable"].short == "unbroken cable"


def test_two_items_of_one_maker_keep_their_models() -> None:
    items = dict(demo().items)
    items["x"] = items["grenlo-30"].model_copy(update={"model": "40"})
    names = names_of(items, ())
    assert {names["grenlo-30"].short, names["x"].short} == {"Grenlo 30", "Grenlo 40"}


def test_a_long_name_is_cut_where_a_chart_has_no_room() -> None:
    assert cut("Grenlo") == "Grenlo"
    assert cut("Grenlo Brothers and Sons") == "Grenlo Bro…"
    assert len(cut("x" * 50)) == LONGEST
