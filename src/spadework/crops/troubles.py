"""Read the sheets of troubles and the signs they show: TOML in, checked records out."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

import msgspec

from spadework.crops import plain_toml
from spadework.crops.names import keys
from spadework.crops.sources import citations
from spadework.crops.trouble import Sign, Trouble, TroubleKind
from spadework.errors import Fault, InputFileError, UnknownName

FOLDER = Path(__file__).parent / "trouble_sheets"
SIGNS = Path(__file__).parent / "signs"

_SOURCED = ("published", "memory", "measured", "computed")


@cache
def all_signs() -> Mapping[str, Sign]:
    """Every sign by its key.

    Raises
    ------
    InputFileError
    """
    found: dict[str, Sign] = {}
    for path in sorted(SIGNS.glob("*.toml")):
        for key, table in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if key in found:
                fault = Fault(f"{path.name}: {key}", "a sign told twice", "one", "Leave one out.")
                raise InputFileError(path.name, [fault])
            found[key] = _convert(table, Sign, f"{path.name}: {key}")
    return MappingProxyType(found)


@cache
def all_troubles() -> Mapping[str, Trouble]:
    """Every trouble by its key, in order of key.

    Raises
    ------
    InputFileError
    """
    return MappingProxyType({path.stem: _read(path) for path in _paths()})


def troubles_of(kinds: Iterable[TroubleKind], hosts: Collection[str]) -> tuple[Trouble, ...]:
    """Troubles of some kinds whose sheets name one of these hosts, in order of key; no other sheet is read.

    Parameters
    ----------
    kinds : iterable of TroubleKind
    hosts : collection of str
        Keys of crops, and families as sheets write them: "family Brassicaceae".

    Raises
    ------
    InputFileError
    """
    folders = {f"{kind}s" for kind in kinds}
    named = [f'"{host}"' for host in (*hosts, "all")]
    return tuple(
        _read(path)
        for path in _paths()
        if path.parent.name in folders and any(host in _text(path) for host in named)
    )


@cache
def _paths() -> tuple[Path, ...]:
    return tuple(sorted(FOLDER.rglob("*.toml"), key=lambda path: path.stem))


@cache
def _text(path: Path) -> str:
    return path.read_text("utf-8")


@cache
def _read(path: Path) -> Trouble:
    return read_trouble(_text(path), path.name)


def read_trouble(text: str, name: str) -> Trouble:
    """One trouble from its TOML text.

    Parameters
    ----------
    text : str
    name : str
        The file's name: the key plus ".toml".

    Raises
    ------
    InputFileError
        If it is not TOML, has unknown or missing fields, or names signs, hosts or sources nobody knows.
    """
    try:
        raw = plain_toml.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputFileError(
            name, [Fault(name, f"text that is not TOML: {error}", "TOML", "Mend it.")]
        ) from None
    found: Trouble = _convert(raw, Trouble, name)
    faults = [*_faults(found, name), *unsourced(raw, name)]
    if faults:
        raise InputFileError(name, faults)
    return found


def trouble(name: str) -> Trouble:
    """A trouble by key or by any of its names.

    Raises
    ------
    UnknownName
        With the nearest names in the hint.
    """
    asked = " ".join(name.casefold().replace("-", " ").split())
    names = trouble_names()
    if asked in names:
        return all_troubles()[names[asked]]
    near = difflib.get_close_matches(asked, names, n=3, cutoff=0.5)
    raise UnknownName(f"No trouble is called {name!r}.", f"Nearest: {', '.join(near)}." if near else "")


@cache
def trouble_names() -> Mapping[str, str]:
    """Every way to name a trouble, in small letters without hyphens, and the key it stands for."""
    found: dict[str, str] = {}
    for key, each in all_troubles().items():
        for name in (each.name, *each.names, each.latin, key):
            if name:
                found.setdefault(" ".join(name.casefold().replace("-", " ").split()), key)
    return MappingProxyType(found)


def hosted_by(each: Trouble, crop: str, family: str) -> float:
    """1 where a crop is a host of a trouble, 0.2 where a poor one, 0 where none."""
    for hosts, share in ((each.hosts, 1.0), (each.poor_hosts, POOR_HOST)):
        if crop in hosts or f"family {family}" in hosts or "all" in hosts:
            return share
    return 0.0


def at_home(each: Trouble, land: str) -> bool:
    """Whether a trouble is known to live in a part of the world, as `Site.land` names it."""
    return not each.lives or land in each.lives


POOR_HOST = 0.2
"""How often a poor host is harmed, beside a good one. Our own rule."""


def _convert(raw: object, kind: type[Any], where: str) -> Any:
    try:
        return msgspec.convert(raw, kind)
    except msgspec.ValidationError as error:
        raise InputFileError(
            where, [Fault(where, str(error), "the fields of the record", "Mend it.")]
        ) from None


def _faults(found: Trouble, name: str) -> Iterator[Fault]:
    if f"{found.key}.toml" != name:
        yield Fault("key", repr(found.key), repr(name.removesuffix(".toml")), "Make them agree.")
    for host in (*found.hosts, *found.poor_hosts):
        if host != "all" and not host.startswith("family ") and host not in keys():
            yield Fault("hosts", repr(host), "a crop's key, a family, or all", "Mend the name.")
    for shown in found.signs:
        if shown.sign not in all_signs():
            near = difflib.get_close_matches(shown.sign, all_signs(), n=3)
            yield Fault("signs", repr(shown.sign), "a key of a file of signs", f"Nearest: {', '.join(near)}.")
        if not 0 < shown.often.value <= 1:
            yield Fault(f"signs {shown.sign}", f"{shown.often.value}", "above 0, up to 1", "It is a share.")
    own = {event.key for event in found.events}
    for event in found.events:
        if event.start not in own | {"01-01", "03-01", "04-01", "seen"}:
            yield Fault(f"events {event.key}", repr(event.start), "a day, an event, or seen", "Mend it.")
        if event.clock == "warmth" and (event.base_c is None or event.total is None):
            yield Fault(f"events {event.key}", "no base or no total", "both", "A warmth clock needs them.")
        if event.clock == "trigger" and event.base_c is None:
            yield Fault(f"events {event.key}", "no base", "the warmth that triggers it", "Add base_c.")
        if event.clock == "days" and event.total is None:
            yield Fault(f"events {event.key}", "no total", "days", "Add total.")
        if event.clock == "season" and len(event.months) != 2:
            yield Fault(f"events {event.key}", "no months", "first and last", "Add months.")


def unsourced(raw: object, where: str) -> Iterator[Fault]:
    """Every class without its source, and every source nobody knows, wherever in a sheet."""
    if isinstance(raw, dict):
        source = str(raw.get("source", ""))
        if raw.get("class") in _SOURCED and not source:
            yield Fault(where, f"class {raw['class']} without a source", "a source key", "Name it.")
        for key in source.split("; ") if source else ():
            if key not in citations():
                yield Fault(where, repr(key), "a key of sources.toml", "Add it to the sources.")
        for name, inner in raw.items():
            yield from unsourced(inner, f"{where} {name}")
    elif isinstance(raw, list):
        for at, inner in enumerate(raw):
            yield from unsourced(inner, f"{where} {at + 1}")
