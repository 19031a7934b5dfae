"""What computes the figures here: the program and the libraries that decide their digits."""

from __future__ import annotations

from importlib.metadata import version

DECIDING = ("GTC", "numpy", "scipy")


def deciding() -> dict[str, str]:
    """The libraries that decide figures, to their versions."""
    return {name: version(name) for name in DECIDING}
