"""Numbers, amounts, days and hours as people say them.

Factors: pound and inch by the international yard and pound agreement (1959), imperial gallon by the UK
Weights and Measures Act (1985), US gallon by NIST Handbook 44.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from spadework.usecases.line.amounts import read_amount
from spadework.usecases.line.days import read_day
from spadework.usecases.line.hours import read_hour
from spadework.usecases.line.numbers import read_number
from spadework.usecases.line.words import split_words

MONDAY = date(2026, 6, 15)


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("3", 3),
        ("2.5", 2.5),
        ("2,5", 2.5),
        ("1,200", 1200),
        ("½", 0.5),
        ("2½", 2.5),
        ("1/2", 0.5),
        ("2 1/2", 2.5),
        ("twelve", 12),
        ("twenty five", 25),
        ("twenty-five", 25),
        ("a dozen", 12),
        ("half a dozen", 6),
        ("two dozen", 24),
        ("a couple of", 2),
        ("two and a half", 2.5),
        ("a hundred", 100),
        ("two hundred and fifty", 250),
        ("three quarters", 0.75),
        ("40 odd", 40),
        ("about 40", 40),
        ("-2", -2),
        ("minus 2", -2),
        ("5 to 6", 5.5),
        ("5-6", 5.5),
        ("two point five", 2.5),
    ],
)
def test_numbers(said: str, value: float) -> None:
    read = read_number(split_words(said), 0)
    assert read is not None
    assert read.value == pytest.approx(value)
    assert read.end == len(split_words(said))


@pytest.mark.parametrize("said", ["the", "a carrot", "half", "onion", ""])
def test_what_is_no_number(said: str) -> None:
    words = split_words(said)
    assert not words or read_number(words, 0) is None


@pytest.mark.parametrize(
    ("said", "dim", "value"),
    [
        ("2 kg", "mass", 2),
        ("2kg", "mass", 2),
        ("800 g", "mass", 0.8),
        ("1 lb", "mass", 0.45359237),
        ("1 lb 10 oz", "mass", 0.73708760),
        ("a kilo and a half", "mass", 1.5),
        ("half a pound", "mass", 0.226796185),
        ("two and a half kilos", "mass", 2.5),
        ("1 stone", "mass", 6.35029318),
        ("500 ml", "volume", 0.5),
        ("2 litres", "volume", 2),
        ("a gallon", "volume", 4.54609),
        ("2 pints", "volume", 1.1365225),
        ("5 cm", "length", 5),
        ("5mm", "length", 0.5),
        ('6"', "length", 15.24),
        ("2 in", "length", 5.08),
        ("16 feet", "length", 487.68),
        ("3'", "length", 91.44),
        ("5 ft 2 in", "length", 157.48),
        ("4 m", "length", 400),
        ("half an hour", "minutes", 30),
        ("an hour and a half", "minutes", 90),
        ("1 hr 20 min", "minutes", 80),
        ("20 mins", "minutes", 20),
        ("12 C", "temp", 12),
        ("12°C", "temp", 12),
        ("50 F", "temp", 10),
        ("50°F", "temp", 10),
        ("15 degrees", "temp", 15),
    ],
)
def test_amounts(said: str, dim: str, value: float) -> None:
    read = read_amount(split_words(said), 0, us_gallon=False, fahrenheit=False)
    assert read is not None
    assert (read.dim, read.value) == (dim, pytest.approx(value))


def test_a_gallon_is_the_gardens() -> None:
    read = read_amount(split_words("a gallon"), 0, us_gallon=True, fahrenheit=True)
    assert read is not None
    assert read.value == pytest.approx(3.785411784)
    assert "US" in read.taken


def test_degrees_without_a_letter_are_the_gardens() -> None:
    read = read_amount(split_words("59 degrees"), 0, us_gallon=True, fahrenheit=True)
    assert read is not None
    assert read.value == pytest.approx(15)


def test_the_size_of_a_can_is_said() -> None:
    read = read_amount(split_words("two cans"), 0, us_gallon=False, fahrenheit=False)
    assert read is not None
    assert read.value == 20
    assert read.taken == "a can taken as 10 litres"


@pytest.mark.parametrize("said", ["5 in bed 3", "6 in the tunnel", "3 in June", "12 carrots"])
def test_what_is_no_amount(said: str) -> None:
    assert read_amount(split_words(said), 0, us_gallon=False, fahrenheit=False) is None


@pytest.mark.parametrize(
    ("said", "back"),
    [
        ("today", 0),
        ("this morning", 0),
        ("tonight", 0),
        ("yesterday", 1),
        ("yesterday evening", 1),
        ("last night", 1),
        ("the day before yesterday", 2),
        ("on Saturday", 2),
        ("Saturday night", 2),
        ("last Thursday", 4),
        ("last Monday", 7),
        ("three days ago", 3),
        ("a week ago", 7),
        ("a fortnight ago", 14),
        ("12 June", 3),
        ("June 12", 3),
        ("12th of June", 3),
        ("the 12th", 3),
        ("2026-06-12", 3),
        ("6/13", 2),
        ("13/6", 2),
        ("13/6/26", 2),
        ("Friday 12 June", 3),
    ],
)
def test_days(said: str, back: int) -> None:
    words = split_words(said)
    at = 1 if said.startswith("the day") else 0
    read = read_day(words, at, MONDAY, month_first=False)
    assert read is not None
    assert read.on == MONDAY - timedelta(days=back)


def test_a_date_read_by_the_gardens_order() -> None:
    words = split_words("6/5")
    british = read_day(words, 0, MONDAY, month_first=False)
    american = read_day(words, 0, MONDAY, month_first=True)
    assert british is not None
    assert american is not None
    assert (british.on, american.on) == (date(2026, 5, 6), date(2026, 6, 5))


@pytest.mark.parametrize(
    "said", ["the other day", "last week", "at the weekend", "on Monday", "Friday and Saturday"]
)
def test_days_that_may_be_several(said: str) -> None:
    words = split_words(said)
    at = 1 if said.startswith(("the", "at")) else 0
    read = read_day(words, at, MONDAY, month_first=False)
    assert read is not None
    assert read.on is None
    assert len(read.choices) > 1


def test_a_day_without_a_year_is_not_far_ahead() -> None:
    read = read_day(split_words("20 December"), 0, MONDAY, month_first=False)
    assert read is not None
    assert read.on == date(2025, 12, 20)


@pytest.mark.parametrize(
    ("said", "hour"),
    [
        ("9pm", 21),
        ("at 9 this morning", 9),
        ("3 oclock yesterday afternoon", 15),
        ("half past two", 2.5),
        ("21:30", 21.5),
        ("noon", 12),
        ("12am", 0),
        ("at 9.30pm", 21.5),
        ("quarter to nine this evening", 20.75),
    ],
)
def test_hours(said: str, hour: float) -> None:
    read = read_hour(split_words(said), 0)
    assert read is not None
    assert read.hour == pytest.approx(hour)
