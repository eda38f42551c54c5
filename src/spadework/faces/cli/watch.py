"""The watch: what may come in the next days, where to look, and what is too many."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Final

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped

if TYPE_CHECKING:
    from spadework.faces.voice import Voice
    from spadework.usecases.watch_lines import ComingLine

MOST_BEDS: Final = 5

HEADS: Final = {"insect": "Can harm them", "disease": "Weather for it", "animal": "Plants tender"}


def watch(
    *,
    days: Annotated[int, Parameter(help="How far ahead, 1 to 60 days.")] = 21,
    bed: Annotated[str, Parameter(help="Only of this bed.")] = "",
    crop: Annotated[str, Parameter(help="Only of this crop.")] = "",
    common: Common | None = None,
) -> None:
    """What may come in the next days: insects, diseases, animals; where to look, and what is too many."""
    common = common or Common()
    from spadework.usecases.show_watch import show_watch

    found = show_watch(common.garden, common.day, days=days, bed=bed, crop=crop)

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        news = [line for line in found.coming if line.news]
        if not news:
            print(wrapped(f"Nothing new is expected within {found.days} days."))
        for line in news:
            _tell(line, voice)
        rest = [line.name for line in found.coming if not line.news and line.kind != "animal"]
        if rest:
            print()
            print(wrapped(f"About all season, or not yet: {', '.join(rest)}. The daily look sees them."))
        animals = [line.name for line in found.coming if not line.news and line.kind == "animal"]
        if animals:
            print(wrapped(f"Tender plants stand for: {', '.join(animals)}. See: spadework jobs --kind guard"))
        if found.note:
            print()
            print(wrapped(voice.told(found.note)))

    answer(common, found, tell)


def _tell(line: ComingLine, voice: Voice) -> None:
    beds = line.beds[:MOST_BEDS]
    more = f" and {len(line.beds) - MOST_BEDS} more" if len(line.beds) > MOST_BEDS else ""
    print()
    print(
        wrapped(f"{line.name[0].upper()}{line.name[1:]}: {', '.join(line.crops)} in {', '.join(beds)}{more}")
    )
    print(wrapped(voice.told(line.stage), 2))
    weeks = [f"from {voice.day(week.since)} in {week.odds[0]} of {week.odds[1]} years" for week in line.weeks]
    print(wrapped(f"{HEADS[line.kind]}: {', '.join(weeks)}.", 2))
    if line.note:
        print(wrapped(voice.told(line.note), 2))
    print(wrapped(f"Look at {line.look} ({line.minutes:.0f} min). Too many: {line.too_many}.", 2))
    if line.act:
        print(wrapped(f"Then: {line.act}.", 2))


__all__: Sequence[str] = ("watch",)
