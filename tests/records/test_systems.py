"""Which unit of one system stands for which of the other, and which gauge lies near an area."""

from __future__ import annotations

import pytest

from generator.records.quantity import parse_quantity
from generator.records.systems import gauge_name, gauge_near, in_both
from generator.records.units import UNITS


@pytest.mark.parametrize(
    ("unit", "other", "factor"),
    [
        # NIST SP 811 (2008), B.8: lbf 4.448 222 N; in 25.4 mm; lbf·in 0.112 984 8 N·m; lb 0.453 592 4 kg;
        # oz 28.349 52 g.
        ("lbf", "N", 4.448222),
        ("N", "lbf", 1 / 4.448222),
        ("mm", "in", 1 / 25.4),
        ("ft", "m", 0.3048),
        ("lbf·in", "N·m", 0.1129848),
        ("N·m", "lbf·in", 1 / 0.1129848),
        ("kg", "lb", 1 / 0.4535924),
        ("g", "oz", 1 / 28.34952),
        # 1 K is an interval of 1.8 °F.
        ("K/h", "°F/h", 1.8),
    ],
)
def test_a_unit_has_its_counterpart_and_its_factor(unit: str, other: str, factor: float) -> None:
    found = in_both(unit)
    assert found is not None
    assert {found.metric.symbol, found.us.symbol} == {unit, other}
    assert found.factor(unit) == pytest.approx(factor, rel=1e-6)


def test_both_are_of_one_quantity_and_metric_ones_are_no_us_ones() -> None:
    pairs = [pair for pair in (in_both(unit.symbol) for unit in UNITS) if pair]
    assert len(pairs) > 20
    for pair in pairs:
        assert pair.metric.quantity == pair.us.quantity
    assert not {pair.metric.symbol for pair in pairs} & {pair.us.symbol for pair in pairs}


@pytest.mark.parametrize("unit", ["A", "V", "mΩ", "W", "min", "%", "°C", "°F", "K", "AWG", "mm²", "furlong"])
def test_what_is_the_same_to_everyone_or_has_rules_of_its_own_has_none(unit: str) -> None:
    assert in_both(unit) is None


@pytest.mark.parametrize(
    ("area", "gauge"),
    [
        # ASTM B258: 12 AWG 3.31 mm², 11 AWG 4.17 mm², 10 AWG 5.26 mm², 4/0 AWG 107 mm².
        ("3.31 mm2", 12),
        ("4 mm2", 11),
        ("5.26 mm2", 10),
        ("0.5 mm2", 20),
        ("107 mm2", -3),
        ("240 mm2", None),
    ],
)
def test_the_gauge_near_an_area(area: str, gauge: int | None) -> None:
    assert gauge_near(parse_quantity(area, "area").si) == gauge


@pytest.mark.parametrize(("gauge", "name"), [(12, "12"), (1, "1"), (0, "1/0"), (-3, "4/0")])
def test_a_gauge_has_the_name_it_is_sold_by(gauge: int, name: str) -> None:
    assert gauge_name(gauge) == name
    assert parse_quantity(f"{name} AWG").value == gauge
