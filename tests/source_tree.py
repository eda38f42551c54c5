"""What the checks of tests/docs read: where the files are and what a page's table holds."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "src" / "spadework"
SCIENCE = PACKAGE / "science"

_NOT_OURS = {"__pycache__", "dist", "demo-garden", "node_modules"}


def expect_none(faults: Iterable[str]) -> None:
    """Fail with every fault on a line of its own."""
    found = sorted(faults)
    assert not found, f"{len(found)} faults:\n" + "\n".join(found)


def own_files() -> Iterator[Path]:
    """Every file of the project: no environments, caches or repository internals."""
    for path in sorted(ROOT.rglob("*")):
        parts = path.relative_to(ROOT).parts
        hidden = any(part.startswith(".") and part not in (".ci", ".gitignore") for part in parts)
        made = any(part in _NOT_OURS or part.endswith(".egg-info") for part in parts)
        if path.is_file() and not hidden and not made:
            yield path


def first_column(page: str, heading: str | None = None) -> list[str]:
    """First cells of the tables on a page of docs/, below one heading or anywhere; code marks removed."""
    text = (ROOT / "docs" / page).read_text(encoding="utf-8")
    if heading is not None:
        found = re.search(rf"^## {re.escape(heading)}$(.*?)(?=^## |\Z)", text, re.M | re.S)
        assert found, f"docs/{page} has no heading {heading!r}"
        text = found.group(1)
    rows = [line.split("|")[1].strip() for line in text.splitlines() if line.startswith("|")]
    rule = re.compile(r"^-+$")
    heads = {rows[i - 1] for i, cell in enumerate(rows) if i and rule.match(cell)}
    cells = [cell for cell in rows if not rule.match(cell) and cell not in heads]
    return [name.strip().strip("`") for cell in cells for name in cell.split(",")]


def science_modules() -> list[tuple[Path, ast.Module]]:
    """Every module of science/ with its syntax tree."""
    return [(path, ast.parse(path.read_text(encoding="utf-8"))) for path in sorted(SCIENCE.rglob("*.py"))]


def public_functions() -> list[tuple[str, ast.FunctionDef]]:
    """Public functions at the top of a science module, named `module.function`."""
    return [
        (f"{path.stem}.{node.name}", node)
        for path, tree in science_modules()
        for node in tree.body
        if isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and not path.stem.startswith("_")
    ]
