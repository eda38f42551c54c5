"""Read a plan file: every problem at once, each with its line, and nothing taken where there is one."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import Any, Final, get_args

import msgspec

from spadework.errors import Fault, InputFileError, ParameterError
from spadework.garden.ask_form import form_questions
from spadework.garden.entries import Entry, Payload, PersonSet, PlantedOut
from spadework.garden.lay_out import lay_out
from spadework.garden.lay_out_plot import bed_key
from spadework.garden.lookup import nearest
from spadework.garden.plan import PARTS, Planned
from spadework.garden.site import Site, Units
from spadework.store.plan_text import FORMAT, HIDDEN, SITE_FIELDS

_HEADER: Final = re.compile(r"^\s*(\[{1,2})\s*([A-Za-z][\w-]*)\s*(\]{0,2})\s*(?:#.*)?$")
_KEY: Final = re.compile(r"^\s*\"?([\w-]+)\"?\s*=")
_AT_LINE: Final = re.compile(r"\(at line (\d+), column (\d+)\)")
_MORE: Final[dict[str, dict[str, Any]]] = {
    "bed": {"key": str},
    "person": {"key": str},
    "chore": {"bed": str},
    "stood": {"bed": str},
    "perennial": {"bed": str, "year": int, "planted": date, "planting": str},
}
_TOP: Final = ("format", "lay_out")


@dataclass(slots=True)
class PlanRead:
    """A plan as its file says it.

    Parameters
    ----------
    site : dict
        What it says of the site.
    parts : dict of str to list of Planned
        Only the parts the file has.
    faults : list of (int, Fault)
        With their lines; where there are any, the plan is not to be used.
    """

    site: dict[str, Any] = field(default_factory=dict)
    site_line: int = 0
    parts: dict[str, list[Planned]] = field(default_factory=dict)
    faults: list[tuple[int, Fault]] = field(default_factory=list)
    took: tuple[str, ...] = ()

    def fault(self, line: int, found: str, allowed: str, do: str) -> None:
        """Something wrong in a line."""
        self.faults.append((line, Fault(f"line {line}", found, allowed, do)))


@dataclass(slots=True)
class _Block:
    name: str
    line: int
    rows: list[str]
    header: str = ""

    def line_of(self, key: str) -> int:
        for place, row in enumerate(self.rows):
            found = _KEY.match(row)
            if found and found[1] == key:
                return self.line + place + 1
        return self.line


def read_plan(text: str, units: Units, today: date) -> PlanRead:
    """Read the text of a plan file.

    Parameters
    ----------
    text : str
    units : {"metric", "us"}
        Of bare numbers in `lay_out` lines, where the file does not say.
    today : date
        No year of it can be later than the coming one.
    """
    read = PlanRead()
    seen: set[str] = set()
    lines: list[str] = []
    lines_at = 0
    for block in _blocks(text):
        if block.header not in ("", "[site]", f"[[{block.name}]]") or block.header == "[[site]]":
            right = "[site]" if block.name == "site" else f"[[{block.name}]]"
            read.fault(block.line, block.header, right, "Correct the brackets.")
        table = _parsed(block, read)
        if table is None:
            if block.name in PARTS:
                read.parts.setdefault(block.name, [])
        elif not block.name:
            lines, lines_at = _top(block, table, read)
        elif block.name == "site":
            if "site" in seen:
                read.fault(block.line, "a second [site]", "one", "Take one out.")
            read.site, read.site_line = _site(block, table, read), block.line
        elif block.name in PARTS:
            read.parts.setdefault(block.name, [])
            _thing(block, table, read, today)
        else:
            near = nearest(block.name, ("site", *PARTS))
            read.fault(
                block.line,
                f"[[{block.name}]]",
                ", ".join(("site", *PARTS)),
                f"Nearest: {near[0]}." if near else "Take it out.",
            )
        seen.add(block.name)
    if lines:
        told = read.site.get("units", units)
        _lay_out(lines, lines_at, told if told in get_args(Units) else units, read)
    return read


def _blocks(text: str) -> list[_Block]:
    """The file cut at its headers, so that one wrong part does not hide what is wrong in the others."""
    blocks = [_Block("", 0, [])]
    long = ""
    for number, row in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
        found = _HEADER.match(row)
        if found and not long:
            blocks.append(_Block(found[2], number, [], f"{found[1]}{found[2]}{found[3]}"))
        else:
            blocks[-1].rows.append(row)
        for quotes in ('"""', "'''"):
            if long in ("", quotes) and row.count(quotes) % 2:
                long = "" if long else quotes
    return blocks


def _parsed(block: _Block, read: PlanRead) -> dict[str, Any] | None:
    try:
        return tomllib.loads("\n".join(block.rows) + "\n")
    except tomllib.TOMLDecodeError as error:
        found = _AT_LINE.search(str(error))
        line = block.line + (int(found[1]) if found else 1)
        said = _AT_LINE.sub("", str(error)).strip().rstrip(".")
        read.fault(min(line, block.line + len(block.rows)), f"no TOML: {said}", 'key = "text" or key = 1.2',
                   "Correct that line.")  # fmt: skip
        return None


def _top(block: _Block, table: dict[str, Any], read: PlanRead) -> tuple[list[str], int]:
    for key in table:
        if key not in _TOP:
            read.fault(
                block.line_of(key), repr(key), ", ".join(_TOP), "Put it below a [[part]], or take it out."
            )
    if table.get("format", FORMAT) != FORMAT:
        read.fault(
            block.line_of("format"), f"format {table['format']!r}", str(FORMAT), "Use a newer version."
        )
    said = table.get("lay_out", [])
    lines = said.splitlines() if isinstance(said, str) else said
    if not isinstance(lines, list) or not all(isinstance(line, str) for line in lines):
        read.fault(block.line_of("lay_out"), repr(said), "a list of texts", 'Write: lay_out = ["12 beds"].')
        return [], 0
    return lines, block.line_of("lay_out")


