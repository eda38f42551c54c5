"""Find a crop by what people call it, on either side of the water."""

from __future__ import annotations

import difflib
import tomllib
import unicodedata
from functools import cache
from pathlib import Path

from spadework.errors import UnknownName

_FILE = Path(__file__).parent / "names.toml"


@cache
def _tables() -> tuple[dict[str, list[str]], dict[str, list[str]]]:
    """Names by key, and words that mean several crops."""
    raw = tomllib.loads(_FILE.read_text(encoding="utf-8"))
    return raw["crops"], raw["several"]


@cache
def keys() -> tuple[str, ...]:
    """Keys of all sheets, in order."""
    return tuple(sorted(_tables()[0]))


@cache
def _index() -> dict[str, str]:
    """Plain form of every name, its plural and its key."""
    index: dict[str, str] = {}
    for key, names in _tables()[0].items():
        for name in (key, *names):
            for form in _forms(name):
                index[form] = key
    return index


def find(name: str) -> str:
    """The key of the sheet that answers to a name.

    Parameters
    ----------
    name : str
        Any British, American or common name; case, hyphens, accents and plural do not matter.

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
    for word, choices in _tables()[1].items():
        if not forms.isdisjoint(_forms(word)):
            raise UnknownName(f"{name!r} could be several crops.", f"Say which: {', '.join(choices)}.")
    near = difflib.get_close_matches(_plain(name), list(index), n=6, cutoff=0.55)
    shown = list(dict.fromkeys(index[form] for form in near))[:4]
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
