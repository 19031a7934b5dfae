"""Force, torque, mass and length as they are typed: US units, prefixes, tables without time."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.findings import MeasureFinding
from generator.pages.shown import shown
from tests.evaluation.pulls import METHOD, Pulls

RANGE = 'name: meter\nranges:\n  - {quantity: %s, from: %s, to: %s, accuracy: "±1 %%", resolution: %s, repeatability: %s}\ncalibrated: never\n'  # noqa: E501


def found(
    tmp_path: Path, quantity: str, ends: tuple[str, str, str], value: str, more: str = ""
) -> MeasureFinding:
    pulls = Pulls(tmp_path)
    text = (METHOD % more).replace("quantity: force", f"quantity: {quantity}")
    pulls.method(text.replace(", better: higher", ""))
    low, high, step = ends
    pulls.write("instruments/scale.yml", RANGE % (quantity, low, high, step, step))
    pulls.pull("tessvik", "A", value)
    path = pulls.root / "reports/r/runs/run-001.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("instruments: {force:", f"instruments: {{{quantity}:"), encoding="utf-8")
    return pulls.found()


# The pound is 0.45359237 kg, the inch 25.4 mm exactly (yard and pound agreement, 1959); g_n 9.80665 m/s².
@pytest.mark.parametrize(
    ("quantity", "ends", "value", "figure"),
    [
        ("force", ("0 N", "500 N", "1 N"), "45 lbf", (45 * 0.45359237 * 9.80665, "N")),
        ("torque", ("0 N m", "6 N m", "0.05 N m"), "18 lbf in", (18 * 0.45359237 * 9.80665 * 0.0254, "N·m")),
        ("mass", ("0 g", "500 g", "0.1 g"), "0.75 oz", (0.75 * 0.45359237 / 16, "g")),
        ("length", ("0 mm", "150 mm", "0.01 mm"), "0.41 in", (0.41 * 0.0254, "mm")),
        ("force", ("0 N", "5 kN", "1 N"), "1.2 kN", (1200.0, "kN")),
        ("mass", ("0 g", "500 g", "0.1 g"), "21.5 g", (0.0215, "g")),
        ("length", ("0 mm", "150 mm", "0.01 mm"), "10.41 mm", (0.01041, "mm")),
    ],
)
def test_a_value_in_any_unit_is_one_figure(
    tmp_path: Path, quantity: str, ends: tuple[str, str, str], value: str, figure: tuple[float, str]
) -> None:
    si, told = figure
    measure = found(tmp_path, quantity, ends, value)
    known = measure.items[0].figure
    assert known is not None
    assert known.value == pytest.approx(si, rel=1e-9)
    assert known.half_width > 0
    assert shown(measure).unit == told
    assert measure.better is None
    assert measure.items[0].place is None


@pytest.mark.parametrize(("reduce", "si"), [("mean", 11.0), ("max", 13.0), ("min", 9.0)])
def test_a_table_without_time_becomes_one_figure(tmp_path: Path, reduce: str, si: float) -> None:
    table = "force N\n9\n11\n13"
    measure = found(tmp_path, "force", ("0 N", "50 N", "1 N"), table, f", reduce: {reduce}")
    figure = measure.items[0].figure
    assert figure is not None
    assert figure.value == pytest.approx(si)
