"""What is known of a trouble, a weed or a kind of protection: in words, every value with its receipt."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import Final, Protocol

from spadework.crops.names import find
from spadework.crops.protection import Protection, all_protection
from spadework.crops.sources import citation
from spadework.crops.trouble import Event, Remedy, Said, Told, Trouble
from spadework.crops.troubles import all_signs, all_troubles, trouble_names
from spadework.crops.weed import Weed, all_weeds, weed_called
from spadework.errors import GardenError, UnknownName
from spadework.garden.site import Words
from spadework.usecases.crop_words import crop_word
from spadework.usecases.look import site_of
from spadework.usecases.other_sheet_answer import (
    ListedOther,
    OtherSheet,
    SaidLine,
    SheetGroup,
    SheetPart,
    SignOnSheet,
)
from spadework.usecases.read_sheets import ShownSheet, ShownValue, read_sheet

TITLES: Final = {
    "insect": "Insects, slugs, mites",
    "disease": "Diseases",
    "disorder": "Weather, soil and feeding",
    "animal": "Birds and mammals",
    "weed": "Weeds",
    "protection": "Covers, nets and fences",
}
"""Sorts of sheets in their order, and their headings."""


KIN: Final = {
    "Amaranthaceae": "beet, chard and spinach",
    "Amaryllidaceae": "onions and their kin",
    "Apiaceae": "carrots and their kin",
    "Asteraceae": "lettuce and its kin",
    "Brassicaceae": "cabbages and their kin",
    "Cucurbitaceae": "cucumbers, squashes and melons",
    "Fabaceae": "peas and beans",
    "Poaceae": "sweet corn and grasses",
    "Solanaceae": "tomatoes, potatoes and their kin",
}
"""Families in a grower's words."""


class _Receipted(Protocol):
    @property
    def provenance(self) -> str: ...
    @property
    def source(self) -> str: ...


def any_sheet(name: str, garden: Path, today: date) -> ShownSheet | OtherSheet:
    """The sheet of a crop, a trouble, a weed or a kind of protection, by any of its names.

    Raises
    ------
    UnknownName
        With the nearest names of all of them.
    InputFileError, GardenError
    """
    try:
        find(name)
    except UnknownName as unknown:
        other = other_sheet(name, words_of(garden))
        if other is None:
            near = difflib.get_close_matches(name.casefold(), _all_names(), n=3, cutoff=0.6)
            hint = f"Nearest: {', '.join(near)}." if near else unknown.hint
            raise UnknownName(f"No sheet is called {name!r}.", hint) from None
        return other
    return read_sheet(name, garden, today)


def words_of(garden: Path) -> Words:
    """Which English a garden speaks; British where there is none."""
    try:
        return site_of(garden).words
    except GardenError:
        return "british"


def other_sheet(name: str, words: Words = "british") -> OtherSheet | None:
    """The sheet of what is no crop; None where nothing is called so."""
    said = " ".join(name.casefold().replace("-", " ").split())
    if key := trouble_names().get(said):
        return _of_trouble(all_troubles()[key], words)
    if weed := weed_called(name):
        return _of_weed(weed)
    for key, each in all_protection().items():
        if said in {_plain(one) for one in (key, each.name, *each.names)}:
            return _of_protection(key, each)
    return None


def list_others() -> list[SheetGroup]:
    """All sheets of what is no crop, by sort and name."""
    listed = [
        *(_listed(key, each.kind, each.name, each.about, each.names) for key, each in all_troubles().items()),
        *(_listed(key, "weed", each.name, each.about, each.names) for key, each in all_weeds().items()),
        *(
            _listed(key, "protection", each.name, each.about, each.names)
            for key, each in all_protection().items()
        ),
    ]
    return [
        SheetGroup(
            title=title, sheets=sorted((one for one in listed if one.sort == sort), key=lambda one: one.name)
        )
        for sort, title in TITLES.items()
    ]


def _listed(key: str, sort: str, name: str, about: Said, names: tuple[str, ...]) -> ListedOther:
    return ListedOther(key=key, name=name, sort=sort, about=about.text, names=list(names))


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())


def _all_names() -> list[str]:
    weeds = [one for each in all_weeds().values() for one in (each.name, *each.names)]
    covers = [one for each in all_protection().values() for one in (each.name, *each.names)]
    return [*trouble_names(), *weeds, *covers]


def _sources(source: str) -> list[str]:
    return [citation(key) for key in source.split("; ")] if source else []


