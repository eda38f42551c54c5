"""Fetching weather: what is sent, what is kept, and what never happens. No network: answers are our own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx2
import numpy as np
import pytest
import stamina

from service_answers import Service
from spadework.errors import FetchError, GardenError, InputFileError, ParameterError
from spadework.garden.site import Site
from spadework.garden.told import ForecastDay
from spadework.store.garden_folder import GARDEN_FILE, GardenFolder, create
from spadework.usecases.fetch_weather import fetch_weather
from spadework.weather.read.result import ReadResult
from spadework.weather.series import Series

TODAY = date(2026, 5, 20)
NOW = datetime(2026, 5, 20, 6, 10, tzinfo=UTC)


@pytest.fixture(autouse=True)
def _no_waiting() -> Iterator[None]:
    with stamina.set_testing(True, attempts=3):
        yield


@pytest.fixture
def garden(tmp_path: Path) -> GardenFolder:
    return create(tmp_path, Site("Home", 52.63781, 1.29734, 31.0))


def contents(folder: GardenFolder) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.path.rglob("*")) if path.is_file()}


def settings(folder: GardenFolder, text: str) -> None:
    with (folder.path / GARDEN_FILE).open("a") as file:
        file.write(f"\n[fetch]\n{text}\n")


def test_a_forecast_is_kept_as_told_facts_with_source_and_time(garden: GardenFolder) -> None:
    service = Service()
    found = fetch_weather(garden.path, TODAY, NOW, transport=service.transport)
    assert found.forecast_days == [TODAY + timedelta(days=day) for day in range(10)]
    told = garden.told(TODAY)
    assert len(told) == 10
    assert {entry.source for entry in told} == {"Open-Meteo forecast fetched 2026-05-20 06:10 UTC"}
    assert {entry.told_on for entry in told} == {TODAY}
    first = min((entry.fact for entry in told if isinstance(entry.fact, ForecastDay)), key=lambda f: f.day)
    assert (first.day, first.rain_mm, first.rain_odds, first.wind_m_s, first.cloud_share) == (
        TODAY,
        4.2,
        0.8,
        3.4,
        0.55,
    )
    assert first.high_c is not None
    assert first.low_c is not None
    assert first.high_c - first.low_c == pytest.approx(10.0)
    assert garden.told(TODAY - timedelta(days=1)) == ()  # an earlier day knows nothing of it


def test_only_rounded_coordinates_are_sent_and_only_to_the_named_host(garden: GardenFolder) -> None:
    service = Service()
    found = fetch_weather(garden.path, TODAY, NOW, transport=service.transport)
    (asked,) = service.asked
    assert (asked.url.scheme, asked.url.host) == ("https", "api.open-meteo.com")
    sent = dict(asked.url.params)
    assert (sent["latitude"], sent["longitude"], found.sent) == ("52.64", "1.30", "52.64, 1.30")
    assert sorted(sent) == sorted(
        [
            "latitude",
            "longitude",
            "daily",
            "start_date",
            "end_date",
            "temperature_unit",
            "wind_speed_unit",
            "precipitation_unit",
            "timezone",
        ]
    )
    assert "Home" not in str(asked.url) + str(asked.headers)
    assert "cookie" not in asked.headers
    assert found.asked == ["api.open-meteo.com"]
    assert "non-commercial" in found.credit


def test_an_archive_fills_an_empty_record(garden: GardenFolder) -> None:
    service = Service()
    found = fetch_weather(garden.path, TODAY, NOW, forecast=False, archive=True, transport=service.transport)
    assert service.asked[0].url.host == "archive-api.open-meteo.com"
    assert found.archive is not None
    assert (found.archive.first_day, found.archive.last_day) == (date(1996, 1, 1), date(2026, 5, 14))
    record = garden.weather()
    assert record.days == found.archive.days == found.archive.added_days
    assert record.source == "Open-Meteo archive fetched 2026-05-20 06:10 UTC"
    assert record.solar_mj is not None
    assert record.solar_mj[0] == 14.2
    assert not record.made.any()


def own_record(garden: GardenFolder, first: str = "2026-05-01", days: int = 10) -> Series:
    low = np.full(days, 1.5)
    low[4] = np.nan
    series = Series(
        start=np.datetime64(first),
        tmin_c=low,
        tmax_c=np.arange(days) + 20.5,
        rain_mm=np.full(days, np.nan),
        source="own station",
    )
    garden.add_weather(ReadResult(series, "own.csv", "table"))
    return series


def test_days_of_the_own_station_are_never_changed(garden: GardenFolder) -> None:
    own = own_record(garden)
    before = garden.weather()
    found = fetch_weather(
        garden.path,
        TODAY,
        NOW,
        forecast=False,
        archive=True,
        first=date(2026, 4, 20),
        last=date(2026, 5, 14),
        transport=Service().transport,
    )
    assert found.archive is not None
    assert (found.archive.days, found.archive.added_days, found.archive.own_days_kept) == (25, 15, 10)
    record = garden.weather().between(date(2026, 5, 1), date(2026, 5, 10))
    assert np.array_equal(record.tmin_c, before.tmin_c)
    assert np.array_equal(record.tmax_c, own.tmax_c)
    assert np.isnan(record.unfilled().rain_mm).all()  # the archive's rain is not put beside own warmth
    whole = garden.weather()
    assert whole.source_names[int(whole.source_index[15])] == "own station"  # type: ignore[index]


def test_a_later_fetch_renews_the_archives_own_days_only(garden: GardenFolder) -> None:
    own_record(garden)

    def warmer(answer: dict[str, Any]) -> dict[str, Any]:
        answer["daily"]["temperature_2m_max"] = [v + 1 for v in answer["daily"]["temperature_2m_max"]]
        return answer

    span = {"forecast": False, "archive": True, "first": date(2026, 4, 20), "last": date(2026, 5, 14)}
    fetch_weather(garden.path, TODAY, NOW, transport=Service().transport, **span)  # type: ignore[arg-type]
    once = garden.weather()
    later = NOW + timedelta(hours=5)
    fetch_weather(garden.path, TODAY, later, transport=Service(warmer).transport, **span)  # type: ignore[arg-type]
    twice = garden.weather()
    step = twice.tmax_c - once.tmax_c
    own = slice(11, 21)
    assert np.allclose(np.delete(step, np.r_[own]), 1.0)
    assert np.allclose(step[own], 0.0)


def test_archive_days_not_there_yet_are_left_out_and_said(garden: GardenFolder) -> None:
    def short(answer: dict[str, Any]) -> dict[str, Any]:
        for name in answer["daily"]:
            if name != "time":
                answer["daily"][name][-3:] = [None] * 3
        return answer

    found = fetch_weather(
        garden.path, TODAY, NOW, forecast=False, archive=True, transport=Service(short).transport
    )
    assert found.archive is not None
    assert (found.archive.last_day, found.archive.not_there_yet) == (date(2026, 5, 11), 3)


@pytest.mark.parametrize("failure", [503, 500, httpx2.ConnectError, httpx2.ReadTimeout])
def test_a_passing_fault_is_tried_again(garden: GardenFolder, failure: Any) -> None:
    service = Service()
    service.failures = [failure, failure]
    fetch_weather(garden.path, TODAY, NOW, transport=service.transport)
    assert len(service.asked) == 3
    assert len(garden.told(TODAY)) == 10


@pytest.mark.parametrize(
    ("failure", "message", "tries"),
    [
        (httpx2.ConnectError, r"api\.open-meteo\.com cannot be reached; nothing was changed", 3),
        (httpx2.ReadTimeout, r"did not answer within 10 s; nothing was changed", 3),
        (503, r"out of order \(answer 503\); nothing was changed", 3),
        (400, r"refused the question \(answer 400\): made to fail", 1),
        (404, r"refused the question \(answer 404\)", 1),
        (429, "asked too often", 1),
        (302, r"refused the question \(answer 302\)", 1),
    ],
)
def test_when_nobody_answers_nothing_is_changed(
    garden: GardenFolder, failure: Any, message: str, tries: int
) -> None:
    own_record(garden)
    before = contents(garden)
    service = Service()
    service.failures = [failure] * 9
    with pytest.raises(FetchError, match=message):
        fetch_weather(garden.path, TODAY, NOW, archive=True, transport=service.transport)
    assert len(service.asked) == tries
    assert contents(garden) == before


Change = Callable[[dict[str, Any]], Any]


def without(*path: str) -> Change:
    def change(answer: dict[str, Any]) -> dict[str, Any]:
        part = answer
        for name in path[:-1]:
            part = part[name]
        del part[path[-1]]
        return answer

    return change


def put(value: Any, *path: Any) -> Change:
    def change(answer: dict[str, Any]) -> dict[str, Any]:
        part: Any = answer
        for name in path[:-1]:
            part = part[name]
        part[path[-1]] = value
        return answer

    return change


def day_left_out(answer: dict[str, Any]) -> dict[str, Any]:
    for column in answer["daily"].values():
        del column[3]
    return answer


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda _: b"<html>down</html>", "found b'<html>down</html>'; allowed: JSON"),
        (lambda _: b"\xff\xfe", "allowed: JSON"),
        (lambda _: [1, 2], "no part 'daily'"),
        (without("daily"), "no part 'daily'"),
        (without("daily_units"), "no part 'daily_units'"),
        (without("daily", "time"), "days: found none"),
        (without("daily", "temperature_2m_min"), "temperature_2m_min: found None"),
        (
            put("°F", "daily_units", "temperature_2m_max"),
            "unit of temperature_2m_max: found '°F'; allowed: °C",
        ),
        (put("inch", "daily_units", "precipitation_sum"), "found 'inch'; allowed: mm"),
        (day_left_out, "days: found no 2026-05-23"),
        (put([1.0], "daily", "temperature_2m_max"), "found 1 values; allowed: 10 values"),
        (put("warm", "daily", "temperature_2m_max", 2), "temperature_2m_max, 2026-05-22: found 'warm'"),
        (put(451.0, "daily", "temperature_2m_max", 2), "found 451.0; allowed: -90 to 60 °C"),
        (put(float("nan"), "daily", "precipitation_sum", 2), "found nan"),
        (put(True, "daily", "precipitation_sum", 2), "found True"),
        (put(-3.0, "daily", "precipitation_sum", 0), "found -3.0; allowed: 0 to 2000 mm"),
        (put(40.0, "daily", "temperature_2m_min", 1), "2026-05-21: found minimum 40 °C"),
        (put(None, "daily", "temperature_2m_min", 1), "2026-05-21: found no temperature"),
    ],
)
def test_an_answer_that_is_not_what_was_asked_is_refused_whole(
    garden: GardenFolder, change: Change, message: str
) -> None:
    before = contents(garden)
    with pytest.raises(InputFileError, match="The answer of Open-Meteo was not taken") as error:
        fetch_weather(garden.path, TODAY, NOW, transport=Service(change).transport)
    assert message in str(error.value)
    assert contents(garden) == before


def test_a_bad_archive_keeps_the_good_forecast_out_too(garden: GardenFolder) -> None:
    def only_archive(answer: dict[str, Any]) -> Any:
        return b"{" if "shortwave_radiation_sum" in answer["daily"] else answer

    before = contents(garden)
    with pytest.raises(InputFileError):
        fetch_weather(garden.path, TODAY, NOW, archive=True, transport=Service(only_archive).transport)
    assert contents(garden) == before


def test_if_older_asks_only_when_it_is_time(garden: GardenFolder) -> None:
    service = Service()
    for hours, asked in ((0, 1), (2, 1), (5.9, 1), (6.1, 2)):
        found = fetch_weather(
            garden.path, TODAY, NOW + timedelta(hours=hours), if_older_h=6.0, transport=service.transport
        )
        assert len(service.asked) == asked, hours
        assert bool(found.skipped) is (not found.asked)
    assert found.skipped == []


def test_fetching_can_be_switched_off_and_sent_elsewhere(garden: GardenFolder) -> None:
    settings(garden, 'forecast = "http://127.0.0.1:8080/v1/forecast"\ndecimals = 1\ndays = 3')
    with (garden.path / GARDEN_FILE).open("a") as file:
        file.write('[fetch.parameters]\nmodels = "icon_seamless"\n')
    service = Service()
    found = fetch_weather(garden.path, TODAY, NOW, transport=service.transport)
    assert (found.asked, found.sent, len(found.forecast_days)) == (["127.0.0.1"], "52.6, 1.3", 3)
    assert service.asked[0].url.params["models"] == "icon_seamless"
    off = create(garden.path / "off", Site("Off", 52.0, 1.0, 31.0))
    settings(off, "on = false")
    with pytest.raises(FetchError, match="switched off"):
        fetch_weather(off.path, TODAY, NOW, transport=service.transport)
    assert len(service.asked) == 1


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("hours = 3", "'hours' under .fetch., which is not known"),
        ('on = "no"', "on under .fetch. is 'no'"),
        ("decimals = 9", "decimals under .fetch. is 9"),
        ("days = 40", "Allowed: 1 to 16"),
        ("days = true", "days under .fetch. is True"),
        ('forecast = "ftp://weather.example/x"', "begins with https"),
        ('forecast = "http:{}weather.example/x"'.format("//"), "begins with https"),
        ('archive = "file:///etc/hosts"', "begins with https"),
    ],
)
def test_settings_that_cannot_be(garden: GardenFolder, text: str, message: str) -> None:
    settings(garden, text)
    with pytest.raises(GardenError, match=message):
        fetch_weather(garden.path, TODAY, NOW, transport=Service().transport)


@pytest.mark.parametrize(
    ("first", "last", "message"),
    [
        (None, date(2026, 5, 20), "not past"),
        (date(1900, 1, 1), None, "before the archive"),
        (date(2026, 5, 10), date(2026, 5, 1), "in order"),
    ],
)
def test_past_days_that_cannot_be(
    garden: GardenFolder, first: date | None, last: date | None, message: str
) -> None:
    with pytest.raises(ParameterError, match=message):
        fetch_weather(
            garden.path, TODAY, NOW, archive=True, first=first, last=last, transport=Service().transport
        )
