"""The house's own rules, read from the syntax trees: arrows, markup, sizes."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "generator"
MODULES = sorted(PACKAGE.rglob("*.py"))

LAYERS = ["records", "photos", "evaluation", "history", "charts", "pages", "intake", "film", "host", "cli"]
"""From left to right: a layer imports what lies to its left, `analysis` and `fault`."""

FOREIGN = {
    "mkdocs": ("host/",),
    "material": ("host/",),
    "yaml": ("records/source.py", "records/writer.py", "records/edit.py"),
    "jinja2": ("pages/render.py",),
    "matplotlib": ("charts/video.py",),
    "pandas": ("pages/tables.py", "pages/downloads.py"),
    "GTC": ("analysis/",),
    "PIL": ("photos/",),
    "openpyxl": ("intake/meter/workbook.py",),
}
"""Libraries that one place only may know."""

SOURCES_OF_CHANCE = {"time", "random", "secrets", "uuid", "socket", "urllib", "http", "subprocess", "locale"}
"""What nothing left of the host may import: clock, chance, network, git."""


def imports(module: Path) -> Iterator[tuple[int, str]]:
    """Line and dotted name of every import, those under TYPE_CHECKING and in functions included."""
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}:{node.lineno}: a relative import hides its arrow"
            yield node.lineno, node.module or ""
            yield from ((node.lineno, f"{node.module}.{alias.name}") for alias in node.names)


def layer_of(module: Path) -> str:
    parts = module.relative_to(PACKAGE).parts
    return parts[0] if len(parts) > 1 else ""


def wrong_arrows(layer: str, names: list[tuple[int, str]]) -> list[str]:
    allowed = {"fault", "__version__", layer, "analysis"}
    if layer in LAYERS:
        allowed |= set(LAYERS[: LAYERS.index(layer)])
    if layer == "analysis":
        allowed = {"analysis"}
    found = []
    for line, name in names:
        parts = name.split(".")
        if parts[0] == "generator" and len(parts) > 1 and parts[1] not in allowed:
            found.append(f"{line}: {layer} → {name}")
    return found


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_imports_point_one_way(module: Path) -> None:
    layer = layer_of(module)
    assert layer in {"", "analysis", *LAYERS}, f"{module} stands in a folder that is no layer"
    assert not wrong_arrows(layer, list(imports(module)))


def test_a_wrong_arrow_would_be_found() -> None:
    assert wrong_arrows("analysis", [(1, "generator.records.bench")])
    assert wrong_arrows("charts", [(1, "generator.pages")])
    assert not wrong_arrows("pages", [(1, "generator.charts.scales"), (2, "generator.fault")])


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_each_library_is_known_in_one_place(module: Path) -> None:
    name = module.relative_to(PACKAGE).as_posix()
    for line, imported in imports(module):
        places = FOREIGN.get(imported.split(".")[0])
        assert places is None or name.startswith(places), f"{name}:{line} imports {imported}"


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_nothing_left_of_the_host_reads_clock_chance_or_network(module: Path) -> None:
    if layer_of(module) in {"host", "cli"}:
        return
    found = [name for _, name in imports(module) if name.split(".")[0] in SOURCES_OF_CHANCE]
    text = module.read_text(encoding="utf-8")
    found += re.findall(r"\.(?:now|today|utcnow)\(|os\.environ|getenv", text)
    assert not found


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_only_the_command_line_prints(module: Path) -> None:
    tree = ast.parse(module.read_text(encoding="utf-8"))
    calls = [node.func for node in ast.walk(tree) if isinstance(node, ast.Call)]
    names = {func.id for func in calls if isinstance(func, ast.Name)}
    names |= {func.attr for func in calls if isinstance(func, ast.Attribute) and func.attr == "echo"}
    assert "print" not in names
    assert "echo" not in names or layer_of(module) == "cli"


TAGS = (
    "a abbr article aside b body br button caption circle code col dd defs desc details div dl dt em "
    "figcaption figure footer g h1 h2 h3 h4 h5 h6 head header hr "
    "html i img input label li line link main meta nav ol "
    "option p path picture pre rect script section select small source span strong style sub summary sup svg "
    "symbol table tbody td template text tfoot th thead time title tr ul use video"
)
MARKUP = re.compile(
    rf"</?(?:{'|'.join(TAGS.split())})(?:\s[^<>]*)?/?>"  # a tag
    r"|^#{1,6} \w"  # a heading
    r"|^\s*\|?[-:]{3,}\|"  # the rule under a table's head
    r"|(?<!\\)\[\w[\w ]*\]\((?!\?)[^)\\]+\)"  # a link
    r"|\*\*\w[^*]*\*\*",  # bold
    re.M,
)


def strings(tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Line and text of every string that is no docstring."""
    prose = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in prose:
            yield node.lineno, node.value


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_no_markup_in_python(module: Path) -> None:
    tree = ast.parse(module.read_text(encoding="utf-8"))
    found = [f"{line}: {text!r}" for line, text in strings(tree) if MARKUP.search(text)]
    assert not found


def test_markup_would_be_found() -> None:
    for text in ("<div class='x'>", "</p>", "# Heading", "[a](b.md)", "|---|---|", "**bold**", "<br/>"):
        assert MARKUP.search(text), text
    for text in ("a < b > c", "[0, a]", "±(1.5 % + 2 °C)", "2 ** 3", "a | b", "#1", "# ", "<folder>"):
        assert not MARKUP.search(text), text


@pytest.mark.parametrize("module", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_sizes(module: Path) -> None:
    text = module.read_text(encoding="utf-8")
    assert text.count("\n") <= 300, "a module of more than 300 lines"
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or 0) - node.lineno + 1
            assert lines <= 40, f"{module.name}:{node.lineno}: {node.name} has {lines} lines"


def test_the_top_level_is_the_agreed_one() -> None:
    agreed = {
        "README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", "constraints.txt",
        "mkdocs.yml", "reports", "generator", "tests", "site_templates",
    }  # fmt: skip
    built = {"site", "dist", "build", "node_modules", "package.json", "package-lock.json"}
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - built - {name for name in found if name.endswith((".egg-info", "__pycache__"))} == agreed
