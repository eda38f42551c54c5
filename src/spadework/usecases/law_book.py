"""Which laws there are, and how each is evaluated from plain numbers.

Heavy rooms are imported inside the evaluators: a single law must answer at once.
"""

from __future__ import annotations

from spadework.usecases.law_book_plants import PLANT_JOB_LAWS
from spadework.usecases.law_book_troubles import TROUBLE_LAWS
from spadework.usecases.law_book_weather import WEATHER_JOB_LAWS
from spadework.usecases.laws import Blank, Given, Law, Result, day_of_year, number, optional, rounded

_FAO56 = (
    "published: Allen, Pereira, Raes, Smith 1998, Crop evapotranspiration, "
    "FAO Irrigation and Drainage Paper 56"
)


def _emergence_days(given: Given) -> Result:
    from spadework.crops.loader import load_sheet
    from spadework.science.emergence import emergence_at

    found = emergence_at(
        number(given, "soil_c"), load_sheet(str(given["crop"])).emergence.law(), number(given, "depth_mm")
    )
    return {
        "days": None if found.median_days is None else rounded(found.median_days, 2),
        "percent": rounded(found.normal_pct, 1),
        "reason": found.reason,
    }


def _emergence_percent(given: Given) -> Result:
    from spadework.crops.loader import load_sheet
    from spadework.science.emergence import percent_normal

    return {
        "percent": rounded(
            float(percent_normal(number(given, "soil_c"), load_sheet(str(given["crop"])).emergence.law())), 1
        )
    }


def _degree_days(given: Given) -> Result:
    from spadework.science.degree_days import degree_days

    upper = optional(given, "upper_c")
    cutoff = given.get("cutoff", "none" if upper is None else "horizontal")
    total = degree_days(
        number(given, "tmin_c"),
        number(given, "tmax_c"),
        number(given, "lower_c"),
        upper,
        given["method"],  # type: ignore[arg-type]  # checked against the blank's words
        cutoff,  # type: ignore[arg-type]
        optional(given, "tmin_next_c"),
    )
    return {"degree_days_c": rounded(float(total)), "cutoff": str(cutoff)}


def _day_length(given: Given) -> Result:
    from spadework.science import sun

    lat, doy = number(given, "lat"), day_of_year(given)
    return {
        "geometric_h": rounded(float(sun.day_length_geometric_h(lat, doy))),
        "sunrise_to_sunset_h": rounded(float(sun.day_length_sunrise_to_sunset_h(lat, doy))),
    }


def _extraterrestrial(given: Given) -> Result:
    from spadework.science import sun

    return {
        "mj_m2_day": rounded(
            float(sun.extraterrestrial_radiation_mj(number(given, "lat"), day_of_year(given)))
        )
    }


def _et0(given: Given) -> Result:
    from spadework.science import evapotranspiration as et
    from spadework.science import radiation, sun

    lat, doy = number(given, "lat"), day_of_year(given)
    low, high, elevation = number(given, "tmin_c"), number(given, "tmax_c"), number(given, "elevation_m")
    ra = sun.extraterrestrial_radiation_mj(lat, doy)
    sunshine, solar = optional(given, "sunshine_h"), optional(given, "solar_mj_m2")
    if solar is not None:
        used_solar, from_solar = solar, "radiation given"
    elif sunshine is not None:
        used_solar = float(
            radiation.solar_from_sunshine_mj(sunshine, sun.day_length_geometric_h(lat, doy), ra)
        )
        from_solar = "radiation from sunshine hours"
    else:
        used_solar = float(radiation.solar_from_temperature_range_mj(low, high, ra, elevation_m=elevation))
        from_solar = "radiation from the day's temperature range"
    vapour = et.actual_vapour_pressure_kpa(
        low,
        high,
        rh_max_pct=optional(given, "rh_max"),
        rh_min_pct=optional(given, "rh_min"),
        rh_mean_pct=optional(given, "rh_mean"),
        tdew_c=optional(given, "tdew_c"),
    )
    wind = optional(given, "wind_m_s")
    wind_2m = (
        et.WIND_WHEN_UNKNOWN_M_S
        if wind is None
        else float(et.wind_at_2m_m_s(wind, number(given, "wind_height_m")))
    )
    rate = et.et0_penman_monteith_mm(
        low,
        high,
        ra_mj=ra,
        elevation_m=elevation,
        actual_vapour_pressure_kpa=vapour.kpa,
        solar_mj=used_solar,
        wind_2m_m_s=wind_2m,
    )
    method = f"FAO-56 Penman-Monteith; {from_solar}; humidity {vapour.source}; " + (
        "wind taken as 2 m/s" if wind is None else "wind given"
    )
    return {
        "mm_day": rounded(float(rate), 3),
        "method": method,
        "wind_2m_m_s": rounded(wind_2m, 3),
        "solar_mj_m2": rounded(used_solar, 3),
    }


