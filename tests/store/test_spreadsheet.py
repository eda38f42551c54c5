"""The spreadsheet: read back by its own library and by another reader."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from full_garden import full_garden
from garden_book import Pen
from said import say
from spadework.garden.entries import BedSet, Locked, Note, Picked, Sown, Watered
from spadework.garden.site import Site
from spadework.store.garden_folder import create

DAY = "2026-05-21"


def sheets(path: Path) -> dict[str, list[list[Any]]]:
    from openpyxl import load_workbook

    book = load_workbook(path)
    return {sheet.title: [list(row) for row in sheet.iter_rows(values_only=True)] for sheet in book}


def plot(path: Path, units: str) -> Path:
    folder = create(path, Site("Plot", 44.0, -73.0, 100.0, units=units, words="american"))  # type: ignore[arg-type]
    pen = Pen(first=date(2026, 5, 1))
    pen(
        BedSet(
            name="=1+1", width_m=1.2192, length_m=2.4384, flow_l_min=3.785411784, week_allowance_l=37.85411784
        ),
        bed="b",
    )
    pen(Sown(planting="p", crop="beet", row_cm=25.4, depth_mm=12.7), bed="b", planting="p")
    pen(Watered(litres=10.0), bed="b")
    pen(Picked(kg=0.90718474, pieces=5), day=19, planting="p", bed="b")
    pen(Note(text='=HYPERLINK("x") \u0007 bell'), bed="b")
    pen(Locked(lock="l", on="bed", why="sprayed", until=date(2026, 6, 1)), bed="b")
    with folder.open_book() as book:
        book.append(pen.written)
    return path


def test_locks_come_first_and_in_force_ones_first_of_them(tmp_path: Path) -> None:
    garden = full_garden(tmp_path / "g").path
    said = say("export", str(tmp_path / "o.xlsx"), "--garden", str(garden), "--today", DAY)
    assert said.code == 0, said.err
    assert said.out.startswith("! LOCK")
    found = sheets(tmp_path / "o.xlsx")
    assert list(found) == [
        "Locks", "Beds", "Plantings", "Harvest", "Kit", "Tin", "People", "Chores", "Book",
    ]  # fmt: skip
    in_force = [row[0] for row in found["Locks"][1:]]
    assert in_force == sorted(in_force, reverse=True)
    assert in_force[0] == "yes"
    assert found["Beds"][0][0] == found["Plantings"][0][0] == "Locked"
    assert len(found["Book"]) > 150


@pytest.mark.parametrize(
    ("units", "width", "wide", "row", "depth", "flow", "weight"),
    [
        ("metric", "Width (m)", 1.2192, 25.4, 12.7, 3.785411784, ("Harvest (kg)", 0.90718474)),
        ("us", "Width (ft)", 4.0, 10.0, 0.5, 1.0, ("Harvest (lb)", 2.0)),
    ],
)
def test_numbers_are_in_the_garden_s_units_with_the_unit_in_the_title(
    tmp_path: Path,
    units: str,
    width: str,
    wide: float,
    row: float,
    depth: float,
    flow: float,
    weight: tuple[str, float],
) -> None:
    garden = plot(tmp_path / "g", units)
    assert say("export", str(tmp_path / "o.xlsx"), "--garden", str(garden), "--today", DAY).code == 0
    found = {
        name: [dict(zip(rows[0], one, strict=True)) for one in rows[1:]]
        for name, rows in sheets(tmp_path / "o.xlsx").items()
    }
    short = "ft" if units == "us" else "m"
    assert found["Beds"][0][width] == pytest.approx(wide)
    assert found["Beds"][0][f"Length ({short})"] == pytest.approx(wide * 2)
    flows = "gal/min" if units == "us" else "l/min"
    assert found["Beds"][0][f"Rated flow ({flows})"] == pytest.approx(flow)
    weeks = "gal/week" if units == "us" else "l/week"
    assert found["Beds"][0][f"Allowance ({weeks})"] == pytest.approx(flow * 10)
    planting = found["Plantings"][0]
    assert planting["Row (in)" if units == "us" else "Row (cm)"] == pytest.approx(row)
    assert planting["Depth (in)" if units == "us" else "Depth (mm)"] == pytest.approx(depth)
    assert planting["Crop"] == "beet"
    assert planting["Sown on"] == datetime(2026, 5, 1)
    assert found["Harvest"][0][weight[0]] == pytest.approx(weight[1])
    assert ("10 in between" in found["Book"][1]["What"]) == (units == "us")


def test_text_stays_text(tmp_path: Path) -> None:
    from openpyxl import load_workbook

    garden = plot(tmp_path / "g", "metric")
    say("export", str(tmp_path / "o.xlsx"), "--garden", str(garden), "--today", DAY)
    book = load_workbook(tmp_path / "o.xlsx")
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert not any(cell.data_type == "f" for cell in cells)
    odd = [cell for cell in cells if str(cell.value).startswith("=")]
    assert odd
    assert all(cell.data_type == "s" and cell.quotePrefix for cell in odd)
    assert any("bell" in str(cell.value) and "\u0007" not in str(cell.value) for cell in cells)


def test_another_reader_reads_it(tmp_path: Path) -> None:
    import pandas as pd

    garden = full_garden(tmp_path / "g").path
    say("export", str(tmp_path / "o.xlsx"), "--garden", str(garden), "--today", DAY)
    found = pd.read_excel(tmp_path / "o.xlsx", sheet_name=None)
    assert str(found["Plantings"]["Started on"].dtype).startswith("datetime64")
    assert found["Beds"]["Width (m)"].dtype == float
    assert "=1+1" in set(found["Beds"]["Name"])


def test_it_never_overwrites_and_says_what_it_can_write(tmp_path: Path) -> None:
    garden = plot(tmp_path / "g", "metric")
    (tmp_path / "o.xlsx").write_text("mine")
    said = say("export", str(tmp_path / "o.xlsx"), "--garden", str(garden))
    assert said.code == 2
    assert (tmp_path / "o.xlsx").read_text() == "mine"
    said = say("export", str(tmp_path / "o.pdf"), "--garden", str(garden))
    assert said.code == 2
    assert ".zip" in said.err
    assert ".xlsx" in said.err
