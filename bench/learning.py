"""Learning: an event brought to what was gathered by its day, and a book of 48 events learned from."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import partial

from bench.champion import ELEVATION_M, LAT_DEG, LON_DEG, Champion
from bench.figures import Figure, best_seconds
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.clock.learning import Observation, learn
from spadework.clock.observation import observe
from spadework.clock.packet import convert, usual_start
from spadework.crops.loader import load_sheet
from spadework.crops.sheet import Sheet
from spadework.garden.site import Site
from spadework.garden.told import Event
from spadework.weather.series import Series
from spadework.weather.years import build_years

EVENTS, CROPS, BEDS = 48, ("carrot", "beet", "bush-bean", "lettuce", "spinach", "pea"), 8
SOWN, READY = date(2017, 5, 1), date(2017, 7, 10)


def measure(weather: Champion) -> list[Figure]:
    """Time of one event, of a book of events, and of a packet's days turned into warmth."""
    seen = [_observation(weather, number) for number in range(EVENTS)]
    sure = frozenset(one.event for one in seen)
    one_s = best_seconds(partial(_observation, weather, 0), repeats=20)
    all_s = best_seconds(partial(learn, seen, sure=sure), repeats=20)
    carrot = load_sheet("carrot")
    ground = _ground(weather, date(2018, 11, 17), 400, date(2018, 11, 1))
    packet_s = best_seconds(partial(_packet, carrot, ground), repeats=20)
    return [
        Figure("learning: one event to what was gathered by its day", one_s * 1e3, "ms"),
        Figure(f"learning: from {EVENTS} such, {len(CROPS)} crops in {BEDS} beds", all_s * 1e3, "ms"),
        Figure("packet days: usual sowing day and warmth, 30 years", packet_s * 1e3, "ms"),
    ]


def _ground(weather: Champion, first: date, days: int, today: date) -> Ground:
    series = Series(
        start=weather.dates[0], tmin_c=weather.tmin_c, tmax_c=weather.tmax_c, rain_mm=weather.rain_mm
    )
    years = build_years(series, first, days, today)
    return Ground(Site("Champion", LAT_DEG, LON_DEG, ELEVATION_M), years, "bare-moist")


def _observation(weather: Champion, number: int) -> Observation:
    seen = READY + timedelta(days=number % 7)
    crop, bed = CROPS[number % len(CROPS)], f"b{number % BEDS}"
    event = Event(crop=crop, what="ready", started=SOWN, on=seen, bed=bed)
    first = SOWN - timedelta(days=SPIN_UP_DAYS)
    plain = _ground(weather, first, (seen - first).days + 1, seen)
    found = observe(
        f"{number:03d}",
        event,
        load_sheet(crop),
        lambda offset_c: replace(plain, bed_offset_c=offset_c, _kept={}),
    )
    if found is None:
        raise ValueError("nothing was gathered")
    return found


def _packet(sheet: Sheet, plain: Ground) -> float:
    ground = replace(plain, _kept={})
    column = usual_start(sheet, ground, SPIN_UP_DAYS, "sowing")
    if column is None:
        raise ValueError("no usual sowing day")
    return convert(sheet, ground, column, 75.0, "sowing").best_days