def _line(text: str, each: _Receipted) -> SaidLine:
    held = "estimate" if each.source == "ESTIMATE" else each.provenance
    return SaidLine(text=text, provenance=held, sources=_sources(each.source))


def _own(text: str) -> SaidLine:
    return SaidLine(text=text, provenance="common-practice", sources=[])


def _value(field: str, meaning: str, told: Told | None, unit: str = "1") -> Iterator[ShownValue]:
    if told is not None:
        yield ShownValue(
            field=field,
            meaning=meaning,
            value=told.value,
            low=told.low,
            high=told.high,
            unit=unit,
            provenance="estimate" if told.source == "ESTIMATE" else told.provenance,
            sources=_sources(told.source),
            note=told.note,
            sheet_value=None,
        )


def _part(title: str, lines: Iterable[SaidLine]) -> Iterator[SheetPart]:
    if found := list(lines):
        yield SheetPart(title=title, lines=found)


def _host(host: str, words: Words) -> str:
    if host == "all":
        return "everything"
    if host.startswith("family "):
        return _kin(host.removeprefix("family "))
    return crop_word(host, words)


def _kin(family: str) -> str:
    """The crops of a family, as a grower says it."""
    return KIN.get(family, f"the {family} family")


def _remedy(each: Remedy) -> SaidLine:
    return _line(each.act + (". Can be done today." if each.now else ""), each)


def _lives(each: Trouble) -> list[SaidLine]:
    """Where it is known to live, recalled; elsewhere it is watched for only once seen."""
    if not each.lives:
        return []
    lands = [land.title() for land in each.lives]
    said = lands[0] if len(lands) == 1 else f"{', '.join(lands[:-1])} and {lands[-1]}"
    text = f"{said}. Elsewhere it is watched for only once somebody has seen it."
    return [SaidLine(text=text, provenance="memory", sources=[])]


def _of_trouble(each: Trouble, words: Words) -> OtherSheet:
    signs = all_signs()
    scout = each.scout
    look = [
        _own(f"Where: {scout.where}."),
        _own(f"When: {scout.when}."),
        _own(f"Too many: {scout.too_many}."),
    ]
    alike = [
        _line(f"{all_troubles()[one.trouble].name}: {one.test}", one)
        for one in each.alike
        if one.trouble in all_troubles()
    ]
    parts = [
        *_part("Where and when to look", look),
        *_part("Where it lives", _lives(each)),
        *_part("What to do, in this order", map(_remedy, each.remedies)),
        *_part("What keeps it out", map(_remedy, each.barrier)),
        *_part("What holds it back", (_line(one.text, one) for one in each.stops)),
        *_part("Easily taken for it", alike),
        *_part("Keep, pull or sow again", [_own(each.keep_or_pull)] if each.keep_or_pull else []),
        *_part("Its remains", [_line(f"{each.after.capitalize()}. {each.after_why.text}", each.after_why)]),
        *_part("For neighbours", [_own(each.neighbours)] if each.neighbours else []),
        *_part("To a laboratory", [_own(each.laboratory)] if each.laboratory else []),
        *_part("Law", (_line(one.text, one) for one in each.legal)),
    ]
    values = [
        *_value("usual", "share of host plantings that ail from it in a season", each.usual),
        *_value("scout.every_days", "days from one look to the next", scout.every_days, "day"),
        *_value("scout.plants", "plants to look at", scout.plants),
        *_value("scout.minutes", "minutes that takes", scout.minutes, "min"),
        *_value("scout.threshold", "too many from", scout.threshold, scout.threshold_unit or "1"),
        *_value("mesh_mm", "openings of a net that keeps it out, at most", each.mesh_mm, "mm"),
        *_value("tender_days", "days from coming up for which plants are tender", each.tender_days, "day"),
        *(value for favour in each.favours for value in _favour(favour.when, favour.times)),
        *(value for event in each.events for value in _event(event)),
    ]
    return OtherSheet(
        key=each.key,
        sort=each.kind,
        name=each.name,
        latin=each.latin,
        names=list(each.names),
        hosts=[_host(host, words) for host in each.hosts],
        poor_hosts=[_host(host, words) for host in each.poor_hosts],
        about=_line(each.about.text, each.about),
        signs=[
            SignOnSheet(
                sign=shown.sign,
                words=signs[shown.sign].words,
                picture=signs[shown.sign].picture,
                often=next(_value(f"signs.{shown.sign}", signs[shown.sign].words, shown.often)),
            )
            for shown in sorted(each.signs, key=lambda shown: -shown.often.value)
        ],
        values=values,
        parts=parts,
        alike=[one.trouble for one in each.alike if one.trouble in all_troubles()],
        cautions=[_line(one.text, one) for one in each.cautions],
    )


