"""The beginning without a script: every step is a plain form, and a file or a climate table is enough."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.usecases.begin_garden import rests_on
from spadework.usecases.look import site_of
from spadework.usecases.setting import open_setting

HERE = "http:" + "//127.0.0.1"
DAY = date(2026, 6, 12)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return tmp_path / "garden"


class Plain(TestClient):
    """A browser without scripts: a form carries the token of the page it stands on."""

    def post(self, url: str, *, data: dict[str, Any], **more: Any) -> Any:  # type: ignore[override]
        page = self.get("/").text
        token = page.split('name="form-token" content="')[1].split('"')[0]
        return super().post(url, data=data | {"token": token}, **more)


@pytest.fixture
def client(garden: Path) -> TestClient:
    return Plain(build_app(House(garden=garden, fixed_day=DAY)), base_url=HERE, follow_redirects=True)


def _station(days: int = 800) -> bytes:
    """An invented station's file that says where it stands."""
    head = '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TMAX","TMIN","PRCP"'
    first = date(2024, 1, 1)
    rows = [
        f'"XX000000001","{first + timedelta(days=at)}","41.5000","-93.6000","291.0",'
        f'"Invented","{15 + at % 7}.5","{4 + at % 5}.5","{at % 3}.0"'
        for at in range(days)
    ]
    return "\n".join([head, *rows]).encode()


def _made(client: TestClient, **said: str) -> None:
    form = {"name": "Plot", "keeper": "Ada", "lat": "42.5", "lon": "83.1 W", "units": "us"} | said
    assert client.post("/begin/make", data=form).status_code == 200


def test_a_weather_file_is_place_and_record_at_once(client: TestClient, garden: Path) -> None:
    told = {"name": "Plot", "lat": "", "lon": "", "units": "metric"}
    got = client.post("/begin/make", data=told, files={"file": ("invented.csv", _station())})
    assert "800 days of weather are read" in got.text
    site = site_of(garden)
    assert (site.lat_deg, site.lon_deg, site.elevation_m) == (41.5, -93.6, 291.0)
    assert rests_on(garden, DAY).days == 800


def test_a_file_that_is_none_makes_nothing(client: TestClient, garden: Path) -> None:
    told = {"name": "Plot", "lat": "", "lon": "", "units": "metric"}
    got = client.post("/begin/make", data=told, files={"file": ("notes.txt", b"dear diary")})
    assert got.status_code == 422
    assert not garden.exists()


def test_the_plan_is_seen_without_a_script(client: TestClient) -> None:
    _made(client)
    got = client.get("/begin/beds", params={"lines": "6 beds 4 x 8 ft in 2 rows"})
    assert "6 beds: Bed 1" in got.text
    assert "<svg" in got.text
    heard = client.get("/begin/growing", params={"lines": "sowed carrots in bed 1"})
    assert heard.status_code == 200


def test_twelve_means_in_fahrenheit_and_inches(client: TestClient, garden: Path) -> None:
    _made(client)
    rows = {
        "tmin": "18 20 29 39 50 60 65 63 55 44 34 24",
        "tmax": "32 36 47 60 71 80 84 82 75 62 48 36",
        "rain": "2.2 2 2.4 3 3.6 3.3 3.2 3.3 3.2 2.7 2.7 2.3",
        "climate": "",
    }
    got = client.post("/begin/weather/take", data=rows)
    assert "not measured" in got.text
    fact = open_setting(garden, DAY).told[-1].fact
    assert fact.tmin_c[0] == pytest.approx(-7.8, abs=0.05)
    assert fact.rain_mm[0] == pytest.approx(55.9, abs=0.1)


def test_five_numbers_in_fahrenheit(client: TestClient, garden: Path) -> None:
    _made(client)
    told = {"winter_night": "14", "winter_day": "32", "summer_night": "62", "summer_day": "83"}
    assert client.post("/begin/weather/heart", data=told | {"month_rain": "2"}).status_code == 200
    fact = open_setting(garden, DAY).told[-1].fact
    assert (fact.tmin_c[0], fact.tmax_c[0]) == (-10.0, 0.0)
    assert set(fact.rain_mm) == {50.8}


def test_who_is_asked_is_said_and_nobody_is_asked_where_it_is_switched_off(
    client: TestClient, garden: Path
) -> None:
    _made(client)
    said = client.get("/begin/weather").text
    assert "42.5, -83.1" in said
    toml = garden / "garden.toml"
    toml.write_text(toml.read_text() + "\n[fetch]\non = false\n")
    assert "disabled" in client.get("/begin/weather").text
    got = client.post("/begin/weather/fetch", data={})
    assert "switched off" in got.text
    assert rests_on(garden, DAY).days == 0


def test_a_line_that_is_not_clear_is_asked_about_and_nothing_is_written(client: TestClient) -> None:
    _made(client)
    client.post("/begin/beds/take", data={"lines": "2 beds 4 x 8 ft"})
    got = client.post("/begin/growing/take", data={"lines": "sowed carrots in bed 1\nplanted kale in bed 7"})
    assert got.status_code == 409
    assert "planted kale in bed 7" in got.text
    assert "In the book already" not in client.get("/begin/growing").text


def test_a_place_kept_anew_stays_itself_otherwise(client: TestClient, garden: Path) -> None:
    _made(client)
    again = {"name": "Other", "lat": "42.5", "lon": "-83.1", "elevation": "640 ft", "units": "us"}
    client.post("/begin/make", data=again | {"words": "british"})
    site = site_of(garden)
    assert (site.name, site.words, round(site.elevation_m)) == ("Other", "british", 195)
