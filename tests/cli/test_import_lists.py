"""Lists of beds and of past years from a spreadsheet or a CSV file; every list here is invented."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from said import Said, say
from spadework.garden.entries import BedSet, Picked, Sown, Stood
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.store.garden_folder import create, open_garden
from spadework.usecases.keep_book import garden_state

BEDS = """\
Our beds,,,,,
Bed name,Width (cm),Length in m,Soil,Colour,Shape
Bed A,120,2.4,sandy loam,red,raised bed
Bed B,120,"3,5",clay,red,
Tub 1,50,0.5,potting mix,blue,tub
"""
YEARS = """\
Year;Bed;Crop;Variety;Sown;Picked;Yield (kg);Notes
2024;bed a;carrots;Nantaise;1 May 2024;2024-09-10;3,5;good
2024;Bed B;courgette;;;;;
2023;Bed B;garlic;;2022-10-20;15 July 2023;2;
2023;Tub 1;beetroot;;;;1;
"""


@pytest.fixture
def plot(tmp_path: Path) -> Path:
    return create(tmp_path / "plot", Site("Plot", 52.0, 0.0, 10.0)).path


def bring(plot: Path, name: str, text: str, *words: str) -> Said:
    file = plot.parent / name
    file.write_text(text, encoding="utf-8")
    return say("import", str(file), *words, "--garden", str(plot), "--today", "2026-05-20")


def garden(plot: Path) -> Garden:
    return garden_state(open_garden(plot))


def count(plot: Path) -> int:
    folder = open_garden(plot)
    if not folder.has_book:
        return 0
    with folder.open_book() as book:
        return book.count()


def xlsx(path: Path, sheets: dict[str, list[list[Any]]]) -> Path:
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(path)
    return path


# -- beds --------------------------------------------------------------------------------------------


def test_a_list_of_beds_is_taken_once(plot: Path) -> None:
    said = bring(plot, "beds.csv", BEDS, "--as", "beds", "--dry-run")
    assert "3 beds new" in said.out
    assert count(plot) == 0
    said = bring(plot, "beds.csv", BEDS, "--as", "beds")
    assert said.code == 0, said.err
    beds = garden(plot).beds
    assert list(beds) == ["bed-a", "bed-b", "tub-1"]
    outline = beds["bed-b"].outline
    assert outline is not None
    assert (outline.width_m, outline.length_m) == (1.2, 3.5)
    assert (beds["bed-a"].soil, beds["bed-a"].shape, beds["tub-1"].shape) == ("sandy loam", "framed", "tub")
    assert "Colour" in said.out
    assert "no x and y" in said.out
    again = bring(plot, "beds.csv", BEDS, "--as", "beds", "--json")
    assert (again.json["new"], again.json["changed"], again.json["known"]) == (0, 0, 3)
    assert count(plot) == 3


def test_beds_without_a_place_never_lie_over_each_other(plot: Path) -> None:
    rows = "".join(f"B{n},{80 + 7 * n},{200 + 31 * (n % 4)}\n" for n in range(20))
    said = bring(plot, "beds.csv", "bed,wide,long\n" + rows, "--as", "beds", "--units", "cm", "--json")
    assert said.code == 0
    assert said.json["questions"] == []
    more = bring(plot, "more.csv", "bed,wide,long\nC1,100,200\nC2,100,200\n", "--as", "beds", "--units", "cm")
    assert more.code == 0, more.out


def test_a_bed_described_anew_keeps_what_the_list_does_not_say(plot: Path) -> None:
    bring(plot, "beds.csv", BEDS, "--as", "beds")
    said = bring(plot, "new.csv", "Name,Width (ft),Soil\nbed a,4,loam\n", "--as", "beds")
    assert "1 bed changed" in said.out
    bed = garden(plot).beds["bed-a"]
    assert bed.outline is not None
    assert bed.outline.width_m == pytest.approx(1.2192)
    assert (bed.outline.length_m, bed.soil, bed.shape) == (2.4, "loam", "framed")


@pytest.mark.parametrize(
    ("title", "cell", "words", "metres"),
    [
        ("Width (cm)", "120", (), 1.2),
        ("width_m", "1.2", (), 1.2),
        ("Width in feet", "4", (), 1.2192),
        ("Width [ft]", "4", (), 1.2192),
        ("Width", "4 ft", (), 1.2192),
        ("Width", "4'", (), 1.2192),
        ("Width", "4' 6\"", (), 1.3716),
        ("Width", "4 ft 6 in", (), 1.3716),
        ("Width", '48"', (), 1.2192),
        ("Width", "1,2 m", (), 1.2),
        ("Width", "120", ("--units", "cm"), 1.2),
        ("Width (m)", "120 cm", (), 1.2),
        ("Breadth", "47.25 inches", (), 1.20015),
    ],
)
def test_lengths_in_many_forms(
    plot: Path, title: str, cell: str, words: tuple[str, ...], metres: float
) -> None:
    cell = '"' + cell.replace('"', '""') + '"'
    text = f"{title};Length (m);Name\n{cell};2;A\n"
    said = bring(plot, "beds.csv", text, "--as", "beds", *words)
    assert said.code == 0, said.err
    outline = garden(plot).beds["a"].outline
    assert outline is not None
    assert outline.width_m == pytest.approx(metres, abs=1e-6)


def test_every_problem_of_a_list_of_beds_at_once_by_cell(plot: Path) -> None:
    text = """\
