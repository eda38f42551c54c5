"""A garden begun: beds heard and laid, lines told together, means from what is known by heart."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import InputFileError, ParameterError
from spadework.usecases.begin_garden import change_site, hear_beds, lay_beds, place_in, rests_on
from spadework.usecases.keep_garden import make_garden
from spadework.usecases.rough_normals import rough_normals
from spadework.usecases.say_lines import say_lines
from spadework.usecases.show_beds import list_beds
from spadework.usecases.take_back import take_back
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)
HOW = Writing(today=DAY, by="ada")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    make_garden(folder, "Plot", 52.0, 0.0, 20.0, keepers=["Ada"], today=DAY)
    return folder


def _names(garden: Path) -> list[str]:
    return [bed.name for bed in list_beds(garden, DAY).beds if bed.gone_on is None]


def test_beds_are_drawn_before_they_are_made(garden: Path) -> None:
    heard = hear_beds(garden, DAY, ["3 beds 1.2 x 2.4 m", "a tunnel 3 x 6 m"])
    assert heard.ground is not None
    assert (heard.count, len(heard.ground.beds)) == (4, 4)
    assert _names(garden) == []


def test_what_cannot_be_meant_is_said_with_its_line(garden: Path) -> None:
    heard = hear_beds(garden, DAY, ["3 beds 1.2 x 2.4 m", "some beds"])
    assert any("2" in wrong for wrong in heard.wrong)
    with pytest.raises(InputFileError):
        lay_beds(garden, HOW, ["3 beds 1.2 x 2.4 m", "some beds"])
    assert _names(garden) == []


def test_beds_laid_anew_take_the_place_of_the_first(garden: Path) -> None:
    assert lay_beds(garden, HOW, ["3 beds 1.2 x 2.4 m"]).written.stored
    assert lay_beds(garden, HOW, ["2 beds 1 x 3 m"], anew=True).written.stored
    assert _names(garden) == ["Bed 1", "Bed 2"]
    assert next(bed.length_m for bed in list_beds(garden, DAY).beds if bed.name == "Bed 1") == 3.0


def test_a_bed_with_something_in_it_is_not_laid_anew_unasked(garden: Path) -> None:
    lay_beds(garden, HOW, ["2 beds 1.2 x 2.4 m"])
    assert say_lines(garden, "planted 6 tomatoes in bed 1 on 1 June", HOW).stored
    found = lay_beds(garden, HOW, ["4 beds 1 x 3 m"], anew=True)
    assert not found.written.stored
    assert len(_names(garden)) == 2


def test_lines_told_together_are_one_breath(garden: Path) -> None:
    lay_beds(garden, HOW, ["2 beds 1.2 x 2.4 m"])
    lines = ["sowed 2 rows of carrots in bed 1 on 20 May", "sowed 1 row of carrots in bed 2 on 1 June"]
    told = say_lines(garden, "\n".join(lines), HOW)
    assert told.stored
    assert [[each.on for each in line.understood] for line in told.lines] == [
        [date(2026, 5, 20)],
        [date(2026, 6, 1)],
    ]
    standing = [bed.standing for bed in list_beds(garden, DAY).beds]
    assert all(standing)
    assert take_back(garden, HOW, told.entries[0].key, together=True).stored
    assert not any(bed.standing for bed in list_beds(garden, DAY).beds)


def test_one_line_that_is_not_clear_holds_all_of_them(garden: Path) -> None:
    lay_beds(garden, HOW, ["2 beds 1.2 x 2.4 m"])
    lines = ["sowed 2 rows of carrots in bed 1 on 20 May", "planted 6 tomatoes in bed 9"]
    told = say_lines(garden, "\n".join(lines), HOW)
    assert not told.stored
    assert told.lines[0].understood
    assert told.lines[1].questions
    assert told.open
    assert not any(bed.standing for bed in list_beds(garden, DAY).beds)


def test_the_place_can_be_said_anew(garden: Path) -> None:
    assert change_site(garden, {"lat_deg": -36.8, "units": "us"}).south
    with pytest.raises(ParameterError):
        change_site(garden, {"lat_deg": 136.8})
    assert change_site(garden, {}).lat_deg == -36.8


def test_a_station_s_file_says_where_it_stands() -> None:
    rows = "\n".join(
        f'"XX000000001","2020-01-{day:02d}","52.1000","0.1000","24.0","Invented","5.0","-1.0","3.0"'
        for day in range(1, 29)
    )
    head = '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TMAX","TMIN","PRCP"'
    found = place_in(f"{head}\n{rows}\n".encode(), "XX000000001.csv")
    assert (found.lat_deg, found.lon_deg, found.elevation_m) == (52.1, 0.1, 24.0)


def test_nothing_is_rested_on_before_anything_is_told(garden: Path) -> None:
    found = rests_on(garden, DAY)
    assert (found.days, found.means_from) == (0, "")


@pytest.mark.parametrize("south", [False, True])
def test_rough_means_turn_in_the_named_months(south: bool) -> None:
    means = rough_normals(1.0, 7.0, 12.0, 22.0, 50.0, south=south)
    cold, warm = (6, 0) if south else (0, 6)
    assert (means.tmin_c[cold], means.tmax_c[cold]) == (1.0, 7.0)
    assert (means.tmin_c[warm], means.tmax_c[warm]) == (12.0, 22.0)
    assert min(means.tmin_c) == 1.0
    assert max(means.tmax_c) == 22.0
    assert set(means.rain_mm) == {50.0}


@pytest.mark.parametrize(
    "numbers", [(9.0, 1.0, 12.0, 22.0, 50.0), (1.0, 7.0, -20.0, -10.0, 50.0), (1.0, 7.0, 12.0, 99.0, 50.0)]
)
def test_numbers_that_cannot_be_are_said(numbers: tuple[float, float, float, float, float]) -> None:
    with pytest.raises(ParameterError):
        rough_normals(*numbers, south=False)
