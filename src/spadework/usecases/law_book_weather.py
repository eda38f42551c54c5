"""The laws behind the daily jobs that hang on the weather: water, heat, burning sun, covers.

Heavy rooms are imported inside the evaluators, as in `law_book`.
"""

from __future__ import annotations

from typing import cast

from spadework.errors import ParameterError
from spadework.usecases.laws import Blank, Given, Law, Result, day_of_year, number, optional, rounded

_FAO56 = (
    "published: Allen, Pereira, Raes, Smith 1998, Crop evapotranspiration, "
    "FAO Irrigation and Drainage Paper 56"
)


def _water_need(given: Given) -> Result:
    import numpy as np

    from spadework.science import crop_water, root_zone, watering
    from spadework.science.root_soils import root_soil

    soil = root_soil(str(given["soil"]).replace("-", " "))
    days = round(number(given, "dry_days"))
    basal = number(given, "kc")
    upper = crop_water.upper_coefficient(basal)
    found = root_zone.water_balance(
        np.zeros(max(days, 1)),
        np.full(max(days, 1), number(given, "et0_mm")),
        basal_kc=basal,
        cover_share=crop_water.cover_from_coefficient(basal, upper),
        available_mm=soil.held_mm_m * number(given, "roots_m"),
        depletion_table_share=number(given, "depletion_share"),
        surface_readily_mm=soil.readily_mm.middle,
        surface_evaporable_mm=soil.evaporable_mm.middle,
    )
    gone = float(found.depletion_mm[-1]) if days else 0.0
    share = watering.WATERING_SHARES[str(given["by"])]
    short = found.depletion_mm > found.readily_mm
    return {
        "gone_mm": rounded(gone, 1),
        "may_be_gone_mm": rounded(float(found.readily_mm[-1]), 1),
        "held_mm": rounded(soil.held_mm_m * number(given, "roots_m"), 1),
        "litres": rounded(float(watering.litres_for_depth(gone, number(given, "area_m2"), share)), 1),
        "plants": "go short" if days and bool(short[-1]) else "have enough",
    }


def _seed_row(given: Given) -> Result:
    from spadework.science import sun, watering
    from spadework.science.root_soils import root_soil

    soil = root_soil(str(given["soil"]).replace("-", " "))
    store = watering.seed_zone_store_mm(soil.full.middle, soil.wilting.middle)
    rise, fall = sun.sunrise_sunset_solar_h(number(given, "lat"), day_of_year(given))
    et0, below, shelter = (number(given, name) for name in ("et0_mm", "damp_below_share", "shelter_factor"))
    hours = float(
        watering.drying_hours(
            store, et0, sunrise_h=rise, sunset_h=fall, from_h=number(given, "from_h"),
            damp_below_share=below, shelter_factor=shelter,
        )
    )  # fmt: skip
    times = watering.waterings_a_day(store, et0, damp_below_share=below, shelter_factor=shelter)
    lasting = hours != float("inf")
    return {
        "hours": rounded(hours, 1) if lasting else None,
        "times_a_day": rounded(float(times), 0),
        "lasts": "dry the same day" if lasting else "until the next morning",
    }


def _heat_index(given: Given) -> Result:
    from spadework.science import comfort

    temp, dew, humid = number(given, "temp_c"), optional(given, "tdew_c"), optional(given, "rh")
    if (dew is None) == (humid is None):
        raise ParameterError("heat-index: one of rh and tdew_c is needed.", "Give rh=60 or tdew_c=18.")
    if humid is None:
        humid = float(comfort.relative_humidity_pct(temp, cast(float, dew)))
    shade = float(comfort.heat_index_c(temp, humid))
    return {
        "feels_c": rounded(shade, 1),
        "in_full_sun_up_to_c": rounded(shade + comfort.FULL_SUN_HEAT_CDELTA, 1),
        "caution": comfort.HEAT_BANDS[int(comfort.heat_band(shade))],
        "rh": rounded(humid, 0),
    }


