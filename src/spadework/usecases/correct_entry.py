"""Correct an entry: the same act said anew, which stands in its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from types import NoneType, UnionType
from typing import Any, Final, Literal, Union, get_args, get_origin

import msgspec

from spadework.crops.names import find
from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.acts import act_word
from spadework.garden.entries import Entry, Payload
from spadework.garden.lookup import key_of
from spadework.garden.phrases import day_text
from spadework.garden.planting import Planting
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.crop_words import crop_word
from spadework.usecases.keep_book import Act, State, author_key
from spadework.usecases.look import Look, look_at
from spadework.usecases.show_book import BookLine, book_lines
from spadework.usecases.take_back import entry_by_end
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

_SAID_ELSEWHERE: Final[Mapping[type, str]] = {
    kinds.PersonSet: "people add",
    kinds.FactTold: "told forget",
    kinds.Unlocked: "lock add",
    kinds.Photo: "undo",
}
"""What is not corrected here, and the command that says it anew."""

_WHAT_IT_IS: Final = frozenset(
    {"planting", "crop", "from_planting", "moved", "item", "person", "chore", "job", "rule", "lock", "gone"}
)
"""Fields by which an entry is known; said wrongly, it is taken back and told anew."""

_EITHER: Final[Mapping[type, frozenset[str]]] = {
    kinds.Watered: frozenset({"litres", "depth_mm", "minutes"}),
    kinds.Thinned: frozenset({"removed", "left"}),
}
"""Numbers that say one thing in several ways: with one corrected the others no longer hold."""

_SETS_LOCKS: Final = (kinds.Locked, kinds.Treated, kinds.Amended, kinds.Fed)
_PLAIN: Final = (int, float, str, bool, date, NoneType)


class FieldShown(msgspec.Struct, frozen=True, kw_only=True):
    """One value of an entry that can be corrected.

    Parameters
    ----------
    name : str
        As it is kept, with its unit.
    value : str, float, bool or None
        As it was said; None where nobody said it.
    sort : {"number", "whole", "words", "choice", "yes or no", "day"}
    choices : list of str
        What it can be, of a choice.
    """

    name: str
    value: str | float | bool | None
    sort: str
    choices: list[str]


class Correctable(msgspec.Struct, frozen=True, kw_only=True):
    """What can be corrected of an entry.

    Parameters
    ----------
    entry : BookLine
    minutes : float or None  [min]
        Time it took, as said with it.
    fields : list of FieldShown
    can_move : bool
        Whether its bed and planting can be other ones.
    """

    question: str
    today: date
    entry: BookLine
    minutes: float | None
    fields: list[FieldShown]
    can_move: bool
    damage: str = ""


def correctable(path: Path, today: date, key: str) -> Correctable:
    """What can be corrected of an entry, with what it says now.

    Raises
    ------
    ParameterError
        If no entry has the key, several end so, or it is none that can be corrected.
    StoreError
    """
    look: Look = look_at(path, date.max)
    entry = _open(look.entries, look.garden, key)
    act = entry.act
    took = _time_of(look.entries, look.garden, entry)
    return Correctable(
        question="correct",
        today=today,
        entry=book_lines(look, [entry])[0],
        minutes=took.act.minutes if took is not None and isinstance(took.act, kinds.Minutes) else None,
        fields=[
            FieldShown(name=name, value=_shown(getattr(act, name)), sort=_sort(kind), choices=_choices(kind))
            for name, kind in _fields(act)
        ],
        can_move=_can_move(act),
        damage=look.damage,
    )


def correct_entry(
    path: Path,
    how: Writing,
    key: str,
    changed: Mapping[str, Any] | None = None,
    *,
    bed: str = "",
    planting: str = "",
    who: str = "",
    minutes: float | None = None,
    anew: Payload | None = None,
    question: str = "correct",
) -> WriteAnswer:
    """Write an entry that stands in place of another.

    Parameters
    ----------
    path : Path
    how : Writing
        Its day, where one is given, is the day it really happened; `by` is who corrects.
    key : str
        Of the entry, or the end of it.
    changed : mapping of str to value
        The act's own fields, as `correctable` names them; text is read, and "" is what nobody said.
    bed, planting : str
        Where it really was: names; a crop will do where one planting of it stood there that day.
    who : str
        Who really did it; empty for whom the entry names.
    anew : Payload or None
        The whole act, in place of `changed`; `question` is what it is answered as.
    minutes : float or None  [min]
        Time it really took. Of an act that has no such field the entry told with it is corrected, or one is
        written.

    Notes
    -----
    What is not said stays as it was, who did it as well. Where the act sets locks and no keeper corrects it,
    it is in the name of whoever writes it, so that no lock is lifted under another's. The time told with an
    act goes along to another day or place.

    Raises
    ------
    ParameterError
        If nothing would be different, or a value is none of its kind.
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    entry = _open(state.entries, garden, key)
    by = author_key(garden, how.by)
    author = _author(garden, entry, by, who)
    on = how.on or entry.happened_on
    there = _place(garden, entry, on, bed, planting)
    said = dict(changed or {})
    took = _time_of(state.entries, garden, entry)
    if minutes is not None and hasattr(entry.act, "minutes"):
        said["minutes"], minutes = minutes, None
    payload = _anew(entry.act, said) if anew is None else anew
    acts: list[Act] = []
    old = (entry.act, entry.happened_on, entry.bed, entry.planting, entry.author)
    if old != (payload, on, *there, author):
        acts.append(_replacing(entry, payload, on, there, author))
    acts += _time_anew(entry, took, minutes, on, there, author)
    if not acts:
        raise ParameterError(
            "Nothing would be different.", "Say what was otherwise: its day, bed or numbers."
        )
    return write(folder, state, acts, how, question=question)


