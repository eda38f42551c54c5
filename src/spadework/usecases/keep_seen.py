"""Tell the book that a trouble was found, or looked for and not found."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final, Literal

from spadework.crops.trouble import Trouble
from spadework.crops.troubles import trouble
from spadework.errors import UnknownName
from spadework.garden import entries as kinds
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

SORTS: Final[Mapping[str, Literal["pest", "disease", "damage"]]] = {
    "insect": "pest",
    "animal": "pest",
    "disease": "disease",
    "disorder": "damage",
}
"""What the book calls a sort of trouble."""


def events_of(name: str) -> list[tuple[str, str]]:
    """What may be seen of a trouble's year: key and words of each event, in the sheet's order.

    Raises
    ------
    UnknownName
    """
    return [(event.key, event.words) for event in trouble(name).events]


def keep_seen(
    path: Path, how: Writing, name: str, *, event: str = "", bed: str = "", there: bool = True
) -> WriteAnswer:
    """A trouble found in a bed or anywhere, or looked for there and not found.

    Parameters
    ----------
    path : Path
    how : Writing
    name : str
        Any name of the trouble.
    event : str
        Key of the event of its year that was seen; its clock starts anew from the day.
    bed : str
        Key or name; empty for the whole garden.
    there : bool
        False where somebody looked and found none.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    each = trouble(name)
    if event and event not in dict(events_of(each.key)):
        raise UnknownName(
            f"{each.name.capitalize()} has no event {event!r}.", "Choose one of its sheet, or none."
        )
    folder, state = open_for_writing(path)
    key = bed_called(state.garden, bed).key if bed else ""
    return write(
        folder, state, [Act(payload=_seen(each, event, there), on=how.day, bed=key)], how, question="seen"
    )


def _seen(each: Trouble, event: str, there: bool) -> kinds.Seen:
    sort = SORTS[each.kind]
    if there:
        return kinds.Seen(what=each.name, sort=sort, trouble=each.key, event=event)
    plants = round(each.scout.plants.value)
    return kinds.Seen(what=f"no {each.name}", sort=sort, trouble=each.key, plants=0, of_plants=plants)
