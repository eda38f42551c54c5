"""Take in a list of beds from a spreadsheet or a CSV file."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any, Final, Literal

import msgspec

from spadework.errors import InputFileError, UnknownName
from spadework.garden.entries import BedSet
from spadework.garden.lay_out_group import NOUNS
from spadework.garden.lay_out_place import box_of
from spadework.garden.lay_out_plot import PATH_M, bed_key, outline_of
from spadework.garden.lookup import nearest, plain
from spadework.garden.records import Bed
from spadework.garden.site import Units
from spadework.garden.state import Garden
from spadework.science.root_soils import root_soil
from spadework.store.garden_folder import open_garden
from spadework.store.sheet_read import read_grid
from spadework.usecases.carry_lists import ListTaken, write_list
from spadework.usecases.keep_book import Act, open_state
from spadework.usecases.list_cells import Listed, Reader, listed

MEANINGS: Final[dict[str, tuple[str, ...]]] = {
    "name": ("bed", "bed name", "beds", "called", "plot"),
    "width": ("wide", "across", "breadth"),
    "length": ("long", "along"),
    "x": ("east", "from west", "from left"),
    "y": ("north", "from south", "from bottom"),
    "turn": ("turned", "angle", "rotation"),
    "height": ("high", "side height"),
    "depth": ("deep", "soil depth"),
    "soil": ("ground", "earth", "soil type", "filled with"),
    "mulch": ("mulched with",),
    "shape": ("kind", "kind of bed", "type"),
    "round": ("is round",),
    "inside": ("in", "under", "inside of"),
}
"""Columns by what they mean; the usual words for each. Others are left alone."""

_SIZES: Final = ("x", "y", "width", "length", "height", "depth")
_SHAPES: Final = {
    **{noun: shape for noun, (shape, _) in NOUNS.items() if noun not in ("sack", "bag")},
    "framed": "framed", "framed bed": "framed", "raised": "framed", "raised bed": "framed",
    "ground": "ground", "in the ground": "ground", "open ground": "ground", "ground bed": "ground",
    "sack": "sack", "bag": "sack",
    "grow bag": "sack", "cold frame": "frame",
}  # fmt: skip
_YES: Final = {"yes": True, "y": True, "true": True, "1": True, "x": True, "round": True}
_NO: Final = {"no": False, "n": False, "false": False, "0": False, "square": False}
_IN_A_ROW: Final = 6
_EQUAL_M: Final = 1e-6


def carry_beds(
    file: Path,
    garden: Path,
    today: date,
    *,
    units: Literal["", "m", "cm", "mm", "ft", "in"] = "",
    sheet: str = "",
    by: str = "",
    insist: bool = False,
    trial: bool = False,
) -> ListTaken:
    """Take in a list of beds: new ones are made, those of the same name described anew, all or none.

    Parameters
    ----------
    file : Path
        .xlsx or CSV with a row of titles.
    garden : Path
    today : date
    units : str
        Of lengths where neither title nor cell names one.
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
    table = listed(read_grid(file, sheet, ("beds", "bed list")), MEANINGS, ("name",))
    state = open_state(folder)
    found = _Beds(table, units, state.garden)
    for row in table.rows():
        found.read(row)
    if found.reader.faults:
        raise InputFileError(table.grid.name, found.reader.faults)
    notes = found.lay_out(folder.site.units)
    acts = [(row, Act(payload=bed, on=today, bed=key)) for key, (row, bed) in found.beds.items()]
    acts = [(row, act) for row, act in acts if not _is_same(state.garden.beds.get(act.bed), act.payload)]
    stored, asked = write_list(folder, state, acts, today=today, by=by, insist=insist, trial=trial)
    if table.not_used:
        notes.append(f"Columns not used: {', '.join(table.not_used)}.")
    new = sum(1 for _, act in acts if not _described(state.garden, act.bed))
    return ListTaken(
        file=table.grid.name,
        what="beds",
        stored=stored,
        trial=trial,
        rows=len(found.beds),
        new=new,
        changed=len(acts) - new,
        known=len(found.beds) - len(acts),
        notes=notes,
        questions=asked,
    )


