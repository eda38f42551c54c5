"""Answers of a weather service, written by us in its form; the numbers are invented."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import httpx2
import numpy as np

UNITS = {
    "time": "iso8601",
    "temperature_2m_max": "°C",
    "temperature_2m_min": "°C",
    "temperature_2m_mean": "°C",
    "dew_point_2m_mean": "°C",
    "precipitation_sum": "mm",
    "precipitation_probability_max": "%",
    "wind_speed_10m_mean": "m/s",
    "cloud_cover_mean": "%",
    "shortwave_radiation_sum": "MJ/m²",
    "relative_humidity_2m_mean": "%",
}


def daily(first: date, days: int, names: list[str]) -> dict[str, Any]:
    """A made course of days: a yearly wave, a little weather on it."""
    at = np.arange(days)
    year_day = np.array([(first + timedelta(days=int(day))).timetuple().tm_yday for day in at])
    mean = 10 - 9 * np.cos(2 * np.pi * (year_day - 15) / 365.25) + 2 * np.sin(at / 3.0)
    columns = {
        "temperature_2m_max": mean + 5,
        "temperature_2m_min": mean - 5,
        "temperature_2m_mean": mean,
        "dew_point_2m_mean": mean - 4,
        "precipitation_sum": np.where(at % 3 == 0, 4.2, 0.0),
        "precipitation_probability_max": np.where(at % 3 == 0, 80, 10),
        "wind_speed_10m_mean": np.full(days, 3.4),
        "cloud_cover_mean": np.full(days, 55),
        "shortwave_radiation_sum": np.full(days, 14.25),
        "relative_humidity_2m_mean": np.full(days, 78),
    }
    return {"time": [(first + timedelta(days=int(day))).isoformat() for day in at]} | {
        name: np.round(columns[name], 1).tolist() for name in names
    }


def answer_to(request: httpx2.Request) -> dict[str, Any]:
    """What the service would say to a question."""
    asked = request.url.params
    first, last = date.fromisoformat(asked["start_date"]), date.fromisoformat(asked["end_date"])
    names = asked["daily"].split(",")
    return {
        "latitude": 52.6,
        "longitude": 1.3,
        "elevation": 31.0,
        "generationtime_ms": 0.2,
        "utc_offset_seconds": 3600,
        "timezone": "Europe/London",
        "daily_units": {name: UNITS[name] for name in ["time", *names]},
        "daily": daily(first, (last - first).days + 1, names),
    }


class Service:
    """A service that answers, remembers what it was asked, and can be made to fail."""

    def __init__(self, change: Callable[[dict[str, Any]], Any] | None = None) -> None:
        self.asked: list[httpx2.Request] = []
        self.change = change
        self.failures: list[int | type[Exception]] = []
        self.transport = httpx2.MockTransport(self._handle)

    def _handle(self, request: httpx2.Request) -> httpx2.Response:
        self.asked.append(request)
        if self.failures:
            failure = self.failures.pop(0)
            if isinstance(failure, int):
                return httpx2.Response(failure, json={"error": True, "reason": "made to fail"})
            raise failure("made to fail", request=request)  # type: ignore[call-arg]
        answer: Any = answer_to(request)
        if self.change is not None:
            answer = self.change(answer)
        content = answer if isinstance(answer, bytes) else json.dumps(answer).encode()
        return httpx2.Response(200, content=content)