def _open(entries: State | tuple[Entry, ...], garden: Garden, key: str) -> Entry:
    entry = entry_by_end(entries.entries if isinstance(entries, State) else entries, key)
    if entry.act is None:
        raise ParameterError("That entry takes another back.", "To give that back: spadework undo KEY")
    if entry.key in garden.undone:
        raise ParameterError(
            "That entry was undone or corrected already.", "Correct the one that stands; see: spadework book"
        )
    other = _SAID_ELSEWHERE.get(type(entry.act))
    if other:
        raise ParameterError("Such an entry is not corrected.", f"Say it anew: spadework {other}")
    return entry


def _author(garden: Garden, entry: Entry, by: str, who: str) -> str:
    person = garden.people.get(by)
    if person is not None and person.role == "reader":
        raise ParameterError(f"{person.name} only reads here.", "A keeper or helper writes the book.")
    keeps = person is None or person.role == "keeper"
    if isinstance(entry.act, _SETS_LOCKS) and not keeps:
        return by
    return author_key(garden, who) if who else entry.author


def _can_move(act: Payload | None) -> bool:
    return not isinstance(act, (kinds.BedSet, kinds.BedGone, kinds.KitSet, kinds.LotSet))


def _place(garden: Garden, entry: Entry, on: date, bed: str, planting: str) -> tuple[str, str]:
    """Key of the bed and of the planting it was really about."""
    there = (entry.bed, entry.planting)
    if not bed and not planting:
        return there
    if not _can_move(entry.act):
        raise ParameterError("That entry is about the thing it names.", "Take it back, and tell the other.")
    bed_key = bed_called(garden, bed).key if bed else ""
    starts = isinstance(entry.act, (kinds.Sown, kinds.PlantedOut))
    if planting:
        if starts:
            raise ParameterError("That entry begins its planting.", "Take it back, and tell the other.")
        found = _planting(garden, planting, on, bed_key)
        return bed_key or (_bed_of(found, on) if entry.bed else ""), found.key
    if starts or not entry.planting:
        return bed_key, entry.planting
    old = garden.plantings.get(entry.planting)
    if old is not None and _bed_of(old, on) == bed_key:
        return bed_key if entry.bed else "", entry.planting
    crop = old.crop if old is not None else ""
    return bed_key if entry.bed else "", _planting(garden, crop, on, bed_key).key


def _bed_of(planting: Planting, on: date) -> str:
    """Where it stood that day; also on the day it went. Empty where it did not."""
    return planting.bed_on(on) or (planting.bed if planting.ended_on == on else "")


def _planting(garden: Garden, name: str, on: date, bed: str) -> Planting:
    """A planting by key, or the one of a crop that stood there that day."""
    if name in garden.plantings:
        return garden.plantings[name]
    try:
        crop = find(name)
    except UnknownName:
        return garden.plantings[key_of(name, {key: key for key in garden.plantings}, "planting")]
    of_crop = [each for each in garden.plantings.values() if each.crop == crop]
    stood = [each for each in of_crop if (there := _bed_of(each, on)) and bed in ("", there)]
    if len(stood) == 1:
        return stood[0]
    where = f" in {garden.beds[bed].name}" if bed else ""
    word = crop_word(crop, many=True)
    if stood:
        keys = ", ".join(each.key for each in stood)
        raise ParameterError(
            f"Several plantings of {word} stood{where} on {day_text(on)}.", f"Say which: {keys}."
        )
    beds = dict.fromkeys(
        garden.beds[key].name for each in of_crop if (key := _bed_of(each, on)) in garden.beds
    )
    hint = f"There were some in {', '.join(beds)}." if beds else "Name the planting; see: spadework standing"
    raise ParameterError(f"No {word} stood{where} on {day_text(on)}.", hint)


