"""Where words go: streams that cannot show every sign, and JSON that any of them can."""

from __future__ import annotations

import codecs
import io
import json
import sys
from collections.abc import Mapping

import click

from generator.records.lookalikes import plain

_HANDLER = "provebook"


def take_every_sign() -> None:
    """Let no sign stop a message: what a terminal cannot show is written as it is typed, or as a number."""
    codecs.register_error(_HANDLER, _typed)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=_HANDLER)


def _typed(error: UnicodeError) -> tuple[str, int]:
    """`±` of a record stays where it can; else `Ω` is `ohm`, `°` is `deg`, and the rest a number."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    return "".join(_KNOWN.get(sign) or _plainly(sign) for sign in signs), error.end


_KNOWN = {"±": "+/-", "…": "...", "’": "'", "‘": "'", "“": '"', "”": '"', "·": "*", "×": "x", "\ufffd": "?"}


def _plainly(sign: str) -> str:
    near = plain(sign)
    return near if near.isascii() and near else sign.encode("ascii", "backslashreplace").decode()


def print_data(data: Mapping[str, object]) -> None:
    """Print one JSON object alone on standard output, in ASCII, so that no encoding matters."""
    click.echo(json.dumps(data, indent=2, allow_nan=False))
