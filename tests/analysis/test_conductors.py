"""Resistance of conductors by size, against published tables."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from generator.analysis.conductors import (
    COPPER,
    Class,
    at,
    awg_area,
    awg_diameter,
    of_area,
    of_area_alone,
    of_class,
    of_gauge,
)

PUBLISHED = Path(__file__).parents[1] / "published"
FOOT = 0.3048


def _rows(name: str) -> list[dict[str, str]]:
    with (PUBLISHED / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_the_two_sizes_that_fix_the_gauge() -> None:
    # ASTM B258: 36 AWG is 0.005 in, 4/0 is 0.46 in, exactly.
    assert awg_diameter(36) == pytest.approx(0.127, rel=1e-12)
    assert awg_diameter(-3) == pytest.approx(11.684, rel=1e-12)


def test_six_and_ten_sizes() -> None:
    # ASTM B258: six sizes double the diameter, ten make the area tenfold, nearly.
    assert awg_diameter(8) / awg_diameter(14) == pytest.approx(2.00503, abs=5e-6)
    assert awg_area(4) / awg_area(14) == pytest.approx(10.1641, abs=5e-5)


@pytest.mark.parametrize("row", _rows("awg-computed.csv"), ids=lambda row: row["awg"])
def test_gauges(row: dict[str, str]) -> None:
    gauge = int(row["awg"])
    assert awg_diameter(gauge) == pytest.approx(float(row["diameter_mm"]), abs=6e-6)
    assert awg_area(gauge) == pytest.approx(float(row["area_mm2"]), abs=6e-6)
    assert of_area(awg_area(gauge)) * 1000 == pytest.approx(
        float(row["r20_ohm_per_km_at_1_over_58"]), abs=6e-5
    )


@pytest.mark.parametrize(("gauge", "area"), [(22, 0.3255), (20, 0.5176)])
def test_areas_that_copies_have_wrong(gauge: int, area: float) -> None:
    # ASTM B258's formula; tables on the web have 0.3261 and 0.5189 mm².
    assert awg_area(gauge) == pytest.approx(area, abs=6e-5)


@pytest.mark.parametrize(
    "row", _rows("nec-ch9-table8-copper-75C.csv"), ids=lambda row: f"{row['awg']} {row['stranding']}"
)
def test_a_code_that_measured_it(row: dict[str, str]) -> None:
    # NEC chapter 9, table 8, uncoated copper at 75 °C, Ω per 1000 ft; as a public table quotes it.
    printed = float(row["r_ohm_per_kft_uncoated"])
    gauge = int(row["awg"])
    solid = at(of_gauge(gauge, "solid").value, 75.0) * 1000 * FOOT
    if row["stranding"] == "solid":
        assert solid == pytest.approx(printed, rel=0.005)
        return
    assert 1.01 <= printed / solid <= 1.03
    stranded = of_gauge(gauge, "stranded")
    low, high = (at(stranded.value + side * stranded.half_width, 75.0) * 1000 * FOOT for side in (-1, 1))
    assert low <= printed <= high


@pytest.mark.parametrize("row", _rows("iec60228-copper-20C.csv"), ids=lambda row: row["area_mm2"])
@pytest.mark.parametrize(
    ("of", "name"), [(1, "class1_plain_ohm_per_km"), (2, "class2_plain"), (5, "class5_plain")]
)
def test_classes_reach_from_the_area_to_the_most(row: dict[str, str], of: Class, name: str) -> None:
    # IEC 60228:2004, tables 1 to 3, as three makers of cable reprint them.
    found = of_class(float(row["area_mm2"]), of)
    assert (found.value + found.half_width) * 1000 == pytest.approx(float(row[name]), rel=1e-9)
    assert (found.value - found.half_width) * 1000 == pytest.approx(
        float(row["rho_over_A_nominal"]), abs=6e-5
    )


def test_a_maximum_is_no_area() -> None:
    # IEC 60228: 2.5 mm² may have 7.41 Ω/km; its area alone would give 6.897.
    assert of_area(2.5) * 1000 == pytest.approx(6.897, abs=5e-4)
    assert of_class(2.5, 1).value * 1000 == pytest.approx((7.41 + 6.8966) / 2, abs=5e-4)


def test_at_75_degrees() -> None:
    # IEC 60028's coefficient gives R75/R20 = 1.21615; 100 mm of 12 AWG has 0.521081 mΩ at 20 °C.
    assert at(1.0, 75.0) == pytest.approx(1.21615, abs=5e-6)
    assert of_area(awg_area(12)) * 100 == pytest.approx(0.521081, abs=5e-7)
    assert at(of_area(awg_area(12)) * 100, 75.0) == pytest.approx(0.633712, abs=5e-7)
    assert pytest.approx(0.00393) == COPPER


@pytest.mark.parametrize(
    ("celsius", "factor"),
    [(5, 1.064), (10, 1.042), (15, 1.020), (25, 0.980), (30, 0.962), (50, 0.893), (75, 0.820), (90, 0.781)],
)
def test_a_table_with_another_coefficient(celsius: float, factor: float) -> None:
    # IEC 60228's factors to 20 °C, as a maker of cable reprints them, are 250/(230 + t), a coefficient of
    # 0.004 /K. With 0.00393 /K it is 0.8223 at 75 °C.
    assert 1 / at(1.0, celsius, 0.004) == pytest.approx(factor, abs=6e-4)
    assert 1 / at(1.0, 75.0) == pytest.approx(0.8223, abs=5e-5)


def test_solid_and_stranded_are_told_apart() -> None:
    # NEC chapter 9, table 8: 14 AWG solid 3.07, stranded 3.14 Ω per 1000 ft at 75 °C; a copy calls the solid
    # ones stranded.
    solid, stranded = (of_gauge(14, make) for make in ("solid", "stranded"))
    low, high = (at(stranded.value + side * stranded.half_width, 75.0) * 1000 * FOOT for side in (-1, 1))
    assert low <= 3.14 <= high
    assert stranded.value > solid.value
    assert at(solid.value, 75.0) * 1000 * FOOT == pytest.approx(3.07, abs=0.012)


def test_what_is_no_conductor() -> None:
    with pytest.raises(ValueError, match="no conductor"):
        of_area(0.0)
    with pytest.raises(KeyError, match="no size of 3 mm²"):
        of_class(3.0, 5)


@pytest.mark.parametrize("row", _rows("iec60228-copper-20C.csv"), ids=lambda row: row["area_mm2"])
def test_by_area_alone_every_class_is_in_reach(row: dict[str, str]) -> None:
    # IEC 60228:2004, tables 1 to 3: no class of plain copper may have more than 16 % above ρ/A.
    found = of_area_alone(float(row["area_mm2"]))
    least, most = found.value - found.half_width, found.value + found.half_width
    assert least * 1000 == pytest.approx(float(row["rho_over_A_nominal"]), abs=6e-5)
    for name in ("class1_plain_ohm_per_km", "class2_plain", "class5_plain"):
        assert most * 1000 >= float(row[name])