def _uv_index(given: Given) -> Result:
    from spadework.science import comfort, sun

    sine = sun.elevation_sine(number(given, "lat"), day_of_year(given), [number(given, "hour")])
    found = float(
        comfort.uv_index(
            sine[0],
            ozone_du=number(given, "ozone_du"),
            elevation_m=number(given, "elevation_m"),
            clear_share=number(given, "clear_share"),
        )
    )
    return {"uv_index": rounded(found, 1), "band": comfort.UV_BANDS[int(comfort.uv_band(found))]}


def _cover_gain(given: Given) -> Result:
    from spadework.clock.cover_kinds import covers
    from spadework.science import cover, frost

    kind = covers()[str(given["cover"]).replace("-", " ")]
    low, limit, spread = (number(given, name) for name in ("tmin_c", "harm_c", "forecast_sd_c"))
    sky = frost.plant_surface_offset(stirred=given["sky"] != "clear")
    bare = cover.chance_harmed(low, limit, tmin_sd_c=spread, offset=sky)
    covered = cover.chance_harmed(low, limit, tmin_sd_c=spread, offset=sky, night_gain_c=kind.night_c)
    return {
        "chance_bare": rounded(float(bare), 2),
        "chance_covered": rounded(float(covered), 2),
        "usual_gain_c": rounded(kind.night_c, 1),
        "gain": f"{kind.provenance}: {kind.source}" if kind.source else kind.provenance,
    }


def _tunnel_heat(given: Given) -> Result:
    import numpy as np

    from spadework.science import air, cover, radiation, sun

    lat, doy = number(given, "lat"), day_of_year(given)
    low, high = number(given, "tmin_c"), number(given, "tmax_c")
    rise, fall = (float(each) for each in sun.sunrise_sunset_solar_h(lat, doy))
    told = optional(given, "solar_mj_m2")
    if told is None:
        ra = sun.extraterrestrial_radiation_mj(lat, doy)
        told = float(radiation.solar_from_temperature_range_mj(low, high, ra))
    hours = np.arange(0.5, 24.0, 0.5)
    outside = air.hourly_temperature_c([low], [high], sunrise_h=rise, sunset_h=fall, hours=hours)[0]
    light = cover.sun_at_hours_w_m2(np.array([told]), np.array([rise]), np.array([fall]), hours)[0]
    chance = cover.chance_too_hot(outside, light, number(given, "limit_c"))
    likely = np.flatnonzero(chance >= 0.5)
    hottest = int(np.argmax(outside + cover.SHUT_HOUSE_C_PER_W * light))
    return {
        "most_c": rounded(float(outside[hottest] + cover.SHUT_HOUSE_C_PER_W * light[hottest]), 0),
        "highest_chance": rounded(float(chance.max()), 2),
        "likely_from_h": rounded(float(hours[likely[0]]), 1) if likely.size else None,
        "likely_until_h": rounded(float(hours[likely[-1]]), 1) if likely.size else None,
    }


_SOILS = tuple(
    name.replace(" ", "-")
    for name in (
        "sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt", "silty clay loam", "silty clay",
        "clay", "bed mix", "pot mix",
    )
)  # fmt: skip
_SOIL = Blank("soil", "word", "kind of soil", words=_SOILS, default="loam")
_COVERS = ("fleece-thin", "fleece", "fleece-thick", "mesh", "film", "cloche", "shade-30", "shade-50")
_ET0 = Blank("et0_mm", "number", "reference evapotranspiration, mm a day", 0.0, 15.0)
_LAT = Blank("lat", "number", "latitude in degrees, north positive", -66.0, 66.0)
_DATE = Blank("date", "date", "day, as year-month-day")

