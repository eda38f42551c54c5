"""Read crop sheets: TOML in, checked records out, every fault of a sheet reported at once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, cast

from spadework.crops import checks, plain_toml
from spadework.crops.care import (
    Bees,
    Earth,
    Guard,
    Next,
    Room,
    Start,
    Support,
    Thin,
    Use,
    Water,
    Weeds,
)
from spadework.crops.care_fields import CARE_SECTIONS
from spadework.crops.field import GATES, Text
from spadework.crops.fields import FIELDS, SECTIONS, STAGE, TEXTS, of_section, texts_of_section
from spadework.crops.forms import read_forms, with_form
from spadework.crops.names import find_whole, keys
from spadework.crops.reading import read_receipt, read_value, unknown
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
    Sheet,
    Sowing,
    Value,
)
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
    "water": Water,
    "thin": Thin,
    "weeds": Weeds,
    "earth": Earth,
    "support": Support,
    "bees": Bees,
    "use": Use,
    "guard": Guard,
    "room": Room,
    "next": Next,
    "start": Start,
}

_STAGE_KEYS = ("shares", "class", "source", "note")
_CAUTION_KEYS = ("text", "class", "source")
_ATTRIBUTES = {"frost.class": "hardiness"}


@cache
def load_sheet(key_or_name: str, variety: str | None = None, method: str | None = None) -> Sheet:
    """The sheet of a crop, by key or by any British, American or common name.

    Parameters
    ----------
    key_or_name : str
        May name a variety or a method with the crop: "cherry tomato", "onion sets".
    variety, method : str or None
        Keys of `Sheet.varieties` and `Sheet.methods`, in place of those the name holds. Where both give the
        same number, the variety's is taken.

    Raises
    ------
    UnknownName
        If nothing answers to the name, or the crop has no such variety or method; the hint lists the nearest.
    InputFileError
        If the sheet has faults; all of them are listed.
    """
    key, said_variety, said_method = find_whole(key_or_name)
    return _load(key, variety or said_variety, method or said_method)


@cache
def _load(key: str, variety: str | None, method: str | None) -> Sheet:
    sheet = _load_key(key)
    if method is not None:
        sheet = with_form(sheet, "method", method)
    return sheet if variety is None else with_form(sheet, "variety", variety)


@cache
def _load_key(key: str) -> Sheet:
    path = FOLDER / f"{key}.toml"
    return read_sheet(path.read_text(encoding="utf-8"), path.name)


@cache
def all_sheets() -> Mapping[str, Sheet]:
    """Every sheet under its key, in order of key."""
    return MappingProxyType({key: _load_key(key) for key in keys()})


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
        raw = plain_toml.loads(text)
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
        known = [*texts_of_section(""), *SECTIONS, "cautions", "variety", "method"]
        unknown("", self.raw, known, self.faults)
        sections = {section: self._table(section) for section in SECTIONS}
        self._read_texts("", self.raw)
        for section, table in sections.items():
            self._read_texts(section, table)
        words = dict(self.texts) | {gate: _at(sections, gate) for gate in GATES}
        holding = checks.conditions(words)
        for text in TEXTS:
            where = sections[text.section] if text.section else self.raw
            checks.presence(text, text.name in where, holding, self.faults)
        for field in FIELDS:
            table = sections[field.section]
            if checks.presence(field, field.name in table, holding, self.faults):
                value = read_value(field, table[field.name], self.faults)
                if value is not None:
                    self.values[field.path] = value
        self._read_stages(sections["development"])
        self._check_packet()
        cautions = self._read_cautions()
        key = self.texts.get("key")
        if key is not None and f"{key}.toml" != self.name:
            self.faults.append(
                Fault("key", repr(key), repr(self.name.removesuffix(".toml")), "Make them agree.")
            )
        numbers = {path: value.value for path, value in self.values.items()}
        numbers |= {f"development.stages.{stage}": value.value for stage, value in self.stages.items()}
        self.faults += checks.orders(numbers, words)
        base = self.values | {f"development.stages.{stage}": value for stage, value in self.stages.items()}
        varieties = read_forms("variety", self.raw.get("variety", {}), words, base, self.faults)
        methods = read_forms("method", self.raw.get("method", {}), words, base, self.faults)
        if self.faults:
            raise InputFileError(self.name, self.faults)
        return replace(self._build(cautions), varieties=varieties, methods=methods)

    def _build(self, cautions: tuple[Caution, ...]) -> Sheet:
        records: dict[str, Any] = {}
        for section, record in RECORDS.items():
            parts: dict[str, Any] = {}
            for text in texts_of_section(section).values():
                nothing: object = () if text.many else ""
                parts[_ATTRIBUTES.get(text.path, text.name)] = self.texts.get(text.path, nothing)
            for name in of_section(section):
                parts[name] = self.values.get(f"{section}.{name}")
            if section == "development":
                parts["stages"] = MappingProxyType(self.stages)
            records[section] = record(**parts)
        head = {text.name: self.texts.get(text.name, ()) for text in texts_of_section("").values()}
        return Sheet(**head, **records, cautions=cautions)

    def _table(self, section: str) -> dict[str, object]:
        table = self.raw.get(section)
        if table is None and section in CARE_SECTIONS:
            return {}  # fields it must hold are asked for one by one
        if not isinstance(table, dict):
            found = "nothing" if table is None else repr(table)
            self.faults.append(Fault(section, found, "a table", f"Add [{section}] with its fields."))
            return {}
        known = [*texts_of_section(section), *of_section(section)]
        unknown(section, table, [*known, "stages"] if section == "development" else known, self.faults)
        return table

    def _read_texts(self, section: str, table: Mapping[str, object]) -> None:
        for text in texts_of_section(section).values():
            if text.name in table:
                self._read_text(text, table[text.name])

    def _read_text(self, text: Text, raw: object) -> None:
        parts = raw if text.many and isinstance(raw, list) else [raw]
        sound = bool(parts) and (not text.many or isinstance(raw, list))
        for part in parts:
            if not isinstance(part, str) or not part or (text.choices and part not in text.choices):
                sound = False
        if not sound:
            self.faults.append(Fault(text.path, repr(raw), text.allowed, f"It is the {text.meaning}."))
            return
        self.texts[text.path] = tuple(parts) if text.many else parts[0]

    def _check_packet(self) -> None:
        days, since = "development.packet_days" in self.values, "development.packet_from" in self.texts
        if days != since:
            missing = "packet_from" if days else "packet_days"
            self.faults.append(
                Fault(f"development.{missing}", "nothing", "both or neither", "Say the days and from when.")
            )

    def _read_stages(self, development: Mapping[str, object]) -> None:
        raw = development.get("stages")
        where = "development.stages"
        if not isinstance(raw, dict) or not isinstance(raw.get("shares"), dict):
            found = "nothing" if raw is None else "no shares"
            self.faults.append(Fault(where, found, 'a table with shares = { "1" = 0.0, ... }', "Add it."))
            return
        unknown(where, raw, list(_STAGE_KEYS), self.faults)
        receipt = read_receipt(where, raw, self.faults)
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
            unknown(where, item, list(_CAUTION_KEYS), self.faults)
            provenance, source, _ = read_receipt(where, item, self.faults)
            found.append(Caution(item["text"], provenance, source))
        return tuple(found)


def _at(sections: Mapping[str, Mapping[str, object]], path: str) -> object:
    section, _, name = path.partition(".")
    return sections[section].get(name)
