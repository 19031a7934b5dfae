"""Where `provebook serve` listens: checked before the site is built, which takes a while."""

from __future__ import annotations

import ipaddress
import socket

import click

from generator.cli.bench import wrong_use

_PORTS = range(1, 65536)


def checked(_: click.Context, __: click.Parameter, value: str) -> str:
    """The value of `--address`, if it is one.

    Raises:
        BadParameter: It has no port, or names no address of a machine.
    """
    host, _colon, port = value.strip().rpartition(":")
    if not (host and port.isascii() and port.isdigit() and int(port[:6]) in _PORTS):
        what = f"{value!r} is no address with a port from 1 to 65535; write it as 127.0.0.1:8000"
        raise click.BadParameter(what)
    try:
        return f"{_numbers(host)}:{int(port)}"
    except ValueError:
        what = f"{host!r} is no address in numbers; 127.0.0.1 is this machine, 0.0.0.0 every way to it"
        raise click.BadParameter(what) from None


def _numbers(host: str) -> str:
    return host if host == "localhost" else str(ipaddress.ip_address(host.strip("[]")))


def listen_or_stop(address: str) -> None:
    """Try the address once; where something else listens there, say so and stop with 2."""
    host, _, port = address.rpartition(":")
    kind = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(kind) as tried:
        tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            tried.bind((host, int(port)))
        except OSError as error:
            why = (error.strerror or str(error)).lower()
            other = f"{host}:{int(port) + 1 if int(port) < _PORTS[-1] else 8000}"
            wrong_use(f"can't listen on {address}: {why}.\nTry another:  provebook serve --address {other}")
