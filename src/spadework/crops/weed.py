"""What is known of a weed: when it comes up, when it seeds, how it dies, whose troubles it keeps."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final, Literal

import msgspec

from spadework.crops.trouble import Said, Told
from spadework.errors import Fault, InputFileError

FOLDER: Final = Path(__file__).parent / "weed_sheets"


class KeptFor(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Troubles a weed keeps going, and the crops they go on to.

    Parameters
    ----------
    troubles : tuple of str
        In words.
    families : tuple of str
        Of the crops.
    """

    troubles: tuple[str, ...]
    families: tuple[str, ...]
    provenance: str = msgspec.field(name="class")
    source: str = ""


class Kill(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """How it is killed at one stage of the flush."""

    stage: Literal["thread", "two leaves", "large", "in flower"]
    act: str
    provenance: str = msgspec.field(name="class")
    source: str = ""


class Weed(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One weed.

    Parameters
    ----------
    name, latin : str
    names : tuple of str
    life : str
        "annual", "winter annual", "biennial" or "perennial".
    about : Said
    base_c : Told or None  [degC]
        Soil warmth below which none comes up.
    half_up_cday : Told or None  [degC d]
        Soil warmth above `base_c` from the first weeks of thaw to half of them up.
    up_from_c, up_below_c : Told or None  [degC]
        Soil temperature from which, or below which in autumn, it comes up.
    comes_up, seeds : Said
    reroots : bool
        Hoed, it takes root again unless the day is dry.
    kept_for : tuple of KeptFor
    kill : tuple of Kill
        Earliest stage first.
    stops, cautions : tuple of Said
    """

    key: str
    name: str
    latin: str
    life: Literal["annual", "winter annual", "biennial", "perennial"]
    about: Said
    comes_up: Said
    seeds: Said
    kill: tuple[Kill, ...]
    names: tuple[str, ...] = ()
    base_c: Told | None = None
    half_up_cday: Told | None = None
    up_from_c: Told | None = None
    up_below_c: Told | None = None
    reroots: bool = False
    kept_for: tuple[KeptFor, ...] = ()
    stops: tuple[Said, ...] = ()
    cautions: tuple[Said, ...] = ()


@cache
def all_weeds() -> Mapping[str, Weed]:
    """Every weed by its key.

    Raises
    ------
    InputFileError
    """
    paths = sorted(FOLDER.glob("*.toml"))
    return MappingProxyType({path.stem: read_weed(path.read_text("utf-8"), path.name) for path in paths})


def read_weed(text: str, name: str) -> Weed:
    """A weed out of a text.

    Raises
    ------
    InputFileError
        With everything that is wrong in it.
    """
    from spadework.crops.troubles import unsourced

    try:
        raw = tomllib.loads(text)
        found = msgspec.convert(raw, Weed)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise InputFileError(name, [Fault(name, str(error), "a sheet of a weed", "Mend it.")]) from error
    faults = list(unsourced(raw, name))
    if f"{found.key}.toml" != name:
        faults.append(Fault("key", repr(found.key), "the name of its file", "Make them alike."))
    if faults:
        raise InputFileError(name, faults)
    return found


def weeds_in(words: str) -> tuple[Weed, ...]:
    """Weeds called by name in some words, by any of their names, one or many."""
    said = words.casefold()
    return tuple(
        each for each in all_weeds().values() if any(name.casefold() in said for name in _all_names(each))
    )


def weed_called(name: str) -> Weed | None:
    """A weed by its key or any of its names; None where none is called so."""
    said = name.strip().casefold()
    for each in all_weeds().values():
        if said in (each.key, each.latin.casefold(), *(one.casefold() for one in _all_names(each))):
            return each
    return None


def near_weeds(name: str) -> list[str]:
    """Names of weeds that are nearest to one that is not known."""
    known = [one for each in all_weeds().values() for one in _all_names(each)]
    return difflib.get_close_matches(name.casefold(), known, n=2, cutoff=0.6)


def _all_names(each: Weed) -> tuple[str, ...]:
    return (each.name, *each.names)
