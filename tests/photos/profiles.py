"""Colour profiles made from published primaries, and the same conversion done by plain arithmetic.

Display P3 has the primaries of SMPTE RP 431-2, the white of D65 and the tone curve of IEC 61966-2-1 (sRGB). A
profile of a monitor holds its primaries adapted to D50 by the linear Bradford matrix (ICC.1:2022, Annex E).
"""

from __future__ import annotations

import struct

import numpy as np
from numpy.typing import NDArray

Matrix = NDArray[np.float64]

P3 = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060))
SRGB = ((0.640, 0.330), (0.300, 0.600), (0.150, 0.060))
D65 = (0.3127, 0.3290)

_BRADFORD = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])
_D50 = np.array([0.9642, 1.0, 0.8249])


def to_xyz(primaries: tuple[tuple[float, float], ...]) -> Matrix:
    """RGB of a display, linear, to XYZ under D65 (SMPTE RP 177)."""
    columns = np.array([[x / y, 1.0, (1 - x - y) / y] for x, y in primaries]).T
    white = np.array([D65[0] / D65[1], 1.0, (1 - D65[0] - D65[1]) / D65[1]])
    scaled: Matrix = columns * np.linalg.solve(columns, white)
    return scaled


def linear(levels: Matrix) -> Matrix:
    return np.where(levels <= 0.04045, levels / 12.92, ((levels + 0.055) / 1.055) ** 2.4)


def coded(light: Matrix) -> Matrix:
    clipped = np.clip(light, 0, 1)
    return np.where(clipped <= 0.0031308, clipped * 12.92, 1.055 * clipped ** (1 / 2.4) - 0.055)


def p3_as_srgb(colour: tuple[int, int, int]) -> tuple[float, ...]:
    """Levels of sRGB, 0 to 255, of a colour of Display P3; what sRGB has not is clipped."""
    light = np.asarray(
        np.linalg.solve(to_xyz(SRGB), to_xyz(P3) @ linear(np.array(colour) / 255)), dtype=np.float64
    )
    return tuple(float(level) for level in coded(np.asarray(light)) * 255)


def display_p3() -> bytes:
    """An ICC profile of Display P3, version 2: three primaries, three curves of 1,024 points."""
    adapted = _adapted(to_xyz(P3))
    steps = coded_inverse_curve()
    tags = {
        b"desc": b"desc" + bytes(4) + struct.pack(">I", 11) + b"Display P3\x00" + bytes(78),
        b"cprt": b"text" + bytes(4) + b"none\x00",
        b"wtpt": _xyz(_D50),
        b"rXYZ": _xyz(adapted[:, 0]),
        b"gXYZ": _xyz(adapted[:, 1]),
        b"bXYZ": _xyz(adapted[:, 2]),
        b"rTRC": steps,
        b"gTRC": steps,
        b"bTRC": steps,
    }
    table, body, at = b"", b"", 128 + 4 + 12 * len(tags)
    for name, content in tags.items():
        padded = content + bytes(-len(content) % 4)
        table += struct.pack(">4sII", name, at + len(body), len(content))
        body += padded
    size = at + len(body)
    head = struct.pack(">I4sI4s4s4s", size, b"\0\0\0\0", 0x02400000, b"mntr", b"RGB ", b"XYZ ")
    head += struct.pack(">6H", 2026, 1, 1, 0, 0, 0) + b"acsp" + bytes(28) + _fixed(_D50) + bytes(48)
    return head + struct.pack(">I", len(tags)) + table + body


def coded_inverse_curve() -> bytes:
    curve = np.round(linear(np.linspace(0, 1, 1024)) * 65535).astype(">u2")
    return b"curv" + bytes(4) + struct.pack(">I", len(curve)) + curve.tobytes()


def _adapted(matrix: Matrix) -> Matrix:
    white = matrix.sum(axis=1)
    scale = np.diag((_BRADFORD @ _D50) / (_BRADFORD @ white))
    adapted: Matrix = np.linalg.inv(_BRADFORD) @ scale @ _BRADFORD @ matrix
    return adapted


def _fixed(values: Matrix) -> bytes:
    return b"".join(struct.pack(">i", round(float(value) * 65536)) for value in values)


def _xyz(values: Matrix) -> bytes:
    return b"XYZ " + bytes(4) + _fixed(values)
