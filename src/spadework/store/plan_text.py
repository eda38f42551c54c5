"""A plan as plain TOML that a person can read and edit."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, Final

import msgspec

from spadework.garden.entries import PlantedOut
from spadework.garden.lay_out_plot import bed_key
from spadework.garden.plan import PARTS, Planned
from spadework.garden.site import Site

FORMAT: Final = 1
HIDDEN: Final[dict[str, frozenset[str]]] = {
    "person": frozenset({"person"}),
    "perennial": frozenset({"planting", "perennial", "only_year", "from_planting"}),
    "chore": frozenset({"gone"}),
}
"""Fields that the file says in another way, or that it does not need."""

_HEAD: Final = """\
# The plan of a garden: edit it with any text editor, then: spadework plan load {name}
# A list that is left out altogether is left alone; a thing taken out of a list is gone from the garden.
# Lengths as their names end: _m metres, _cm centimetres. x_m runs east, y_m north; a bed's corner is its
# south-western one, and turn_deg turns it about that corner, anticlockwise.
format = 1
"""
_ABOUT: Final = {
    "bed": "Beds, tubs, tunnel, frame, shelves. To rename one, change its name and leave its place as it is.",
    "kit": "Covers, hoops, trays and tools: what there is of each.",
    "seed": "The seed tin: what was in each lot when it was last counted, and its last germination test.",
    "person": "Who works here. can and not_for name work for them, and not for them.",
    "chore": "People's own chores.",
    "perennial": "What stands over years, with the year it was planted.",
    "stood": "What stood where in years before the book.",
}


def plan_text(site: Site, plan: Mapping[str, Sequence[Planned]], name: str = "plan.toml") -> str:
    """The whole plan as TOML."""
    lines = [_HEAD.format(name=name), "[site]"]
    lines += [f"{field} = {toml(getattr(site, field))}" for field in SITE_FIELDS]
    for part in PARTS:
        found = plan.get(part, ())
        if found:
            lines += ["", f"# {_ABOUT[part]}"]
        for each in found:
            lines += ["", f"[[{part}]]"]
            lines += [f"{field} = {toml(value)}" for field, value in _fields(each, plan)]
    return "\n".join(lines) + "\n"


SITE_FIELDS: Final = ("name", "lat_deg", "lon_deg", "elevation_m", "units", "words", "surface", "zone")


def _fields(each: Planned, plan: Mapping[str, Sequence[Planned]]) -> list[tuple[str, Any]]:
    """What the file says of one thing: what is not as it is where nothing is said, names before numbers."""
    names = {bed.key: getattr(bed.payload, "name", bed.key) for bed in plan.get("bed", ())}
    said: list[tuple[str, Any]] = []
    payload = each.payload
    for field in msgspec.structs.fields(type(payload)):
        value = getattr(payload, field.name)
        if field.name in HIDDEN.get(each.part, ()):
            continue
        if value == field.default and field.name not in _ALWAYS.get(each.part, ()):
            continue
        if field.name == "inside":
            value = names.get(value, value)
        said.append((field.name, value))
    if each.part in ("perennial", "stood", "chore") and each.bed:
        said.insert(1, ("bed", names.get(each.bed, each.bed)))
    if each.part in ("bed", "person") and each.key != bed_key(getattr(payload, "name", "")):
        said.insert(1, ("key", each.key))
    if isinstance(payload, PlantedOut):
        if each.on is not None:
            said.insert(2, ("year", each.on.year) if payload.only_year else ("planted", each.on))
        said.append(("planting", each.key))
    return said


_ALWAYS: Final = {
    "bed": frozenset({"shape", "x_m", "y_m", "width_m", "length_m", "soil"}),
    "person": frozenset({"role"}),
}


def toml(value: Any) -> str:
    """One value as TOML, on one line."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return repr(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, (tuple, list)):
        return f"[{', '.join(map(toml, value))}]"
    if isinstance(value, msgspec.Struct):
        fields = msgspec.structs.fields(type(value))
        said = [(f.name, getattr(value, f.name)) for f in fields if getattr(value, f.name) != f.default]
        return f"{{ {', '.join(f'{name} = {toml(each)}' for name, each in said)} }}"
    return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