def _development(given: Given) -> Result:
    from spadework.clock.tables import trapezoid_table
    from spadework.crops.loader import load_sheet

    section = load_sheet(str(given["crop"])).development
    low, high = number(given, "tmin_c"), number(given, "tmax_c")
    table = trapezoid_table(
        section.base_c.value, section.optimum_c.value, section.shoulder_c.value, section.ceiling_c.value
    )
    import numpy as np

    rate = table(np.array([(low + high) / 2.0]), np.array([(high - low) / 2.0]))[0]
    return {"share_of_best_day": rounded(rate), "days_of_best_warmth_needed": section.ready_days.value}


def _leaf_frost(given: Given) -> Result:
    from spadework.science.frost import chance_surface_below

    return {"chance": rounded(float(chance_surface_below(number(given, "tmin_c"), number(given, "below_c"))))}


def _air_at_hour(given: Given) -> Result:
    from spadework.science import air, sun

    rise, fall = sun.sunrise_sunset_solar_h(number(given, "lat"), day_of_year(given))
    low, high, hour = number(given, "tmin_c"), number(given, "tmax_c"), number(given, "hour")
    found = air.hourly_temperature_c(
        [low],
        [high],
        sunrise_h=rise,
        sunset_h=fall,
        hours=[hour],
        tmin_next_c=optional(given, "tmin_next_c"),
    )
    return {"temp_c": rounded(float(found.ravel()[0]), 2)}


_CROP = Blank("crop", "crop", "any name of the crop")
_SOIL = Blank("soil_c", "number", "constant soil temperature at the seed, °C", -10.0, 60.0)
_LAT = Blank("lat", "number", "latitude in degrees, north positive", -90.0, 90.0)
_DATE = Blank("date", "date", "day, as year-month-day")
_LOW = Blank("tmin_c", "number", "day's minimum, °C", -60.0, 60.0)
_HIGH = Blank("tmax_c", "number", "day's maximum, °C", -60.0, 60.0)
_NEXT = Blank("tmin_next_c", "number", "next day's minimum, °C", -60.0, 60.0, needed=False)

_EMERGENCE = tuple(
    f"emergence.{name}" for name in ("base_c", "sum_cd", "optimum_c", "shoulder_c", "ceiling_c")
)
_PERCENT = tuple(f"emergence.{name}" for name in ("best_pct", "cold_half_c", "heat_half_c"))
_DEGREE_ALSO = {
    "simple-average": "average",
    "mean": "average",
    "modified": "modified-average",
    "sine": "single-sine",
    "triangle": "single-triangle",
}
_DEGREE_METHODS = (
    "average",
    "modified-average",
    "single-sine",
    "double-sine",
    "single-triangle",
    "double-triangle",
)

