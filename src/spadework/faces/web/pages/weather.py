"""Weather: the record and its gaps, frost odds, own readings, what was told, a forecast when asked for."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Final

from markupsafe import Markup

from spadework import units
from spadework.advice.frost_odds import FrostByDate
from spadework.advice.odds import Odds
from spadework.faces.charts.curve import curve
from spadework.faces.charts.weather_year import weather_year
from spadework.faces.soil_words import learnt_said, names_said
from spadework.faces.voice import in_years
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.draw_weather import WeatherDrawn, draw_weather
from spadework.usecases.fetch_weather import fetch_weather, who_is_asked
from spadework.usecases.keep_book import Asked
from spadework.usecases.keep_reading import keep_frost_seen, keep_rain, keep_thermometer
from spadework.usecases.show_beds import list_beds
from spadework.usecases.show_soil import show_soil
from spadework.usecases.show_weather import show_weather
from spadework.usecases.tell import ToldAnswer, forget, list_told, tell
from spadework.usecases.tell_facts import (
    Fact,
    forecast_day,
    frost_table,
    paired_minima,
    sky_hours,
    soil_warmth,
)
from spadework.usecases.tell_normals import normals_from_rows, tell_normals
from spadework.usecases.write_answer import WriteAnswer

PLACES: Final = {
    "air": "in the air",
    "soil": "in the soil",
    "leaf": "among the leaves",
    "tunnel": "in the tunnel",
    "frame": "in the frame",
}
MOST_TOLD: Final = 40


def show(visit: Visit) -> Page:
    """The weather of the garden."""
    told = list_told(visit.garden, visit.today).told
    drawn = draw_weather(visit.garden, visit.today)
    by = visit.day("by")
    frost = ask_frost(visit.garden, visit.today, by=by)
    beds = [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds]
    return Page(
        "weather.html",
        {
            "weather": show_weather(visit.garden, visit.today),
            "drawn": drawn,
            "year": weather_year(drawn.weeks, visit.voice),
            "frost": frost,
            "by": by,
            "over_by": [_over(each, visit) for each in frost.by] if by else [],
            "frost_curve": _frost_curve(visit, drawn, by),
            "told": list(reversed(told))[:MOST_TOLD],
            "more_told": max(len(told) - MOST_TOLD, 0),
            "beds": beds,
            "places": PLACES,
            "in_years": in_years,
            "terms": who_is_asked(visit.garden, "forecast"),
            "soil": show_soil(visit.garden, visit.today),
            "soil_names": names_said,
            "soil_learnt": learnt_said,
        },
    )


def _over(each: FrostByDate, visit: Visit) -> tuple[str, Odds]:
    """No frost on the far side of a day, as words and odds."""
    frost = each.frost
    odds = Odds(
        chance=round(1.0 - frost.chance, 4),
        years_yes=frost.years - frost.years_yes,
        years=frost.years,
        made_years=frost.made_years,
    )
    where = "at the leaf, in the open" if each.place == "leaf" else "at the thermometer"
    what = "Frost is over by" if each.side == "on or after" else "No frost yet by"
    return f"{what} {visit.voice.day(each.on)}, {where}", odds


def _frost_curve(visit: Visit, drawn: WeatherDrawn, by: date | None) -> Markup:
    """In how many years frost is behind, by day, at the leaf."""
    if not drawn.frost:
        return Markup("")
    points = [
        (float(each.day.toordinal()), round(each.at_leaf * drawn.frost_years, 2))
        for each in drawn.frost
        if each.day.toordinal() >= drawn.frost[len(drawn.frost) // 3].day.toordinal()
    ]
    months = [float(each.day.replace(day=1).toordinal()) for each in drawn.frost]
    ticks = sorted({month for month in months if points[0][0] <= month <= points[-1][0]})
    shown = by or visit.today
    near = min(points, key=lambda point: abs(point[0] - shown.toordinal()))
    at = (float(shown.toordinal()), near[1]) if points[0][0] <= shown.toordinal() <= points[-1][0] else None
    return curve(
        points,
        at=at,
        x_word=lambda value: f"{date.fromordinal(int(value)):%b}",
        y_word=lambda value: f"{value:g}",
        title=f"Of {drawn.frost_years} years, those in which frost at the leaf is behind, by day.",
        at_word=visit.voice.calendar_day(shown),
        x_ticks=ticks,
    )


# -- own readings --------------------------------------------------------------------------------------


def rain(visit: Visit) -> Answer:
    """What the rain gauge held."""
    held = _needed(visit, "rain")
    days = _needed(visit, "days") if visit.text("days") else 1.0
    rain_mm = held * units.MM_PER_INCH if visit.voice.us else held
    return _written(visit, keep_rain(visit.garden, visit.writing, round(rain_mm, 2), int(days)))


def thermometer(visit: Visit) -> Answer:
    """What an own thermometer read."""
    if not any(visit.text(name) for name in ("low", "high", "now")):
        raise Refused("What did it read?", "Give the lowest, the highest, or what it reads now.", field="now")
    place = visit.text("place")
    if place not in PLACES:
        raise Refused("Where does it hang?", "Choose one of the places.", field="place")
    found = keep_thermometer(
        visit.garden,
        visit.writing,
        place,  # type: ignore[arg-type]  # one of PLACES
        min_c=_temp(visit, "low"),
        max_c=_temp(visit, "high"),
        now_c=_temp(visit, "now"),
        bed=visit.text("bed"),
    )
    return _written(visit, found)


def frost_seen(visit: Visit) -> Answer:
    """White frost on leaves."""
    return _written(visit, keep_frost_seen(visit.garden, visit.writing, visit.text("bed")))


def _written(visit: Visit, found: WriteAnswer) -> Answer:
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    said = " ".join(visit.voice.told(f"{each.text.rstrip('.')}.") for each in found.entries)
    return Go("/weather", f"In the book: {said}")


# -- told facts ----------------------------------------------------------------------------------------


def tell_forecast(visit: Visit) -> Answer:
    """A day of somebody's forecast."""
    rain_in = visit.number("rain")
    tenths = visit.number("tenths")
    fact = forecast_day(
        day=_day(visit, "day"),
        low_c=_temp(visit, "low"),
        high_c=_temp(visit, "high"),
        rain_mm=None if rain_in is None else rain_in * units.MM_PER_INCH if visit.voice.us else rain_in,
        rain_odds=None if tenths is None else tenths / 10.0,
    )
    return _told(visit, fact, "forecast")


