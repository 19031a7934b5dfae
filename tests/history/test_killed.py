"""`publish`, stopped at any moment: the tree is as before, or has the edition whole; what is left is told."""

from __future__ import annotations

import os
import random
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.fault import Doubt
from generator.records.bench import load
from generator.records.store import Occupied, write_new
from tests.history.benches import EDITIONS, REPORT, published, run, tree

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this machine has no fork")

OPERATIONS = {"open", "os.mkdir", "os.link", "os.remove", "os.rename", "os.rmdir", "os.chmod"}
LONGEST = 60.0


def stopped_child(work: Callable[[], object], at: int, below: str = EDITIONS) -> int:
    """Do work in a forked child that ends itself before its file operation of that number, from 0.

    Args:
        work: What to do.
        at: The number.
        below: Part of the names of files that count.

    Returns:
        0 where it came to its end.
    """
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    count = 0

    def watch(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal count
        touches = event in OPERATIONS and below in str(arguments[:2])
        if touches or event == "fsync":
            if count == at:
                os._exit(9)
            count += 1

    flush = os.fsync

    def flushed(number: int) -> None:
        watch("fsync", ())
        flush(number)

    setattr(os, "fsync", flushed)  # noqa: B010  # of this child alone
    sys.addaudithook(watch)
    try:
        work()
    finally:
        os._exit(0)


def is_whole(bench: Path, before: dict[str, bytes]) -> bool:
    """Whether the edition is there; fails where the tree is neither as before nor whole."""
    after = tree(bench)
    new = {name for name in set(after) - set(before) if not Path(name).name.startswith(".")}
    assert {name: after[name] for name in before} == before
    assert new <= {f"{EDITIONS}/1.yml"}
    return bool(new)


def test_at_each_file_operation_in_turn(bench: Path) -> None:
    before = tree(bench)
    found = []
    for at in range(100):
        ended = stopped_child(lambda: published(REPORT, "--date", "2026-02-01"), at)
        found.append(is_whole(bench, before))
        loaded = load(bench)
        assert loaded.faults == ()
        left = [each for each in loaded.doubts if "left here when writing was stopped" in each.what]
        beside = list((bench / EDITIONS).glob(".*")) if (bench / EDITIONS).is_dir() else []
        assert [each.place.file for each in left] == beside
        assert all(isinstance(each, Doubt) for each in left)
        for path in (bench / EDITIONS).glob("*") if (bench / EDITIONS).is_dir() else ():
            path.unlink()
        if (bench / EDITIONS).is_dir():
            (bench / EDITIONS).rmdir()
        if ended == 0:
            break
    assert ended == 0
    assert found[0] is False
    assert found[-1] is True
    # Making the folder, opening, flushing, naming, taking the other name away.
    assert len(found) >= 5


def test_at_200_random_instants(bench: Path) -> None:
    chance = random.Random(7)  # noqa: S311
    path, data = bench / EDITIONS / "1.yml", b"x: y\n" * 20_000
    before = tree(bench)
    began = time.perf_counter()
    write_new({path: data})
    longest = 3 * (time.perf_counter() - began)
    path.unlink()
    outcomes = set()
    for _ in range(200):
        child = os.fork()
        if not child:
            write_new({path: data})
            os._exit(0)
        time.sleep(chance.uniform(0, longest))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        whole = is_whole(bench, before)
        assert not whole or path.read_bytes() == data
        outcomes.add(whole)
        for left in (bench / EDITIONS).glob("*") if (bench / EDITIONS).is_dir() else ():
            left.unlink()
    assert False in outcomes


def test_of_two_at_once_one_wins(bench: Path) -> None:
    path = bench / EDITIONS / "1.yml"
    ways = [os.pipe() for _ in range(2)]
    children = []
    for number, (reads, _) in enumerate(ways):
        child = os.fork()
        if not child:
            os.read(reads, 1)
            try:
                write_new({path: f"{number}\n".encode() * 1000})
            except Occupied:
                os._exit(3)
            os._exit(0)
        children.append(child)
    for _, writes in ways:
        os.write(writes, b"x")
    codes = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
    assert sorted(codes) == [0, 3]
    assert path.read_bytes() == f"{codes.index(0)}\n".encode() * 1000
    assert [each.name for each in path.parent.iterdir()] == ["1.yml"]


def test_the_one_that_lost_says_why(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    link = os.link

    def late(fresh: Path, place: Path) -> None:
        place.write_bytes(b"published by another\n")
        link(fresh, place)

    monkeypatch.setattr(os, "link", late)
    done = run("publish", REPORT, "--date", "2026-02-01")
    assert done.exit_code == 2
    assert "edition 1 was published meanwhile; nothing was written." in done.output
    assert (bench / EDITIONS / "1.yml").read_bytes() == b"published by another\n"
