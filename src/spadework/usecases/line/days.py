"""Days as people say them: "yesterday", "last night", "on Saturday", "three days ago", "12 June", "6/13"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from spadework.usecases.line.numbers import read_number
from spadework.usecases.line.words import Word

MONTHS: Final = {
    name: number
    for number, names in enumerate(
        (
            "jan january",
            "feb february",
            "mar march",
            "apr april",
            "may",
            "jun june",
            "jul july",
            "aug august",
            "sep sept september",
            "oct october",
            "nov november",
            "dec december",
        ),
        start=1,
    )
    for name in names.split()
}
WEEKDAYS: Final = {
    name: number
    for number, names in enumerate(
        (
            "mon monday",
            "tue tues tuesday",
            "wed weds wednesday",
            "thu thur thurs thursday",
            "fri friday",
            "sat saturday",
            "sun sunday",
        )
    )
    for name in names.split()
}
PARTS_OF_DAY: Final = frozenset(
    [
        "morning",
        "mornin",
        "afternoon",
        "arvo",
        "evening",
        "night",
        "nite",
        "lunchtime",
        "teatime",
        "dinnertime",
        "breakfast",
        "noon",
        "midday",
        "early",
        "late",
        "earlier",
        "first",
    ]
)
_LEADS: Final = {
    "since": "since",
    "from": "since",
    "until": "until",
    "till": "until",
    "til": "until",
    "before": "until",
    "by": "by",
    "through": "until",
    "untill": "until",
    "past": "until",
}
_UNITS_OF_PARTS: Final = frozenset(
    {"in", "inch", "inches", "kg", "kilo", "lb", "pound", "pint", "gallon", "cup", "of", "full"}
)
_SOON_DAYS: Final = 60
"""A day without a year that lies at most so far ahead is one to come, farther ahead one of last year."""


@dataclass(frozen=True, slots=True)
class Day:
    """A day read.

    Parameters
    ----------
    on : date or None
        None where it may be several.
    end : int
        Index of the word after it.
    choices : tuple of date
        The days it may be.
    part : str
        "night" or "morning", where said.
    lead : str
        "since", "until" or "by", where one led to it: then it is not the day it happened.
    """

    on: date | None
    end: int
    choices: tuple[date, ...] = ()
    part: str = ""
    lead: str = ""


def read_day(words: Sequence[Word], at: int, today: date, *, month_first: bool) -> Day | None:
    """The day that begins at a word; None where none does."""
    start, lead = at, ""
    while _text(words, start) in ("on", "this", *_LEADS) and start - at < 3:
        lead = _LEADS.get(_text(words, start), lead)
        start += 1
    found = (
        _weekday_and_date(words, start, today, month_first=month_first)
        or _by_name(words, start, today)
        or _weekday(words, start, today, said=_text(words, at), ahead=lead == "until")
        or _ago(words, start, today)
        or _dated(words, start, today, month_first=month_first, ahead=lead == "until")
    )
    if found is None:
        return None
    end, part = found.end, found.part
    while _text(words, end) in PARTS_OF_DAY and _text(words, end) not in ("first", "early", "late"):
        part = _text(words, end)
        end += 1
    return Day(found.on, end, found.choices, "night" if part == "nite" else part, lead)


def _by_name(words: Sequence[Word], at: int, today: date) -> Day | None:
    text, after = _text(words, at), _text(words, at + 1)
    one = timedelta(days=1)
    if text in ("today", "tonight"):
        return Day(today, at + 1, part="night" if text == "tonight" else "")
    if text in ("yesterday", "yday", "yest", "yesterdays"):
        return Day(today - one, at + 1)
    if text in ("day", "night") and after == "before":
        if _text(words, at + 2) == "yesterday":
            return Day(today - 2 * one, at + 3)
        if _text(words, at + 2) == "last" and text == "night":
            return Day(today - 2 * one, at + 3, part="night")
    if text == "last" and after in ("night", "nite", "evening"):
        return Day(today - one, at + 2, part="night")
    said = words[at - 1].text if at else ""
    if said == "this" and text in ("morning", "mornin", "afternoon", "evening", "arvo", "am", "aft"):
        return Day(today, at + 1, part=text)
    if said in ("the", "by") and text == "morning":
        return Day(today, at + 1, part=text)
    if text == "the" and after in ("morning", "mornin") and at and words[at - 1].text in ("by", "in"):
        return Day(today, at + 2, part="morning")
    if text in ("weekend", "wkend") and at and words[at - 1].text == "next":
        return None
    if text in ("other", "t'other") and after == "day":
        return Day(None, at + 2, tuple(today - timedelta(days=back) for back in (2, 3, 4)))
    if text == "last" and after == "week":
        monday = today - timedelta(days=today.weekday() + 7)
        return Day(None, at + 2, tuple(monday + timedelta(days=on) for on in range(7)))
    if text in ("weekend", "wkend") or (text in ("last", "the") and after in ("weekend", "wkend")):
        end = at + (1 if text in ("weekend", "wkend") else 2)
        back = (today.weekday() - 6) % 7 or (7 if text == "last" else 0)
        sunday = today - timedelta(days=back)
        return Day(None, end, (sunday - one, sunday))
    return None


def _weekday_and_date(words: Sequence[Word], at: int, today: date, *, month_first: bool) -> Day | None:
    """ "Friday 26 June", "Friday the 26th": the date counts."""
    if _text(words, at) not in WEEKDAYS:
        return None
    return _dated(words, at + 1 + (_text(words, at + 1) == ","), today, month_first=month_first)


def _weekday(words: Sequence[Word], at: int, today: date, *, said: str, ahead: bool = False) -> Day | None:
    last = _text(words, at) == "last"
    here = at + 1 if last else at
    text = _text(words, here)
    if text.endswith("s") and text[:-1] in WEEKDAYS and len(text) > 5:
        text = text[:-1]
    if text not in WEEKDAYS or (
        text in ("sat", "sun")
        and said not in ("on", "last", "since", "this")
        and not words[here].capital
        and not _stands_alone(words, here)
    ):
        return None
    back = (today.weekday() - WEEKDAYS[text]) % 7
    end = here + 1
    if ahead:
        return Day(today + timedelta(days=7 - back), end)
    if _text(words, end) == "week" or (_text(words, end) == "before" and _text(words, end + 1) == "last"):
        back, end = back + 7, end + (1 if _text(words, end) == "week" else 2)
    if back == 0 and last:
        back = 7
    if back == 0:
        return Day(None, end, (today, today - timedelta(days=7)))
    day = today - timedelta(days=back)
    join, following = _text(words, end), _text(words, end + 1)
    if join in ("and", "or", "-", "to") and following in WEEKDAYS:
        other = today - timedelta(days=(today.weekday() - WEEKDAYS[following]) % 7)
        return Day(None, end + 2, (day, other))
    return Day(day, end)


def _stands_alone(words: Sequence[Word], at: int) -> bool:
    """A bare "sat" or "sun" at an end of the line, or before a part of the day, is a day."""
    after = _text(words, at + 1)
    return at == 0 or after in ("", ".", ",", ":", *PARTS_OF_DAY)


def _ago(words: Sequence[Word], at: int, today: date) -> Day | None:
    text = _text(words, at)
    if text in ("a", "one") and _text(words, at + 1) in ("day", "week", "fortnight", "month"):
        number, end = 1.0, at + 1
    elif text in ("fortnight",):
        number, end = 1.0, at
    else:
        read = read_number(words, at)
        if read is None:
            return None
        number, end = read.value, read.end
    unit = _text(words, end)
    days = {"day": 1, "days": 1, "d": 1, "night": 1, "nights": 1, "week": 7, "weeks": 7, "fortnight": 14}.get(
        unit
    )
    if days is None or not 0 < number <= 1000:
        return None
    after = _text(words, end + 1)
    if after == "ago" or (after in ("back", "since") and _text(words, end + 2) in ("", ".", ",")):
        return Day(today - timedelta(days=round(number * days)), end + 2)
    return None


def _dated(
    words: Sequence[Word], at: int, today: date, *, month_first: bool, ahead: bool = False
) -> Day | None:
    start = at + 1 if _text(words, at) == "the" else at
    if start >= len(words):
        return None
    word = words[start]
    if word.text.count("-") == 2 and len(word.text) >= 8:
        year, month, day = (int(part) for part in word.text.split("-"))
        return _made(day, month, year, start + 1)
    if word.text in MONTHS:
        if word.text in ("may", "mar", "march", "sep", "dec") and not word.capital and start != at:
            return None
        follow = start + 1 + (_text(words, start + 1) == "the")
        day_number, end = _day_number(words, follow)
        return None if day_number is None else _with_year(words, day_number, MONTHS[word.text], end, today)
    day_number, end = _day_number(words, start)
    if day_number is None:
        return None
    follow = end + 1 if _text(words, end) == "of" else end
    if _text(words, follow) in MONTHS and not (_text(words, follow) == "may" and not _is_may(words, follow)):
        return _with_year(words, day_number, MONTHS[words[follow].text], follow + 1, today)
    if end == start + 2 and _text(words, at) in ("the",):
        return _nearest_month(day_number, end, today, ahead=ahead)
    return _slashed(words, start, today, month_first=month_first)


def _is_may(words: Sequence[Word], at: int) -> bool:
    return (
        words[at].capital or _text(words, at + 1) in ("", ".", ",", ":") or words[at - 1].number is not None
    )


def _slashed(words: Sequence[Word], at: int, today: date, *, month_first: bool) -> Day | None:
    """6/13, 13/6, 13/6/26, with or against the garden's order where only one is a date."""
    first = words[at].number
    second = words[at + 2].number if at + 2 < len(words) else None
    if first is None or second is None or _text(words, at + 1) != "/" or not words[at + 1].glued:
        return None
    if at + 3 < len(words) and words[at + 3].text in _UNITS_OF_PARTS:
        return None
    if first != int(first) or second != int(second):
        return None
    end, year = at + 3, None
    if _text(words, end) == "/" and end + 1 < len(words) and words[end + 1].number is not None:
        said = int(words[end + 1].number or 0)
        year, end = said + 2000 if said < 100 else said, end + 2
    month, day = (first, second) if month_first else (second, first)
    if month > 12 >= day:
        month, day = day, month
    if year is None:
        return _near(int(day), int(month), end, today)
    return _made(int(day), int(month), year, end)


