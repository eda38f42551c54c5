"""Tell the garden in a line what could also be read from a file, see it, and take it back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer, read_date, read_temp
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.tell_words import (
    read_dated_odds,
    read_depth,
    read_difference,
    read_forecast,
    read_hour,
    read_rain,
    read_share,
    read_wind,
)
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    PairedMinima,
    SkyHours,
    SoilWarmth,
    Thermometer,
    WarmthTotal,
)

Sure = Annotated[bool, Parameter(negative="", help="Keep it although something speaks against it.")]
Source = Annotated[str, Parameter(help="Who says so.")]


def forecast(
    *days: str,
    on: Annotated[str | None, Parameter(help="The day, where it is told by options.")] = None,
    high: Annotated[
        str | None, Parameter(allow_leading_hyphen=True, help="Day maximum (°C, or 64F).")
    ] = None,
    low: Annotated[str | None, Parameter(allow_leading_hyphen=True, help="Night minimum.")] = None,
    mean: Annotated[
        str | None, Parameter(allow_leading_hyphen=True, help="Mean of the day, where that is all there is.")
    ] = None,
    rain: Annotated[str | None, Parameter(help="Rain, mm, or 0.2in.")] = None,
    rain_odds: Annotated[str | None, Parameter(help="Odds of rain, %, or 1in5.")] = None,
    wind: Annotated[str | None, Parameter(help="Wind, m/s, or 12mph, 20km/h.")] = None,
    cloud: Annotated[str | None, Parameter(help="Sky in cloud, %.")] = None,
    dew: Annotated[str | None, Parameter(allow_leading_hyphen=True, help="Dew point.")] = None,
    source: Source = "forecast",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """A forecast, a day or several in one line.

    Parameters
    ----------
    days : str
        Each day in quotes: "2026-05-21 18/6 rain 4 70% wind 5 cloud 80% dew 3", "22 May mean 12".
    """
    common = common or Common()
    today = common.day
    facts: list[Fact] = [read_forecast(line, today) for line in days]
    if on is not None:
        facts.append(
            ForecastDay(
                day=read_date(on, "--on", today),
                high_c=None if high is None else read_temp(high, "--high"),
                low_c=None if low is None else read_temp(low, "--low"),
                mean_c=None if mean is None else read_temp(mean, "--mean"),
                rain_mm=None if rain is None else read_rain(rain, "--rain"),
                rain_odds=None if rain_odds is None else read_share(rain_odds, "--rain-odds"),
                wind_m_s=None if wind is None else read_wind(wind, "--wind"),
                cloud_share=None if cloud is None else read_share(cloud, "--cloud"),
                dew_c=None if dew is None else read_temp(dew, "--dew"),
            )
        )
    elif any(value is not None for value in (high, low, mean, rain, rain_odds, wind, cloud, dew)):
        raise ParameterError("Of which day?", "Give --on DATE, or write the day in one line.")
    if not facts:
        raise ParameterError("No day is told.", 'Write: spadework tell forecast "2026-05-21 18/6 rain 4 70%"')
    _tell(common, facts, source, sure)


def soil(
    temp: Annotated[str, Parameter(allow_leading_hyphen=True)],
    *,
    depth: Annotated[str, Parameter(help="Depth of the thermometer, cm, or 4in.")],
    on: Annotated[str | None, Parameter(help="Day of the reading.")] = None,
    hour: Annotated[str | None, Parameter(help="Hour of a spot reading, by the sun: 8, 8:30, 2pm.")] = None,
    mean: Annotated[bool, Parameter(negative="", help="It is the mean of the day.")] = False,
    from_: Annotated[
        str | None, Parameter(name="--from", help="First day of a stretch it is the mean of.")
    ] = None,
    to: Annotated[str | None, Parameter(help="Last day of the stretch.")] = None,
    bed: Annotated[str, Parameter(help="The bed, where only one was read.")] = "",
    source: Source = "own reading",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """Soil warmth at a depth: a spot reading with its hour, or a mean.

    Parameters
    ----------
    temp : str
        Temperature (°C, or 50F).
    """
    common = common or Common()
    today = common.day
    if (from_ is None) != (to is None) or (on is None) == (from_ is None):
        raise ParameterError(
            "When was it read?", "Give --on DATE with --hour or --mean, or --from DATE --to DATE."
        )
    if on is not None and (hour is None) != mean:
        raise ParameterError(
            "A reading of one day is of an hour or the mean of the day.", "Give --hour H, or --mean."
        )
    if from_ is not None and hour is not None:
        raise ParameterError("A spot reading has one day.", "Give --on DATE, or leave --hour out.")
    first = read_date(on or from_ or "", "--on" if on else "--from", today)
    last = first if to is None else read_date(to, "--to", today)
    fact = SoilWarmth(
        temp_c=read_temp(temp, "The temperature"),
        depth_cm=read_depth(depth, "--depth"),
        first=first,
        last=last,
        hour=None if hour is None else read_hour(hour, "--hour"),
        bed=bed.strip(),
    )
    _tell(common, [fact], source, sure)


def warmth(
    total: str,
    *,
    base: Annotated[
        str, Parameter(allow_leading_hyphen=True, help="Temperature above which it is summed (°C, or 50F).")
    ],
    since: Annotated[str, Parameter(help="First day summed.")],
    until: Annotated[str, Parameter(help="Last day summed.")],
    upper: Annotated[
        str | None, Parameter(allow_leading_hyphen=True, help="Temperature above which no more counts.")
    ] = None,
    method: Annotated[str, Parameter(help="How it is summed; the laws list the words.")] = "average",
    source: Source = "bulletin",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """A degree-day total as a bulletin quotes it.

    Parameters
    ----------
    total : str
        Degree-days; in Fahrenheit ones with an F behind: 540F.
    """
    common = common or Common()
    today = common.day
    fact = WarmthTotal(
        total_cday=read_difference(total, "The total"),
        base_c=read_temp(base, "--base"),
        since=read_date(since, "--since", today),
        until=read_date(until, "--until", today),
        upper_c=None if upper is None else read_temp(upper, "--upper"),
        method=method.strip().lower(),
    )
    _tell(common, [fact], source, sure)


def frost_table(
    *,
    season: Annotated[Literal["spring", "autumn"], Parameter(help="Last frosts, or first ones.")],
    below: Annotated[
        str, Parameter(allow_leading_hyphen=True, help="A night at or below this counts (°C, or 28F).")
    ] = "0",
    dates: Annotated[
        list[str] | None,
        Parameter(
            name="--date",
            negative="",
            help='Odds of frost on or after a day in spring, by a day in autumn: "1in10=25 May". Repeat.',
        ),
    ] = None,
    median: Annotated[str | None, Parameter(help="Middle date, where no odds are given.")] = None,
    spread: Annotated[float | None, Parameter(help="Its spread (standard deviation), days.")] = None,
    source: Source = "frost table",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """Frost dates with their odds, or a middle date with its spread, for one limit."""
    common = common or Common()
    today = common.day
    fact = FrostTable(
        below_c=read_temp(below, "--below"),
        season=season,
        dates=tuple(read_dated_odds(text, today) for text in dates or ()),
        median=None if median is None else read_date(median, "--median", today),
        spread_days=spread,
    )
    _tell(common, [fact], source, sure)


def minimum(
    *,
    own: Annotated[
        str | None, Parameter(allow_leading_hyphen=True, help="Night minimum at the garden (°C, or 28F).")
    ] = None,
    station: Annotated[
        str | None, Parameter(allow_leading_hyphen=True, help="The station's, the same night.")
    ] = None,
    on: Annotated[str | None, Parameter(help="The morning it was read.")] = None,
    difference: Annotated[
        str | None, Parameter(allow_leading_hyphen=True, help="Or: garden less station, mean of many nights.")
    ] = None,
    nights: Annotated[int, Parameter(help="How many nights.")] = 1,
    spread: Annotated[str | None, Parameter(help="Their scatter (standard deviation).")] = None,
    height: Annotated[float, Parameter(help="Height of the own thermometer, m.")] = 1.5,
    open_sky: Annotated[
        bool, Parameter(name="--open", negative="", help="It stands under the open sky, without shelter.")
    ] = False,
    where: Annotated[str, Parameter(help='Its surroundings: "in the hollow".')] = "",
    source: Source = "own thermometer",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """Own night minimum beside the station's: one night, or the mean of many."""
    common = common or Common()
    today = common.day
    thermometer = Thermometer(
        height_m=height, shelter="open" if open_sky else "sheltered", surroundings=where.strip()
    )
    one_night = own is not None or station is not None
    if one_night == (difference is not None) or (own is None) != (station is None):
        raise ParameterError(
            "A pair is needed.",
            "Give --own and --station with --on DATE, or --difference with --nights and --spread.",
        )
    station_c = None if station is None else read_temp(station, "--station")
    if own is not None and station_c is not None:
        if on is None:
            raise ParameterError("Of which night?", "Give --on DATE, the morning it was read.")
        fact = PairedMinima(
            difference_c=round(read_temp(own, "--own") - station_c, 6),
            own=thermometer,
            on=read_date(on, "--on", today),
        )
    else:
        fact = PairedMinima(
            difference_c=read_difference(difference or "", "--difference"),
            nights=nights,
            spread_c=None if spread is None else read_difference(spread, "--spread"),
            own=thermometer,
            on=None if on is None else read_date(on, "--on", today),
        )
    _tell(common, [fact], source, sure, station_c)


