"""What happened beside the plants: manure and its locks, sprays, feeds, and the work of winter."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from spadework.garden.entries import (
    Amended,
    ChoreSet,
    Fed,
    Locked,
    Minutes,
    Moved,
    Note,
    Payload,
    SoilFelt,
    Treated,
    Unlocked,
)
from spadework.garden.entries import Seen as Noticed
from spadework.garden.lock_rules import SPRAY_CARRIED_OVER
from spadework.usecases.demo.deed import DAY, EVENING, LATE, MORNING, Deed
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.script import BLOCKS, ROTATION
from spadework.usecases.demo.seen import Seen

_CHORES: Final = (("turn the compost", "bram", 25.0, 28), ("wash the cans", "pia", 10.0, 35))
"""Chore, who does it, minutes, every so many days."""


class _Year:
    """Deeds of one calendar year, each on a working day from a month and day on."""

    def __init__(self, year: int, seen: Seen) -> None:
        self.year = year
        self.seen = seen
        self.luck: Luck = Luck(year, "events")
        self.deeds: list[Deed] = []

    def bed(self, place: str, season: int | None = None) -> str:
        """Key of a place in the rotation."""
        block = (ROTATION.index(place[0]) - (season or self.year)) % len(BLOCKS)
        return f"{BLOCKS[block]}-{place[1]}"

    def day(self, month: int, day: int, spread: int = 4) -> date | None:
        """The working day; None where it has not come yet, or lies before what was seen."""
        first = date(self.year, month, day)
        return self.seen.working_day(first, spread, self.luck) if first >= self.seen.first else None

    def add(
        self,
        on: date | None,
        act: Payload,
        who: str,
        *,
        bed: str = "",
        planting: str = "",
        batch: str = "",
        when: int = DAY,
        insisted: bool = False,
    ) -> None:
        """One more deed, if its day has come."""
        if on is not None and self.seen.has(on):
            deed = Deed(
                on=on, act=act, who=who, bed=bed, planting=planting, batch=batch, when=when, insisted=insisted
            )
            self.deeds.append(deed)


def events(year: int, seen: Seen, *, whole: bool) -> list[Deed]:
    """What happened in a calendar year, as far as it was seen; not the summer of one that is not `whole`."""
    one = _Year(year, seen)
    _manure(one)
    _winter(one)
    _doors(one)
    if whole:
        _straw(one)
        _bushes(one)
        _feeds(one)
        _hedge(one)
    return one.deeds


def chores(on: date, seen: Seen) -> list[Deed]:
    """What two people do whatever grows, and when they did it."""
    deeds: list[Deed] = []
    for chore, person, minutes, every in _CHORES:
        told = ChoreSet(chore=chore, minutes=minutes, person=person, every_days=every, first=on)
        deeds.append(Deed(on=on, act=told, who="maren"))
        luck = Luck(chore)
        day = seen.working_day(on + timedelta(days=every), 4, luck)
        while day is not None:
            took = Minutes(minutes=float(round(minutes * luck.at("took", day).uniform(0.8, 1.4))), job=chore)
            deeds.append(Deed(on=day, act=took, who=person, when=EVENING))
            day = seen.working_day(day + timedelta(days=every), 6, luck)
    return deeds


def _manure(one: _Year) -> None:
    """A load nobody could vouch for in spring, a known one in autumn, compost for the squash."""
    batch = f"heap-{one.year % 100:02d}"
    came = one.day(3, 28)
    beds = (one.bed("P2"), one.bed("P4"))
    for bed in beds:
        load = Amended(
            material="horse manure",
            source="a stable down the lane",
            batch=batch,
            state="raw",
            spray_history="not known",
            litres=180.0,
        )
        one.add(came, load, "maren", bed=bed, batch=batch, insisted=True)
    one.add(came, Minutes(minutes=55.0, job="manure", people=2), "maren", bed=beds[0], when=EVENING)
    note = (
        "Peas sown in three pots: two with half manure, one with potting mix alone. The load waits for them."
    )
    one.add(came, Note(text=note), "odo", batch=batch, when=EVENING)
    passed = one.day(4, 21)
    straight = "peas in both pots with manure stand as straight as those in potting mix alone"
    one.add(
        passed, Unlocked(lock=f"{SPRAY_CARRIED_OVER}:{batch}", why=straight), "odo", batch=batch, when=LATE
    )
    spread = one.day(4, 26)
    compost = Amended(
        material="garden compost", source="own heap", state="finished", spray_history="clean", litres=120.0
    )
    one.add(spread, compost, "bram", bed=one.bed("P3"))
    late = one.day(10, 30)
    known_batch = f"autumn-{one.year % 100:02d}"
    known = Amended(
        material="horse manure",
        source="a farm that keeps its own hay",
        batch=known_batch,
        state="raw",
        spray_history="clean",
        litres=180.0,
    )
    one.add(late, known, "maren", bed=one.bed("P1", one.year + 1), batch=known_batch)


def _doors(one: _Year) -> None:
    """Tunnel and frame stand open through the warm months."""
    for bed, opened, shut in (("tunnel", (4, 27), (10, 3)), ("frame", (5, 4), (9, 27))):
        one.add(one.day(*opened), Moved(act="opened", hour=8.0), "odo", bed=bed, when=MORNING)
        one.add(one.day(*shut), Moved(act="shut", hour=18.0), "maren", bed=bed, when=EVENING)


def _straw(one: _Year) -> None:
    """Bales of which nobody knew what was sprayed on the field."""
    batch = f"straw-{one.year % 100:02d}"
    bales = Amended(
        material="barley straw", source="four bales, given", batch=batch, spray_history="not known"
    )
    one.add(one.day(7, 19), bales, "bram", batch=batch, insisted=True)
    test = "beans in straw and potting mix stand as straight as in potting mix alone"
    one.add(
        one.day(11, 2),
        Unlocked(lock=f"{SPRAY_CARRIED_OVER}:{batch}", why=test),
        "maren",
        batch=batch,
        when=LATE,
    )


def _bushes(one: _Year) -> None:
    """Currants and gooseberries stand in one row; no sheet runs their clock, the locks hold all the same."""
    first = one.day(6, 10)
    one.add(
        first, Noticed(what="sawfly grubs", sort="pest", parts=("leaf",)), "noor", bed="bushes", when=MORNING
    )
    spray = Treated(product="plant-oil spray", label_days=14, against="sawfly grubs")
    one.add(first, spray, "maren", bed="bushes", when=EVENING)
    broken = one.day(7, 16, 3)
    gone_through = "two people have gone through the row by hand and found no more"
    glass = Locked(
        lock=f"glass-{one.year % 100:02d}", on="bed", why="a jar broke under the bushes", test=gone_through
    )
    one.add(broken, glass, "odo", bed="bushes")
    lifted = one.day(7, 23, 3)
    lift = Unlocked(
        lock=f"glass-{one.year % 100:02d}", why="Maren and Bram went through it twice, nothing more found"
    )
    one.add(lifted, lift, "maren", bed="bushes", when=LATE)
    mildew = one.day(9, 5)
    again = Treated(product="sulphur dust", label_days=14, against="mildew")
    one.add(mildew, again, "maren", bed="bushes")
    one.add(one.day(2, 21), Minutes(minutes=70.0, job="pruned", people=2), "maren", bed="bushes")


def _winter(one: _Year) -> None:
    """Stores gone through, kit mended, tools oiled: winter has its days too."""
    for month, day, text in (
        (1, 11, "Went through the stores: {n} onions soft and used first, carrots sound in their sand."),
        (2, 8, "Went through the stores: {n} potatoes sprouting, the rest firm. Squash sound."),
        (3, 8, "Went through the stores: {n} beets shrivelled. Garlic will last to May."),
        (11, 22, "Stores looked over and aired: all sound. Cellar at 4 °C."),
        (12, 20, "Went through the stores: {n} carrots spotted, taken out before they spread."),
    ):
        on = one.day(month, day)
        one.add(on, Note(text=text.format(n=one.luck.at("soft", month).randint(2, 6))), "odo", when=DAY)
        took = float(one.luck.at("stores", month).randrange(15, 35, 5))
        one.add(on, Minutes(minutes=took, job="stores"), "odo", when=EVENING)
    mended = one.day(1, 24)
    one.add(
        mended, Note(text="Tunnel film patched at the door, two hoops straightened."), "bram", bed="tunnel"
    )
    one.add(mended, Minutes(minutes=50.0, job="mending kit", people=2), "bram", bed="tunnel", when=EVENING)
    one.add(one.day(2, 15), Note(text="Nets spread out and darned by the class."), "tilde")
    chit = Note(text="Seed potatoes laid out in the light to sprout.")
    one.add(one.day(3, 14), chit, "fenn", bed="shelf")
    oiled = one.day(11, 15)
    one.add(oiled, Note(text="Hoes, spades and shears cleaned, ground and oiled."), "ansel")
    one.add(oiled, Minutes(minutes=60.0, job="tools", people=3), "ansel", when=EVENING)
    one.add(one.day(12, 6), Note(text="Labels written for next year, seed list drawn up."), "tilde")


def _feeds(one: _Year) -> None:
    """Tubs cannot live on what they were filled with."""
    for month, day in ((7, 4), (7, 18), (8, 1), (8, 15)):
        on = one.day(month, day, 3)
        for tub in ("tub-1", "tub-2", "tub-3"):
            one.add(on, Fed(material="comfrey water", amount="2 l"), "noor", bed=tub)


def _hedge(one: _Year) -> None:
    """The gauge stands in the open; the first Lake bed lies in the rain shadow of the hedge."""
    wet = next(
        (
            day
            for day in one.seen.days(date(one.year, 6, 1), date(one.year, 8, 31))
            if 12.0 <= one.seen.rain_mm(day) <= 22.0
        ),
        None,
    )
    if wet is None:
        return
    on = wet + timedelta(days=1)
    one.add(on, SoilFelt(finger="dry", depth_cm=8.0), "maren", bed="lake-1", when=MORNING)
    fell = f"{one.seen.rain_mm(wet):.0f} mm fell yesterday"
    text = f"{fell}, and Lake 1 is dry a finger deep: the hedge keeps the rain off."
    one.add(on, Note(text=text), "maren", bed="lake-1", when=EVENING)


def kept_watch(lives: Sequence[Life], seen: Seen) -> list[Deed]:
    """Covers are looked under for what may sit there, in the weeks when it does."""
    deeds: list[Deed] = []
    for life in lives:
        if life.row.cover != "insect mesh" or life.in_place is None:
            continue
        day = seen.working_day(life.in_place + timedelta(days=16), 4, Luck(life.key, "watch"))
        if day is not None and life.stands(day):
            text = "Looked under the mesh at ten plants: no eggs, no grubs."
            deeds.append(Deed(on=day, act=Note(text=text), who="noor", bed=life.bed, planting=life.key))
    return deeds
