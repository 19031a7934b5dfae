"""A fresh bench, filled by `provebook new` with options alone: what the tests of its commands begin with."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from generator.cli import main

HEATING = (
    "method", "--from", "heating", "--current", "10 A", "--conductor", "1.5 mm2 class 5", "--enclosure",
    "closed box 1 l", "--where", "top of the body", "--stop-limit", "90 degC", "--air", "40 degC",
    "--because", "a cupboard in summer",
)  # fmt: skip
DROP = ("method", "--from", "drop", "--current", "10 A", "--conductor", "1.5 mm2 class 5", "--lead", "100 mm")
PULL_OUT = ("method", "--from", "pull-out", "--conductor", "4 mm2 class 5")
FORCE = ("method", "--from", "force", "--what", "pushing the plug fully in", "--better", "lower")
TORQUE = ("method", "--from", "torque", "--conductor", "4 mm2 class 5")
COUNT = (
    "method",
    "--from",
    "count",
    "--what",
    "openings after which the lid did not hold",
    "--better",
    "lower",
)
ENDURANCE = (
    "method", "--from", "endurance", "--what", "openings", "--failure", "the lid no longer holds",
)  # fmt: skip
CHECK = ("method", "--from", "check", "--question", "Does the lid stay shut?", "--good", "yes")

THERMOMETER = (
    "instrument", "--name", "two-channel thermometer", "--quantity", "temperature", "--from", "-50 degC",
    "--to", "200 degC", "--accuracy", "±(0.5 % + 0.5 degC)", "--resolution", "0.1 degC", "--repeatability",
    "0.1 degC", "--valid-at", "18 to 28 degC", "--channels", "CH1 CH2", "--probes", "type K class 1",
    "--calibrated", "never", "--id", "thermometer-1",
)  # fmt: skip
CLAMP = (
    "instrument", "--name", "clamp meter", "--quantity", "current", "--to", "40 A", "--accuracy",
    "±(1.5 % + 2 digits)", "--resolution", "0.01 A", "--mode", "dc", "--calibrated", "2025-11-03",
    "--calibrated-by", "its maker", "--id", "clamp-1",
)  # fmt: skip
SCALE = (
    "instrument", "--name", "spring scale", "--quantity", "force", "--to", "500 N", "--accuracy",
    "±(1 % + 2 N)", "--resolution", "2 N", "--calibrated", "never", "--id", "scale-1",
)  # fmt: skip
VOLTMETER = (
    "instrument", "--name", "bench meter", "--quantity", "voltage", "--from", "-200 mV", "--to", "200 mV",
    "--accuracy", "±(0.1 % + 2 digits)", "--resolution", "0.01 mV", "--mode", "dc", "--calibrated", "never",
    "--id", "meter-1",
)  # fmt: skip
DRIVER = (
    "instrument", "--name", "torque screwdriver", "--quantity", "torque", "--to", "5 Nm", "--accuracy",
    "±4 %", "--resolution", "0.01 Nm", "--calibrated", "never", "--id", "driver-1",
)  # fmt: skip

BOUGHT = (
    "item", "--maker", "Halvenor", "--model", "C2", "--pieces", "2", "--got", "bought", "--from",
    "hardware shop", "--date", "2026-01-08", "--paid", "0.55 EUR", "--chosen", "at random of 10",
)  # fmt: skip
SENT = (
    "item", "--maker", "Quorsby", "--model", "Q2", "--pieces", "2", "--got", "sent", "--from", "the maker",
    "--date", "2026-01-08", "--chosen", "by the maker",
)  # fmt: skip
REPORT = (
    "report", "--question", "Which connector stays cooler at 10 A?", "--initiative", "own", "--method",
    "heating-10-a/1", "--items", "halvenor-c2, quorsby-q2", "--id", "connectors",
)  # fmt: skip
METERS = (
    "--instrument", "temperature@body=thermometer-1/CH2", "--instrument", "ambient=thermometer-1/CH1",
    "--instrument", "current=clamp-1", "--condition", "air-measured=beside the box",
)  # fmt: skip
RUN = (
    "run", "--method", "heating-10-a/1", "--item", "halvenor-c2", "--specimen", "A", "--date", "2026-01-12",
    "--place", "kitchen table", *METERS,
)  # fmt: skip
SITTING = (
    "sitting", "--method", "heating-10-a/1", "--date", "2026-01-14", "--runs", "halvenor-c2:B control",
    "--control", "bare-cable", "--instrument", "halvenor-c2:B@body=thermometer-1/CH2", "--instrument",
    "control@body=thermometer-1/CH1", "--instrument", "ambient=thermometer-1/CH1", "--instrument",
    "current=clamp-1", "--condition", "air-measured=beside the box",
)  # fmt: skip
GROUND = (HEATING, THERMOMETER, CLAMP, BOUGHT, SENT, REPORT)
"""What a first run needs."""


def run(*arguments: str, typed: str | None = None) -> Result:
    """A command as a person in a shell sees it."""
    return CliRunner().invoke(main, list(arguments), input=typed, catch_exceptions=False)


def new(*arguments: str, typed: str | None = None) -> Result:
    """`provebook new` with some arguments."""
    return run("new", *arguments, typed=typed)


def made(*commands: tuple[str, ...]) -> None:
    """Begin records one after the other in the bench that one stands in; each is written."""
    for each in commands:
        done = new(*each)
        assert done.exit_code == 0, done.output
        assert done.stdout.startswith("wrote reports/"), done.output


def without(command: tuple[str, ...], option: str) -> tuple[str, ...]:
    """A command without an option and its value."""
    at = command.index(option)
    return (*command[:at], *command[at + 2 :])


def instead(command: tuple[str, ...], option: str, value: str) -> tuple[str, ...]:
    """A command with another value of an option."""
    return (*(without(command, option) if option in command else command), option, value)


def files(folder: Path) -> dict[str, bytes]:
    """Everything that lies in a folder, by its path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
