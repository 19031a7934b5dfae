"""Zips: of the same files the same bytes; of a stranger's its files, or one reason."""

from __future__ import annotations

import io
import stat
import struct
import warnings
import zipfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.history.parcel import archive
from generator.history.parcel.archive import MOST_RATIO, Unsound, packed, unpacked

FILES = {"a/b.yml": b"x: 1\n", "SHA256SUMS": b"", "a/c.csv": b"1,2\r\n" * 400}


def zipped(*entries: tuple[str | zipfile.ZipInfo, bytes], packing: int = zipfile.ZIP_STORED) -> bytes:
    """A zip as another program makes it."""
    made = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(made, "w", packing) as whole:
        warnings.simplefilter("ignore")  # of a name that is there twice
        for name, content in entries:
            whole.writestr(name, content)
    return made.getvalue()


def opened(data: bytes, folder: Path) -> dict[str, bytes]:
    path = folder / "x.zip"
    path.write_bytes(data)
    return unpacked(path)


def why(data: bytes, folder: Path) -> tuple[str, str]:
    with pytest.raises(Unsound) as refused:
        opened(data, folder)
    return refused.value.why, refused.value.name


def test_the_order_of_the_files_makes_no_other_bytes(tmp_path: Path) -> None:
    data = packed(FILES)
    assert packed(dict(reversed(FILES.items()))) == data
    assert opened(data, tmp_path) == FILES
    with zipfile.ZipFile(io.BytesIO(data)) as whole:
        entries = whole.infolist()
        assert whole.testzip() is None
    assert [each.filename for each in entries] == sorted(FILES)
    assert {each.compress_type for each in entries} == {zipfile.ZIP_STORED}
    assert {each.date_time for each in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert {stat.filemode(each.external_attr >> 16) for each in entries} == {"-rw-r--r--"}


def test_one_that_was_packed_anew_is_opened_too(tmp_path: Path) -> None:
    data = zipped(("a/", b""), *FILES.items(), packing=zipfile.ZIP_DEFLATED)
    assert opened(data, tmp_path) == FILES


@pytest.mark.parametrize(
    "name",
    [
        "../x.yml",
        "a/../../x.yml",
        "/etc/passwd",
        "..",
        ".hidden",
        "a//b",
        "a\\..\\b.yml",
        "C:/x.yml",
        "C:x",
        "a/b.",
        "ä.yml",
        "a b.yml",
        "a\x1b[2J.yml",
        "a/./b",
        "x" * 300,
    ],
)
def test_names_that_might_lead_elsewhere(tmp_path: Path, name: str) -> None:
    told, at = why(zipped(("ok.yml", b""), (name, b"x")), tmp_path)
    assert told == "odd-name"
    assert at
    assert sorted(each.name for each in tmp_path.iterdir()) == ["x.zip"]


def test_a_name_cut_off_by_a_nought(tmp_path: Path) -> None:
    data = zipped(("reports/a.ymlX../b", b"x")).replace(b"a.ymlX../b", b"a.yml\x00../b")
    assert why(data, tmp_path)[0] == "odd-name"
    nothing = zipped(("abc", b"x")).replace(b"abc", b"\0bc")
    assert why(nothing, tmp_path)[0] == "odd-name"


@pytest.mark.parametrize(
    ("one", "other"), [("a.yml", "a.yml"), ("a.yml", "A.yml"), ("a", "a/b.yml"), ("a/b", "A/B/c")]
)
def test_names_that_are_one_and_the_same(tmp_path: Path, one: str, other: str) -> None:
    assert why(zipped((one, b"1"), (other, b"2")), tmp_path)[0] == "twice"


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR])
def test_what_is_no_file(tmp_path: Path, kind: int) -> None:
    link = zipfile.ZipInfo("link")
    link.create_system = 3
    link.external_attr = (kind | 0o777) << 16
    assert why(zipped((link, b"/etc/passwd")), tmp_path) == ("no-file", "link")


def test_a_locked_one(tmp_path: Path) -> None:
    data = bytearray(zipped(("a.yml", b"x")))
    at = data.index(b"PK\x01\x02")
    data[6] |= 1
    data[at + 8] |= 1
    assert why(bytes(data), tmp_path) == ("locked", "a.yml")


@pytest.mark.parametrize("packing", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_one_packed_in_another_way(tmp_path: Path, packing: int) -> None:
    assert why(zipped(("a.yml", b"x"), packing=packing), tmp_path) == ("packed-oddly", "a.yml")


def test_what_unpacks_to_far_more(tmp_path: Path) -> None:
    data = zipped(("a.csv", b"0" * 5_000_000), packing=zipfile.ZIP_DEFLATED)
    assert MOST_RATIO * len(data) < 5_000_000
    assert why(data, tmp_path) == ("swollen", "a.csv")


def test_what_says_that_it_is_small(tmp_path: Path) -> None:
    data = bytearray(zipped(("a.csv", bytes(range(256)) * 3000), packing=zipfile.ZIP_DEFLATED))
    at = data.index(b"PK\x01\x02")
    struct.pack_into("<L", data, at + 24, 10)
    assert why(bytes(data), tmp_path)[0] == "damaged"


def test_too_many_and_too_much(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(archive, "MOST_FILES", 3)
    assert why(zipped(*((f"{each}.yml", b"") for each in range(4))), tmp_path) == ("too-many", "")
    monkeypatch.setattr(archive, "MOST_EACH", 100)
    assert why(zipped(("a.yml", b"x" * 101)), tmp_path) == ("too-big", "a.yml")
    monkeypatch.setattr(archive, "MOST_ALL", 150)
    assert why(zipped(("a.yml", b"x" * 80), ("b.yml", b"y" * 80)), tmp_path)[0] == "too-big"


def test_no_zip_and_half_a_zip(tmp_path: Path) -> None:
    whole = packed(FILES)
    assert why(b"question: x\n", tmp_path) == ("no-zip", "")
    assert why(b"", tmp_path) == ("no-zip", "")
    assert why(whole[: len(whole) // 2], tmp_path) == ("damaged", "")
    at = whole.index(b"1,2\r\n")
    assert why(whole[:at] + b"7" + whole[at + 1 :], tmp_path) == ("damaged", "a/c.csv")


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_whatever_bytes_are_changed_it_is_opened_or_refused(tmp_path: Path, data: st.DataObject) -> None:
    packing = data.draw(st.sampled_from([zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED]))
    whole = bytearray(zipped(*FILES.items(), packing=packing))
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(whole) - 1))
        whole[at] = data.draw(st.integers(0, 255))
    if data.draw(st.booleans()):
        del whole[data.draw(st.integers(0, len(whole))) :]
    try:
        found = opened(bytes(whole), tmp_path)
    except Unsound:
        return
    assert all(".." not in name.split("/") and not name.startswith("/") for name in found)


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.text(min_size=1, max_size=30), min_size=1, max_size=5), st.binary(max_size=50))
def test_whatever_the_names_are_none_leads_out(tmp_path: Path, names: list[str], content: bytes) -> None:
    try:
        data = zipped(*((name, content) for name in names))
    except (UnicodeEncodeError, ValueError, IndexError):  # zipfile itself writes no such name
        return
    try:
        found = opened(data, tmp_path)
    except Unsound:
        return
    home = tmp_path.resolve()
    for name in found:
        assert (home / name).resolve().is_relative_to(home)
        assert name.isascii()
        assert name.isprintable()