def tell_soil(visit: Visit) -> Answer:
    """Soil warmth read at a depth."""
    depth = _needed(visit, "depth")
    temp = _temp(visit, "temp")
    if temp is None:
        raise Refused("How warm was it?", "Write it in figures.", field="temp")
    day = _day(visit, "day")
    fact = soil_warmth(
        temp_c=temp,
        depth_cm=depth * units.MM_PER_INCH / 10.0 if visit.voice.us else depth,
        day=day,
        hour=visit.number("hour"),
        bed=visit.text("bed"),
    )
    return _told(visit, fact, "own reading")


def tell_minimum(visit: Visit) -> Answer:
    """An own night beside the station's."""
    own, station = _temp(visit, "own"), _temp(visit, "station")
    if own is None or station is None:
        raise Refused("Both are needed.", "One alone says nothing of the difference.", field="own")
    fact = paired_minima(
        own_c=own, station_c=station, on=_day(visit, "day"), open_sky=bool(visit.text("open"))
    )
    return _told(visit, fact, "own thermometer", station)


def tell_frost(visit: Visit) -> Answer:
    """A told frost date with its odds."""
    one, of = _needed(visit, "years"), _needed(visit, "of")
    if not 0 < one < of:
        raise Refused("Those are no odds.", "Say 1 of 10, or 5 of 10.", field="years")
    if visit.text("season") not in ("spring", "autumn"):
        raise Refused("Of spring or of autumn?", "Say which.", field="season")
    fact = frost_table(
        season=visit.text("season"),
        chance=one / of,
        day=_day(visit, "day"),
        below_c=_temp(visit, "below") or 0.0,
    )
    return _told(visit, fact, "frost table")


