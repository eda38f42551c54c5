"""Names as people write them, and the nearest known ones to a name that nothing answers to."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Final

from spadework.errors import UnknownName

_BETWEEN: Final = re.compile(r"[\W_]+")
_NEAR: Final = 0.55


def plain(name: str) -> str:
    """A name without case, accents, hyphens and outer space: "Long-Bed" is "long bed"."""
    bare = unicodedata.normalize("NFKD", name.casefold())
    return _BETWEEN.sub(" ", "".join(c for c in bare if not unicodedata.combining(c))).strip()


def nearest(name: str, known: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """Known names nearest to one, best first, as they are written; none where nothing is near."""
    written: dict[str, str] = {}
    for each in known:
        written.setdefault(plain(each), each)
    found = difflib.get_close_matches(plain(name), written, n=count, cutoff=_NEAR)
    return tuple(written[each] for each in found)


def key_of(name: str, names: Mapping[str, str], what: str) -> str:
    """The key that a name or key stands for.

    Parameters
    ----------
    name : str
        A key, or a name whatever its case.
    names : mapping of str to str
        Key to name.
    what : str
        What they are, for the message: "bed".

    Raises
    ------
    UnknownName
        If none answers, or several do; the hint lists the nearest, or the keys to choose from.
    """
    if name in names:
        return name
    wanted = plain(name)
    found = [key for key, own in names.items() if wanted in (plain(own), plain(key))]
    if len(found) == 1:
        return found[0]
    if found:
        raise UnknownName(f"{name!r} is the name of more than one {what}.", f"Say which: {', '.join(found)}.")
    near = nearest(name, (*names.values(), *names))
    hint = (
        f"Nearest: {', '.join(near)}." if near else f"Known: {', '.join(sorted(names.values())) or 'none'}."
    )
    raise UnknownName(f"No {what} is called {name!r}.", hint)
