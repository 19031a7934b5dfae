"""A bench that waits for readings: what the tests of imports begin with."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from generator.intake.importing.plan import Plan, plan
from generator.intake.importing.request import Request
from generator.intake.meter.hints import Hints
from generator.intake.new_bench import new_bench
from generator.records.store import write_all

RUN = "connectors-10a/2026-04-05-quorsby-b"
SITTING = "2026-04-05"

RECORD = """\
# The second of the day.
method: connector-heating/1
item: quorsby-q2
specimen: B
date: 2026-04-05
termination: {number: 2, strip: 11 mm}   # made anew
instruments: {temperature@body: logger/CH3, ambient: logger/CH1}
conditions: {conductor: 1.5 mm2 class 5, enclosure: closed box 1 l, air-measured: beside the box}
"""

CLAMPED = RECORD.replace("CH1}", "CH1, current: clamp-1}")

LOGGER = """\
name: logger
ranges:
  - {quantity: temperature, from: -50 degC, to: 200 degC, accuracy: "±(0.5 % + 0.5 degC)"}
probes: {k1: type K class 1, k3: type K class 1, k4: type K class 1}
channels: {CH1: k1, CH3: k3, CH4: k4}
calibrated: never
"""

SITTING_RECORD = """\
date: 2026-04-05
instruments: {ambient: logger/CH1}
conditions: {conductor: 1.5 mm2 class 5, enclosure: closed box 1 l, air-measured: beside the box}
runs:
  quorsby-q2:B: {method: connector-heating/1, temperature@body: logger/CH3}
  halvenor-c2:B:
    method: connector-heating/1
    temperature@body: logger/CH4
"""

FILE = """\
Logger,T8
Firmware,v1.10

Date,Time,CH1 (C),CH3 (C),CH4 (C)
2026-04-05,10:00:00,20.1,20.2,20.3
2026-04-05,10:10:00,20.1,35.0,OL
2026-04-05,10:30:00,20.2,40.0,41.50
"""


def bench(folder: Path, record: str = RECORD, sitting: str = "") -> Path:
    """The example's bench with a meter and a run that waits for its readings."""
    root = folder / "bench"
    new_bench(root, ("bench", "example"))
    reports = root / "reports"
    (reports / "instruments" / "logger.yml").write_text(LOGGER, encoding="utf-8")
    record_of(root).write_bytes(record.encode())
    if sitting:
        (reports / "sittings").mkdir()
        (reports / "sittings" / f"{SITTING}.yml").write_text(sitting, encoding="utf-8")
    return root


def record_of(root: Path, run: str = RUN) -> Path:
    report, _, name = run.partition("/")
    return root / "reports" / report / "runs" / f"{name}.yml"


def request(folder: Path, data: str | bytes = FILE, **said: object) -> Request:
    """An import into the run, unless said otherwise; options by their names."""
    known = {"into", "meter", "standing", "name", "root", "starts_at"}
    hints = Hints(**{key: value for key, value in said.items() if key not in known})  # type: ignore[arg-type]
    raw = data if isinstance(data, bytes) else data.encode()
    made = Request("LOG 1.csv", raw, hints, RUN, "", "keep", folder)
    return replace(made, **{key: value for key, value in said.items() if key in known})  # type: ignore[arg-type]


def brought(root: Path, data: str | bytes = FILE, **said: object) -> Plan:
    """An import, written."""
    made = plan(request(root, data, **said))
    write_all(made.writes)
    return made


def tree(root: Path) -> dict[str, bytes]:
    """Every file of a bench."""
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in sorted(root.rglob("*"))
        if path.is_file()
    }
