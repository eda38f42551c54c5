"""What is known of one kind of cover, net, screen or fence, and the sheet that tells of all of them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

import msgspec

from spadework.crops.trouble import Said, Told
from spadework.errors import Fault, InputFileError

FILE: Final = Path(__file__).parent / "protection.toml"

ProtectionKind: TypeAlias = Literal[
    "fleece", "mesh", "net", "film", "shade", "cloche", "screen", "fence", "scare"
]


class Protection(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One kind of protection.

    Parameters
    ----------
    name : str
    kind : ProtectionKind
    about : Said
        What it is for.
    weight_g_m2 : Told or None  [g m-2]
    light_share : Told or None
        Of light that passes, 0 to 1.
    night_c, day_c : Told or None  [degC]
        Gain of the lowest and of the highest temperature of a day round the plants.
    et0_share : Told or None
        Evapotranspiration under it over that in the open.
    roof : bool
        Keeps the rain off.
    mesh_mm : Told or None  [mm]
        Width of its openings; fabrics and films have none.
    height_cm, bury_cm : Told or None  [cm]
    life_seasons : Told or None
    off_above_c : Told or None  [degC]
        Warmth under it at which it is opened or taken off.
    fails : tuple of Said
        Where it lets in what it should keep out, or does harm.
    care : tuple of Said
        How it is put up and kept.
    cautions : tuple of Said
    """

    name: str
    kind: ProtectionKind
    about: Said
    names: tuple[str, ...] = ()
    weight_g_m2: Told | None = None
    light_share: Told | None = None
    night_c: Told | None = None
    day_c: Told | None = None
    et0_share: Told | None = None
    roof: bool = False
    mesh_mm: Told | None = None
    height_cm: Told | None = None
    bury_cm: Told | None = None
    life_seasons: Told | None = None
    off_above_c: Told | None = None
    fails: tuple[Said, ...] = ()
    care: tuple[Said, ...] = ()
    cautions: tuple[Said, ...] = ()


@cache
def all_protection() -> Mapping[str, Protection]:
    """Every kind of protection by its key.

    Raises
    ------
    InputFileError
    """
    return read_protection(FILE.read_text(encoding="utf-8"), FILE.name)


def read_protection(text: str, name: str) -> Mapping[str, Protection]:
    """Kinds of protection out of a text.

    Raises
    ------
    InputFileError
        With everything that is wrong in it.
    """
    from spadework.crops.troubles import unsourced

    try:
        raw = tomllib.loads(text)
        found = {key: msgspec.convert(table, Protection) for key, table in raw.items()}
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise InputFileError(name, [Fault(name, str(error), "a sheet of protection", "Mend it.")]) from error
    faults = list(unsourced(raw, name))
    faults += [
        Fault(f"{key} light_share", f"{each.light_share.value}", "0 to 1", "It is a share.")
        for key, each in found.items()
        if each.light_share is not None and not 0 <= each.light_share.value <= 1
    ]
    if faults:
        raise InputFileError(name, faults)
    return MappingProxyType(found)
