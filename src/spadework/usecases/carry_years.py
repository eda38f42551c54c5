"""Take in what stood where in past years, from a spreadsheet or a CSV file."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from spadework.crops.names import find_whole
from spadework.errors import InputFileError, UnknownName
from spadework.garden.entries import Ended, Note, Payload, Picked, PlantedOut, Sown, Stood
from spadework.garden.state import Garden
from spadework.store.garden_folder import open_garden
from spadework.store.sheet_read import read_grid
from spadework.usecases.carry_lists import ListTaken, write_list
from spadework.usecases.keep_book import Act, new_planting_key, open_state
from spadework.usecases.list_cells import Listed, Reader, listed

MEANINGS: Final[dict[str, tuple[str, ...]]] = {
    "year": ("season", "in year"),
    "bed": ("bed name", "plot", "where", "place", "grown in"),
    "crop": ("plant", "vegetable", "what", "grown", "crops"),
    "variety": ("cultivar", "sort", "variety name"),
    "sown": ("sown on", "sowing date", "date sown", "sowing", "seeded", "planted", "planted on"),
    "set out": ("set out on", "planted out", "planted out on", "transplanted", "transplanted on"),
    "picked": ("picked on", "last picked", "last picked on", "harvested", "harvested on", "harvest date",
               "lifted", "cleared"),
    "kg": ("weight", "harvest", "yield", "amount", "crop weight", "picked weight", "lb", "lbs", "pounds",
           "oz"),
    "note": ("notes", "remark", "remarks", "comment", "comments"),
}  # fmt: skip
"""Columns by what they mean; the usual words for each. Others are left alone."""

_STAY_ON: Final = frozenset({"artichoke", "asparagus", "rhubarb", "strawberry"})
"""Crops that stay in their bed over years and are not cleared after picking. Class: common-practice."""

_ONLY_AS_ENTRIES: Final = ("variety", "kg", "note")


@dataclass(frozen=True, kw_only=True)
class _Row:
    """One row that can be read."""

    row: int
    year: int
    bed: str
    crop: str
    variety: str
    method: str
    sown: date | None
    set_out: date | None
    picked: date | None
    kg: float | None
    note: str

    @property
    def start(self) -> date | None:
        """Sown, or else set out."""
        return self.sown or self.set_out


def carry_years(
    file: Path,
    garden: Path,
    today: date,
    *,
    as_entries: bool = False,
    sheet: str = "",
    by: str = "",
    insist: bool = False,
    trial: bool = False,
) -> ListTaken:
    """Take in past years, all or none: which crop stood in which bed, or with their dates as entries.

    Parameters
    ----------
    file : Path
        .xlsx or CSV with a row of titles.
    garden : Path
    today : date
        Only years before it.
    as_entries : bool
        Rows that say when the crop was sown or set out, and when it was picked for the last time, become
        plantings with their harvest, in place of what was told before of what stood; the others say only
        what stood.
    sheet : str
    by : str
        Who writes.
    insist : bool
        Write although something was asked.
    trial : bool
        Only say what would be written.

    Raises
    ------
    InputFileError
        With everything that is wrong, by cell.
    GardenError, StoreError
    """
    folder = open_garden(garden)
    table = listed(read_grid(file, sheet, ("years", "past years")), MEANINGS, ("bed", "crop"))
    state = open_state(folder)
    reader = Reader(table, us=folder.site.units == "us")
    rows = [read for row in table.rows() if (read := _read(reader, row, state.garden, today)) is not None]
    if reader.faults:
        raise InputFileError(table.grid.name, reader.faults)
    acts: list[tuple[int, Act]] = []
    there = _there(state.garden)
    before = _stood(state.garden)
    new, changed, bare, taken = 0, 0, 0, list[str]()
    for one in rows:
        perennial = one.crop in _STAY_ON
        whole = as_entries and one.start is not None and (one.picked is not None or perennial)
        mark = (one.bed, one.crop, one.start if whole and one.start else one.year)
        if mark in there:
            continue
        there.add(mark)
        if not whole:
            new += 1
            bare += any((one.variety, one.kg, one.note))
            stood = Stood(crop=one.crop, year=one.year)
            acts.append((one.row, Act(payload=stood, on=date(one.year, 12, 31), bed=one.bed)))
            continue
        assert one.start is not None
        there.add((one.bed, one.crop, one.year))
        only_stood = before.pop((one.bed, one.crop, one.year), [])
        new, changed = (new, changed + 1) if only_stood else (new + 1, changed)
        acts += [(one.row, Act(payload=None, on=today, bed=one.bed, withdraws=each)) for each in only_stood]
        key = new_planting_key(state.garden, one.crop, one.start, taken)
        taken.append(key)
        acts += [(one.row, act) for act in _acts(one, key, perennial)]
    stored, asked = write_list(folder, state, acts, today=today, by=by, insist=insist, trial=trial)
    return ListTaken(
        file=table.grid.name,
        what="years",
        stored=stored,
        trial=trial,
        rows=len(rows),
        new=new,
        changed=changed,
        known=len(rows) - new - changed,
        notes=_notes(table, bare, as_entries),
        questions=asked,
    )


def _notes(table: Listed, bare: int, as_entries: bool) -> list[str]:
    notes = []
    if bare:
        what = ", ".join(field for field in _ONLY_AS_ENTRIES if field in table.titles)
        rows = f"{bare} {'row' if bare == 1 else 'rows'}"
        notes.append(
            f"Of {rows} without both days only what stood is taken; {what} are not."
            if as_entries
            else f"Of {rows} only what stood is taken; {what} are not. With --as-entries, rows that have the"
            " days of sowing and last picking are taken whole."
        )
    if table.not_used:
        notes.append(f"Columns not used: {', '.join(table.not_used)}.")
    return notes


def _stood(garden: Garden) -> dict[tuple[str, str, int], list[str]]:
    """Keys of entries that say only what stood, by bed, crop and year."""
    found: dict[tuple[str, str, int], list[str]] = {}
    for entry in garden.entries:
        if isinstance(entry.act, Stood):
            found.setdefault((entry.bed, entry.act.crop, entry.act.year), []).append(entry.key)
    return found


def _there(garden: Garden) -> set[tuple[str, str, date | int]]:
    """Beds with crops and the years they stood, or the days they were started."""
    found: set[tuple[str, str, date | int]] = set()
    for key in garden.beds:
        found |= {(key, before.crop, before.year) for before in garden.before(key)}
    for planting in garden.plantings.values():
        for stay in planting.stays:
            days = (planting.started_on, planting.sown_on, planting.set_out_on)
            found |= {(stay.bed, planting.crop, day) for day in days if day is not None}
    return found


def _read(reader: Reader, row: int, garden: Garden, today: date) -> _Row | None:
    """One row; None where something in it cannot be read, which the reader keeps."""
    count = len(reader.faults)
    year = _year(reader, row, today)
    near = (year, year - 1) if year else ()
    sown = reader.day(row, "sown", near)
    set_out = reader.day(row, "set out", near)
    start = sown or set_out
    year = year or (start.year if start else None)
    picked = reader.day(row, "picked", (year, year + 1) if year else ())
    year = year or (picked.year if picked else None)
    if year is None and len(reader.faults) == count:
        reader.fault(row, "year", "nothing", "the year it stood", "Fill it in.")
    for field, one, other in (("set out", sown, set_out), ("picked", set_out or sown, picked)):
        if one is not None and other is not None and other < one:
            reader.fault(row, field, other.isoformat(), f"a day from {one.isoformat()} on", "Correct a day.")
    for field, day in (("sown", sown), ("set out", set_out), ("picked", picked)):
        if day is not None and day > today:
            reader.fault(row, field, day.isoformat(), "a day that is past", "Correct it.")
    bed, (crop, variety, method) = _bed(reader, row, garden), _crop(reader, row)
    kg = reader.weight_kg(row, "kg")
    if len(reader.faults) > count or year is None:
        return None
    if year >= today.year:
        reader.fault(
            row, "year", str(year), f"a year before {today.year}", "What stands now goes into the book."
        )
        return None
    return _Row(
        row=row,
        year=year,
        bed=bed,
        crop=crop,
        variety=reader.text(row, "variety") or variety,
        method=method,
        sown=sown,
        set_out=set_out,
        picked=picked,
        kg=kg,
        note=reader.text(row, "note"),
    )


def _year(reader: Reader, row: int, today: date) -> int | None:
    allowed = f"a year from 1900 to {today.year - 1}"
    value = reader.table.value(row, "year")
    if isinstance(value, date):
        return value.year
    number = reader.number(row, "year", allowed)
    if number is None:
        return None
    if number != int(number) or not 1900 <= number <= today.year + 1:
        reader.fault(row, "year", f"{number:g}", allowed, "Correct it.")
        return None
    return int(number)


def _bed(reader: Reader, row: int, garden: Garden) -> str:
    name = reader.text(row, "bed")
    if not name:
        reader.fault(row, "bed", "nothing", "the bed's name", "Fill it in, or clear the row.")
        return ""
    try:
        return garden.bed(name).key
    except UnknownName as error:
        reader.fault(row, "bed", repr(name), "a bed of the garden", error.hint)
        return ""


def _crop(reader: Reader, row: int) -> tuple[str, str, str]:
    """Crop by key, the variety and the method its name tells."""
    name = reader.text(row, "crop")
    if not name:
        reader.fault(row, "crop", "nothing", "the crop's name", "Fill it in, or clear the row.")
        return "", "", ""
    try:
        crop, variety, method = find_whole(name)
    except UnknownName as error:
        reader.fault(row, "crop", repr(name), "a crop that has a sheet", error.hint)
        return "", "", ""
    return crop, variety or "", method or ""


def _acts(one: _Row, key: str, perennial: bool) -> list[Act]:
    """A row as entries: sown or set out, picked for the last time and cleared, and what was noted."""
    acts: list[tuple[Payload, date]] = []
    if one.sown is not None:
        acts.append((Sown(planting=key, crop=one.crop, variety=one.variety, method=one.method,
                          perennial=perennial), one.sown))  # fmt: skip
    if one.set_out is not None:
        acts.append((PlantedOut(planting=key, crop=one.crop, variety=one.variety, perennial=perennial),
                     one.set_out))  # fmt: skip
    if one.picked is not None:
        acts.append((Picked(kg=one.kg, last=True), one.picked))
        if not perennial:
            acts.append((Ended(how="cleared", why="from a list of past years"), one.picked))
    if one.note:
        acts.append((Note(text=one.note), one.picked or acts[0][1]))
    return [Act(payload=payload, on=day, bed=one.bed, planting=key) for payload, day in acts]
