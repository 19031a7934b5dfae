"""Listens to MkDocs: its warnings go to standard error, its refusals become one text for a person."""

from __future__ import annotations

import logging
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException

from generator.fault import RecordsRefused, count_line, message
from generator.pages.own_templates import blamed


class BuildRefused(Exception):
    """The site was not built; the text says why, for a person."""


def say(text: str) -> None:
    """Write a line to standard error, where MkDocs' own messages go; standard output stays free for data."""
    sys.stderr.write(f"{text}\n")
    sys.stderr.flush()


@contextmanager
def refusals() -> Iterator[None]:
    """Turn what MkDocs logs as an error, and then aborts with, into one refusal.

    A fault of the code is none of these and keeps its traceback.

    Raises:
        BuildRefused: MkDocs aborted.
    """
    heard = _Heard()
    logger = logging.getLogger("mkdocs")
    propagated = logger.propagate
    logger.addHandler(heard)
    logger.propagate = False
    try:
        yield
    except (Abort, MkDocsException) as stopped:
        told = "\n".join(heard.errors).strip("\n")
        raise BuildRefused(told or str(stopped)) from stopped
    finally:
        logger.removeHandler(heard)
        logger.propagate = propagated


@contextmanager
def own_theme(config: MkDocsConfig) -> Iterator[None]:
    """Turn what goes wrong in a template of a bench's `custom_dir` into one refusal with file and line.

    Raises:
        BuildRefused: Such a template can't be read or filled.
    """
    if not config.theme.custom_dir:
        yield
        return
    try:
        with blamed(Path(config.theme.custom_dir), Path(config.config_file_path).absolute().parent):
            yield
    except RecordsRefused as refused:
        faults = [message(each, refused.root) for each in refused.faults]
        raise BuildRefused("\n".join([*faults, count_line(refused.faults, 0)])) from refused


class _Heard(logging.Handler):
    """Keeps errors, which come again as the refusal; says warnings at once."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.errors: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Take one message."""
        if record.levelno >= logging.ERROR:
            self.errors.append(record.getMessage())
        else:
            say(f"{record.levelname.lower()}: {record.getMessage()}")
