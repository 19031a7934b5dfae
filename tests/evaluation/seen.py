"""A small bench whose part is read by an infra-red camera and its air by a probe."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from generator.evaluation.findings import RunFinding
from tests.evaluation.small import Small
from tests.simulator.meters import Optics, indication

CAMERA = """\
name: infra-red camera
ranges:
  - {quantity: temperature, from: -20 degC, to: 150 degC, accuracy: "±2 degC", resolution: 0.1 degC, repeatability: 0.1 degC}
infrared: {reflected: set, distance-to-spot: 30 to 1}
calibrated: never
"""  # noqa: E501
SETTINGS = {
    "emissivity-set": "0.95",
    "emissivity": "0.90",
    "emissivity-within": "0.02",
    "surface": "tape, black vinyl",
    "reflected": "20 degC",
    "reflected-within": "2 K",
    "distance": "300 mm",
    "target": "40 mm",
}
TRUE = (20.0, 56.0, 60.0)
"""True temperatures of the surface at 0, 30 and 60 min, °C; the air is at 20 °C."""


def told(**changes: str | None) -> str:
    """The settings as a record has them, changed or (None) left out."""
    said = {**SETTINGS, **{key.replace("_", "-"): value for key, value in changes.items()}}
    lines = (f"  {key}: {value}\n" for key, value in said.items() if value is not None)
    return "infrared:\n" + "".join(lines)


def shown(optics: Optics, true: Sequence[float] = TRUE, last: str = "") -> str:
    """What the camera showed of them, to a tenth of a degree."""
    cells = [f"{each:.1f}" for each in indication(np.array(true), optics)]
    cells[-1] = last or cells[-1]
    rows = [f"{at} | {cell} | 20.0 | 30.0" for at, cell in zip((0, 30, 60), cells, strict=True)]
    return "\n".join(["time min | temperature@body degC | ambient degC | current A", *rows])


def by_camera(
    small: Small,
    item: str = "tessvik",
    piece: str = "A",
    *,
    readings: str = "",
    more: str = "",
    camera: str = CAMERA,
) -> None:
    """One run of a piece, read by the camera."""
    small.write("instruments/camera.yml", camera)
    small.run(item, piece, readings or shown(Optics(emissivity=0.90)), more=more or told())
    path = small.root / f"reports/r/runs/run-{small.count:03}.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(
        text.replace("temperature@body: logger/CH2", "temperature@body: camera"), encoding="utf-8"
    )


def first(small: Small) -> RunFinding:
    """The finding of the first run of the first item."""
    return small.rise().items[0].pieces[0].runs[0]
