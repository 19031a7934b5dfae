"""The first view of each kind of page as Lighthouse measures it: `pytest tests/long/test_first_view.py -s`.

Lighthouse 12.2.3 (npm, Apache 2.0), its mobile profile, a server that packs by gzip, the median of five. It
is named by PROVEBOOK_LIGHTHOUSE (`npm install lighthouse@12.2.3`, node_modules/.bin/lighthouse); without it
the tests skip. Scores fall while the machine has other work: run it on an idle one.
"""

from __future__ import annotations

import gzip
import json
import os
import re
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from statistics import median
from typing import Any

import pandas as pd
import plotly.graph_objects as go
import pytest

from generator.host.build import build
from tests.browser.conftest import QUIET, chromium
from tests.browser.test_charts import bench as of_three_charts

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "site_templates/example/reports"
REPORTS = 350
TIMES = 5
PACKED = (".html", ".css", ".js", ".json", ".svg", ".xml", ".csv")

PAGES = {
    "front": "",
    "report": "r/fuse-holders-30a/",
    "edition": "r/fuse-holders-30a/1/",
    "history": "r/fuse-holders-30a/history/",
    "comparison": "compare/",
    "method": "m/closed-box-heating/2/",
    "item": "i/okvarn-ih30/",
}
DRAFTED = {kind: PAGES[kind] for kind in ("front", "report", "comparison", "method", "item")}

MOST_BYTES, LONGEST_PAINT, MOST_SHIFT, LEAST_SCORE = 100 * 1024, 1500.0, 0.01, 0.99


@dataclass(frozen=True)
class Seen:
    """A page as measured: medians, scores from 0 to 1, largest paint in ms, bytes over the wire."""

    performance: float
    accessibility: float
    practices: float
    paint: float
    shift: float
    bytes: float

    def __str__(self) -> str:
        scores = f"{self.performance * 100:.0f} {self.accessibility * 100:.0f} {self.practices * 100:.0f}"
        return f"{scores:>12} {self.paint / 1000:6.2f} s {self.shift:.4f} {self.bytes / 1024:8.1f} KiB"


class _Packed(SimpleHTTPRequestHandler):
    """Files packed by gzip, as any host of static files does, kept for a year as their names allow."""

    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path.partition("?")[0]))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        content = path.read_bytes()
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(path.name))
        if path.suffix in PACKED:
            content = gzip.compress(content, 6)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "max-age=31536000")
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture
def serve() -> Iterator[Any]:
    """Serves folders: `serve(folder)` → its address with the slash."""
    servers: list[ThreadingHTTPServer] = []

    def served(folder: Path) -> str:
        server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Packed, directory=str(folder)))
        servers.append(server)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        return f"http://127.0.0.1:{server.server_address[1]}/"

    yield served
    for server in servers:
        server.shutdown()
        server.server_close()


def measured(address: str, folder: Path, times: int = TIMES) -> Seen:
    """A page as Lighthouse sees it."""
    command = os.environ.get("PROVEBOOK_LIGHTHOUSE", "")
    if not command or shutil.which(command) is None:
        pytest.skip(f"no Lighthouse: PROVEBOOK_LIGHTHOUSE is {command!r}")
    found = [_once(command, address, folder / "seen.json") for _ in range(times)]
    return Seen(*(median(each[place] for each in found) for place in range(6)))


def _once(program: str, address: str, told: Path) -> tuple[float, ...]:
    only = ("performance", "accessibility", "best-practices")
    command = [
        program,
        address,
        "--quiet",
        "--output=json",
        f"--output-path={told}",
        f"--only-categories={','.join(only)}",
        f"--chrome-flags={' '.join(['--headless=new', *QUIET])}",
    ]
    # The program that was named, with the browser of the other tests.
    subprocess.run(command, env=os.environ | {"CHROME_PATH": chromium()}, check=True, capture_output=True)
    found = json.loads(told.read_text(encoding="utf-8"))
    scores = (found["categories"][name]["score"] for name in only)
    audits = ("largest-contentful-paint", "cumulative-layout-shift", "total-byte-weight")
    return (*scores, *(found["audits"][name]["numericValue"] for name in audits))