class _Beds:
    """The beds of a list while it is read, by key, each with its row."""

    def __init__(self, table: Listed, unit: str, garden: Garden) -> None:
        self.table = table
        self.reader = Reader(table, unit)
        self.garden = garden
        self.beds: dict[str, tuple[int, BedSet]] = {}
        self.without_place: list[str] = []
        self._row_of: dict[str, int] = {}
        self._own_names = {
            plain(str(table.grid.at(row, table.titles["name"].column))) for row in table.rows()
        }

    def read(self, row: int) -> None:
        """Read one row."""
        name = self.reader.text(row, "name")
        if not name:
            self._fault(row, "name", "nothing", "the bed's name", "Fill it in, or clear the row.")
            return
        key = self._key(name)
        count = len(self.reader.faults)
        before = self._row_of.setdefault(key, row)
        if before != row:
            self._fault(row, "name", repr(name), "each bed once", f"Row {before + 1} has it already.")
        told = _told(self.garden.beds.get(key))
        said = {field: self._size(row, field) for field in _SIZES}
        made: dict[str, Any] = {f"{field}_m": value for field, value in said.items() if value is not None}
        if (said["x"] is None) != (said["y"] is None):
            field = "x" if said["x"] is None else "y"
            if self.table.value(row, field) is None:
                self._fault(row, field, "nothing", "x and y together, or neither", "Fill it in.")
        turn = self.reader.number(row, "turn", "degrees, anticlockwise")
        made |= {} if turn is None else {"turn_deg": turn}
        made |= self._words(row)
        if told is None:
            for field in ("width", "length"):
                if said[field] is None and self.table.value(row, field) is None:
                    self._fault(row, field, "nothing", f"the {field} of a new bed", "Fill it in.")
        if len(self.reader.faults) > count:
            return
        made["name"] = name
        bed = BedSet(**made) if told is None else msgspec.structs.replace(told, **made)
        if bed.is_round and abs(bed.width_m - bed.length_m) > _EQUAL_M:
            self._fault(row, "round", "yes", "a round bed as wide as it is long", "Correct its size.")
        if told is None and said["x"] is None and not bed.inside:
            self.without_place.append(key)
        self.beds[key] = (row, bed)

    def _size(self, row: int, field: str) -> float | None:
        value = self.reader.length_m(row, field) if field in self.table.titles else None
        if (
            value is not None
            and field not in ("x", "y")
            and (value < 0 or (value == 0 and field != "height"))
        ):
            self._fault(row, field, f"{self.table.value(row, field)}", "above zero", "Correct the cell.")
            return None
        return value

    def _words(self, row: int) -> dict[str, Any]:
        made: dict[str, Any] = {}
        if soil := self.reader.text(row, "soil"):
            try:
                root_soil(soil)
                made["soil"] = soil.casefold()
            except UnknownName as error:
                self._fault(
                    row, "soil", repr(soil), error.hint.removeprefix("Known: ").rstrip("."), "Name one."
                )
        if shape := self.reader.text(row, "shape"):
            if plain(shape) in _SHAPES:
                made["shape"] = _SHAPES[plain(shape)]
            else:
                allowed = ", ".join(sorted(set(_SHAPES.values())))
                self._fault(row, "shape", repr(shape), allowed, _near(shape, _SHAPES))
        if said := self.reader.text(row, "round"):
            if plain(said) in _YES | _NO:
                made["is_round"] = (_YES | _NO)[plain(said)]
            else:
                self._fault(row, "round", repr(said), "yes or no", "Correct the cell.")
        if mulch := self.reader.text(row, "mulch"):
            made["mulch"] = mulch
        if inside := self.reader.text(row, "inside"):
            key = self._key(inside)
            if key in self.garden.beds or plain(inside) in self._own_names:
                made["inside"] = key
            else:
                names = [bed.name for bed in self.garden.beds.values()]
                self._fault(row, "inside", repr(inside), "a tunnel or frame", _near(inside, names))
        return made

    def _key(self, name: str) -> str:
        """Key of a bed of this name: that of one there is, or a new one."""
        for key, bed in self.garden.beds.items():
            if plain(name) in (plain(bed.name), plain(key)):
                return key
        return bed_key(name) or name

    def _fault(self, row: int, field: str, found: str, allowed: str, do: str) -> None:
        self.reader.fault(row, field, found, allowed, do)

    def lay_out(self, units: Units) -> list[str]:
        """Lay new beds of which no place was said in rows south of all others; says so."""
        if not self.without_place:
            return []
        path_m = PATH_M[units]
        there = [_told(bed) for bed in self.garden.beds.values() if bed.gone_on is None]
        placed = [bed for key, (_, bed) in self.beds.items() if key not in self.without_place]
        outlines = [outline_of(bed) for bed in (*there, *placed) if bed is not None]
        box = box_of(outlines) if outlines else None
        west_m, y_m = (0.0, 0.0) if box is None else (box.west, box.south)
        for start in range(0, len(self.without_place), _IN_A_ROW):
            keys = self.without_place[start : start + _IN_A_ROW]
            y_m -= max(self.beds[key][1].length_m for key in keys) + path_m
            x_m = west_m
            for key in keys:
                row, bed = self.beds[key]
                self.beds[key] = (row, msgspec.structs.replace(bed, x_m=x_m, y_m=round(y_m, 3), turn_deg=0.0))
                x_m = round(x_m + bed.width_m + path_m, 3)
        count = len(self.without_place)
        return [
            f"{count} new {'bed has' if count == 1 else 'beds have'} no x and y: laid out in rows of"
            f" {_IN_A_ROW}, with paths between. Give their places later."
        ]


def _told(bed: Bed | None) -> BedSet | None:
    """A bed as it was last described; None where nobody did."""
    if bed is None or not bed.described:
        return None
    last = [entry.act for entry in bed.history if isinstance(entry.act, BedSet)]
    return last[-1] if last else None


def _described(garden: Garden, key: str) -> bool:
    return key in garden.beds and garden.beds[key].described


def _is_same(bed: Bed | None, said: object) -> bool:
    """Whether a bed is there already as the list has it, but for rounding."""
    told = _told(bed)
    if told is None or bed is None or bed.gone_on is not None or not isinstance(said, BedSet):
        return False
    return all(
        abs(own - new) <= _EQUAL_M
        if isinstance(own, float) and isinstance(new, float)
        else own == new or (name == "name" and plain(str(own)) == plain(str(new)))
        for name in BedSet.__struct_fields__
        for own, new in [(getattr(told, name), getattr(said, name))]
    )


def _near(name: str, known: Mapping[str, object] | list[str]) -> str:
    near = nearest(name, known)
    return f"Nearest: {', '.join(near)}." if near else "Correct the cell."