def _site(block: _Block, table: dict[str, Any], read: PlanRead) -> dict[str, Any]:
    said: dict[str, Any] = {}
    for key, value in table.items():
        if key not in SITE_FIELDS:
            near = nearest(key, SITE_FIELDS)
            read.fault(
                block.line_of(key),
                repr(key),
                ", ".join(SITE_FIELDS),
                f"Nearest: {near[0]}." if near else "Take it out.",
            )
            continue
        base: dict[str, Any] = {"name": "x", "lat_deg": 0.0, "lon_deg": 0.0, "elevation_m": 0.0}
        try:
            if key == "name" and not isinstance(value, str):
                raise ParameterError(f"The name is {value!r}.", "Write it in quotes.")
            Site(**(base | {key: value}))
        except ParameterError as error:
            read.fault(
                block.line_of(key),
                error.message.rstrip("."),
                error.hint.removeprefix("Allowed: ").rstrip("."),
                "Correct it.",
            )
            continue
        said[key] = value
    return said


def _thing(block: _Block, table: dict[str, Any], read: PlanRead, today: date) -> None:
    kind = PARTS[block.name]
    fields = {each.name: each for each in msgspec.structs.fields(kind)}
    hidden = HIDDEN.get(block.name, frozenset())
    known = {name: each.type for name, each in fields.items() if name not in hidden} | _MORE.get(
        block.name, {}
    )
    before = len(read.faults)
    said: dict[str, Any] = {}
    for key, value in table.items():
        if key not in known:
            near = nearest(key, known)
            read.fault(
                block.line_of(key),
                repr(key),
                ", ".join(known),
                f"Nearest: {near[0]}." if near else "Take it out.",
            )
            continue
        try:
            said[key] = msgspec.convert(value, known[key])
        except msgspec.ValidationError as error:
            read.fault(
                block.line_of(key), f"{key} = {value!r}", _allowed(known[key], str(error)), "Correct it."
            )
    needed = [
        n for n, each in fields.items() if each.required and n in known and n != "planting"
    ] + _NEEDED.get(block.name, [])
    for name in needed:
        if name not in table:
            read.fault(block.line, f"[[{block.name}]] without {name}", "a line for it", f"Add {name} = ...")
    if block.name == "perennial" and ("year" in table) == ("planted" in table):
        read.fault(block.line, "a perennial without its year" if "year" not in table else "year and planted",
                   "year = 2024, or planted = 2024-04-12", "Give one of them.")  # fmt: skip
    if len(read.faults) > before:
        return
    more = {key: said.pop(key) for key in list(said) if key in _MORE.get(block.name, {})}
    planned = _planned(block, kind, said, more)
    entry = Entry(
        key="",
        happened_on=planned.on or today,
        recorded_at=datetime.now(UTC),
        author="keeper",
        act=planned.payload,
        bed=planned.bed or planned.key,
    )
    for question in form_questions(entry, today):
        read.fault(block.line, question.found.rstrip("."), question.why.rstrip("."), "Correct it.")
    if planned.on is not None and planned.on > today:
        line = block.line_of("planted" if "planted" in table else "year")
        read.fault(line, f"{planned.on}", "a day that has been", "Correct it.")
    read.parts[block.name].append(planned)


_KEYED_BY: Final = {"bed": "name", "kit": "item", "seed": "lot", "chore": "chore"}
_NEEDED: Final = {"stood": ["bed"], "perennial": ["bed"]}


def _planned(block: _Block, kind: type[Payload], said: dict[str, Any], more: dict[str, Any]) -> Planned:
    on = more.get("planted")
    if "year" in more and on is None:
        on = date(min(max(more["year"], 1), 9999), 1, 1)
    if kind is PersonSet:
        key = more.get("key") or bed_key(said["name"])
        payload: Payload = PersonSet(person=key, **said)
    elif kind is PlantedOut:
        key = more.get("planting", "")
        payload = PlantedOut(planting=key or "?", perennial=True, only_year="year" in more, **said)
    else:
        payload = kind(**said)
        key = str(more.get("key") or said.get(_KEYED_BY.get(block.name, ""), ""))
        if block.name == "bed" and "key" not in more:
            key = bed_key(key)
    return Planned(part=block.name, key=key, payload=payload, bed=more.get("bed", ""), on=on, line=block.line)


def _lay_out(lines: list[str], at: int, units: Units, read: PlanRead) -> None:
    try:
        laid = lay_out(lines, units=units)
    except InputFileError as error:
        for fault in error.faults:
            read.faults.append(
                (at, Fault(f"line {at}, lay_out {fault.where}", fault.found, fault.allowed, fault.do))
            )
        return
    beds = read.parts.setdefault("bed", [])
    read.took = laid.took
    beds += [Planned(part="bed", key=key, payload=bed, line=at) for key, bed in laid.beds.items()]


def _allowed(kind: Any, message: str) -> str:
    words = [each for each in get_args(kind) if isinstance(each, str)]
    if words:
        return ", ".join(repr(word) for word in words if word)
    return {
        "str": "text in quotes",
        "int": "a whole number",
        "float": "a number",
        "bool": "true or false",
    }.get(getattr(kind, "__name__", ""), message.partition(",")[2].strip().partition(" - ")[0] or message)