def tell_sky(visit: Visit) -> Answer:
    """Thunder or smoke."""
    if visit.text("what") not in ("thunder", "smoke"):
        raise Refused("Thunder or smoke?", "Say which.", field="what")
    fact = sky_hours(
        what=visit.text("what"),
        day=_day(visit, "day"),
        from_hour=visit.number("from") or 0.0,
        until_hour=visit.number("until") or 24.0,
    )
    return _told(visit, fact, "forecast")


def tell_months(visit: Visit) -> Answer:
    """Twelve monthly means."""
    us = visit.voice.us

    def row(name: str, unit: str) -> str:
        text = visit.text(name)
        if not text:
            raise Refused(
                "Twelve numbers are needed.", "January to December, with spaces between.", field=name
            )
        return f"{text} {unit}" if us else text

    fact = normals_from_rows(row("tmin", "F"), row("tmax", "F"), row("rainfall", "in"), None, "")
    source = visit.text("source") or "normals"
    found = tell_normals(visit.garden, visit.today, fact, source, sure=bool(visit.text("insist")))
    if not found.stored:
        return Asks([_asked(each) for each in found.doubts], True)
    return Go("/weather", "Told: twelve monthly means. They take the place of those told before.")


def forget_told(visit: Visit) -> Answer:
    """Take back what was told."""
    gone = forget(visit.garden, visit.today, visit.names["key"])
    return Go("/weather", f"Forgotten: {visit.voice.told(gone.forgotten.text)}.")


def _told(visit: Visit, fact: Fact, source: str, station_c: float | None = None) -> Answer:
    found = tell(
        visit.garden,
        visit.today,
        [fact],
        source=visit.text("source") or source,
        sure=bool(visit.text("insist")),
        station_c=station_c,
    )
    if not found.stored:
        return Asks([_asked(each) for each in found.doubts], True)
    return Go("/weather", _told_words(visit, found))


def _asked(doubt: str) -> Asked:
    why = "If it is so, what it disagrees with is taken back."
    return Asked(act=1, about="", found=doubt, why=why, nearest=(), may_insist=True)


def _told_words(visit: Visit, found: ToldAnswer) -> str:
    lines = [f"Told: {each.text}." for each in found.told] or ["That was told before, and counts once."]
    return visit.voice.told(" ".join([*lines, *found.does]))


# -- a forecast when asked for -------------------------------------------------------------------------


def fetch(visit: Visit) -> Answer:
    """Fetch the forecast now, for the garden's own rounded place."""
    found = fetch_weather(visit.garden, visit.today, datetime.now(UTC), turn=visit.house.turn)
    days = found.forecast_days
    said = f"Forecast kept for {len(days)} days. Asked {' and '.join(dict.fromkeys(found.asked))}; "
    return Go("/weather", f"{said}sent only {found.sent}. {found.credit}")


# -- what was typed ------------------------------------------------------------------------------------


def _needed(visit: Visit, name: str) -> float:
    value = visit.number(name)
    if value is None:
        raise Refused("A number is missing.", "Write it in figures.", field=name)
    return value


def _temp(visit: Visit, name: str) -> float | None:
    value = visit.number(name)
    return value if value is None or not visit.voice.us else round(units.c_from_f(value), 2)


def _day(visit: Visit, name: str) -> date:
    found = visit.day(name)
    if found is None:
        raise Refused("Of which day?", 'Write it as 2026-05-01 or "1 May".', field=name)
    return found


WAYS: Final = (
    Way("/weather", show),
    Way("/weather/rain", rain, post=True, least="helper"),
    Way("/weather/thermometer", thermometer, post=True, least="helper"),
    Way("/weather/frost-seen", frost_seen, post=True, least="helper"),
    Way("/weather/tell/forecast", tell_forecast, post=True, least="helper"),
    Way("/weather/tell/soil", tell_soil, post=True, least="helper"),
    Way("/weather/tell/minimum", tell_minimum, post=True, least="helper"),
    Way("/weather/tell/frost", tell_frost, post=True, least="helper"),
    Way("/weather/tell/sky", tell_sky, post=True, least="helper"),
    Way("/weather/tell/normals", tell_months, post=True, least="keeper"),
    Way("/weather/told/{key}/forget", forget_told, post=True, least="helper"),
    Way("/weather/fetch", fetch, post=True, least="keeper", waits=True),
)
