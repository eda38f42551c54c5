"""The plantings that stand."""

from __future__ import annotations

from datetime import date
from itertools import groupby
from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Looking, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.voice import Voice
from spadework.usecases.show_plantings import PlantingShown

_NO_BED = "In no bed"
_AS_YEARS_DAYS = 731
"""From two years on nobody counts in days."""


def standing(
    *,
    bed: Annotated[str, Parameter(help="Only in this bed.")] = "",
    crop: Annotated[str, Parameter(help="Only of this crop, by any name.")] = "",
    looking: Looking | None = None,
    common: Common | None = None,
) -> None:
    """What stands, bed by bed: age, stage seen, plants and how that is known, last act, locks."""
    from spadework.usecases.show_plantings import list_plantings

    common, looking = common or Common(), looking or Looking()
    found = list_plantings(common.garden, common.day, bed=bed, crop=crop, **looking.days(common))

    def tell() -> None:
        voice = voice_of(common)
        tell_locks((line for each in found.plantings for line in each.locks), voice)
        if not found.plantings:
            print(f"Nothing stands{'' if found.on == found.today else f' on {voice.day(found.on)}'}.")
            return
        for name, group in groupby(found.plantings, key=lambda each: each.bed_name):
            print(name or _NO_BED)
            for planting in group:
                print(planting_lines(planting, voice))

    answer(common, found, tell)


def planting_lines(planting: PlantingShown, voice: Voice) -> str:
    """One planting in a line or two."""
    name = planting.name[:1].upper() + planting.name[1:]
    began = "sown" if planting.sown_on is not None else "planted out"
    start = planting.sown_on or planting.set_out_on or planting.started_on
    parts = [f"{began} {voice.day(start)}, {_days(planting.age_days)}"]
    if planting.sown_on is not None and planting.set_out_on is not None:
        parts[0] += f", out {voice.day(planting.set_out_on)}"
    if planting.stage:
        parts.append(f"{planting.stage} {voice.day(planting.stage_on)}")
    parts.append(voice.told(planting.plants_text))
    if planting.height_cm is not None:
        parts.append(f"{voice.small(planting.height_cm)} high")
    picked = [
        *([voice.weight(planting.picked_kg)] if planting.picked_kg else []),
        *([f"{planting.picked_pieces} pieces"] if planting.picked_pieces else []),
    ]
    if picked:
        parts.append(f"picked {' and '.join(picked)} so far")
    if _worth_saying(planting, start):
        parts.append(f"last {planting.last_act} {voice.day(planting.last_on)}")
    locked = "LOCKED. " if planting.locks else ""
    tray = f" in {planting.tray}" if planting.tray and not planting.bed else ""
    return wrapped(f"{locked}{name}{tray}: {'; '.join(parts)} [{planting.key}]", 4, first="  ")


def _worth_saying(planting: PlantingShown, start: date) -> bool:
    """Whether the last act is not said already: as start, stage or count."""
    said = {start, planting.set_out_on}
    if planting.last_act in ("counted", "thinned", "pricked out"):
        said.add(planting.plants_on)
    return planting.last_act not in ("", "stage", "note", "photo") and planting.last_on not in said


def _days(count: int) -> str:
    if count >= _AS_YEARS_DAYS:
        return f"{count // 365.2425:.0f} years"
    return "1 day" if count == 1 else f"{count} days"
