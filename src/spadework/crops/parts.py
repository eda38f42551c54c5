"""Take a sheet apart into its numbers by path, and put it together again with some replaced."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from spadework.crops.fields import SECTIONS, of_section
from spadework.crops.sheet import Sheet, Value

_STAGES = "development.stages."


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
        found[f"{_STAGES}{stage}"] = value
    return found


def whole_receipts(sheet: Sheet) -> dict[str, Value]:
    """The same with the numbers of its varieties and methods, as "variety.cherry.development.ready_days"."""
    found = receipts(sheet)
    for kind, forms in (("variety", sheet.varieties), ("method", sheet.methods)):
        for form in forms.values():
            found |= {f"{kind}.{form.key}.{path}": value for path, value in form.values.items()}
    return found


def unpublished(sheet: Sheet) -> dict[str, Value]:
    """Every number of a sheet, its varieties and methods, that no publication prints.

    They are recalled, judged, measured here or computed from printed ones; a grower's counts and dates should
    replace them.
    """
    return {path: value for path, value in whole_receipts(sheet).items() if value.provenance != "published"}


def words_of(sheet: Sheet) -> dict[str, object]:
    """The words of a sheet that decide which numbers apply (see `checks.conditions`)."""
    return {
        "propagation": sheet.propagation,
        "development.day_response": sheet.development.day_response,
        "bolting.kind": sheet.bolting.kind,
        "support.kind": sheet.support.kind,
        "harvest.repeat": sheet.harvest.repeat,
        "heat.limit_c": sheet.heat.limit_c,
        "thin.first_leaves": sheet.thin.first_leaves,
        "earth.passes": sheet.earth.passes,
    }


def rebuilt(sheet: Sheet, values: Mapping[str, Value]) -> Sheet:
    """The sheet with these numbers in its records; `values` holds all of them, as `receipts` gives them."""
    records = {}
    for section in SECTIONS:
        parts: dict[str, object] = {name: values.get(f"{section}.{name}") for name in of_section(section)}
        if section == "development":
            stages = {
                int(path.removeprefix(_STAGES)): value
                for path, value in values.items()
                if path.startswith(_STAGES)
            }
            parts["stages"] = MappingProxyType(dict(sorted(stages.items())))
        records[section] = replace(getattr(sheet, section), **parts)
    return replace(sheet, **records)