def tell(line: str) -> None:
    """A line of the table, seen with `-s`."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def missed(kind: str, seen: Seen) -> list[str]:
    """Which bars a page misses."""
    held = {
        "performance": seen.performance >= LEAST_SCORE,
        "accessibility": seen.accessibility == 1,
        "best practices": seen.practices == 1,
        "largest paint": seen.paint <= LONGEST_PAINT,
        "layout shift": seen.shift <= MOST_SHIFT,
        "bytes": seen.bytes <= MOST_BYTES,
    }
    return [f"{kind}: {name}" for name, kept in held.items() if not kept]


def many(folder: Path, reports: int) -> Path:
    """A bench of the demo's report with three charts and so many others, each with two items of its own."""
    bench = of_three_charts(folder) / "reports"
    for name in ("instruments", "methods"):
        shutil.copytree(EXAMPLE / name, bench / name, dirs_exist_ok=True)
    for number in range(reports - len(list(bench.glob("*/report.yml")))):
        _another(bench, f"{number:03}")
    return folder


def _another(bench: Path, number: str) -> None:
    """One more report of the example, its items under names of their own."""

    def renamed(text: str) -> str:
        text = re.sub(r"\b(halvenor-c2|quorsby-q2)\b", rf"\1-{number}", text)
        return re.sub(r"^(model: .*)$", rf"\1 {number}", text, flags=re.MULTILINE)

    for source in sorted(EXAMPLE.glob("items/*.yml")):
        target = bench / "items" / f"{source.stem}-{number}.yml"
        target.write_text(renamed(source.read_text(encoding="utf-8")), encoding="utf-8")
    for source in sorted((EXAMPLE / "connectors-10a").rglob("*.yml")):
        target = bench / f"connectors-{number}" / source.relative_to(EXAMPLE / "connectors-10a")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(renamed(source.read_text(encoding="utf-8")), encoding="utf-8")


def _told(where: str, pages: dict[str, str], base: str, folder: Path) -> list[str]:
    found: list[str] = []
    for kind, address in pages.items():
        seen = measured(base + address, folder)
        tell(f"{where:28} {kind:12} {seen}")
        found += missed(kind, seen)
    return found


def test_every_kind_of_page_of_the_demo(tmp_path: Path, serve: Any) -> None:
    base = serve(build(ROOT, site_dir=tmp_path / "site"))
    assert not _told("demo", PAGES, base, tmp_path)


def test_three_charts_on_a_page_alone_and_among_350_reports(tmp_path: Path, serve: Any) -> None:
    alone = serve(build(of_three_charts(tmp_path / "one"), drafts=True))
    bench = many(tmp_path / "many", REPORTS)
    among = serve(build(bench, drafts=True))
    found = _told("three charts", {"report": DRAFTED["report"]}, alone, tmp_path)
    assert not found + _told(f"three charts, {REPORTS} reports", DRAFTED, among, tmp_path)


def test_beside_the_same_figure_embedded_the_stock_way(tmp_path: Path, serve: Any) -> None:
    """The report's page as it is, and with the figure as its library writes it into a page."""
    site = build(ROOT, site_dir=tmp_path / "site")
    page = site / PAGES["report"] / "index.html"
    text = page.read_text(encoding="utf-8")
    table = pd.read_csv(max(site.glob("r/fuse-holders-30a/*/data/readings.csv")))
    table = table.dropna(subset=["rise (K)", "time min"])
    drawn = go.Figure(
        [go.Scatter(x=run["time min"], y=run["rise (K)"], name=name) for name, run in table.groupby("run")]
    )
    stock = drawn.to_html(full_html=False, include_plotlyjs=True)
    inside = re.sub(r'<figure class="chart".*?</figure>', lambda _: stock, text, count=1, flags=re.DOTALL)
    inside = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", inside)
    assert inside != text
    other = page.parent / "stock"
    other.mkdir()
    (other / "index.html").write_text(inside.replace('"../../', '"../../../'), encoding="utf-8")
    base = serve(site)
    ours = measured(base + PAGES["report"], tmp_path)
    theirs = measured(base + PAGES["report"] + "stock/", tmp_path)
    tell(f"{'still, live on a wish':41} {ours}\n{'stock way':41} {theirs}")
    tell(f"bytes {theirs.bytes / ours.bytes:.1f} times, largest paint {theirs.paint / ours.paint:.1f} times")
    assert theirs.bytes > 5 * ours.bytes
