"""The garden folder: made once, never overwritten, whole after anything."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ghcn_fixture import CHAMPION, champion_series, dly_text
from spadework.errors import GardenError, InputFileError, RecordError
from spadework.garden.site import Site
from spadework.store import garden_folder
from spadework.store.garden_folder import GARDEN_FILE, WEATHER_FILE, create, open_garden
from spadework.store.overrides_file import OVERRIDES_FILE
from spadework.weather.daily_csv import HEADING, read_daily_csv, write_daily_csv
from spadework.weather.read.detect import read_weather
from spadework.weather.series import Series

SITE = Site('O\'Brien "plot" ü\\', -40.4, -101.75, 1000, units="us", words="american", surface="raised-bed")


def record(flags: dict[tuple[str, str], str] | None = None) -> bytes:
    return dly_text(CHAMPION, champion_series(), flags).encode()


def test_a_garden_opens_as_it_was_made(tmp_path: Path) -> None:
    create(tmp_path / "g", SITE)
    assert open_garden(tmp_path / "g").site == SITE
    assert open_garden(tmp_path / "g").overrides() == {}


def test_a_garden_is_never_overwritten(tmp_path: Path) -> None:
    create(tmp_path, SITE)
    before = (tmp_path / GARDEN_FILE).read_bytes()
    with pytest.raises(GardenError, match=r"There is a garden in .* already"):
        create(tmp_path, Site("Other", 1, 2, 3))
    assert (tmp_path / GARDEN_FILE).read_bytes() == before


def test_no_garden_says_how_to_make_one(tmp_path: Path) -> None:
    with pytest.raises(GardenError, match=r"No garden in .*spadework new --name"):
        open_garden(tmp_path)
    (tmp_path / "file").write_text("x")
    with pytest.raises(GardenError, match="is a file"):
        create(tmp_path / "file", SITE)


def test_no_weather_yet_says_what_to_do(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    assert not garden.has_weather
    with pytest.raises(RecordError, match="spadework weather add FILE"):
        garden.weather()


def test_added_weather_is_kept_filled_and_flagged(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    added = garden.add_weather(read_weather(record({("TMAX", "1990-07-04"): "I"}), "c.dly"))
    s = open_garden(tmp_path).weather()
    truth = champion_series()
    assert (s.start, s.end, added.merged) == (truth.start, truth.end, None)
    assert not np.isnan(s.tmax_c).any()
    at = s.index_of(np.datetime64("1990-07-04"))
    assert s.filled["tmax_c"][at]
    assert s.filled["tmax_c"].sum() == 6  # five stuck days of 1982 and the flagged one
    kept = s.measured_days()
    assert np.abs(s.tmin_c - truth.tmin_c)[kept].max() <= 0.0500001
    assert "USC00251450" in s.source


def test_the_same_file_twice_changes_nothing(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    garden.add_weather(read_weather(record(), "c.dly"))
    before = (tmp_path / WEATHER_FILE).read_bytes()
    added = garden.add_weather(read_weather(record(), "c.dly"))
    assert added.merged is not None
    assert (added.merged.added_days, added.merged.changed_days) == (0, 0)
    assert (tmp_path / WEATHER_FILE).read_bytes() == before


def test_a_newer_file_wins_and_says_how_often(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    garden.add_weather(read_weather(record(), "c.dly"))
    home = "date,tmin C,tmax C,rain mm\n2018-12-31,-5,5,1\n2019-01-01,-6,4,0\n"
    added = garden.add_weather(read_weather(home.encode(), "home.csv"))
    assert added.merged is not None
    assert (added.merged.added_days, added.merged.changed_days) == (1, 1)
    s = garden.weather()
    assert (str(s.end), s.tmin_c[-2:].tolist()) == ("2019-01-01", [-5, -6])
    assert s.source_names == (f"GHCN-Daily station {CHAMPION} (c.dly)", "table home.csv")


def test_a_refused_file_leaves_the_record_alone(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    garden.add_weather(read_weather(record(), "c.dly"))
    before = (tmp_path / WEATHER_FILE).read_bytes()
    with pytest.raises(InputFileError):
        garden.add_weather(read_weather(b"date,tmin,tmax\n2019-13-01,1,2\n", "bad.csv"))
    assert (tmp_path / WEATHER_FILE).read_bytes() == before


def test_a_crash_while_writing_leaves_the_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    garden = create(tmp_path, SITE)
    garden.add_weather(read_weather(record(), "c.dly"))
    before = (tmp_path / WEATHER_FILE).read_bytes()

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(garden_folder.os, "fsync", full)
    with pytest.raises(GardenError, match="cannot be written: No space left"):
        garden.add_weather(read_weather(b"date,tmin C,tmax C\n2019-01-01,1,2\n", "home.csv"))
    assert (tmp_path / WEATHER_FILE).read_bytes() == before
    assert [p.name for p in (tmp_path / "weather").iterdir()] == ["daily.csv"]


def test_a_change_by_someone_else_is_not_overwritten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    garden = create(tmp_path, SITE)
    garden.add_weather(read_weather(b"date,tmin C,tmax C\n2019-01-01,1,2\n", "a.csv"))
    theirs = (tmp_path / WEATHER_FILE).read_text() + "2019-01-02,3,4,,,,,,,theirs\n"
    real = garden_folder.fill_gaps

    def meanwhile(series: Series) -> Any:
        (tmp_path / WEATHER_FILE).write_text(theirs)
        return real(series)

    monkeypatch.setattr(garden_folder, "fill_gaps", meanwhile)
    with pytest.raises(GardenError, match="changed while"):
        garden.add_weather(read_weather(b"date,tmin C,tmax C\n2019-01-03,1,2\n", "b.csv"))
    assert (tmp_path / WEATHER_FILE).read_text() == theirs


def test_a_folder_that_may_not_be_written_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(*_: Any, **__: Any) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "mkdir", forbidden)
    with pytest.raises(GardenError, match="cannot be made: Permission denied"):
        create(tmp_path / "g", SITE)


def test_a_station_far_away_is_pointed_out(tmp_path: Path) -> None:
    from ghcn_fixture import daily_summaries_csv_text

    garden = create(tmp_path, Site("Far", 52, 0, 20))
    text = daily_summaries_csv_text(CHAMPION, champion_series())
    notes = garden.add_weather(read_weather(text.encode(), "f.csv")).notes
    assert any("km from the garden" in note for note in notes)
    assert any("lies at 1000 m, the garden at 20 m" in note for note in notes)


BAD_GARDENS = {
    "no toml": ("[site\n", "is not TOML"),
    "no coordinates": ('[site]\nname = "x"\nelevation_m = 3\n', "does not say lat_deg, lon_deg"),
    "latitude beyond": ('[site]\nname = "x"\nlat_deg = 99\nlon_deg = 1\nelevation_m = 3\n', "latitude 99"),
    "latitude in words": (
        '[site]\nname = "x"\nlat_deg = "N"\nlon_deg = 1\nelevation_m = 3\n',
        "latitude 'N'",
    ),
    "name a number": ("[site]\nname = 5\nlat_deg = 9\nlon_deg = 1\nelevation_m = 3\n", "name is 5"),
    "unknown key": (
        '[site]\nname = "x"\nlat_deg = 9\nlon_deg = 1\nelevation_m = 3\ncolour = 1\n',
        "'colour'",
    ),
    "newer format": ("format = 9\n", "format 9"),
    "site no table": ("site = 3\n", "site is 3"),
}


@pytest.mark.parametrize("name", BAD_GARDENS)
def test_a_damaged_garden_file_is_told_in_one_line(name: str, tmp_path: Path) -> None:
    text, message = BAD_GARDENS[name]
    (tmp_path / GARDEN_FILE).write_text(text)
    with pytest.raises(GardenError, match=message) as caught:
        open_garden(tmp_path)
    assert caught.value.hint


def test_overrides_for_a_crop_and_a_variety(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    (tmp_path / OVERRIDES_FILE).write_text(
        '[carrot]\n"emergence.base_c" = 2.0\n[carrot.emergence]\nsum_cd = 160\n'
        '[carrot.variety."Early Nantes".development]\nready_days = 62\n'
    )
    assert garden.overrides() == {
        "carrot": {"emergence.base_c": 2.0, "emergence.sum_cd": 160},
        "carrot/Early Nantes": {"development.ready_days": 62},
    }


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("x = 1\n", "in no table"),
        ("[carrot]\nemergence = [1]\n", "number or a text"),
        ("[carrot]\nvariety = 1\n", "no table"),
        ("[carrot\n", "not TOML"),
    ],
)
def test_damaged_overrides_are_refused(text: str, message: str, tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    (tmp_path / OVERRIDES_FILE).write_text(text)
    with pytest.raises(GardenError, match=message):
        garden.overrides()


def test_the_examples_in_a_new_overrides_file_work(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    lines = (tmp_path / OVERRIDES_FILE).read_text().splitlines()[2:]
    (tmp_path / OVERRIDES_FILE).write_text("\n".join(line.removeprefix("#").strip() for line in lines))
    assert garden.overrides() == {
        "carrot": {"emergence.sum_cd": 160},
        "carrot/Early Nantes": {"development.ready_days": 62},
    }


BAD_ROWS = {
    "cut": ("2019-01-02,3,4\n", r"row 3: found 3 cells"),
    "no day": ("2019-02-30,3,4,,,,,,,a\n", r"row 3, column 'date': found '2019-02-30'"),
    "month only": ("2019-03,3,4,,,,,,,a\n", r"row 3, column 'date'"),
    "again": ("2019-01-01,3,4,,,,,,,a\n", r"row 3, column 'date': found 2019-01-01 after 2019-01-01"),
    "word": ("2019-01-02,3,warm,,,,,,,a\n", r"row 3, column 'tmax_c': found 'warm'"),
    "flag": ("2019-01-02,3,4,,,,,,hail,a\n", r"row 3, column 'filled': found 'hail'"),
}


@pytest.mark.parametrize("name", BAD_ROWS)
def test_a_record_edited_badly_is_refused_with_the_row(name: str) -> None:
    row, message = BAD_ROWS[name]
    with pytest.raises(InputFileError, match=message):
        read_daily_csv(f"{HEADING}\n2019-01-01,1,2,,,,,,,a\n{row}", "weather/daily.csv")


def test_a_garden_of_thirty_odd_years_is_loaded_in_under_40_ms(tmp_path: Path) -> None:
    garden = create(tmp_path, SITE)
    garden.add_weather(read_weather(record(), "c.dly"))
    spent = []
    for _ in range(5):
        begin = time.process_time()
        garden.weather()
        spent.append(time.process_time() - begin)
    assert min(spent) < 0.04


hundredths = st.one_of(st.just(np.nan), st.integers(-8000, 5000).map(lambda n: n / 100))


@given(
    st.lists(st.tuples(hundredths, hundredths, st.booleans()), min_size=1, max_size=40), st.text(max_size=20)
)
def test_the_open_format_loses_nothing(rows: list[tuple[float, float, bool]], source: str) -> None:
    low, dew, flag = (np.array(column) for column in zip(*rows, strict=True))
    s = Series(
        start=np.datetime64("2020-02-20"),
        tmin_c=low,
        tmax_c=low + 1,
        rain_mm=np.full(low.size, np.nan),
        tdew_c=dew,
        filled={"tmin_c": flag},
        source=source,
    )
    back = read_daily_csv(write_daily_csv(s), "f")
    assert np.array_equal(back.tmin_c, s.tmin_c, equal_nan=True)
    assert np.allclose(back.tmax_c, s.tmax_c, atol=1e-9, equal_nan=True)
    assert (back.tdew_c is None) == bool(np.isnan(dew).all())
    assert np.array_equal(back.filled.get("tmin_c", np.zeros(low.size, bool)), flag)
    assert write_daily_csv(back) == write_daily_csv(s)


def test_a_garden_record_can_be_added_to_another_garden_without_its_filled_numbers(tmp_path: Path) -> None:
    first = create(tmp_path / "a", SITE)
    first.add_weather(read_weather(record(), "c.dly"))
    read = read_weather(tmp_path / "a" / WEATHER_FILE)
    assert read.layout == "daily-csv"
    assert np.isnan(read.series.tmin_c).sum() == 5
    assert create(tmp_path / "b", SITE).add_weather(read).series.filled["tmin_c"].sum() == 5
