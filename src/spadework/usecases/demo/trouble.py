"""What went wrong with single plantings: slugs, cutworm, hail, a cover left on in the heat."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Final

from spadework.garden.entries import Ended, Moved, Note, Tended
from spadework.garden.entries import Seen as Noticed
from spadework.usecases.demo.deed import EARLY, EVENING
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.seen import Seen, first_above

HAIL_RAIN_MM: Final = 14.0
"""A summer downpour that is told as hail. Invented: the made weather has none."""

WARM_UNDER_C: Final = 19.0
"""A day in the open on which it grows too hot under a fleece in a frame. Invented for this garden."""


def go_wrong(life: Life, year: int, seen: Seen) -> None:
    """What the script has go wrong with a planting, as far as it was seen."""
    if life.in_place is None or life.course is None:
        return
    if life.row.cover_left and life.up is not None:
        _cover_left(life, life.up, seen)
    trouble = _TROUBLES.get(life.row.signs)
    if trouble is not None:
        trouble(life, life.in_place, seen, Luck(year, life.row.id, "trouble"))


def _cover_left(life: Life, up: date, seen: Seen) -> None:
    """The fleece was forgotten on the first warm day."""
    for day in seen.days(up + timedelta(days=5), life.must_end - timedelta(days=3)):
        if life.dead(day):
            return
        if seen.tmax_c(day) >= WARM_UNDER_C:
            wilted = Noticed(what="wilted under the fleece", sort="wilting", hour=14.0, gone_by_morning=True)
            life.say(seen, day, wilted, "pia")
            off = Moved(act="off", item=life.row.cover, length_m=round(life.row.length_m, 2), hour=14.5)
            life.say(seen, day, off, "maren")
            warm = f"{seen.tmax_c(day):.0f} °C outside and the fleece still on"
            note = f"{warm}: the covers are looked at every morning now."
            life.say(seen, day, Note(text=note), "maren", when=EVENING)
            return


def _blackfly(life: Life, start: date, seen: Seen, _luck: Luck) -> None:
    day = _at(life, start, seen, 0.62)
    if day is not None:
        hurt = max(1, life.plants // 4)
        found = Noticed(what="blackfly", sort="pest", parts=("tip",), plants=hurt, of_plants=life.plants)
        life.say(seen, day, found, "noor")
        life.say(seen, day, Tended(act="pruned"), "noor")
        life.say(seen, day, Note(text="Tips pinched out where the blackfly sat."), "noor", when=EVENING)


def _slugs(life: Life, start: date, seen: Seen, luck: Luck) -> None:
    day = start + timedelta(days=luck.at("slugs").choice((4, 5, 6)))
    hurt = min(9, life.plants // 3)
    found = Noticed(what="slugs", sort="pest", parts=("leaf",), plants=hurt, of_plants=life.plants)
    life.say(seen, day, found, "ansel", when=EARLY)
    _lose(life, seen, day, hurt // 2, "slugs")


def _cutworm(life: Life, start: date, seen: Seen, luck: Luck) -> None:
    day = start + timedelta(days=luck.at("cutworm").choice((6, 8)))
    found = Noticed(
        what="stems cut off at the ground", sort="pest", parts=("stem",), plants=2, of_plants=life.plants
    )
    life.say(seen, day, found, "bram", when=EARLY)
    _lose(life, seen, day, 2, "cutworm; two grey grubs found by digging round the stumps")


def _hail(life: Life, start: date, seen: Seen, _luck: Luck) -> None:
    year = start.year
    for day in seen.days(date(year, 6, 25), date(year, 8, 10)):
        if not life.dead(day) and seen.rain_mm(day) >= HAIL_RAIN_MM:
            break
    else:
        return
    found = Noticed(
        what="leaves torn by hail", sort="damage", parts=("leaf",), plants=life.plants, of_plants=life.plants
    )
    life.say(seen, day, found, "odo", when=EVENING)


def _blossom_end(life: Life, _start: date, seen: Seen, _luck: Luck) -> None:
    if life.ready is not None and life.ready + timedelta(days=4) < life.must_end:
        found = Noticed(
            what="blossom end black and sunken", sort="damage", parts=("fruit",), plants=1, of_plants=1
        )
        life.say(seen, life.ready + timedelta(days=4), found, "tilde")


_TROUBLES: Final[dict[str, Callable[[Life, date, Seen, Luck], None]]] = {
    "blackfly": _blackfly,
    "slugs": _slugs,
    "cutworm": _cutworm,
    "hail": _hail,
    "blossom end": _blossom_end,
}


def _at(life: Life, start: date, seen: Seen, share: float) -> date | None:
    if life.course is None:
        return None
    day = seen.day(first_above(life.course.way, share, seen.column(start)))
    return day if day is not None and day < life.must_end and not life.dead(day) else None


def _lose(life: Life, seen: Seen, day: date, plants: int, why: str) -> None:
    if plants and seen.has(day):
        life.plants -= plants
        life.say(seen, day, Ended(how="lost", why=why, plants=plants), "maren", when=EVENING)
