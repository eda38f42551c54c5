"""The form in which a sheet of what is no crop is answered."""

from __future__ import annotations

import msgspec

from spadework.usecases.read_sheets import ShownValue


class SaidLine(msgspec.Struct, frozen=True, kw_only=True):
    """One sentence with its receipt."""

    text: str
    provenance: str
    sources: list[str]


class SheetPart(msgspec.Struct, frozen=True, kw_only=True):
    """Sentences under one heading."""

    title: str
    lines: list[SaidLine]


class SignOnSheet(msgspec.Struct, frozen=True, kw_only=True):
    """A sign a trouble shows, the name of its drawing, and on what share of ailing plants it is found."""

    sign: str
    words: str
    picture: str
    often: ShownValue


class OtherSheet(msgspec.Struct, frozen=True, kw_only=True):
    """A sheet of what is no crop.

    Parameters
    ----------
    sort : str
        "insect", "disease", "disorder", "animal", "weed" or "protection".
    hosts, poor_hosts : list of str
        Crops it harms, in words.
    alike : list of str
        Keys of troubles easily taken for it, in the order of the part "Easily taken for it".
    """

    key: str
    sort: str
    name: str
    latin: str
    names: list[str]
    hosts: list[str]
    poor_hosts: list[str]
    about: SaidLine
    signs: list[SignOnSheet]
    values: list[ShownValue]
    parts: list[SheetPart]
    alike: list[str]
    cautions: list[SaidLine]


class ListedOther(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the list."""

    key: str
    name: str
    sort: str
    about: str
    names: list[str]


class SheetGroup(msgspec.Struct, frozen=True, kw_only=True):
    """Sheets of one sort."""

    title: str
    sheets: list[ListedOther]
