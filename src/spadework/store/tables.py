"""What the garden holds, as plain tables: the same ones for CSV files and for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from spadework.garden.entries import Entry, Lifted, Picked
from spadework.garden.locks import Lock
from spadework.garden.resolve import standing
from spadework.garden.state import Garden

Cell: TypeAlias = str | int | float | bool | date | None


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its title in small letters, the unit of its numbers, and whether only programs need it."""

    title: str
    unit: str = ""
    inner: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under titles.

    Parameters
    ----------
    name : str
    columns : tuple of Column
    rows : tuple of tuple of Cell
        One cell for each column; numbers in its unit.
    """

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


def csv_text(table: Table) -> str:
    """A table as CSV: UTF-8, commas, one line of titles with their units, ISO dates, true and false."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([column_name(column) for column in table.columns])
    for row in table.rows:
        writer.writerow([_plain(cell) for cell in row])
    return out.getvalue()


def column_name(column: Column) -> str:
    """A title as programs like it: "width_m"."""
    unit = column.unit.replace("/", "_")
    return f"{column.title.replace(' ', '_')}{'_' if unit else ''}{unit}"


def _plain(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    if isinstance(cell, float):
        return repr(cell)
    return cell.isoformat() if isinstance(cell, date) else str(cell)


def _columns(titles: str) -> tuple[Column, ...]:
    """Columns from "width [m], !key": a unit in brackets, ! before what only programs need."""
    found = []
    for written in titles.split(", "):
        title, _, unit = written.removeprefix("!").partition(" [")
        found.append(Column(title, unit.removesuffix("]"), written.startswith("!")))
    return tuple(found)


# -- the tables; `called` gives a crop's name by its key -------------------------------------------------


def locks_table(garden: Garden, day: date) -> Table:
    """Every lock there ever was, those in force first."""
    columns = _columns(
        "in force, stops, on, name, until, off soil until, test, why, set on, may lift, lifted on, "
        "lifted by, lifted why, undone by, lock, !key, !rule, !source, !entry"
    )
    ordered = sorted(garden.locks, key=lambda lock: (not lock.in_force(day), lock.set_on, lock.lock))
    rows = tuple(
        (
            lock.in_force(day),
            lock.stops,
            lock.on,
            _subject(garden, lock),
            lock.until,
            lock.off_soil_until,
            lock.test,
            lock.why,
            lock.set_on,
            lock.may_lift,
            lock.lifted_on,
            lock.lifted_by,
            lock.lifted_why,
            lock.entry_undone_by,
            lock.lock,
            lock.subject,
            lock.rule,
            lock.source,
            lock.entry,
        )
        for lock in ordered
    )
    return Table("locks", columns, rows)


def lock_words(locks: Iterable[Lock]) -> str:
    """Locks in a cell: "no picking until 2026-09-17 (raw manure)"."""
    said = []
    for lock in locks:
        until = f" until {lock.until.isoformat()}" if lock.until else ""
        test = f" until tested: {lock.test}" if lock.test and not lock.until else ""
        said.append(f"no {lock.stops}{until or test or ' until lifted'} ({lock.why})")
    return "; ".join(dict.fromkeys(said))


def beds_table(garden: Garden, day: date, called: Callable[[str], str] = str) -> Table:
    """Beds, those taken up at the end."""
    columns = _columns(
        "locked, !bed, name, shape, round, x [m], y [m], width [m], length [m], turn [deg], height [m], "
        "depth [m], area [m2], soil, mulch, inside, shaded by, water by, emitters, emitter flow [l/h], "
        "rated flow [l/min], measured flow [l/min], allowance [l/week], made on, gone on, gone why, "
        "growing now"
    )
    rows = []
    for bed in sorted(garden.beds.values(), key=lambda bed: bed.gone_on is not None):
        out = bed.outline
        place = (None,) * 5 if out is None else (out.x_m, out.y_m, out.width_m, out.length_m, out.turn_deg)
        growing = [f"{called(each.crop)} {each.variety}".strip() for each in garden.standing(bed=bed.key)]
        rows.append(
            (
                lock_words(garden.locks_on(day, bed=bed.key)),
                bed.key,
                bed.name,
                bed.shape,
                bed.is_round,
                *place,
                bed.height_m,
                bed.depth_m,
                bed.area_m2,
                bed.soil,
                bed.mulch,
                bed.inside,
                ", ".join(bed.shaded_by),
                bed.water_by,
                bed.emitters,
                bed.emitter_l_h,
                bed.rated_l_min,
                bed.measured_l_min,
                bed.week_allowance_l,
                bed.made_on,
                bed.gone_on,
                bed.gone_why,
                ", ".join(growing),
            )
        )
    return Table("beds", columns, tuple(rows))


def plantings_table(garden: Garden, day: date, called: Callable[[str], str] = str) -> Table:
    """All plantings, by the day they started."""
    columns = _columns(
        "locked, planting, crop, variety, traits, method, perennial, !bed, bed name, tray, lot, "
        "from planting, started on, sown on, set out on, rows, row [cm], spacing [cm], depth [mm], "
        "area [m2], seeds, planted, plants, plants by, up on, ready on, height [cm], first picked on, "
        "last picked on, picked [kg], picked pieces, lifted [kg], lifted pieces, lost plants, "
        "minutes, ended on, ended how, ended why, !insisted"
    )
    rows = []
    for one in sorted(garden.plantings.values(), key=lambda one: (one.started_on, one.key)):
        bed = garden.beds.get(one.bed)
        rows.append(
            (
                lock_words(garden.locks_on(day, planting=one.key)),
                one.key,
                called(one.crop),
                one.variety,
                ", ".join(one.traits),
                one.method,
                one.perennial,
                one.bed,
                one.bed if bed is None else bed.name,
                one.tray,
                one.lot,
                one.from_planting,
                one.started_on,
                one.sown_on,
                one.set_out_on,
                one.rows,
                one.row_cm,
                one.spacing_cm,
                one.depth_mm,
                one.area_m2,
                one.seeds,
                one.planted,
                one.plants.number,
                one.plants.basis,
                one.stages.get("up"),
                one.stages.get("ready"),
                one.height_cm,
                one.first_picked_on,
                one.last_picked_on,
                _even(one.picked_kg),
                one.picked_pieces,
                _even(one.lifted_kg),
                one.lifted_pieces,
                one.lost_plants,
                one.minutes,
                one.ended_on,
                one.ended_how,
                one.ended_why,
                one.insisted,
            )
        )
    return Table("plantings", columns, tuple(rows))


def kit_table(garden: Garden) -> Table:
    """Kit owned, and where it is."""
    columns = _columns(
        "item, sort, length [m], width [m], pieces, grade, kept, free [m], free pieces, placed"
    )
    rows = tuple(
        (
            item.item,
            item.sort,
            item.length_m,
            item.width_m,
            item.pieces,
            item.grade,
            item.kept,
            None if item.free_m is None else _even(item.free_m),
            item.free_pieces,
            ", ".join(dict.fromkeys(_bed_name(garden, each.bed) for each in item.placed)),
        )
        for item in garden.kit.values()
    )
    return Table("kit", columns, rows)


def tin_table(garden: Garden, called: Callable[[str], str] = str) -> Table:
    """Seed in the tin."""
    columns = _columns(
        "lot, crop, variety, year, seeds, weight [g], sown since, left, sprouted, tested, tested on, traits"
    )
    rows = tuple(
        (
            lot.lot,
            called(lot.crop),
            lot.variety,
            lot.year,
            lot.seeds,
            lot.grams,
            lot.sown,
            lot.left(),
            None if lot.germination is None else lot.germination.sprouted,
            None if lot.germination is None else lot.germination.tested,
            lot.tested_on,
            ", ".join(lot.traits),
        )
        for lot in garden.tin.values()
    )
    return Table("tin", columns, rows)


def people_table(garden: Garden) -> Table:
    """People, and what they may."""
    columns = _columns("person, name, role, can, not for")
    rows = tuple(
        (p.key, p.name, p.role, ", ".join(p.can), ", ".join(p.not_for)) for p in garden.people.values()
    )
    return Table("people", columns, rows)


def chores_table(garden: Garden) -> Table:
    """People's own chores."""
    columns = _columns(
        "chore, minutes, person, bed, every [days], first, last, set on, done on, put off on, next on"
    )
    rows = tuple(
        (
            one.chore,
            one.minutes,
            one.person,
            one.bed,
            one.every_days,
            one.first,
            one.last,
            one.set_on,
            one.done_on,
            one.put_off_on,
            one.next_on,
        )
        for one in garden.chores.values()
    )
    return Table("chores", columns, rows)


def harvest_table(garden: Garden, called: Callable[[str], str] = str) -> Table:
    """What was picked and lifted, by calendar year, crop and variety."""
    columns = _columns("year, crop, variety, harvest [kg], pieces, first on, last on, times")
    sums: dict[tuple[int, str, str], list[Entry]] = {}
    for entry in garden.entries:
        if isinstance(entry.act, (Picked, Lifted)):
            planting = garden.plantings.get(entry.planting)
            crop, variety = ("", "") if planting is None else (planting.crop, planting.variety)
            sums.setdefault((entry.happened_on.year, crop, variety), []).append(entry)
    rows = []
    for (year, crop, variety), entries in sorted(sums.items(), key=lambda item: (-item[0][0], item[0][1:])):
        acts = [entry.act for entry in entries if isinstance(entry.act, (Picked, Lifted))]
        days = [entry.happened_on for entry in entries]
        kg, pieces = [act.kg for act in acts if act.kg], [act.pieces for act in acts if act.pieces]
        rows.append(
            (
                year,
                called(crop) if crop else "not known",
                variety,
                _even(sum(kg)) if kg else None,
                sum(pieces) if pieces else None,
                min(days),
                max(days),
                len(entries),
            )
        )
    return Table("harvest", columns, tuple(rows))


def book_table(entries: Iterable[Entry], garden: Garden, sentence: Callable[[Entry], str]) -> Table:
    """Every entry in words, in order of arrival, with those undone marked."""
    columns = _columns("happened on, what, bed, planting, by, undone, key")
    told = list(entries)
    undone = {entry.key for entry, _ in standing(told).undone}
    rows = tuple(
        (
            entry.happened_on,
            sentence(entry),
            _bed_name(garden, entry.bed),
            entry.planting,
            entry.author,
            "undone" if entry.key in undone else "",
            entry.key,
        )
        for entry in told
    )
    return Table("book", columns, rows)


def _even(total: float) -> float:
    """A sum without the dust of its last binary digits."""
    return round(total, 6)


def _subject(garden: Garden, lock: Lock) -> str:
    if not lock.subject:
        return "everywhere"
    return _bed_name(garden, lock.subject) if lock.on == "bed" else lock.subject


def _bed_name(garden: Garden, key: str) -> str:
    return garden.beds[key].name if key in garden.beds else key
