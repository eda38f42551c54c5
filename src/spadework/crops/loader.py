"""Read crop sheets: TOML in, checked records out, every fault of a sheet reported at once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, cast

from spadework.crops import checks
from spadework.crops.fields import (
    FIELDS,
    SECTIONS,
    STAGE,
    Field,
    Text,
    of_section,
    texts_of_section,
)
from spadework.crops.names import find, keys
from spadework.crops.sheet import (
    Bolting,
    Caution,
    Chill,
    Development,
    Emergence,
    Frost,
    Growth,
    Harvest,
    Heat,
    Provenance,
    Sheet,
    Sowing,
    Value,
)
from spadework.crops.sources import citations
from spadework.errors import Fault, InputFileError

FOLDER = Path(__file__).parent / "sheets"

RECORDS: dict[str, type] = {
    "sowing": Sowing,
    "emergence": Emergence,
    "development": Development,
    "growth": Growth,
    "frost": Frost,
    "heat": Heat,
    "chill": Chill,
    "bolting": Bolting,
    "harvest": Harvest,
}

CLASSES: tuple[Provenance, ...] = ("published", "memory", "common-practice", "measured", "computed")
_SOURCED: tuple[Provenance, ...] = ("published", "memory", "measured", "computed")
_VALUE_KEYS = ("value", "low", "high", "class", "source", "note")
_STAGE_KEYS = ("shares", "class", "source", "note")
_CAUTION_KEYS = ("text", "class", "source")
_ATTRIBUTES = {"frost.class": "hardiness"}


@cache
def load_sheet(key_or_name: str) -> Sheet:
    """The sheet of a crop, by key or by any British, American or common name.

    Raises
    ------
    UnknownName
        If nothing answers to the name; the hint lists the nearest.
    InputFileError
        If the sheet has faults; all of them are listed.
    """
    return _load_key(find(key_or_name))


@cache
def _load_key(key: str) -> Sheet:
    path = FOLDER / f"{key}.toml"
    return read_sheet(path.read_text(encoding="utf-8"), path.name)


@cache
def all_sheets() -> Mapping[str, Sheet]:
    """Every sheet under its key, in order of key."""
    return MappingProxyType({key: _load_key(key) for key in keys()})


def receipts(sheet: Sheet) -> dict[str, Value]:
    """Every number of a sheet under its path, stages as "development.stages.6"."""
    found: dict[str, Value] = {}
    for section in SECTIONS:
        record = getattr(sheet, section)
        for name in of_section(section):
            value = getattr(record, name)
            if value is not None:
                found[f"{section}.{name}"] = value
    for stage, value in sheet.development.stages.items():
        found[f"development.stages.{stage}"] = value
    return found


def words_of(sheet: Sheet) -> dict[str, object]:
    """The words of a sheet that decide which numbers apply (see `checks.conditions`)."""
    return {
        "propagation": sheet.propagation,
        "development.day_response": sheet.development.day_response,
        "bolting.kind": sheet.bolting.kind,
        "heat.limit_c": sheet.heat.limit_c,
    }


def read_sheet(text: str, name: str) -> Sheet:
    """One sheet from its TOML text.

    Parameters
    ----------
    text : str
        The file's text.
    name : str
        The file's name, used in messages. For a packaged sheet it must be the key plus ".toml".

    Raises
    ------
    InputFileError
        With every fault found: not TOML, unknown or missing fields, wrong types, numbers out of range or out
        of order, unknown classes and sources.
    """
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        fault = Fault(name, f"text that is not TOML: {error}", "TOML", "Mend the line named.")
        raise InputFileError(name, [fault]) from None
    return _Reader(raw, name).sheet()


class _Reader:
    """Walks one parsed sheet, gathering faults and sound values side by side."""

    def __init__(self, raw: dict[str, object], name: str) -> None:
        self.raw = raw
        self.name = name
        self.faults: list[Fault] = []
        self.texts: dict[str, Any] = {}
        self.values: dict[str, Value] = {}
        self.stages: dict[int, Value] = {}

    def sheet(self) -> Sheet:
        known = [*texts_of_section(""), *SECTIONS, "cautions"]
        self._unknown("", self.raw, known)
        sections = {section: self._table(section) for section in SECTIONS}
        self._read_texts("", self.raw)
        for section, table in sections.items():
            self._read_texts(section, table)
        words = dict(self.texts) | {"heat.limit_c": sections["heat"].get("limit_c")}
        holding = checks.conditions(words)
        for field in FIELDS:
            table = sections[field.section]
            if checks.presence(field, field.name in table, holding, self.faults):
                self._read_value(field, table[field.name])
        self._read_stages(sections["development"])
        cautions = self._read_cautions()
        key = self.texts.get("key")
        if key is not None and f"{key}.toml" != self.name:
            self.faults.append(
                Fault("key", repr(key), repr(self.name.removesuffix(".toml")), "Make them agree.")
            )
        numbers = {path: value.value for path, value in self.values.items()}
        numbers |= {f"development.stages.{stage}": value.value for stage, value in self.stages.items()}
        self.faults += checks.orders(numbers, words)
        if self.faults:
            raise InputFileError(self.name, self.faults)
        return self._build(cautions)

    def _build(self, cautions: tuple[Caution, ...]) -> Sheet:
        records: dict[str, Any] = {}
        for section, record in RECORDS.items():
            parts: dict[str, Any] = {}
            for text in texts_of_section(section).values():
                parts[_ATTRIBUTES.get(text.path, text.name)] = self.texts.get(text.path, "")
            for name in of_section(section):
                parts[name] = self.values.get(f"{section}.{name}")
            if section == "development":
                parts["stages"] = MappingProxyType(self.stages)
            records[section] = record(**parts)
        head = {text.name: self.texts.get(text.name, ()) for text in texts_of_section("").values()}
        return Sheet(**head, **records, cautions=cautions)

    def _unknown(self, where: str, table: Mapping[str, object], known: list[str]) -> None:
        for name in table:
            if name not in known:
                path = f"{where}.{name}" if where else name
                allowed = f"the fields of {where}" if where else "the tables and names of a sheet"
                near = checks.nearest(name, known)
                self.faults.append(Fault(path, "an unknown field", allowed, near or "Remove it."))

    def _table(self, section: str) -> dict[str, object]:
        table = self.raw.get(section)
        if not isinstance(table, dict):
            found = "nothing" if table is None else repr(table)
            self.faults.append(Fault(section, found, "a table", f"Add [{section}] with its fields."))
            return {}
        known = [*texts_of_section(section), *of_section(section)]
        self._unknown(section, table, [*known, "stages"] if section == "development" else known)
        return table

    def _read_texts(self, section: str, table: Mapping[str, object]) -> None:
        for text in texts_of_section(section).values():
            if text.name in table:
                self._read_text(text, table[text.name])
            elif text.required:
                self.faults.append(Fault(text.path, "nothing", _allowed(text), f"Add it: {text.meaning}."))

    def _read_text(self, text: Text, raw: object) -> None:
        parts = raw if text.many and isinstance(raw, list) else [raw]
        sound = bool(parts) and (not text.many or isinstance(raw, list))
        for part in parts:
            if not isinstance(part, str) or not part or (text.choices and part not in text.choices):
                sound = False
        if not sound:
            self.faults.append(Fault(text.path, repr(raw), _allowed(text), f"It is the {text.meaning}."))
            return
        self.texts[text.path] = tuple(parts) if text.many else parts[0]

    def _read_value(self, field: Field, raw: object) -> None:
        if not isinstance(raw, dict):
            form = '{ value = ..., low = ..., high = ..., class = "...", source = "..." }'
            self.faults.append(Fault(field.path, repr(raw), form, "Give the number with its receipt."))
            return
        self._unknown(field.path, raw, list(_VALUE_KEYS))
        if "value" not in raw:
            self.faults.append(Fault(f"{field.path}.value", "nothing", field.allowed, "Add it."))
        limits = {
            name: checks.number(f"{field.path}.{name}", raw[name], field, self.faults)
            for name in ("value", "low", "high")
            if name in raw
        }
        value, low, high = limits.get("value"), limits.get("low"), limits.get("high")
        checks.spread(field.path, low, value, high, self.faults)
        receipt = self._receipt(field.path, raw)
        if value is not None:
            self.values[field.path] = Value(value, low, high, field.unit, *receipt)

    def _receipt(self, where: str, raw: Mapping[str, object]) -> tuple[Provenance, str, str]:
        """Class, source and note of a value; faults where they do not hold together."""
        given = raw.get("class")
        if given not in CLASSES:
            found = "nothing" if given is None else repr(given)
            self.faults.append(Fault(f"{where}.class", found, ", ".join(CLASSES), "Say where it comes from."))
        provenance = cast(Provenance, given)
        source, note = raw.get("source", ""), raw.get("note", "")
        if not isinstance(source, str) or not isinstance(note, str):
            self.faults.append(Fault(where, "a source or note that is not text", "text", "Put it in quotes."))
            return provenance, "", ""
        if not source and provenance in _SOURCED:
            allowed = f"a source key for class {provenance}"
            self.faults.append(
                Fault(f"{where}.source", "nothing", allowed, "Name it, or use common-practice.")
            )
        for key in source.split("; ") if source else ():
            if key not in citations():
                near = checks.nearest(key, citations()) or "Add it to the sources."
                self.faults.append(Fault(f"{where}.source", repr(key), "a key of the sources", near))
        return provenance, source, note

    def _read_stages(self, development: Mapping[str, object]) -> None:
        raw = development.get("stages")
        where = "development.stages"
        if not isinstance(raw, dict) or not isinstance(raw.get("shares"), dict):
            found = "nothing" if raw is None else "no shares"
            self.faults.append(Fault(where, found, 'a table with shares = { "1" = 0.0, ... }', "Add it."))
            return
        self._unknown(where, raw, list(_STAGE_KEYS))
        receipt = self._receipt(where, raw)
        for stage, share in cast(dict[str, object], raw["shares"]).items():
            if stage not in tuple("0123456789"):
                self.faults.append(
                    Fault(f"{where}.{stage}", "an unknown stage", "0 to 9", "Use BBCH stages.")
                )
                continue
            value = checks.number(f"{where}.{stage}", share, STAGE, self.faults)
            if value is not None:
                self.stages[int(stage)] = Value(value, None, None, STAGE.unit, *receipt)
        self.stages = dict(sorted(self.stages.items()))

    def _read_cautions(self) -> tuple[Caution, ...]:
        raw = self.raw.get("cautions", [])
        if not isinstance(raw, list):
            self.faults.append(Fault("cautions", repr(raw), "a list of tables", "Use [[cautions]]."))
            return ()
        found = []
        for index, item in enumerate(raw):
            where = f"cautions[{index}]"
            if not isinstance(item, dict) or not isinstance(item.get("text"), str):
                self.faults.append(Fault(where, repr(item), "a table with text", "Add the text."))
                continue
            self._unknown(where, item, list(_CAUTION_KEYS))
            provenance, source, _ = self._receipt(where, item)
            found.append(Caution(item["text"], provenance, source))
        return tuple(found)


def _allowed(text: Text) -> str:
    form = "a list of: " if text.many else ""
    return form + (", ".join(text.choices) or "text")
