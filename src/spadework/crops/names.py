"""Find a crop by what people call it, on either side of the water."""

from __future__ import annotations

import difflib
import tomllib
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias

from spadework.errors import UnknownName

Whole: TypeAlias = tuple[str, str | None, str | None]
"""Key of a sheet, its variety and its method."""

_FILE = Path(__file__).parent / "names.toml"


@cache
def _tables() -> dict[str, dict[str, Any]]:
    """Names by key, words that mean several crops, and names of varieties and methods by key."""
    return tomllib.loads(_FILE.read_text(encoding="utf-8"))


@cache
def keys() -> tuple[str, ...]:
    """Keys of all sheets, in order."""
    return tuple(sorted(_tables()["crops"]))


@cache
def _index() -> dict[str, Whole]:
    """Plain form of every name and its plural, with what it means. A crop's own name goes before a form's."""
    tables = _tables()
    index: dict[str, Whole] = {}
    for key, names in tables["crops"].items():
        for name in (key, *names):
            for form in _forms(name):
                index[form] = (key, None, None)
    for key, names in tables["crops"].items():
        for name, whole in _form_names(key, [key, *names]).items():
            for form in _forms(name):
                index.setdefault(form, whole)
    return index


def spoken() -> tuple[dict[str, Whole], dict[str, tuple[str, ...]]]:
    """Every name in plain form with what it means, and words that may be several crops with their keys."""
    several = {_plain(word): tuple(choices) for word, choices in _tables()["several"].items()}
    return _index(), several


def ways(key: str) -> tuple[str, ...]:
    """Ways a crop is started, by key: "direct", "raised", "sets"."""
    return tuple(_tables()["methods"].get(key, ()))


def _form_names(key: str, names: list[str]) -> dict[str, Whole]:
    """Names of a crop's varieties and methods: their own, and the word before or after each crop name."""
    varieties: dict[str, list[str]] = _tables()["varieties"].get(key, {})
    methods: dict[str, list[str]] = _tables()["methods"].get(key, {})
    found: dict[str, Whole] = {}
    for variety, own in varieties.items():
        found |= dict.fromkeys([*own, *(f"{variety} {name}" for name in names)], (key, variety, None))
    for method, own in methods.items():
        both = [f"{name} {method}" for name in names] + [f"{method} {name}" for name in names]
        found |= dict.fromkeys([*own, *both], (key, None, method))
        for variety in varieties:
            found |= dict.fromkeys([f"{variety} {name} {method}" for name in names], (key, variety, method))
    return found


def find(name: str) -> str:
    """The key of the sheet that answers to a name.

    Parameters
    ----------
    name : str
        Any British, American or common name; case, hyphens, accents and plural do not matter. A variety or
        method named with the crop is passed over (see `find_whole`).

    Raises
    ------
    UnknownName
        If nothing answers, or several crops do; the hint lists the nearest names.
    """
    return find_whole(name)[0]


def find_whole(name: str) -> Whole:
    """Key of the sheet, and the variety and the method, that answer to a name.

    Parameters
    ----------
    name : str
        As for `find`: "tomato", "cherry tomato", "onion sets", "short-day onion sets".

    Returns
    -------
    tuple of (str, str or None, str or None)
        None where the name says nothing of variety or method.

    Raises
    ------
    UnknownName
        If nothing answers, or several crops do; the hint lists the nearest names.
    """
    forms = _forms(name)
    index = _index()
    for form in forms:
        if form in index:
            return index[form]
    for word, choices in _tables()["several"].items():
        if not forms.isdisjoint(_forms(word)):
            raise UnknownName(f"{name!r} could be several crops.", f"Say which: {', '.join(choices)}.")
    near = difflib.get_close_matches(_plain(name), list(index), n=6, cutoff=0.55)
    shown = list(dict.fromkeys(" ".join(part for part in index[form] if part) for form in near))[:4]
    hint = f"Nearest: {', '.join(shown)}." if shown else "List them all with: spadework sheets"
    raise UnknownName(f"No crop sheet answers to {name!r}.", hint)


def _plain(name: str) -> str:
    """Lower case, no accents, hyphens or apostrophes, single spaces."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    kept = "".join(sign for sign in letters if not unicodedata.combining(sign) and sign not in "'’`")
    return " ".join("".join(sign if sign.isalnum() else " " for sign in kept).split())


def _forms(name: str) -> set[str]:
    """The plain name and its likely singulars, also written as one word."""
    plain = _plain(name)
    forms = {plain}
    if plain.endswith("ies"):
        forms.add(plain[:-3] + "y")
    if plain.endswith("es"):
        forms.add(plain[:-2])
    if plain.endswith("s"):
        forms.add(plain[:-1])
    return forms | {form.replace(" ", "") for form in forms}