Bed name,Width,Length in m,Soil,Shape,x (m),y (m)
Bed A,120,2.4,sandy lome,raised bad,,
Bed A,120,two,clay,,1,
,50,0.5,potting mix,tub,,
Bed C,"4'",0,,tub,,
Bed D,,2,,,,
"""
    said = bring(plot, "beds.csv", text, "--as", "beds")
    assert said.code == 2
    for cell in ("B1:", "D2 (Soil)", "E2 (Shape)", "A3 (Bed name)", "C3 (Length in m)", "G3 (y (m))",
                 "A4 (Bed name)", "C5 (Length in m)", "B6 (Width)"):  # fmt: skip
        assert cell in said.err
    assert "Nearest: raised bed" in said.err
    assert "Row 2 has it already" in said.err
    assert said.err.count("without a unit") == 1
    assert count(plot) == 0


def test_beds_that_lie_over_each_other_are_asked_about(plot: Path) -> None:
    text = "Name,Width (m),Length (m),x (m),y (m)\nA,1,2,0,0\nB,1,2,0.5,0\n"
    said = bring(plot, "beds.csv", text, "--as", "beds")
    assert said.code == 3
    assert "Row 3: It lies over A." in said.out
    assert "--insist" in said.out
    assert count(plot) == 0
    assert bring(plot, "beds.csv", text, "--as", "beds", "--insist").code == 0
    assert count(plot) == 2


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_program_s_own_spreadsheet_changes_nothing(tmp_path: Path, units: str) -> None:
    folder = create(tmp_path / "g", Site("Plot", 44.0, -73.0, 10.0, units=units))  # type: ignore[arg-type]
    rows = "A,1.2,2.4,0,0,15\nB,0.77,3.33,10,4,0\nTub,0.5,0.5,-3,0,0\n"
    bring(folder.path, "beds.csv", "Name,Width (m),Length (m),x (m),y (m),turn\n" + rows, "--as", "beds")
    assert count(folder.path) == 3
    say("export", str(tmp_path / "o.xlsx"), "--garden", str(folder.path), "--today", "2026-05-20")
    said = say("import", str(tmp_path / "o.xlsx"), "--as", "beds", "--garden", str(folder.path), "--json")
    assert said.code == 0, said.err
    assert (said.json["new"], said.json["changed"], said.json["known"]) == (0, 0, 3)


# -- past years --------------------------------------------------------------------------------------


def test_past_years_say_what_stood(plot: Path) -> None:
    bring(plot, "beds.csv", BEDS, "--as", "beds")
    said = bring(plot, "years.csv", YEARS, "--as", "years")
    assert said.code == 0, said.err
    found = garden(plot)
    assert [(b.year, b.crop) for b in found.before("bed-b")] == [(2024, "summer-squash"), (2023, "garlic")]
    assert not found.plantings
    assert "variety, kg, note are not" in " ".join(said.out.split())
    again = bring(plot, "years.csv", YEARS, "--as", "years", "--json")
    assert (again.json["new"], again.json["known"]) == (0, 4)
    assert count(plot) == 7


def test_past_years_with_their_days_become_plantings(plot: Path) -> None:
    bring(plot, "beds.csv", BEDS, "--as", "beds")
    bring(plot, "years.csv", YEARS, "--as", "years")
    said = bring(plot, "years.csv", YEARS, "--as", "years", "--as-entries", "--json")
    assert (said.json["new"], said.json["changed"], said.json["known"]) == (0, 2, 2)
    found = garden(plot)
    carrots = found.planting("carrot-2024-1")
    assert (carrots.variety, carrots.sown_on, carrots.picked_kg) == ("Nantaise", date(2024, 5, 1), 3.5)
    assert (carrots.ended_on, carrots.ended_how) == (date(2024, 9, 10), "cleared")
    assert [(b.year, b.crop) for b in found.before("bed-a")] == [(2024, "carrot")]
    assert found.standing() == ()
    assert {type(entry.act) for entry in found.entries} >= {BedSet, Sown, Picked, Stood}
    entries = count(plot)
    again = bring(plot, "years.csv", YEARS, "--as", "years", "--as-entries", "--json")
    assert (again.json["new"], again.json["changed"], again.json["known"]) == (0, 0, 4)
    assert count(plot) == entries


def test_every_problem_of_past_years_at_once_by_cell(plot: Path) -> None:
    bring(plot, "beds.csv", BEDS, "--as", "beds")
    text = """\