def _day_number(words: Sequence[Word], at: int) -> tuple[int | None, int]:
    """A day of a month, "12" or "12th"; an ordinal takes two words."""
    if at >= len(words):
        return None, at
    number = words[at].number
    if number is None or number != int(number) or not 1 <= number <= 31:
        return None, at
    if _text(words, at + 1) in ("st", "nd", "rd", "th") and words[at + 1].glued:
        return int(number), at + 2
    return int(number), at + 1


def _with_year(words: Sequence[Word], day: int, month: int, end: int, today: date) -> Day | None:
    follow = end + 1 if _text(words, end) == "," else end
    if follow < len(words):
        year = words[follow].number
        if year is not None and 1900 <= year <= today.year + 1 and year == int(year):
            return _made(day, month, int(year), follow + 1)
    return _near(day, month, end, today)


def _near(day: int, month: int, end: int, today: date) -> Day | None:
    this = _made(day, month, today.year, end)
    if this is None or this.on is None or (this.on - today).days <= _SOON_DAYS:
        return this
    return _made(day, month, today.year - 1, end)


def _nearest_month(day: int, end: int, today: date, *, ahead: bool) -> Day | None:
    """ "The 12th": of this month where it is past, else of the last."""
    if ahead:
        of_month = today.replace(day=1) + timedelta(days=0 if day > today.day else 32)
        return _made(day, of_month.month, of_month.year, end)
    if day <= today.day:
        return _made(day, today.month, today.year, end)
    month, year = (today.month - 1, today.year) if today.month > 1 else (12, today.year - 1)
    earlier = _made(day, month, year, end)
    later = _made(day, today.month, today.year, end)
    choices = tuple(each.on for each in (earlier, later) if each is not None and each.on is not None)
    return Day(choices[0], end, choices) if choices else None


def _made(day: int, month: int, year: int, end: int) -> Day | None:
    try:
        return Day(date(year, month, day), end)
    except ValueError:
        return None


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""
