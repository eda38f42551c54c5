"""What is known of a crop, with its receipts."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.crops.fields import SECTIONS, TEXTS, by_path
from spadework.crops.loader import all_sheets, load_sheet
from spadework.crops.names import find
from spadework.crops.sheet import Sheet, Value
from spadework.crops.sources import citation
from spadework.errors import UnknownName
from spadework.store.garden_folder import GARDEN_FILE
from spadework.usecases.setting import open_setting


class ShownValue(msgspec.Struct, frozen=True, kw_only=True):
    """One value as shown to a person; `meaning` is what its field holds, in words."""

    field: str
    meaning: str
    value: float | str
    low: float | None
    high: float | None
    unit: str
    provenance: str
    sources: list[str]
    note: str
    sheet_value: float | None


class ShownSheet(msgspec.Struct, frozen=True, kw_only=True):
    """A sheet as shown to a person."""

    key: str
    name: str
    british: str
    american: str
    synonyms: list[str]
    botanical: str
    family: str
    kind: str
    season: str
    propagation: list[str]
    values: list[ShownValue]
    cautions: list[str]


class ListedSheet(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the list of sheets."""

    key: str
    british: str
    american: str
    kind: str
    season: str
    hardiness: str


def read_sheet(name: str, garden: Path, today: date) -> ShownSheet:
    """A crop's sheet by any of its names, with the garden's own numbers where a garden is given.

    Raises
    ------
    UnknownName, InputFileError, GardenError
    """
    sheet = _with_own(name, garden, today)
    values: list[ShownValue] = []
    for section in SECTIONS:
        record = getattr(sheet, section)
        for field in record.__dataclass_fields__:
            held = getattr(record, field)
            if isinstance(held, Value):
                values.append(_shown(f"{section}.{field}", held))
            elif isinstance(held, dict):
                values.extend(_shown(f"{section}.{field}.{stage}", value) for stage, value in held.items())
            elif isinstance(held, str | tuple) and held:
                values.append(
                    ShownValue(
                        field=f"{section}.{field}",
                        meaning=meaning_of(f"{section}.{field}"),
                        value=held if isinstance(held, str) else ", ".join(held),
                        low=None,
                        high=None,
                        unit="",
                        provenance="",
                        sources=[],
                        note="",
                        sheet_value=None,
                    )
                )
    return ShownSheet(
        key=sheet.key,
        name=sheet.name,
        british=sheet.british,
        american=sheet.american,
        synonyms=list(sheet.synonyms),
        botanical=sheet.botanical,
        family=sheet.family,
        kind=sheet.kind,
        season=sheet.season,
        propagation=list(sheet.propagation),
        values=values,
        cautions=[caution.text for caution in sheet.cautions],
    )


def sheet_key(name: str) -> str:
    """Key of the sheet of a crop by any of its names; empty where there is none."""
    try:
        return find(name) if name else ""
    except UnknownName:
        return ""


def meaning_of(path: str) -> str:
    """What a field of a sheet holds, in words; of a field for one stage, with the stage."""
    field = by_path().get(path) or next((text for text in TEXTS if text.path == path), None)
    if field is not None:
        return field.meaning
    section, _, stage = path.rpartition(".")
    whole = next((each for name, each in by_path().items() if name.rpartition(".")[0] == section), None)
    said = section.replace(".", ", ").replace("_", " ") if whole is None else whole.meaning
    return f"{said}: {stage.replace('_', ' ')}"


def list_sheets() -> list[ListedSheet]:
    """All sheets, by name."""
    return [
        ListedSheet(
            key=key,
            british=sheet.british,
            american=sheet.american,
            kind=sheet.kind,
            season=sheet.season,
            hardiness=sheet.frost.hardiness,
        )
        for key, sheet in sorted(all_sheets().items())
    ]


def _with_own(name: str, garden: Path, today: date) -> Sheet:
    if not (garden / GARDEN_FILE).is_file():  # a sheet can be read without a garden
        return load_sheet(name)
    return open_setting(garden, today).sheet(name)


def _shown(field: str, value: Value) -> ShownValue:
    return ShownValue(
        field=field,
        meaning=meaning_of(field),
        value=value.value,
        low=value.low,
        high=value.high,
        unit=value.unit,
        provenance=value.provenance,
        sources=[citation(key) for key in value.sources],
        note=value.note,
        sheet_value=None if value.own is None else value.own.value,
    )
