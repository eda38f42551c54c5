"""Keep the garden's weather."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import table, wrapped
from spadework.faces.voice import Voice


def weather_add(
    file: Path,
    *,
    tmin: Annotated[
        str | None, Parameter(help="Title of the column of night minima, where it is not found.")
    ] = None,
    tmax: Annotated[str | None, Parameter(help="Title of the column of day maxima.")] = None,
    rain: Annotated[str | None, Parameter(help="Title of the rain column.")] = None,
    date: Annotated[str | None, Parameter(help="Title of the date column.")] = None,
    temp_unit: Annotated[Literal["c", "f"] | None, Parameter(help="Where the table does not say.")] = None,
    rain_unit: Annotated[
        Literal["mm", "cm", "in"] | None, Parameter(help="Where the table does not say.")
    ] = None,
    date_order: Annotated[
        Literal["ymd", "dmy", "mdy"] | None, Parameter(help="Where the dates can be read two ways.")
    ] = None,
    decimal: Annotated[Literal[".", ","] | None, Parameter(help="The sign before tenths.")] = None,
    station: Annotated[str | None, Parameter(help="Which station, where the file holds several.")] = None,
    common: Common | None = None,
) -> None:
    """Add a weather file: NOAA GHCN-Daily (.dly or by-station CSV) or a table from a home station.

    Parameters
    ----------
    file : Path
        The file.
    """
    from spadework.usecases.keep_garden import add_weather

    common = common or Common()
    asked = {
        "tmin": tmin,
        "tmax": tmax,
        "rain": rain,
        "date": date,
        "temp_unit": temp_unit,
        "rain_unit": rain_unit,
        "date_order": date_order,
        "decimal": decimal,
        "station": station,
    }
    hints = {key: value for key, value in asked.items() if value is not None}
    found = add_weather(common.garden, file, hints)

    def tell() -> None:
        voice = voice_of(common)
        print(f"{found.file}: {found.kind}{', ' + found.station if found.station else ''}")
        print(f"{found.days} days, {voice.day(found.first_day)} to {voice.day(found.last_day)}.")
        gaps = {key: count for key, count in found.missing.items() if count}
        if gaps:
            print(
                wrapped("Missing: " + ", ".join(f"{key} {count} days" for key, count in gaps.items()) + ".")
            )
        if found.flagged:
            print(
                wrapped(
                    "Left out for the file's own quality flags: "
                    + ", ".join(f"{key} {count}" for key, count in found.flagged.items())
                    + "."
                )
            )
        for line in [*found.findings[:8], *found.notes]:
            print(wrapped(line, 2, "· "))
        if len(found.findings) > 8:
            print(f"· and {len(found.findings) - 8} more; see: spadework weather show")

    answer(common, found, tell)


def weather_show(*, common: Common | None = None) -> None:
    """The record as it stands: days, gaps, what was filled, what looked wrong."""
    from spadework.usecases.show_weather import show_weather

    common = common or Common()
    found = show_weather(common.garden, common.day)

    def tell() -> None:
        voice = voice_of(common)
        print(
            f"{found.garden}: {found.days} days, {voice.day(found.first_day)} to {voice.day(found.last_day)}"
        )
        if found.source:
            print(wrapped(found.source))
        print()
        rows = []
        for entry in found.elements:
            lowest, highest = (_shown(value, entry.unit, voice) for value in (entry.lowest, entry.highest))
            rows.append(
                [
                    entry.name,
                    str(entry.days_known),
                    str(entry.days_missing),
                    str(entry.days_filled),
                    lowest,
                    highest,
                ]
            )
        print(table(["", "days", "missing", "filled", "lowest", "highest"], rows, frozenset({1, 2, 3, 4, 5})))
        if found.months:
            print()
            rows = []
            for month in found.months:
                rows.append(
                    [
                        month.name,
                        _shown(month.tmin_c, "degC", voice),
                        _shown(month.tmax_c, "degC", voice),
                        _shown(month.rain_mm, "mm", voice),
                        _shown(month.soil_c, "degC", voice),
                    ]
                )
            print(
                table(
                    ["", "night", "day", "rain", "soil at 5 cm" if not voice.us else "soil at 2 in"],
                    rows,
                    frozenset({1, 2, 3, 4}),
                )
            )
        for line in [*found.longest_gaps, *found.findings]:
            print(wrapped(line, 2, "· "))

    answer(common, found, tell)


def _shown(value: float | None, unit: str, voice: Voice) -> str:
    if value is None:
        return "–"
    if unit == "degC":
        return voice.temp(value)
    return voice.rain(value) if unit == "mm" else f"{value:.1f} {unit}"
