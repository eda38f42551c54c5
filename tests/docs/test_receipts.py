"""Every public law says where its numbers come from, by a key that docs/sources.md knows."""

from __future__ import annotations

import ast
import re
import tomllib

import pytest

from source_tree import PACKAGE, ROOT, expect_none, first_column, public_functions
from spadework.crops.sources import citations

KINDS = {"published", "memory", "common-practice", "measured", "computed"}
KEYS = first_column("sources.md")[len(KINDS) :]
_PLAIN = {re.sub(r"[-_]", "", key).upper() for key in KEYS}
# A word in capitals with a year or number in it, or joined by a hyphen or bar, is meant as a key.
_KEY_LIKE = re.compile(r"\b[A-Z][A-Z]+(?:[-_]?[A-Z0-9]+)*\d[A-Z0-9]*\b|\b[A-Z]+(?:[-_][A-Z0-9]+)+\b")


def source_section(docstring: str) -> str | None:
    found = re.search(r"^Source\n-{4,}\n(.*?)(?=^\S[^\n]*\n-{3,}$|\Z)", docstring, re.M | re.S)
    return found.group(1).strip() if found else None


def faults(docstring: str | None) -> list[str]:
    """What is wrong with the receipt in a docstring."""
    section = source_section(docstring) if docstring else None
    if not section:
        return ["no Source section"]
    unknown = [
        f"unknown key {word!r}"
        for word in _KEY_LIKE.findall(section)
        if re.sub(r"[-_]", "", word).upper() not in _PLAIN
    ]
    named = any(re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", section) for key in KEYS)
    if not named and not any(kind in section for kind in KINDS):
        unknown.append("neither a key of docs/sources.md nor a kind of receipt")
    return unknown


def test_page_lists_the_kinds_and_each_key_once() -> None:
    cells = first_column("sources.md")
    assert set(cells[: len(KINDS)]) == KINDS
    assert len(KEYS) == len(set(KEYS))
    assert not KINDS & set(KEYS)


@pytest.mark.parametrize(
    ("docstring", "wrong"),
    [
        (None, "no Source section"),
        ("Law.\n\nSource\n------\n", "no Source section"),
        ("Law.\n\nSource\n------\nA book.\n", "neither"),
        ("Law.\n\nSource\n------\nNOBODY1999, eq. 3.\n", "unknown key 'NOBODY1999'"),
        ("Law.\n\nSource\n------\nFAO56 (FAO-56), eq. 21.\n", None),
        ("Law.\n\nSource\n------\ncomputed from its definition.\n", None),
    ],
)
def test_the_check_itself(docstring: str | None, wrong: str | None) -> None:
    found = faults(docstring)
    assert found == [] if wrong is None else any(wrong in fault for fault in found)


def test_every_public_law_has_a_receipt() -> None:
    functions = public_functions()
    assert functions, "no laws found"
    expect_none(f"{name}: {fault}" for name, node in functions for fault in faults(ast.get_docstring(node)))


def test_test_files_named_in_docstrings_exist() -> None:
    named = {
        (name, path)
        for name, node in public_functions()
        for path in re.findall(r"tests/[\w/.-]+\.py", ast.get_docstring(node) or "")
    }
    expect_none(f"{name}: {path}" for name, path in named if not (ROOT / path).is_file())


def _sources_in(table: object) -> list[str]:
    if isinstance(table, dict):
        own = [table["source"]] if isinstance(table.get("source"), str) else []
        return own + [key for value in table.values() for key in _sources_in(value)]
    if isinstance(table, list):
        return [key for value in table for key in _sources_in(value)]
    return []


def test_sources_named_in_sheets_are_known() -> None:
    sheets = sorted((PACKAGE / "crops").rglob("*.toml"))
    assert sheets, "no crop sheets found"
    known = {*KEYS, ""}
    unknown = []
    for sheet in sheets:
        named = _sources_in(tomllib.loads(sheet.read_text(encoding="utf-8")))
        keys = {part.strip() for key in named for part in re.split("[;,]", key)}
        unknown += [f"{sheet.name}: {key}" for key in keys - known]
    expect_none(unknown)


def test_page_repeats_the_citations_of_the_sheets() -> None:
    page = (ROOT / "docs" / "sources.md").read_text(encoding="utf-8")
    expect_none(
        f"{key}: {text}" for key, text in citations().items() if f"\n| {key} | {text} |\n" not in page
    )
    assert set(first_column("sources.md", "Crop sheets")) == set(citations())


def test_every_source_of_the_laws_is_used() -> None:
    tables = [
        path for path in (ROOT / "tests" / "published").rglob("*") if path.suffix in (".py", ".csv", ".toml")
    ]
    places = [*PACKAGE.rglob("*.py"), *tables, *ROOT.glob("docs/accuracy*.md")]
    text = "\n".join(place.read_text(encoding="utf-8") for place in places)
    listed = first_column("sources.md", "Laws and weather")
    assert listed
    expect_none(key for key in listed if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", text))
