"""A grower's own numbers in place of a sheet's, for a variety or for the whole garden."""

from __future__ import annotations

from collections.abc import Mapping

from spadework.crops import checks
from spadework.crops.field import GATES, Field
from spadework.crops.fields import FIELDS, STAGE, TEXTS, by_path
from spadework.crops.parts import rebuilt, receipts, words_of
from spadework.crops.sheet import Sheet, Value
from spadework.errors import Fault, InputFileError

_LIMITS = {"value", "low", "high"}


def apply_overrides(sheet: Sheet, overrides: Mapping[str, object], origin: str) -> Sheet:
    """A new sheet with some numbers replaced.

    Parameters
    ----------
    sheet : Sheet
        The sheet to start from; it is not changed.
    overrides : mapping
        Path to number, or path to {value, low, high}: {"development.ready_days": 48}. Tables nested as TOML
        nests dotted names are taken as well: {"development": {"ready_days": 48}}.
    origin : str
        Where they come from, such as "overrides.toml, carrot Rodelika"; kept with each value.

    Returns
    -------
    Sheet
        Each replaced Value has provenance "grower", `origin`, and the sheet's first value as `own`.

    Raises
    ------
    InputFileError
        With every fault: unknown fields (and the nearest names), words instead of numbers, numbers out of
        range or out of order with the rest of the sheet.
    """
    faults: list[Fault] = []
    words = words_of(sheet)
    present = receipts(sheet)
    changed: dict[str, Value] = {}
    flat = _flat(overrides)
    words |= {gate: flat[gate] for gate in GATES if gate in flat}
    holding = checks.conditions(words)
    for path, raw in flat.items():
        field = _field(path, faults)
        if field is None:
            continue
        if not checks.presence(field, True, holding, faults):
            continue
        value = _value(path, raw, field, origin, present.get(path), faults)
        if value is not None:
            changed[path] = value
    after = present | changed
    faults += checks.orders({path: value.value for path, value in after.items()}, words)
    opened = {condition for gate, condition in GATES.items() if gate in changed}
    for field in FIELDS:
        if field.applies in opened:
            checks.presence(field, field.path in after, holding, faults)
    if faults:
        raise InputFileError(origin, faults)
    return rebuilt(sheet, after) if changed else sheet


def _flat(overrides: Mapping[str, object], prefix: str = "") -> dict[str, object]:
    """Nested tables as dotted paths; a table of only value, low and high is a value."""
    flat: dict[str, object] = {}
    for name, raw in overrides.items():
        path = f"{prefix}.{name}" if prefix else name
        if isinstance(raw, Mapping) and not (raw and set(raw) <= _LIMITS):
            flat |= _flat(raw, path)
        else:
            flat[path] = raw
    return flat


def _field(path: str, faults: list[Fault]) -> Field | None:
    if path in by_path():
        return by_path()[path]
    stem, _, stage = path.rpartition(".")
    if stem == STAGE.path and stage in tuple("0123456789"):
        return STAGE
    if path in {text.path for text in TEXTS}:
        faults.append(Fault(path, "a word", "a number", "Words of a sheet cannot be replaced."))
        return None
    tail = path.rsplit(".", 1)[-1]
    alike = [known for known in by_path() if known.endswith(f".{tail}")]
    do = f"Nearest: {', '.join(alike[:3])}." if alike else checks.nearest(path, by_path())
    faults.append(
        Fault(path, "an unknown field", "section.field of a sheet", do or "See the list of fields.")
    )
    return None


def _value(
    path: str, raw: object, field: Field, origin: str, before: Value | None, faults: list[Fault]
) -> Value | None:
    given = raw if isinstance(raw, Mapping) else {"value": raw}
    if "value" not in given:
        faults.append(Fault(path, "limits without a value", field.allowed, "Add the value."))
        return None
    limits = {
        name: checks.number(path if name == "value" else f"{path}.{name}", part, field, faults)
        for name, part in given.items()
    }
    value, low, high = limits["value"], limits.get("low"), limits.get("high")
    checks.spread(path, low, value, high, faults)
    if value is None:
        return None
    own = before.own or before if before is not None else None
    note = f"in place of {own.value:g} {own.unit}" if own is not None else "the sheet has none"
    return Value(value, low, high, field.unit, "grower", "", note, origin, own)