WEATHER_JOB_LAWS: tuple[Law, ...] = (
    Law(
        "water-need",
        "Water gone from a soaked bed after dry days, whether plants go short, and litres to fill it again.",
        (
            _ET0,
            Blank("dry_days", "number", "days since it was soaked", 0.0, 60.0),
            Blank("roots_m", "number", "depth of the roots, m", 0.05, 2.0),
            _SOIL,
            Blank(
                "kc",
                "number",
                "basal crop coefficient: 0.15 seedlings, about 1 full leaf",
                0.0,
                1.3,
                default=0.95,
            ),
            Blank(
                "depletion_share",
                "number",
                "share that may be gone before plants go short",
                0.1,
                0.8,
                default=0.4,
            ),
            Blank("area_m2", "number", "ground, square metres", 0.01, 10000.0, default=1.0),
            Blank(
                "by",
                "word",
                "how it is watered",
                words=("can", "hose", "drip", "sprinkler"),
                default="can",
            ),
        ),
        _water_need,
        (
            _FAO56 + ", ch. 7 and 8, table 19",
            "common-practice: share of the water given that reaches the roots",
        ),
    ),
    Law(
        "seed-row-drying",
        "Hours until a watered seed row is too dry on a day, and how often it must be watered.",
        (
            _ET0,
            _LAT,
            _DATE,
            Blank("from_h", "number", "hour of the sun's clock when it was watered", 0.0, 24.0, default=8.0),
            _SOIL,
            Blank("damp_below_share", "number", "how full the soil below is, 0 to 1", 0.0, 1.0, default=0.5),
            Blank(
                "shelter_factor", "number", "loss under fleece or shade over the open", 0.0, 1.0, default=1.0
            ),
        ),
        _seed_row,
        ("memory: water of the top 2 cm, and what rises from below", "computed: the sun's half wave"),
    ),
    Law(
        "heat-index",
        "How hot air feels in the shade. Age, work and health weigh as much; local heat advice goes first.",
        (
            Blank("temp_c", "number", "air temperature, °C", -30.0, 60.0),
            Blank("rh", "number", "humidity, %", 0.0, 100.0, needed=False),
            Blank("tdew_c", "number", "dew point, °C", -40.0, 40.0, needed=False),
        ),
        _heat_index,
        (
            "published: Rothfusz 1990, The heat index equation, National Weather Service SR 90-23",
            "memory: up to 8 °C more in full sun, and where each caution begins",
        ),
    ),
    Law(
        "uv-index",
        "How strongly the sun burns at an hour.",
        (
            _LAT,
            _DATE,
            Blank("hour", "number", "hour of the sun's clock", 0.0, 24.0, default=12.0),
            Blank("elevation_m", "number", "height above the sea, m", -450.0, 6000.0, default=0.0),
            Blank("ozone_du", "number", "ozone column, Dobson units", 100.0, 600.0, default=300.0),
            Blank("clear_share", "number", "sunlight over that of a clear sky", 0.0, 1.0, default=1.0),
        ),
        _uv_index,
        (
            "published: Madronich 2007, Analytic formula for the clear-sky UV index",
            "published: World Health Organization 2002, Global solar UV index (bands, height)",
            "memory: clouds",
        ),
    ),
    Law(
        "cover-gain",
        "Chance that leaves fall to a harmful temperature in a night, bare and under a cover.",
        (
            Blank("tmin_c", "number", "night's minimum at the shelter, °C", -40.0, 30.0),
            Blank("harm_c", "number", "leaf temperature that harms the crop, °C", -30.0, 15.0, default=-1.0),
            Blank("cover", "word", "kind of cover", words=_COVERS, default="fleece"),
            Blank("sky", "word", "the night's sky", words=("clear", "cloudy", "windy"), default="clear"),
            Blank("forecast_sd_c", "number", "spread of the forecast minimum, °C", 0.0, 8.0, default=1.5),
        ),
        _cover_gain,
        (
            "measured: infrared surface against air at 1.5 m, US Climate Reference Network, 2020",
            "memory: a cover's gain spreads by 1 °C and may be nothing at all",
        ),
    ),
    Law(
        "tunnel-heat",
        "When the air in a shut tunnel passes a limit on a day, by hours of the sun's clock.",
        (
            Blank("tmin_c", "number", "day's minimum outside, °C", -40.0, 50.0),
            Blank("tmax_c", "number", "day's maximum outside, °C", -40.0, 50.0),
            _LAT,
            _DATE,
            Blank("limit_c", "number", "limit inside, °C", 0.0, 60.0, default=30.0),
            Blank("solar_mj_m2", "number", "sunlight of the day, MJ a square metre", 0.0, 50.0, needed=False),
        ),
        _tunnel_heat,
        (
            "computed: heat in equals heat out in a shut film house",
            "memory: what film passes and loses",
            "published: Parton and Logan 1981, Agricultural Meteorology 23 (air by the hour)",
        ),
    ),
)
"""What the weather of a day asks of the bed and its people."""