Year,Bed,Crop,Sown,Picked,kg
2024,Bed Q,carots,1 May 2024,2024-04-10,x
2026,Bed A,carrot,,,
20x4,Bed A,bean,32/04/2024,,1
2024,,,2019-05-01,,
"""
    said = bring(plot, "years.csv", text, "--as", "years")
    assert said.code == 2
    for cell in ("B2 (Bed)", "C2 (Crop)", "E2 (Picked)", "F2 (kg)", "A3 (Year)", "A4 (Year)", "C4 (Crop)",
                 "D4 (Sown)", "B5 (Bed)", "C5 (Crop)", "D5 (Sown)"):  # fmt: skip
        assert cell in said.err
    assert "Nearest: Bed B" in said.err
    assert "Nearest: carrot" in said.err
    assert count(plot) == 3


@pytest.mark.parametrize(
    ("units", "cells", "sown"),
    [
        ("metric", ["3/4/2024"], date(2024, 4, 3)),
        ("us", ["3/4/2024"], date(2024, 3, 4)),
        ("metric", ["3/4/2024", "3/25/2024"], date(2024, 3, 4)),
        ("us", ["3/4/2024", "25.3.2024"], date(2024, 4, 3)),
        ("us", ["3/4/2024", "25/3/2024", "3/25/2024"], None),
        ("us", ["May 1, 2024"], date(2024, 5, 1)),
        ("metric", ["1st of May"], None),
        ("metric", ["1 May"], date(2024, 5, 1)),
        ("metric", ["2024-05-01"], date(2024, 5, 1)),
        ("metric", ["31/6/2024"], None),
    ],
)
def test_dates_are_read_as_the_list_writes_them(
    tmp_path: Path, units: str, cells: list[str], sown: date | None
) -> None:
    plot = create(tmp_path / "g", Site("Plot", 44.0, 0.0, 10.0, units=units)).path  # type: ignore[arg-type]
    bring(plot, "beds.csv", "Name,Width (m),Length (m)\nA,1,2\n", "--as", "beds")
    rows = "".join(f'2024,A,radish,"{cell}",2024-10-20\n' for cell in cells)
    said = bring(plot, "y.csv", "Year,Bed,Crop,Sown,Picked\n" + rows, "--as", "years", "--as-entries")
    if sown is None:
        assert said.code == 2
        assert "(Sown)" in said.err
    else:
        assert said.code == 0, said.err + said.out
        assert garden(plot).planting("radish-2024-1").sown_on == sown


def test_a_spreadsheet_with_real_dates(plot: Path) -> None:
    bring(plot, "beds.csv", BEDS, "--as", "beds")
    rows = [
        ["What grew where", None, None, None, None],
        ["Season", "Where", "Plant", "Sown on", "Harvested", "Weight (lb)"],
        [2024, "Bed A", "Zucchini", datetime(2024, 5, 12), datetime(2024, 9, 1), 10],
        [None, None, None, None, None, None],
        [2023.0, "Bed A", "Leeks", datetime(2023, 4, 1), datetime(2024, 2, 1), "500 g"],
    ]
    file = xlsx(plot.parent / "y.xlsx", {"Notes": [["x"]], "Past years": rows})
    words = ("--as", "years", "--as-entries", "--garden", str(plot), "--today", "2026-05-20")
    assert say("import", str(file), *words).code == 0
    found = garden(plot)
    assert found.planting("summer-squash-2024-1").picked_kg == pytest.approx(4.5359237)
    assert found.planting("leek-2023-1").picked_kg == pytest.approx(0.5)
    assert say("import", str(file), "--sheet", "Notess", *words).code == 2


# -- files -------------------------------------------------------------------------------------------


def test_what_cannot_be_read_is_refused(plot: Path, tmp_path: Path) -> None:
    assert "--as beds" in bring(plot, "a.csv", BEDS).err
    assert bring(plot, "a.csv", "", "--as", "beds").code == 2
    assert "no column for the name" in bring(plot, "a.csv", "Width (m)\n1\n", "--as", "beds").err
    assert "C1" in bring(plot, "a.csv", "Name,Width (m),Wide (cm)\nA,1,1\n", "--as", "beds").err
    (tmp_path / "x.xlsx").write_bytes(b"PK\x03\x04 not really")
    for name in ("x.xlsx", "none.csv"):
        said = say("import", str(tmp_path / name), "--as", "beds", "--garden", str(plot))
        assert said.code == 2
        assert name in said.err
    two = xlsx(tmp_path / "two.xlsx", {"One": [["Name"]], "Two": [["Name"]]})
    assert "One, Two" in say("import", str(two), "--as", "beds", "--garden", str(plot)).err
    assert count(plot) == 0


def test_a_spoiled_spreadsheet_is_refused_or_read_whole(plot: Path, tmp_path: Path) -> None:
    file = xlsx(tmp_path / "b.xlsx", {"Beds": [["Name", "Width (m)", "Length (m)"], ["A", 1, 2]]})
    whole = file.read_bytes()
    for at in range(0, len(whole), 97):
        file.write_bytes(whole[:at] + bytes([whole[at] ^ 0x55]) + whole[at + 1 :])
        said = say("import", str(file), "--as", "beds", "--dry-run", "--garden", str(plot), "--json")
        assert said.code in (0, 2)
        assert said.code == 2 or said.json["new"] == 1


def test_words_that_do_not_go_together(plot: Path, tmp_path: Path) -> None:
    (tmp_path / "o.zip").write_bytes(b"x")
    for words in (
        ("o.zip", "--as", "beds"),
        ("a.csv", "--as", "years", "--units", "cm"),
        ("a.csv", "--as", "beds", "--as-entries"),
    ):
        assert say("import", str(tmp_path / words[0]), *words[1:], "--garden", str(plot)).code == 2
