"""The tree holds the project and nothing else: no machine's paths, no addresses, no swollen modules."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from source_tree import PACKAGE, ROOT, SCIENCE, expect_none, own_files

LONGEST = 400
TEXT = {"", ".py", ".md", ".toml", ".lock", ".csv", ".txt", ".css", ".js", ".html", ".svg", ".dly"}

FORBIDDEN = {
    "a path of one machine": re.compile(r"(?<![\w.~-])/(?:work|home|root|opt|Users|mnt)/\w"),
    "a file outside the project": re.compile(
        r"\b(?:METHODS|DESIGN|LIBRARIES|ENGINEERING_EXAMPLES)(?:\.md\b| \d)"
    ),
    "a package registry": re.compile(r"pypi\.org|pythonhosted|npmjs|crates\.io|proxy\.golang", re.I),
    "an address": re.compile(
        r"https?://(?!www\.w3\.org/|www\.apache\.org/licenses|localhost|127\.0\.0\.1|\[::1\]|\{)[\w\[]"
    ),
}
SHARED_FOLDER = re.compile(r"\.\./shared|parent\s*/\s*[\"']shared[\"']")


def faults(text: str) -> list[str]:
    return [
        f"line {text.count(chr(10), 0, found.start()) + 1}: {what} ({found.group()!r})"
        for what, pattern in FORBIDDEN.items()
        for found in pattern.finditer(text)
    ]


@pytest.mark.parametrize(
    "line",
    [
        "see /work/" + "main",
        "METHODS" + ".md 2.3",
        "METHODS" + " 2.3",
        "https:" + "//example.org/x",
        "from PyPI" + ".org",
    ],
)
def test_the_check_itself(line: str) -> None:
    assert faults(line)


def test_no_paths_and_no_addresses() -> None:
    expect_none(
        f"{path.relative_to(ROOT)}: {fault}"
        for path in own_files()
        if path.suffix in TEXT and path != Path(__file__).resolve() and path.name != "LICENSE"
        for fault in faults(path.read_text(encoding="utf-8"))
    )


def test_measured_data_are_found_in_one_place_only() -> None:
    """Only the helper that looks for the folder of measured data may know where it could lie."""
    allowed = {ROOT / "tests" / "shared_data.py", Path(__file__).resolve()}
    named = [
        str(path.relative_to(ROOT))
        for path in own_files()
        if path.suffix == ".py"
        and path not in allowed
        and SHARED_FOLDER.search(path.read_text(encoding="utf-8"))
    ]
    expect_none(named)


def test_locks_hold_pins_and_hashes_only() -> None:
    line = re.compile(
        r"[a-z0-9._-]+(?:\[[a-z,]+\])?==[\w.+!-]+(?: ; [^\\]+)? \\|    --hash=sha256:[0-9a-f]{64}(?: \\)?"
    )
    for lock in sorted(ROOT.glob("requirements-*.lock")):
        odd = [text for text in lock.read_text().splitlines() if not line.fullmatch(text)]
        assert odd == [], lock.name


def test_no_module_is_swollen() -> None:
    modules = [*sorted(PACKAGE.rglob("*.py")), *sorted((ROOT / "bench").rglob("*.py")), ROOT / "run.py"]
    long = []
    for module in modules:
        text = module.read_text(encoding="utf-8")
        lines = text.count("\n")
        reason = re.search(r"^Length: \w", ast.get_docstring(ast.parse(text)) or "", re.M)
        if lines > LONGEST and not reason:
            long.append(f"{module.relative_to(ROOT)}: {lines} lines, no line 'Length: why' in its docstring")
    expect_none(long)


def test_science_stands_on_numpy_and_scipy_only() -> None:
    allowed = {"__future__", "collections", "dataclasses", "enum", "functools", "math", "typing"}
    allowed |= {"numpy", "scipy", "spadework"}
    wrong = []
    for module in sorted(SCIENCE.rglob("*.py")):
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            names: list[str] = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom) and node.level == 0:
                names = [node.module or ""]
            wrong += [
                f"{module.name}: {name}"
                for name in names
                if name.split(".")[0] not in allowed or name.startswith("scipy.stats")
            ]
    expect_none(wrong)
