"""Which circumstances the book makes hold for a planting: what was done, what stood here, what covers it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import timedelta
from typing import Final

from spadework.advice.circumstances import Hold
from spadework.advice.scene import Plot, Scene
from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.crops.trouble import Circumstance
from spadework.crops.troubles import trouble_names
from spadework.garden.entries import Amended, Entry, Fed, Note, Seen, Tended, Treated
from spadework.garden.lock_rules import counts_as_raw, is_manure

LATELY_OUT_DAYS: Final = 14
LATELY_SOWN_DAYS: Final = 21
"""How long a sowing or setting out is told of as lately. Our own rule."""

LATELY_TOLD_DAYS: Final = 21
"""How long hail, weeds or weedkiller told of count. Our own rule."""

MATERIAL_DAYS: Final = 400
"""How long what came with a load may show: a season and the next. Our own rule."""

FRESH_DAYS: Final = 120
MUCH_FEED_DAYS: Final = 45
SAME_FAMILY_YEARS: Final = 2
SOD: Final = frozenset({"sod", "grass", "lawn", "turf", "meadow", "pasture", "ley"})
CROWDED: Final = 1.6
"""Plants on a metre of row over those that should stand there, from which they crowd. Our own rule."""

_CARRIED: Final = re.compile(
    r"manure|dung|muck|compost|straw|hay\b|clippings|mowings|soil|topsoil|litter|bedding"
)
_NITROGEN: Final = re.compile(r"nitrogen|nettle|blood|fish|poultry|chicken|urea|lawn|pellet|manure|muck")
_HAIL: Final = re.compile(r"\bhail")
_WEEDKILLER: Final = re.compile(r"weed ?killer|herbicide|sprayed (?:the )?(?:lawn|field|path|verge|weeds)")
_CRUST: Final = re.compile(r"\bcrust|\bcapped\b")
_STANDING: Final = re.compile(r"standing water|puddle|waterlog|water stands|flooded|under water")
_PLANT_STUFF: Final = re.compile(r"straw|hay|leaf|leaves|grass|clippings|wood|bark|compost|mulch")

_TOLD: Final[tuple[tuple[Circumstance, re.Pattern[str], str], ...]] = (
    ("hail", _HAIL, "hail is told of"),
    ("weedkiller near", _WEEDKILLER, "weedkiller is told of"),
    ("crusted soil", _CRUST, "a crust is told of"),
    ("standing water", _STANDING, "standing water is told of"),
)


def by_book(scene: Scene, plot: Plot) -> Iterator[tuple[Circumstance, Hold]]:
    """What the book makes hold for one planting."""
    planting, bed = plot.planting, plot.bed
    entries = _about(scene, plot)
    today = scene.today
    out, sown = planting.set_out_on, planting.anew_on or planting.sown_on
    days_out = None if out is None else (today - out).days
    days_sown = None if sown is None else (today - sown).days
    yield (
        "planted out lately",
        _hold(
            days_out is not None and 0 <= days_out <= LATELY_OUT_DAYS,
            f"it was planted out {days_out} days ago",
        ),
    )
    yield (
        "sown lately",
        _hold(
            out is None and days_sown is not None and 0 <= days_sown <= LATELY_SOWN_DAYS,
            f"it was sown {days_sown} days ago",
        ),
    )
    yield "in a tray", _hold(plot.indoors, "it stands in a tray or indoors")
    shapes = {"" if bed is None else bed.shape}
    if bed is not None and bed.inside in scene.beds:
        shapes.add(scene.beds[bed.inside].shape)
    yield "in a tunnel", _hold(bool(shapes & {"tunnel", "frame"}), "it stands in a tunnel or frame")
    sorts = {scene.garden.kit[placed.item].sort for placed in plot.covers if placed.item in scene.garden.kit}
    yield "under fleece", _hold("fleece" in sorts, "fleece lies over it")
    yield "under netting", _hold(bool(sorts & {"netting", "mesh"}), "netting lies over it")
    yield from _by_bed(scene, plot)
    yield from _by_material(entries, scene)
    told = [(entry, text) for entry in entries if (text := _text(entry))]
    # nobody tells of every shower of hail: what is not told is not known
    for name, pattern, why in _TOLD:
        if any(pattern.search(text) and _within(scene, entry, LATELY_TOLD_DAYS) for entry, text in told):
            yield name, Hold(1.0, why)
    weeds = [
        entry
        for entry, _ in told
        if isinstance(entry.act, Seen)
        and entry.act.sort == "weed"
        and _within(scene, entry, LATELY_TOLD_DAYS)
    ]
    if weeds:
        yield "weeds near", Hold(1.0, f"weeds were seen on {weeds[-1].happened_on.isoformat()}")


def _by_bed(scene: Scene, plot: Plot) -> Iterator[tuple[Circumstance, Hold]]:
    if plot.bed is None:
        return
    grown = {each.crop for each in scene.garden.plantings.values()}
    grown |= {each.crop for each in scene.garden.told_before}
    families = {key: load_sheet(key).family for key in grown & set(keys())}
    before = scene.garden.before(plot.bed_key, families, until=plot.planting.grows_since)
    since = scene.today.year - SAME_FAMILY_YEARS
    own = [b for b in before if b.planting != plot.key]
    same = [
        b for b in own if b.year >= since and (b.family == plot.sheet.family or b.crop == plot.planting.crop)
    ]
    if own:
        named = "" if not same else f"{scene.name_of(same[0].crop)} stood here in {same[0].year}"
        yield "same family last year", _hold(bool(same), named)
        sod = [b for b in own if b.year >= since and set(b.crop.split("-")) & SOD]
        yield "sod last year", _hold(bool(sod), "it was grass not long ago")
    mulch = plot.bed.mulch
    laid = [
        entry
        for entry in plot.bed.history
        if isinstance(entry.act, Tended)
        and entry.act.act == "mulched"
        and _within(scene, entry, MATERIAL_DAYS)
    ]
    stuff = mulch or (laid[-1].act.material if laid and isinstance(laid[-1].act, Tended) else "")
    yield (
        "organic mulch",
        _hold(bool(stuff and _PLANT_STUFF.search(stuff.casefold())), f"{stuff} lies on the bed"),
    )
    if plot.planting.plants.per_row_m is not None:
        wanted = 100.0 / plot.sheet.sowing.in_row_cm.value
        per_m = plot.planting.plants.per_row_m
        yield "crowded", _hold(per_m >= CROWDED * wanted, f"{per_m:.0f} plants stand on a metre of row")
    water = scene.water_of(plot.bed_key)
    if water is not None:
        short = float(water.short(max(scene.column - 1, 0)).mean())
        yield "short of water", Hold(short, "by its water account it is short" if short >= 0.5 else "")


def _by_material(entries: Iterable[Entry], scene: Scene) -> Iterator[tuple[Circumstance, Hold]]:
    brought = loads(entries, scene)
    yield (
        "outside material lately",
        _hold(bool(brought), f"{material_of(brought[-1])} was brought on" if brought else ""),
    )
    fresh = [
        entry
        for entry in brought
        if isinstance(entry.act, (Amended, Fed))
        and is_manure(entry.act.material)
        and counts_as_raw(entry.act)
        and _within(scene, entry, FRESH_DAYS)
    ]
    yield "fresh manure", _hold(bool(fresh), f"{material_of(fresh[-1])} may be fresh" if fresh else "")
    feeds = [entry for entry in entries if isinstance(entry.act, (Fed, Amended))]
    much = [
        entry
        for entry in feeds
        if _within(scene, entry, MUCH_FEED_DAYS) and _NITROGEN.search(material_of(entry).casefold())
    ]
    yield "much nitrogen", _hold(len(much) >= 2 or bool(fresh), "it was fed with nitrogen more than once")
    season = [entry for entry in feeds if _within(scene, entry, 240)]
    yield (
        "no feed this year",
        Hold(0.0 if season else 0.7, "" if season else "no feed is told of this season"),
    )


def loads(entries: Iterable[Entry], scene: Scene) -> list[Entry]:
    """Loads of stuff brought onto the bed, oldest first: worked in, fed, or laid as mulch."""
    return [
        entry
        for entry in entries
        if isinstance(entry.act, (Amended, Fed, Tended))
        and (not isinstance(entry.act, Tended) or entry.act.act == "mulched")
        and _CARRIED.search(material_of(entry).casefold())
        and _within(scene, entry, MATERIAL_DAYS)
    ]


def material_of(entry: Entry) -> str:
    """The stuff an entry is about; empty where it is about none."""
    return entry.act.material if isinstance(entry.act, (Amended, Fed, Tended)) else ""


def had_before(plot: Plot) -> dict[str, str]:
    """Troubles told of the bed before this planting, by key, with the day."""
    if plot.bed is None:
        return {}
    names = trouble_names()
    found: dict[str, str] = {}
    for entry in plot.bed.history:
        act = entry.act
        if isinstance(act, Seen) and entry.planting != plot.key:
            key = act.trouble or names.get(" ".join(act.what.casefold().replace("-", " ").split()), "")
            if key:
                found[key] = entry.happened_on.isoformat()
    return found


def _about(scene: Scene, plot: Plot) -> list[Entry]:
    """What was done or told of the planting, its bed, or the garden as a whole."""
    keys = {entry.key for entry in scene.garden.history(plot.key)}
    return [
        entry
        for entry in scene.garden.entries
        if entry.key in keys
        or (entry.bed and entry.bed == plot.bed_key and not entry.planting)
        or (not entry.bed and not entry.planting and isinstance(entry.act, (Note, Treated, Seen)))
    ]


def _text(entry: Entry) -> str:
    act = entry.act
    if isinstance(act, Note):
        return act.text.casefold()
    if isinstance(act, Seen):
        return act.what.casefold() or "seen"
    if isinstance(act, Treated):
        return f"{act.product} {act.against}".casefold()
    return ""


def _within(scene: Scene, entry: Entry, days: int) -> bool:
    return timedelta(0) <= scene.today - entry.happened_on <= timedelta(days=days)


def _hold(true: bool, why: str) -> Hold:
    return Hold(1.0, why) if true else Hold(0.0)
