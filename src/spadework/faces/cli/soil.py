"""The warmth of the soil."""

from __future__ import annotations

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import table, wrapped
from spadework.faces.soil_words import learnt_said, names_said
from spadework.faces.voice import Voice
from spadework.usecases.show_soil import SoilOfBeds


def soil(bed: str = "", *, common: Common | None = None) -> None:
    """How warm the soil is at seed depth, as it was and as it will be; beds that are alike stand together.

    Parameters
    ----------
    bed : str
        Only this bed.
    """
    from spadework.usecases.show_soil import show_soil

    common = common or Common()
    found = show_soil(common.garden, common.day, bed=bed)

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        print(f"Soil {voice.small(found.depth_cm)} deep, the mean of day and night\n")
        for group in found.groups:
            print(wrapped(names_said(group)))
            print(table(["", "", ""], _rows(group, voice)).partition("\n")[2])
            print(wrapped(learnt_said(group, voice), 2) + "\n")
        if not found.groups:
            print("It stands indoors; its soil has the warmth of the room.")
        if found.note:
            print(wrapped(voice.told(found.note)))

    answer(common, found, tell)


def _rows(group: SoilOfBeds, voice: Voice) -> list[list[str]]:
    """Weeks back, today, and weeks ahead with the coldest and the warmest year; then what was read."""
    trace = group.soil
    now = len(trace.past) - 1
    rows = [
        [voice.day(trace.days[at]), voice.temp(trace.past[at], 1), "today" if at == now else ""]
        for at in range(now % 7, now + 1, 7)
    ]
    for at in range(now + 7, len(trace.days), 7):
        values = [reed[at - now] for reed in trace.reeds]
        rows.append(
            [voice.day(trace.days[at]), voice.span(min(values), max(values)), "coldest and warmest year"]
        )
    read = [[voice.day(day), voice.temp(temp_c, 1), "read"] for day, temp_c in trace.readings]
    return rows + read