_ALL = (
    Law(
        "emergence-days",
        "Days from sowing until half of the able seed is up, at a constant soil temperature.",
        (_CROP, _SOIL, Blank("depth_mm", "number", "sowing depth, mm", 0.0, 250.0, default=13.0)),
        _emergence_days,
        ("computed: thermal time with a soft base, fitted to the published days table",),
        _EMERGENCE,
    ),
    Law(
        "emergence-percent",
        "Share of good seed that makes normal seedlings, at a constant soil temperature.",
        (_CROP, _SOIL),
        _emergence_percent,
        ("computed: a cold and a heat side, fitted to the published percent table",),
        _PERCENT,
    ),
    Law(
        "degree-days",
        "Warmth of one day above a lower and up to an upper limit.",
        (
            _LOW,
            _HIGH,
            Blank("lower_c", "number", "lower limit, °C", -60.0, 60.0),
            Blank("upper_c", "number", "upper limit, °C", -60.0, 60.0, needed=False),
            Blank(
                "method",
                "word",
                "how the day is drawn",
                words=_DEGREE_METHODS,
                also=_DEGREE_ALSO,
                default="single-sine",
            ),
            Blank(
                "cutoff",
                "word",
                "what happens above the upper limit; horizontal where one is given",
                words=("none", "horizontal", "vertical", "intermediate"),
                needed=False,
            ),
            _NEXT,
        ),
        _degree_days,
        ("published: closed forms of the sine and triangle day",),
    ),
    Law(
        "day-length",
        "Hours of day, by geometry and from sunrise to sunset with refraction.",
        (_LAT, _DATE),
        _day_length,
        (
            _FAO56 + ", eq. 34 (geometric)",
            "memory: Forsythe and others 1995, Ecological Modelling 80 (sunrise to sunset)",
        ),
    ),
    Law(
        "extraterrestrial-radiation",
        "Sunlight of a day above the air.",
        (_LAT, _DATE),
        _extraterrestrial,
        (_FAO56 + ", eq. 21",),
    ),
    Law(
        "et0",
        "Water a reference lawn loses in a day.",
        (
            _LOW,
            _HIGH,
            _LAT,
            _DATE,
            Blank("elevation_m", "number", "height above the sea, m", -450.0, 6000.0),
            Blank("rh_max", "number", "highest humidity, %", 0.0, 100.0, needed=False),
            Blank("rh_min", "number", "lowest humidity, %", 0.0, 100.0, needed=False),
            Blank("rh_mean", "number", "mean humidity, %", 0.0, 100.0, needed=False),
            Blank("tdew_c", "number", "dew point, °C", -60.0, 60.0, needed=False),
            Blank("wind_m_s", "number", "mean wind, m/s", 0.0, 60.0, needed=False),
            Blank("wind_height_m", "number", "height of the wind gauge, m", 0.5, 100.0, default=2.0),
            Blank("sunshine_h", "number", "hours of sun", 0.0, 24.0, needed=False),
            Blank(
                "solar_mj_m2", "number", "sunlight on the ground, MJ a square metre", 0.0, 50.0, needed=False
            ),
        ),
        _et0,
        (_FAO56 + ", eq. 6",),
    ),
    Law(
        "development",
        "How far a day brings a crop, beside a day at its best warmth.",
        (_CROP, _LOW, _HIGH),
        _development,
        ("computed: trapezoid over the daily wave",),
        ("development.base_c", "development.optimum_c", "development.ceiling_c", "development.ready_days"),
    ),
    Law(
        "leaf-frost",
        "Chance that the leaf surface falls to a limit, from the shelter thermometer's minimum.",
        (_LOW, Blank("below_c", "number", "limit at the leaf, °C", -60.0, 60.0, default=0.0)),
        _leaf_frost,
        ("measured: infrared surface against air at 1.5 m, US Climate Reference Network, 2020",),
    ),
    Law(
        "air-at-hour",
        "Air temperature at an hour of the sun's clock.",
        (_LOW, _HIGH, _LAT, _DATE, Blank("hour", "number", "hour of the sun's clock", 0.0, 24.0), _NEXT),
        _air_at_hour,
        ("published: Parton and Logan 1981, Agricultural Meteorology 23; lags: Wann and others 1985",),
    ),
)

LAWS: dict[str, Law] = {law.name: law for law in (*_ALL, *WEATHER_JOB_LAWS, *PLANT_JOB_LAWS, *TROUBLE_LAWS)}
"""The laws by name."""
