"""Every number a law takes is named as docs/nomenclature.md says."""

from __future__ import annotations

import ast

from source_tree import expect_none, first_column, public_functions, science_modules

ENDINGS = tuple(first_column("nomenclature.md", "Endings that carry a unit"))
NAMES = set(first_column("nomenclature.md", "Names without an ending"))


def is_number(annotation: ast.expr | None) -> bool:
    words = {node.id for node in ast.walk(annotation) if isinstance(node, ast.Name)} if annotation else set()
    return bool(words & {"float", "Floats"}) and not words & {"Callable", "dict"}


def is_named_well(name: str) -> bool:
    return name in NAMES or name.endswith(ENDINGS)


def test_the_page_has_endings_and_names() -> None:
    assert all(ending.startswith("_") for ending in ENDINGS)
    assert {"_c", "_cdelta", "_mm", "_h"} <= set(ENDINGS)
    assert not is_named_well("temperature")
    assert is_named_well("tmin_c")


def test_arguments_of_laws() -> None:
    expect_none(
        f"{name}({argument.arg})"
        for name, node in public_functions()
        for argument in [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
        if is_number(argument.annotation) and not is_named_well(argument.arg)
    )


def test_fields_of_records() -> None:
    expect_none(
        f"{path.stem}.{record.name}.{field.target.id}"
        for path, tree in science_modules()
        for record in tree.body
        if isinstance(record, ast.ClassDef) and not record.name.startswith("_")
        for field in record.body
        if isinstance(field, ast.AnnAssign)
        and isinstance(field.target, ast.Name)
        and not field.target.id.startswith("_")
        and is_number(field.annotation)
        and not is_named_well(field.target.id)
    )
