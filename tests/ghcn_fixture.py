"""Records in the network's own formats, written from arrays, and two real records to write them from."""

from __future__ import annotations

import importlib.util
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from spadework.weather.series import Series

CHAMPION = "USC00251450"
"""A label in the network's form for the Champion, Nebraska record; the record itself comes from elsewhere."""

CORDOBA = "AR000087344"

_CODES = {"TMAX": "tmax_c", "TMIN": "tmin_c", "PRCP": "rain_mm", "AWND": "wind_m_s"}

Flags = dict[tuple[str, str], str]
"""(element, yyyy-mm-dd) to quality flag."""


@cache
def climate_series(place: str) -> Series:
    """A daily record that ships with the aquacrop package: `champion`, `cordoba` (southern), `norfolk`..."""
    spec = importlib.util.find_spec("aquacrop")
    if spec is None or not spec.submodule_search_locations:
        pytest.skip("needs the aquacrop package for its daily weather records")
    path = Path(spec.submodule_search_locations[0]) / "data" / f"{place}_climate.txt"
    table = np.loadtxt(path, skiprows=1)
    dates = np.array(
        [f"{int(y):04d}-{int(m):02d}-{int(d):02d}" for d, m, y in table[:, :3]], dtype="datetime64[D]"
    )
    assert (np.diff(dates).astype(int) == 1).all()
    return Series(
        start=dates[0],
        tmin_c=table[:, 3],
        tmax_c=table[:, 4],
        rain_mm=table[:, 5],
        source=f"daily record of {place.capitalize()}",
    )


def champion_series() -> Series:
    """Champion, Nebraska, 1982 to 2018; northern, continental."""
    return climate_series("champion")


def cordoba_series() -> Series:
    """Cordoba 1991 to 2021; southern hemisphere."""
    return climate_series("cordoba")


def dly_text(station: str, series: Series, flags: Flags | None = None) -> str:
    """The series as a GHCN-Daily .dly file: lines of 269 characters."""
    flags = flags or {}
    lines = []
    first, last = series.start.astype("datetime64[M]"), series.end.astype("datetime64[M]")
    for month in np.arange(first, last + 1):
        start = month.astype("datetime64[D]")
        length = int(((month + 1).astype("datetime64[D]") - start).astype(int))
        for code, name in _CODES.items():
            values = series.element(name)
            if values is None:
                continue
            cells = []
            for day in range(31):
                at = series.index_of(start + day)
                if day >= length or not 0 <= at < series.days or np.isnan(values[at]):
                    cells.append("-9999   ")
                    continue
                flag = flags.get((code, str(start + day)), " ")
                cells.append(f"{round(float(values[at]) * 10):5d} {flag}7")
            lines.append(f"{station:<11}{str(month)[:4]}{str(month)[5:7]}{code}{''.join(cells)}")
    return "\n".join(lines) + "\n"


def by_station_csv_text(
    station: str, series: Series, flags: Flags | None = None, heading: bool = True
) -> str:
    """The series as the network's CSV by station: one value a row, in tenths."""
    flags = flags or {}
    rows = ["ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME"] if heading else []
    dates = [str(day) for day in series.dates]
    for code, name in _CODES.items():
        values = series.element(name)
        if values is None:
            continue
        for day, value in zip(dates, values, strict=True):
            if not np.isnan(value):
                flag = flags.get((code, day), "")
                tenths = round(float(value) * 10)
                rows.append(f"{station},{day.replace('-', '')},{code},{tenths},,{flag},7,0700")
    return "\n".join(rows) + "\n"


def daily_summaries_csv_text(
    station: str,
    series: Series,
    flags: Flags | None = None,
    *,
    units: str = "tenths",
    place: tuple[float, float, float] = (40.47, -101.75, 1000.0),
) -> str:
    """The series as the network's CSV with a day a row; `units` is "tenths", "metric" or "us"."""
    flags = flags or {}
    heads = [f'"{code}","{code}_ATTRIBUTES"' for code in ("PRCP", "TMAX", "TMIN")]
    rows = [f'"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME",{",".join(heads)}']
    for at, day in enumerate(series.dates):
        cells = []
        for code in ("PRCP", "TMAX", "TMIN"):
            values = series.element(_CODES[code])
            value = np.nan if values is None else float(values[at])
            if np.isnan(value):
                cells.append(",")
                continue
            shown = _shown(value, code, units)
            cells.append(f'"{shown}",",{flags.get((code, str(day)), "")},7,0700"')
        where = ",".join(f'"{number}"' for number in place)
        rows.append(f'"{station}","{day}",{where},"A PLACE, NE US",{",".join(cells)}')
    return "\n".join(rows) + "\n"


def _shown(value: float, code: str, units: str) -> str:
    if units == "tenths":
        return f"{round(value * 10):5d}"
    if units == "metric":
        return f"{value:.1f}"
    return f"{value / 25.4:.2f}" if code == "PRCP" else f"{round(value * 1.8 + 32):d}"
