"""Read one number of a sheet with its receipt: value, range, class, sources, note."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from spadework.crops import checks
from spadework.crops.field import Field
from spadework.crops.sheet import Provenance, Value
from spadework.crops.sources import citations
from spadework.errors import Fault

CLASSES: tuple[Provenance, ...] = ("published", "memory", "common-practice", "measured", "computed")
_SOURCED: tuple[Provenance, ...] = ("published", "memory", "measured", "computed")
_VALUE_KEYS = ("value", "low", "high", "class", "source", "note")


def unknown(where: str, table: Mapping[str, object], known: list[str], faults: list[Fault]) -> None:
    """Note a fault for each name of a table that a sheet does not know."""
    for name in table:
        if name not in known:
            path = f"{where}.{name}" if where else name
            allowed = f"the fields of {where}" if where else "the tables and names of a sheet"
            near = checks.nearest(name, known)
            faults.append(Fault(path, "an unknown field", allowed, near or "Remove it."))


def read_value(field: Field, raw: object, faults: list[Fault], where: str = "") -> Value | None:
    """A number with its receipt, or None with the faults noted.

    Parameters
    ----------
    field : Field
        What it may be.
    raw : object
        What the file holds: a table with value, low, high, class, source and note.
    faults : list of Fault
        Faults found are added.
    where : str
        Where it stands; the field's own path by default.
    """
    where = where or field.path
    if not isinstance(raw, dict):
        form = '{ value = ..., low = ..., high = ..., class = "...", source = "..." }'
        faults.append(Fault(where, repr(raw), form, "Give the number with its receipt."))
        return None
    unknown(where, raw, list(_VALUE_KEYS), faults)
    if "value" not in raw:
        faults.append(Fault(f"{where}.value", "nothing", field.allowed, "Add it."))
    limits = {
        name: checks.number(f"{where}.{name}", raw[name], field, faults)
        for name in ("value", "low", "high")
        if name in raw
    }
    value, low, high = limits.get("value"), limits.get("low"), limits.get("high")
    checks.spread(where, low, value, high, faults)
    receipt = read_receipt(where, raw, faults)
    return None if value is None else Value(value, low, high, field.unit, *receipt)


def read_receipt(where: str, raw: Mapping[str, object], faults: list[Fault]) -> tuple[Provenance, str, str]:
    """Class, source and note of a value; faults where they do not hold together."""
    given = raw.get("class")
    if given not in CLASSES:
        found = "nothing" if given is None else repr(given)
        faults.append(Fault(f"{where}.class", found, ", ".join(CLASSES), "Say where it comes from."))
    provenance = cast(Provenance, given)
    source, note = raw.get("source", ""), raw.get("note", "")
    if not isinstance(source, str) or not isinstance(note, str):
        faults.append(Fault(where, "a source or note that is not text", "text", "Put it in quotes."))
        return provenance, "", ""
    if not source and provenance in _SOURCED:
        allowed = f"a source key for class {provenance}"
        faults.append(Fault(f"{where}.source", "nothing", allowed, "Name it, or use common-practice."))
    for key in source.split("; ") if source else ():
        if key not in citations():
            near = checks.nearest(key, citations()) or "Add it to the sources."
            faults.append(Fault(f"{where}.source", repr(key), "a key of the sources", near))
    return provenance, source, note
