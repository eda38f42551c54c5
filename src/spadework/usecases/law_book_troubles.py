"""The laws behind the watch: an insect's clock, a day's severity for leaf spots, the late-blight rule.

Heavy rooms are imported inside the evaluators, as in `law_book`.
"""

from __future__ import annotations

from functools import cache

from spadework.errors import ParameterError
from spadework.usecases.laws import Blank, Given, Law, Result, number, rounded


@cache
def _insects() -> tuple[str, ...]:
    """Keys of the sheets of insects, by the names of their files."""
    from spadework.crops.troubles import FOLDER

    return tuple(sorted(path.stem for path in (FOLDER / "insects").glob("*.toml")))


def _insect_event(given: Given) -> Result:
    import math

    from spadework.crops.troubles import trouble
    from spadework.science.degree_days import degree_days

    sheet = trouble(str(given["insect"]))
    events = [event for event in sheet.events if event.clock == "warmth"]
    if not events:
        raise ParameterError(
            f"insect-event: no total of warmth is known for {sheet.name}.", "Choose another insect."
        )
    which = round(number(given, "which"))
    if which > len(events):
        raise ParameterError(
            f"insect-event: {sheet.name} has {len(events)} events by warmth.",
            f"Give which=1 to {len(events)}.",
        )
    event = events[which - 1]
    assert event.base_c is not None
    assert event.total is not None
    low, high = number(given, "tmin_c"), number(given, "tmax_c")
    later = low if event.method.startswith("double") else None
    daily = float(degree_days(low, high, event.base_c, event.upper_c, event.method, event.cutoff, later))
    days = math.ceil(event.total.value / daily - 1e-9) if daily > 0.0 else None
    return {
        "event": event.words,
        "counted_from": event.start,
        "degree_days_a_day": rounded(daily, 2),
        "total_cday": rounded(event.total.value, 1),
        "total_from_cday": rounded(event.total.least, 1),
        "total_to_cday": rounded(event.total.most, 1),
        "days_until": None if days is None else float(days),
        "by": f"base {event.base_c:g} C, {event.method}, {event.total.source or event.total.provenance}",
    }


def _wetness_severity(given: Given) -> Result:
    from spadework.science.infection import leaf_spot_severity

    value = int(leaf_spot_severity(number(given, "wet_h"), number(given, "wet_c")))
    words = ("none", "slight", "moderate", "high", "severe")
    return {"severity": float(value), "in_words": words[value]}


def _late_blight_rule(given: Given) -> Result:
    from spadework.science import infection

    low = [number(given, "tmin_first_c"), number(given, "tmin_second_c")]
    humid = [number(given, "humid_first_h"), number(given, "humid_second_h")]
    newer = bool(infection.late_blight_two_days(low, humid)[-1])
    older = bool(infection.late_blight_two_days(low, humid, infection.TWO_DAYS_OLDER_HUMID_H)[-1])
    met = [
        float(cold >= infection.TWO_DAYS_MIN_C) + float(hours >= infection.TWO_DAYS_HUMID_H)
        for cold, hours in zip(low, humid, strict=True)
    ]
    return {
        "alert": "yes: look at potatoes and tomatoes" if newer else "no",
        "by_the_older_rule": "yes" if older else "no",
        "limits_met": sum(met),
    }


_LOW = Blank("tmin_c", "number", "day's minimum, °C", -60.0, 60.0)
_HIGH = Blank("tmax_c", "number", "day's maximum, °C", -60.0, 60.0)

TROUBLE_LAWS: tuple[Law, ...] = (
    Law(
        "insect-event",
        "Days of one warmth until an insect's event, and the total of warmth it takes.",
        (
            Blank("insect", "word", "key of the insect's sheet", words=_insects()),
            _LOW,
            _HIGH,
            Blank(
                "which",
                "number",
                "which of its events by warmth",
                1.0,
                20.0,
                default=1.0,
            ),
        ),
        _insect_event,
        ("computed: degree-days as the total was published with, summed at one warmth",),
    ),
    Law(
        "wetness-severity",
        "How badly a day's wet leaves favour leaf spots of tomato, potato, carrot and celery, 0 to 4.",
        (
            Blank("wet_h", "number", "hours leaves were wet in the day", 0.0, 24.0),
            Blank("wet_c", "number", "mean air temperature of those hours, °C", -20.0, 45.0),
        ),
        _wetness_severity,
        ("memory: Madden, Pennypacker and MacNab 1978, Phytopathology 68:1354-1358",),
    ),
    Law(
        "late-blight-rule",
        "Whether two days in a row let late blight infect: each at least 10 °C and humid for 6 hours.",
        (
            Blank("tmin_first_c", "number", "minimum of the first day, °C", -60.0, 60.0),
            Blank("humid_first_h", "number", "hours at 90 % humidity or more on it", 0.0, 24.0),
            Blank("tmin_second_c", "number", "minimum of the second day, °C", -60.0, 60.0),
            Blank("humid_second_h", "number", "hours at 90 % humidity or more on it", 0.0, 24.0),
        ),
        _late_blight_rule,
        (
            "published: Agriculture and Horticulture Development Board with the James Hutton Institute 2017",
            "memory: Smith 1956, Plant Pathology 5:83-87 (the older rule, 11 hours)",
        ),
    ),
)
"""Of the watch."""