From = Annotated[str | None, Parameter(name="--from", help="Hour it begins, HH:MM.")]
Until = Annotated[str | None, Parameter(help="Hour it ends, HH:MM.")]
On = Annotated[str | None, Parameter(help="The day; today by default.")]


def thunder(
    *,
    on: On = None,
    from_: From = None,
    until: Until = None,
    source: Source = "forecast",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """Thunder, forecast or heard: the round keeps everybody under a roof then."""
    _sky("thunder", on, from_, until, source, sure, common or Common())


def smoke(
    *,
    on: On = None,
    from_: From = None,
    until: Until = None,
    source: Source = "air warning",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """Smoke or foul air, warned of or smelt: the round sends nobody out then."""
    _sky("smoke", on, from_, until, source, sure, common or Common())


def _sky(
    what: Literal["thunder", "smoke"],
    on: str | None,
    begins: str | None,
    until: str | None,
    source: str,
    sure: bool,
    common: Common,
) -> None:
    fact = SkyHours(
        what=what,
        day=common.day if on is None else read_date(on, "--on", common.day),
        from_hour=0.0 if begins is None else read_hour(begins, "--from"),
        until_hour=24.0 if until is None else read_hour(until, "--until"),
    )
    _tell(common, [fact], source, sure)


def told(
    act: Annotated[Literal["forget"] | None, Parameter(help="Take back one of them.")] = None,
    key: Annotated[str, Parameter(help="Its key, or the end of it.")] = "",
    *,
    common: Common | None = None,
) -> None:
    """Everything told that stands; `told forget KEY` takes one back."""
    from spadework.usecases.tell import forget, list_told

    common = common or Common()
    if act == "forget":
        if not key.strip():
            raise ParameterError("Which one?", "Give its key: spadework told forget KEY")
        gone = forget(common.garden, common.day, key)
        voice = voice_of(common)
        answer(common, gone, lambda: print(wrapped(f"Forgotten: {voice.told(gone.forgotten.text)}.")))
        return
    found = list_told(common.garden, common.day)

    def tell() -> None:
        if not found.told:
            print("Nothing is told.")
            return
        voice = voice_of(common)
        for line in found.told:
            head = f"{_short(line.key)}  {voice.day(line.told_on)}, {line.source}: "
            print(wrapped(f"{head}{voice.told(line.text)}", 10, "  "))
        print(wrapped("Take one back with: spadework told forget KEY"))

    answer(common, found, tell)


def _short(key: str) -> str:
    """The end of a key, enough to tell a garden's entries apart."""
    return key[-6:].lower()


def _tell(
    common: Common, facts: Sequence[Fact], source: str, sure: bool, station_c: float | None = None
) -> None:
    from spadework.usecases.tell import tell

    found = tell(common.garden, common.day, facts, source=source, sure=sure, station_c=station_c)
    voice = voice_of(common)
    if not found.stored:
        raise ParameterError(
            voice.told(" ".join(["Not kept.", *found.doubts])),
            "If it is right all the same, tell it again with --sure.",
        )

    def say() -> None:
        for line in found.told:
            print(wrapped(f"Kept {_short(line.key)}: {voice.told(line.text)}.", 2, ""))
        for line in found.known:
            print(wrapped(f"Known already ({_short(line.key)}): {voice.told(line.text)}.", 2, ""))
        for key in found.withdrawn:
            print(f"Taken back for it: {_short(key)}.")
        for text in found.does:
            print(wrapped(voice.told(text), 2, "· "))

    answer(common, found, say)
