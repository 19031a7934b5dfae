"""A rectangle and many normals: what the error of a figure is, given how large its finite parts come out.

Given χ² of ν a scaled t is a normal of standard deviation u·√(ν/χ²); the expectation over χ² is taken by
Gauss–Legendre quadrature in its quantile.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

import numpy as np
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray
from scipy.special import erfc, erfcx, gammaincinv

Numbers = NDArray[np.float64]

NODES = 64
"""Nodes of the quadrature over the χ² quantile."""

NARROW = 1e-3
"""Half-width over standard deviation below which the rectangle's part is told by its expansion.

(1/2δ)∫Φ over z ± δ is Φ(z) + δ²/6·Φ''(z) + O(δ⁴), where the difference of two ψ would cancel.
"""


@lru_cache(maxsize=1024)
def t_as_normals(dof: float) -> tuple[Numbers, Numbers]:
    """Weights and factors √(ν/χ²): a standard t of ν as a mixture of normals."""
    nodes, weights = leggauss(NODES)
    # p = v⁴ crowds the nodes at small χ², where the far tail of a t comes from.
    v = (1 + nodes) / 2
    chi2 = 2 * gammaincinv(dof / 2, v**4)
    return 2 * v**3 * weights, np.sqrt(dof / chi2)


def mixed(weights: Numbers, found: tuple[Numbers, Numbers]) -> tuple[float, float]:
    """Distribution function and density of a mixture, from those of what is mixed."""
    # Added exactly: the sum of an array depends on the processor in its last digit.
    below, density = (math.fsum((weights * each).tolist()) for each in found)
    return below, density


def given_spreads(a: float, s: Numbers) -> Callable[[float | Numbers], tuple[Numbers, Numbers]]:
    """Distribution function and density of a rectangle ± a plus a normal, for several of them.

    Args:
        a: Half-width of the rectangle.
        s: Standard deviation of each normal, above zero.

    Returns:
        Both as a function of one place for all, or one each; accurate far out below zero.
    """
    width = a / s
    narrow = width < NARROW
    safe, edges = np.where(narrow, 1.0, width), SIDES * width

    def at(x: float | Numbers) -> tuple[Numbers, Numbers]:
        z = x / s
        psi, steep = _psi_and_cdf(z + edges)
        by_psi, by_cdf = psi[0] - psi[1], steep[0] - steep[1]
        if not narrow.any():
            return by_psi / (2 * width), by_cdf / (2 * a)
        middle, steep = _psi_and_cdf(z)
        density = middle - z * steep
        return (
            np.where(narrow, steep - width**2 / 6 * z * density, by_psi / (2 * safe)),
            np.where(narrow, density / s, by_cdf / (2 * safe * s)),
        )

    return at


SIDES = np.array([[1.0], [-1.0]])
"""Of a rectangle's two ends."""


def _psi_and_cdf(z: Numbers) -> tuple[Numbers, Numbers]:
    """ψ and Φ, from Φ(−y√2) = erfc(y)/2 and e^(−y²) = erfc(y)/erfcx(y): no exponential of an array."""
    y = np.abs(z) / math.sqrt(2)
    beyond = erfc(y) / 2
    psi = beyond * np.maximum(0.0, math.sqrt(2 / math.pi) / erfcx(y) - math.sqrt(2) * y)
    return psi + np.maximum(z, 0.0), np.where(z > 0, 1 - beyond, beyond)