def _favour(when: str, times: Told) -> Iterator[ShownValue]:
    return _value(f"favours.{when}", f"times as likely: {when}", times)


def _event(event: Event) -> Iterator[ShownValue]:
    """Numbers of one event of its year, with the base they belong to."""
    unit = "degC day" if event.clock == "warmth" else "day"
    place = f" ({event.region})" if event.region else ""
    start = event.start.replace("-", " ") if event.start[:1].isalpha() else f"1 {_MONTHS[event.start[:2]]}"
    head = f"{event.words}{place}"
    if event.base_c is not None:
        base = Told(value=event.base_c, provenance=event.provenance, source=event.source)
        kind = "soil" if event.warmth == "soil" else "air"
        yield from _value(f"events.{event.key}.base_c", f"{head}: base of the {kind}", base, "degC")
    yield from _value(f"events.{event.key}.total", f"{head}: from {start}", event.total, unit)
    yield from _value(f"events.{event.key}.lasts", f"{head}: goes on for", event.lasts, unit)


_MONTHS: Final = {"01": "January", "03": "March", "04": "April"}


def _of_weed(each: Weed) -> OtherSheet:
    kept = [
        _line(
            f"{', '.join(one.troubles)}; for {', '.join(f'the {name} family' for name in one.families)}", one
        )
        for one in each.kept_for
    ]
    kill = [_line(f"{_STAGES[one.stage]}: {one.act}", one) for one in each.kill]
    again = [_own("Hoed on damp ground it takes root again.")] if each.reroots else []
    return OtherSheet(
        key=each.key,
        sort="weed",
        name=each.name,
        latin=each.latin,
        names=list(each.names),
        hosts=[],
        poor_hosts=[],
        about=_line(each.about.text, each.about),
        signs=[],
        values=[
            *_value("base_c", "soil warmth below which none comes up", each.base_c, "degC"),
            *_value("half_up_cday", "warmth above that to half of them up", each.half_up_cday, "degC day"),
            *_value("up_from_c", "soil temperature from which it comes up", each.up_from_c, "degC"),
            *_value("up_below_c", "soil temperature below which it comes up", each.up_below_c, "degC"),
        ],
        parts=[
            *_part("When it comes up", [_line(each.comes_up.text, each.comes_up)]),
            *_part("When it seeds", [_line(each.seeds.text, each.seeds)]),
            *_part("How to be rid of it", [*kill, *again]),
            *_part("What holds it back", (_line(one.text, one) for one in each.stops)),
            *_part("Troubles it keeps going", kept),
        ],
        alike=[],
        cautions=[_line(one.text, one) for one in each.cautions],
    )


_STAGES: Final = {
    "thread": "At the white thread",
    "two leaves": "At two leaves",
    "large": "Large",
    "in flower": "In flower",
}


def _of_protection(key: str, each: Protection) -> OtherSheet:
    return OtherSheet(
        key=key,
        sort="protection",
        name=each.name,
        latin="",
        names=list(each.names),
        hosts=[],
        poor_hosts=[],
        about=_line(each.about.text, each.about),
        signs=[],
        values=[
            *_value("weight_g_m2", "weight", each.weight_g_m2, "g on a m²"),
            *_value("light_share", "share of the light that passes", each.light_share),
            *_value("night_c", "warmer by night", each.night_c, "degrees"),
            *_value("day_c", "warmer by day", each.day_c, "degrees"),
            *_value("et0_share", "water it loses over that in the open", each.et0_share),
            *_value("mesh_mm", "width of its openings", each.mesh_mm, "mm"),
            *_value("height_cm", "height", each.height_cm, "cm"),
            *_value("bury_cm", "edges under the soil", each.bury_cm, "cm"),
            *_value("life_seasons", "seasons it lasts", each.life_seasons),
            *_value("off_above_c", "opened or taken off from", each.off_above_c, "degC"),
        ],
        parts=[
            *_part("Where it fails", (_line(one.text, one) for one in each.fails)),
            *_part("How it is kept", (_line(one.text, one) for one in each.care)),
        ],
        alike=[],
        cautions=[_line(one.text, one) for one in each.cautions],
    )