def _replacing(entry: Entry, payload: Payload | None, on: date, there: tuple[str, str], author: str) -> Act:
    return Act(
        payload=payload,
        on=on,
        bed=there[0],
        planting=there[1],
        batch=entry.batch,
        replaces=entry.key,
        author=author,
    )


def _time_of(entries: tuple[Entry, ...], garden: Garden, entry: Entry) -> Entry | None:
    """The time told in the same breath for an act: the next one after it of the same place, or of none."""
    if hasattr(entry.act, "minutes"):
        return None
    together = [
        each
        for each in entries
        if each.recorded_at == entry.recorded_at
        and each.author == entry.author
        and each.key > entry.key
        and each.key not in garden.undone
        and isinstance(each.act, kinds.Minutes)
    ]
    place = (entry.bed, entry.planting)
    same = [each for each in together if (each.bed, each.planting) == place]
    return next(iter([*same, *(each for each in together if not each.bed and not each.planting)]), None)


def _time_anew(
    entry: Entry, took: Entry | None, minutes: float | None, on: date, there: tuple[str, str], author: str
) -> Iterator[Act]:
    """The time that was told with an act, as it really was, on the day and at the place of the act."""
    if took is None or not isinstance(took.act, kinds.Minutes):
        if minutes is not None:
            payload = kinds.Minutes(minutes=minutes, job=_called(entry.act))
            yield Act(payload=payload, on=on, bed=there[0], planting=there[1], author=author)
        return
    payload = took.act if minutes is None else msgspec.structs.replace(took.act, minutes=minutes)
    if (took.bed, took.planting) != (entry.bed, entry.planting):
        # told of several places together: only its length is this act's to say
        on, there, author = took.happened_on, (took.bed, took.planting), took.author
    if (took.act, took.happened_on, took.bed, took.planting, took.author) != (payload, on, *there, author):
        yield _replacing(took, payload, on, there, author)


def _called(act: Payload | None) -> str:
    """What time was spent on, as a noun where it has one."""
    from spadework.advice.pace_log import craft_of

    return ("" if act is None else craft_of((act,))) or act_word(act)


def _fields(act: Payload | None) -> Iterator[tuple[str, Any]]:
    """Fields that can be corrected, with their types."""
    if act is None:
        return
    for field in msgspec.structs.fields(act):
        named = field.name in _WHAT_IT_IS or (field.name == "lot" and isinstance(act, kinds.LotSet))
        if not named and _members(field.type) is not None:
            yield field.name, field.type


def _members(kind: Any) -> tuple[Any, ...] | None:
    """The plain types a value can be of; None where it is none a person can write in a word."""
    parts = get_args(kind) if get_origin(kind) in (Union, UnionType) else (kind,)
    return parts if all(part in _PLAIN or get_origin(part) is Literal for part in parts) else None


def _choices(kind: Any) -> list[str]:
    return [
        str(word) for part in _members(kind) or () if get_origin(part) is Literal for word in get_args(part)
    ]


def _sort(kind: Any) -> str:
    parts = _members(kind) or ()
    if _choices(kind):
        return "choice"
    for part, sort in ((bool, "yes or no"), (date, "day"), (float, "number"), (int, "whole")):
        if part in parts:
            return sort
    return "words"


def _shown(value: Any) -> str | float | bool | None:
    return value.isoformat() if isinstance(value, date) else value


def _anew(act: Payload | None, said: Mapping[str, Any]) -> Payload | None:
    """The act with what was said in place of what it says."""
    if act is None or not said:
        return act
    known = dict(_fields(act))
    usual = {field.name: field.default for field in msgspec.structs.fields(act)}
    values: dict[str, Any] = {}
    for name, value in said.items():
        if name not in known:
            can = ", ".join(known) or "its day and place only"
            raise ParameterError(f"{name} is not said in that entry.", f"It can be corrected in: {can}.")
        values[name] = _read(name, value, known[name], usual[name])
    for name in _EITHER.get(type(act), frozenset()) if values.keys() & _EITHER.get(type(act), set()) else ():
        values.setdefault(name, None)
    return msgspec.structs.replace(act, **values)


def _read(name: str, value: Any, kind: Any, usual: Any) -> Any:
    """A value as its field holds it."""
    sort = _sort(kind)
    if isinstance(value, str):
        value = value.strip()
        if not value and usual is not msgspec.NODEFAULT:
            return usual
        if sort in ("number", "whole"):
            value = value.replace("−", "-").replace(",", ".")
    try:
        return msgspec.convert(value, kind, strict=False)
    except msgspec.ValidationError:
        hints = {
            "number": "Give a number.",
            "whole": "Give a whole number.",
            "choice": f"It is one of: {', '.join(word for word in _choices(kind) if word)}.",
            "yes or no": "Say true or false.",
            "day": "Write it as year-month-day.",
        }
        raise ParameterError(f"{name} cannot be {value!r}.", hints.get(sort, "Give words.")) from None
