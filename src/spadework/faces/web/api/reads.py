"""What can be read: the garden, its jobs, beds, book and kit, the weather, what is known of crops."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Annotated, Any, Final

import msgspec
from msgspec import Meta

from spadework.advice.frost_odds import FrostAnswer
from spadework.advice.ready_odds import ReadyAnswer
from spadework.errors import ParameterError, UnknownName
from spadework.faces.web.api.call import Asking, Call, DepthMm, LongText, Percent, Query, Text, WithLocks
from spadework.garden.site import Site
from spadework.usecases.ailing import ask_ailing
from spadework.usecases.ailing_answer import AilingAnswer, Asked, told_of
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.jobs_today import JobsAnswer, job_by_id, jobs_today, open_day
from spadework.usecases.learn import LearnedAnswer, list_learned
from spadework.usecases.lock_lines import lock_lines, locks_about
from spadework.usecases.look import last_entry, site_of
from spadework.usecases.note_line import NotedLine, note_line
from spadework.usecases.open_job import JobOpened, open_job
from spadework.usecases.other_sheet_answer import OtherSheet, SheetGroup
from spadework.usecases.other_sheets import list_others, other_sheet
from spadework.usecases.read_sheets import ListedSheet, ShownSheet, list_sheets, read_sheet
from spadework.usecases.round_answer import RoundAnswer
from spadework.usecases.show_beds import BedList, BedShown, list_beds, show_bed
from spadework.usecases.show_book import BookPage, read_book
from spadework.usecases.show_ground import Ground, show_ground
from spadework.usecases.show_kit import KitList, list_kit
from spadework.usecases.show_locks import LockList, list_locks
from spadework.usecases.show_people import PeopleList, list_people
from spadework.usecases.show_plantings import PlantingList, list_plantings
from spadework.usecases.show_season import SeasonAnswer, show_season
from spadework.usecases.show_tin import TinList, list_tin
from spadework.usecases.show_watch import WatchAnswer, show_watch
from spadework.usecases.show_water import WaterAnswer, show_water
from spadework.usecases.show_weather import WeatherShown, show_weather
from spadework.usecases.tell import ToldList, list_told
from spadework.usecases.walk_round import walk_round
from spadework.usecases.write_answer import Writing

Hour = Annotated[float, Meta(ge=0.0, lt=24.0)]


class GardenToldOf(msgspec.Struct, frozen=True, kw_only=True):
    """The garden itself; `last_entry` changes whenever the book grows."""

    name: str
    lat_deg: float
    lon_deg: float
    elevation_m: float
    units: str
    words: str
    today: date
    last_entry: str
    you: str
    role: str


class OfRound(Query, frozen=True, kw_only=True):
    minutes: Annotated[float, Meta(gt=0.0, le=1440.0)] = 60.0
    at_hour: Hour | None = None
    until_hour: Hour | None = None
    people: Annotated[Text, Meta(description="Who goes, with commas between.")] = ""


class OfJobs(Query, frozen=True, kw_only=True):
    bed: Text = ""
    kind: Text = ""
    crop: Text = ""


class OfDays(Query, frozen=True, kw_only=True):
    on: Annotated[date | None, Meta(description="The day looked at.")] = None
    known_on: Annotated[date | None, Meta(description="As known at the end of that day.")] = None


class OfPlantings(OfDays, frozen=True, kw_only=True):
    bed: Text = ""
    crop: Text = ""


class OfBook(Query, frozen=True, kw_only=True):
    bed: Text = ""
    crop: Text = ""
    kind: Text = ""
    by: Text = ""
    first: date | None = None
    last: date | None = None
    most: Annotated[int, Meta(ge=1, le=2000)] = 100


class OfLocks(OfDays, frozen=True, kw_only=True):
    bed: Text = ""
    over: bool = False


class OfBed(Query, frozen=True, kw_only=True):
    bed: Text = ""


class OfItem(OfDays, frozen=True, kw_only=True):
    item: Text = ""


class OfCrop(OfDays, frozen=True, kw_only=True):
    crop: Text = ""


class OfWatch(Query, frozen=True, kw_only=True):
    days: Annotated[int, Meta(ge=1, le=60)] = 21
    bed: Text = ""
    crop: Text = ""


class OfFrost(Query, frozen=True, kw_only=True):
    below_c: Annotated[float, Meta(ge=-40.0, le=15.0)] = 0.0
    by: date | None = None


class OfReady(Query, frozen=True, kw_only=True):
    crop: Text
    sown: date | None = None
    set_out_on: date | None = None
    depth_mm: DepthMm | None = None
    germination_pct: Percent | None = None
    watered: bool = True
    by: date | None = None
    variety: Text = ""
    bed: Text = ""


class OfAiling(Query, frozen=True, kw_only=True):
    crop: Text = ""
    planting: Text = ""
    bed: Text = ""
    sign: Annotated[LongText, Meta(description="What is seen, in words or by key; semicolons between.")] = ""
    no: Annotated[LongText, Meta(description="What is not there, the same way.")] = ""
    unknown: Annotated[LongText, Meta(description="Keys of signs that cannot be told.")] = ""


class OfLine(Query, frozen=True, kw_only=True):
    line: LongText
    bed: Text = ""


class SheetList(msgspec.Struct, frozen=True, kw_only=True):
    """All crops that have a sheet."""

    sheets: list[ListedSheet]


class OtherList(msgspec.Struct, frozen=True, kw_only=True):
    """All sheets of what is no crop, by sort."""

    groups: list[SheetGroup]


def _garden(asking: Asking) -> GardenToldOf:
    site: Site = site_of(asking.garden)
    return GardenToldOf(
        name=site.name,
        lat_deg=site.lat_deg,
        lon_deg=site.lon_deg,
        elevation_m=site.elevation_m,
        units=site.units,
        words=site.words,
        today=asking.today,
        last_entry=last_entry(asking.garden),
        you=asking.caller.name,
        role=asking.caller.role,
    )


def _round(asking: Asking) -> RoundAnswer:
    given: OfRound = asking.given
    return walk_round(
        asking.garden,
        asking.today,
        minutes=given.minutes,
        at_hour=given.at_hour,
        until_hour=given.until_hour,
        people=[name.strip() for name in given.people.split(",") if name.strip()],
    )


def _why(asking: Asking) -> WithLocks[JobOpened]:
    day = open_day(asking.garden, asking.today)
    found = open_job(job_by_id(day, asking.names["job"]), day.scene)
    locks = lock_lines(
        day.garden, asking.today, bed=found.bed, planting=found.planting, words=day.scene.site.words
    )
    return WithLocks(found=found, locks=locks)


def _ready(asking: Asking) -> WithLocks[ReadyAnswer]:
    fields = _fields(asking.given)
    found = ask_ready(asking.garden, asking.today, fields.pop("crop"), **fields)
    given: OfReady = asking.given
    return WithLocks(
        found=found, locks=locks_about(asking.garden, asking.today, bed=given.bed, crop=given.crop)
    )


def _ailing(asked: Asked, asking: Asking) -> AilingAnswer:
    given: OfAiling = asking.given
    if not given.crop and not given.planting:
        raise ParameterError("Which plant is it?", "Give a crop or a planting.")
    said = [[each.strip() for each in text.split(";")] for text in (given.sign, given.no, given.unknown)]
    keys = [each for each in said[2] if each]
    return ask_ailing(
        asking.garden,
        asking.today,
        given.crop,
        told_of(said[0], said[1], keys),
        bed=given.bed,
        planting=given.planting,
        asked=asked,
    )


def _other_sheet(asking: Asking) -> OtherSheet:
    found = other_sheet(asking.names["name"])
    if found is None:
        raise UnknownName(f"No sheet is called {asking.names['name']!r}.", "See /other-sheets for all.")
    return found


def _heard(asking: Asking) -> NotedLine:
    how = Writing(today=asking.today, by=asking.caller.person)
    return note_line(asking.garden, asking.given.line, how, bed=asking.given.bed, dry_run=True)


def _fields(given: Any) -> dict[str, Any]:
    """The query by name."""
    return {name: getattr(given, name) for name in given.__struct_fields__}


def _with_locks_of_all(asking: Asking, found: Any, bed: str = "") -> WithLocks[Any]:
    return WithLocks(found=found, locks=list_locks(asking.garden, asking.today, bed=bed).locks)


READS: Final = (
    Call("/garden", "The garden itself, the day, and who asks.", _garden, GardenToldOf),
    Call(
        "/round",
        "The walk for today: stops in order, within the minutes given.",
        _round,
        RoundAnswer,
        OfRound,
    ),
    Call(
        "/jobs",
        "Every job worth doing, most at stake first.",
        lambda a: jobs_today(a.garden, a.today, **_fields(a.given)),
        JobsAnswer,
        OfJobs,
    ),
    Call("/jobs/{job}", "One job opened up: what it rests on.", _why, WithLocks[JobOpened]),
    Call(
        "/ground",
        "The plan to scale: every bed, and where each plant stands.",
        lambda a: _with_locks_of_all(a, show_ground(a.garden, a.today, bed=a.given.bed), a.given.bed),
        WithLocks[Ground],
        OfBed,
    ),
    Call("/beds", "The beds.", lambda a: list_beds(a.garden, a.today, **_fields(a.given)), BedList, OfDays),
    Call(
        "/beds/{bed}",
        "One bed: what grows and grew, covers, water, locks, its book.",
        lambda a: show_bed(a.garden, a.today, a.names["bed"], **_fields(a.given)),
        BedShown,
        OfDays,
    ),
    Call(
        "/plantings",
        "What stands, bed by bed.",
        lambda a: list_plantings(a.garden, a.today, **_fields(a.given)),
        PlantingList,
        OfPlantings,
    ),
    Call(
        "/book",
        "What was seen and done, newest first.",
        lambda a: read_book(a.garden, a.today, **_fields(a.given)),
        BookPage,
        OfBook,
    ),
    Call("/understand", "How a line would be understood; nothing is written.", _heard, NotedLine, OfLine),
    Call(
        "/locks",
        "What may not be picked, planted or used, and until when.",
        lambda a: list_locks(a.garden, a.today, **_fields(a.given)),
        LockList,
        OfLocks,
    ),
    Call(
        "/water",
        "What each bed holds, what is gone of it, and what to give.",
        lambda a: show_water(a.garden, a.today, bed=a.given.bed),
        WaterAnswer,
        OfBed,
    ),
    Call(
        "/kit",
        "The kit, and where it is.",
        lambda a: list_kit(a.garden, a.today, **_fields(a.given)),
        KitList,
        OfItem,
    ),
    Call(
        "/tin",
        "The seed tin: lots, what is left, how they tested.",
        lambda a: list_tin(a.garden, a.today, **_fields(a.given)),
        TinList,
        OfCrop,
    ),
    Call("/people", "Who keeps, helps or reads here.", lambda a: list_people(a.garden, a.today), PeopleList),
    Call(
        "/season",
        "Every bed through the year.",
        lambda a: _with_locks_of_all(a, show_season(a.garden, a.today)),
        WithLocks[SeasonAnswer],
    ),
    Call(
        "/weather",
        "What the weather record holds, and what is missing.",
        lambda a: show_weather(a.garden, a.today),
        WeatherShown,
    ),
    Call(
        "/watch",
        "What may come in the next days, and the jobs against it.",
        lambda a: show_watch(a.garden, a.today, **_fields(a.given)),
        WatchAnswer,
        OfWatch,
    ),
    Call(
        "/frost",
        "When frost ends and returns here.",
        lambda a: ask_frost(a.garden, a.today, **_fields(a.given)),
        FrostAnswer,
        OfFrost,
    ),
    Call(
        "/ready",
        "When a sowing is up and ready, and whether it gets there.",
        _ready,
        WithLocks[ReadyAnswer],
        OfReady,
    ),
    Call(
        "/told", "What was told of the weather and stands.", lambda a: list_told(a.garden, a.today), ToldList
    ),
    Call(
        "/learned",
        "What this garden has taught so far.",
        lambda a: list_learned(a.garden, a.today),
        LearnedAnswer,
    ),
    Call("/sheets", "All crops that have a sheet.", lambda _: SheetList(sheets=list_sheets()), SheetList),
    Call(
        "/sheets/{crop}",
        "One crop's numbers, each with range, class and source.",
        lambda a: read_sheet(a.names["crop"], a.garden, a.today),
        ShownSheet,
    ),
    Call(
        "/ailing",
        "Why a plant looks wrong: causes by their chances here and now, and the test that parts them.",
        partial(_ailing, "ailing"),
        AilingAnswer,
        OfAiling,
    ),
    Call("/bitten", "The same of what was eaten.", partial(_ailing, "bitten"), AilingAnswer, OfAiling),
    Call(
        "/other-sheets",
        "All sheets of insects, diseases, disorders, animals, weeds and covers, by sort.",
        lambda _: OtherList(groups=list_others()),
        OtherList,
    ),
    Call(
        "/other-sheets/{name}",
        "What is known of one trouble, weed or cover, each sentence and number with class and source.",
        _other_sheet,
        OtherSheet,
    ),
)
