"""Varieties of a crop and methods of growing it: the few numbers that differ from the sheet's own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Literal, TypeAlias

from spadework.crops import checks
from spadework.crops.field import TRAITS, Condition, Field
from spadework.crops.fields import STAGE, by_path
from spadework.crops.parts import rebuilt, receipts, words_of
from spadework.crops.reading import read_value, unknown
from spadework.crops.sheet import Form, Sheet, Value
from spadework.errors import Fault, UnknownName

FormKind: TypeAlias = Literal["variety", "method"]

WAYS: dict[str, str] = {
    "direct": "sown where it is to grow",
    "raised": "raised under cover and set out",
    "sets": "grown from sets, small bulbs kept from last year",
    "tubers": "grown from seed tubers",
    "cloves": "grown from cloves",
    "crowns": "grown from resting crowns or rooted plants",
    "slips": "grown from slips, rooted shoots of last year's roots",
}
"""Each way of starting is a method of its own, whether or not the sheet gives it numbers."""

_KEYS: dict[FormKind, tuple[str, ...]] = {
    "variety": ("names", "note", "traits"),
    "method": ("names", "note", "way"),
}


def read_forms(
    kind: FormKind, raw: object, words: Mapping[str, object], base: Mapping[str, Value], faults: list[Fault]
) -> Mapping[str, Form]:
    """The varieties or methods of a sheet, by key.

    Parameters
    ----------
    kind : "variety" or "method"
    raw : object
        The tables as the file holds them: {key: {names, note, way, "section.field": {value, ...}}}. Each of
        the sheet's ways of starting without a table is a method without numbers of its own.
    words : mapping
        The sheet's words that decide which numbers apply (see `checks.conditions`).
    base : mapping
        The sheet's own numbers by path; order is checked with the form's numbers in their place.
    faults : list of Fault
        Faults found are added, at paths such as "method.sets.emergence.sum_cd".
    """
    if not isinstance(raw, dict):
        faults.append(Fault(kind, repr(raw), f"tables such as [{kind}.early]", "Give each a name."))
        return {}
    found = {}
    for key, table in raw.items():
        where = f"{kind}.{key}"
        if not isinstance(table, dict):
            faults.append(Fault(where, repr(table), "a table", f'Use [{kind}."{key}"].'))
            continue
        found[key] = _read_form(kind, key, table, words, base, faults)
    if kind == "method":
        nothing: Mapping[str, Value] = MappingProxyType({})
        for way in _ways(words):
            if way in WAYS and way not in found:
                found[way] = Form(key=way, kind=kind, names=(), way=way, note=WAYS[way], values=nothing)
    return MappingProxyType(found)


def _ways(words: Mapping[str, object]) -> tuple[str, ...]:
    ways = words.get("propagation")
    return tuple(ways) if isinstance(ways, list | tuple) else ()


def _read_form(
    kind: FormKind,
    key: str,
    table: Mapping[str, object],
    words: Mapping[str, object],
    base: Mapping[str, Value],
    faults: list[Fault],
) -> Form:
    where = f"{kind}.{key}"
    unknown(where, {name: 0 for name in table if "." not in name}, list(_KEYS[kind]), faults)
    names, note, way = table.get("names", []), table.get("note", ""), table.get("way", "")
    if not isinstance(names, list) or not all(isinstance(name, str) and name for name in names):
        faults.append(Fault(f"{where}.names", repr(names), "a list of names", "Put each in quotes."))
        names = []
    if not isinstance(note, str) or not note:
        faults.append(Fault(f"{where}.note", repr(note), "a sentence", "Say what it is."))
    traits = table.get("traits", [])
    if not isinstance(traits, list) or not all(trait in TRAITS for trait in traits):
        faults.append(Fault(f"{where}.traits", repr(traits), f"a list of: {', '.join(TRAITS)}", "Mend it."))
        traits = []
    known = _ways(words)
    if kind == "method" and way not in known:
        faults.append(
            Fault(f"{where}.way", repr(way), ", ".join(known), "It must be one of the sheet's propagation.")
        )
    its_words = dict(words) | ({"propagation": (way,)} if kind == "method" else {})
    holding = checks.conditions(its_words)
    values: dict[str, Value] = {}
    for path, raw in table.items():
        field = _field(path)
        if "." not in path:
            continue
        if field is None:
            near = checks.nearest(path, by_path()) or "Remove it."
            faults.append(Fault(f"{where}.{path}", "an unknown field", "section.field of a sheet", near))
        elif checks.presence(field, True, holding, faults):
            value = read_value(field, raw, faults, f"{where}.{path}")
            if value is not None:
                values[path] = replace(value, origin=f"{kind} {key}", own=base.get(path))
    faults += _new_order_faults(where, base, values, its_words)
    return Form(
        key=key,
        kind=kind,
        names=tuple(names),
        way=str(way),
        note=str(note),
        values=MappingProxyType(values),
        traits=tuple(traits),
    )


def _new_order_faults(
    where: str, base: Mapping[str, Value], values: Mapping[str, Value], words: Mapping[str, object]
) -> list[Fault]:
    """Faults of order that a form's numbers bring in; the sheet tells its own."""
    holding = checks.conditions(words)

    def found(numbers: Mapping[str, Value]) -> list[Fault]:
        together = _applying(numbers, holding)
        return checks.orders({path: value.value for path, value in together.items()}, words)

    old = found(base)
    return [
        Fault(f"{where}.{fault.where}", fault.found, fault.allowed, fault.do)
        for fault in found({**base, **values})
        if fault not in old
    ]


def _applying(values: Mapping[str, Value], holding: frozenset[Condition]) -> dict[str, Value]:
    """Those numbers that say something of a crop under these conditions."""
    return {
        path: value
        for path, value in values.items()
        if (field := _field(path)) is not None and field.applies in holding
    }


def _field(path: str) -> Field | None:
    stem, _, stage = path.rpartition(".")
    if stem == STAGE.path and stage in tuple("0123456789"):
        return STAGE
    return by_path().get(path)


def with_form(sheet: Sheet, kind: FormKind, key: str) -> Sheet:
    """The sheet of one variety, or of one method of growing.

    Parameters
    ----------
    sheet : Sheet
    kind : "variety" or "method"
    key : str
        One of `sheet.varieties` or `sheet.methods`.

    Returns
    -------
    Sheet
        Each number that differs keeps its own receipt, the origin "variety ..." or "method ...", and the
        sheet's general number as `own`. A method leaves its own way as the only
        propagation, and no number that does not apply to it.

    Raises
    ------
    UnknownName
        With the nearest names.
    """
    forms = sheet.varieties if kind == "variety" else sheet.methods
    if key not in forms:
        raise UnknownName(
            f"{sheet.name} has no {kind} {key!r}.",
            checks.nearest(key, forms)
            or (f"Known: {', '.join(forms)}." if forms else f"Its sheet knows no {kind}."),
        )
    form = forms[key]
    named = _of_variety(sheet, form) if kind == "variety" else _by_method(sheet, form)
    holding = checks.conditions(words_of(named))
    return rebuilt(named, _applying(receipts(sheet) | dict(form.values), holding))


def _of_variety(sheet: Sheet, form: Form) -> Sheet:
    bees = sheet.bees
    if "self-setting" in form.traits:
        bees = replace(bees, needs="self", uncover="no", hand="no")
    return replace(sheet, variety=form.key, traits=form.traits, bees=bees)


def _by_method(sheet: Sheet, form: Form) -> Sheet:
    return replace(sheet, method=form.key, propagation=(form.way,))
