"""What a command loads: nothing heavy before it is needed."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAVY = {"scipy", "GTC", "matplotlib", "pandas", "mkdocs", "plotly", "numpy"}


def loaded_by(*arguments: str, cwd: Path) -> set[str]:
    script = (
        "import json, sys\n"
        "from generator.cli import main\n"
        f"try:\n    main({list(arguments)!r})\n"
        "except SystemExit:\n    pass\n"
        "sys.stderr.write('\\n' + json.dumps(sorted({name.split('.')[0] for name in sys.modules})))\n"
    )
    done = subprocess.run([sys.executable, "-c", script], cwd=cwd, capture_output=True, text=True, check=True)
    return set(json.loads(done.stderr.splitlines()[-1]))


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["new", "--help"], ["build", "--help"]])
def test_help_loads_nothing_heavy(arguments: list[str], tmp_path: Path) -> None:
    loaded = loaded_by(*arguments, cwd=tmp_path)
    assert "click" in loaded
    assert not loaded & (HEAVY | {"pydantic", "yaml", "jinja2"})


def test_check_loads_no_numbers_and_no_site_builder() -> None:
    assert not loaded_by("check", cwd=ROOT) & HEAVY


def test_an_unknown_command_loads_nothing_heavy(tmp_path: Path) -> None:
    assert not loaded_by("chek", cwd=tmp_path) & HEAVY
