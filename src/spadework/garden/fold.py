"""The fold: from the entries of the book to the garden.

Entries may come in any order and doubled. Those that stand (garden.resolve) are put in order by the day they
happened, then by the rank of their kind, then by the key of the first entry in their line of corrections:

1. what the garden has: beds, kit, seed, people, chores, what stood before, facts told;
2. seed sown;
3. plants set out;
4. locks, and manure and sprays that set them by rule;
5. everything else;
6. plantings cleared or lost as a whole;
7. locks lifted.

So a bed told in the evening was there when it was sown in the morning, and a planting cleared in the morning
was there for the picking told later. Within the fifth rank the order can matter (counted, then thinned, is
not thinned, then counted), and there the order of writing is taken; covers moved at told hours go by these.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date, datetime
from types import MappingProxyType
from typing import Final, TypeAlias

from spadework.garden import entries as kinds
from spadework.garden.acts import act_word
from spadework.garden.draft import Draft, PlantingDraft
from spadework.garden.entries import Entry
from spadework.garden.fold_kit import chore_done, chore_set, cover, kit_set, lot_set, person_set, role_said
from spadework.garden.fold_locks import SETTING, keep_locks, set_locks, unlocked, without_doubles
from spadework.garden.fold_place import amended, bed_gone, bed_set, flow_measured, stood, tended
from spadework.garden.fold_plants import (
    counted,
    ended,
    lifted,
    measured,
    picked,
    planted_out,
    pricked_out,
    sown,
    stage,
    thinned,
)
from spadework.garden.locks import Role
from spadework.garden.resolve import Standing, standing
from spadework.garden.state import Garden

_Item: TypeAlias = tuple[int, int, str, str, Entry, frozenset[str]]

_RANKS: Final[dict[type, int]] = {
    kinds.BedSet: 1,
    kinds.BedGone: 1,
    kinds.KitSet: 1,
    kinds.LotSet: 1,
    kinds.PersonSet: 1,
    kinds.ChoreSet: 1,
    kinds.Stood: 1,
    kinds.FactTold: 1,
    kinds.Sown: 2,
    kinds.PlantedOut: 3,
    kinds.Locked: 4,
    kinds.Amended: 4,
    kinds.Treated: 4,
    kinds.Fed: 4,
    kinds.Unlocked: 7,
}
_ELSE: Final = 5
_WHOLE: Final = 6
_NOBODY: Final[frozenset[str]] = frozenset()


def fold(
    entries: Iterable[Entry],
    *,
    known_on: datetime | None = None,
    day: date | None = None,
    picked_whole: Collection[str] = (),
) -> Garden:
    """The garden the entries tell of.

    Parameters
    ----------
    entries : iterable of Entry
        In any order, doubled or not.
    known_on : datetime or None
        With time zone. As known then: only what was recorded by that time, corrections and withdrawals too.
    day : date or None
        As known now about that day: nothing that happened later. Locks set later are left out, and those
        lifted later are in force.
    picked_whole : collection of str
        Keys of crops that are picked as whole plants (heads, roots): picking pieces of them leaves fewer
        standing.

    Raises
    ------
    ParameterError
        If `known_on` has no time zone, or an entry has none while it is given.

    Notes
    -----
    Nothing an entry says can make the fold fail: what is odd is asked about before it is written
    (garden.ask), and folded as far as it makes sense where the person insisted.
    """
    book = standing(entries, known_on)
    draft = Draft(picked_whole=frozenset(picked_whole))
    roles = _roles(book)
    order: list[Entry] = []
    for _, _, line, _, entry, undone_by in _in_order(book, day):
        if undone_by:
            keep_locks(draft, entry, _bed_of(draft, entry), undone_by, roles)
        else:
            order.append(entry)
            _take_in(draft, entry, line)
    return _frozen(draft, book, order, day)


def _in_order(book: Standing, day: date | None) -> list[_Item]:
    items: list[_Item] = []
    for line, entry in book.entries:
        act = entry.act
        if act is None or (day is not None and entry.happened_on > day):
            continue
        kind = type(act)
        rank = _RANKS.get(kind, _ELSE)
        if kind is kinds.Ended and act.plants is None:  # type: ignore[union-attr]
            rank = _WHOLE
        items.append((entry.happened_on.toordinal(), rank, line, entry.key, entry, _NOBODY))
    for entry, undone_by in book.undone:
        if isinstance(entry.act, SETTING) and (day is None or entry.happened_on <= day):
            rank = _RANKS[type(entry.act)]
            items.append((entry.happened_on.toordinal(), rank, entry.key, entry.key, entry, undone_by))
    # Keys are all different, so entries themselves are never compared.
    items.sort(key=lambda item: item[:4])
    _by_the_hour(items)
    return items


def _by_the_hour(items: list[_Item]) -> None:
    """Covers moved on one day at hours that were told change places until the hours are in order.

    Those without an hour keep theirs: when they were moved is not known, only when it was written.
    """
    days: dict[int, list[int]] = {}
    for place, item in enumerate(items):
        if type(item[4].act) is kinds.Moved and item[4].act.hour is not None:
            days.setdefault(item[0], []).append(place)
    for places in days.values():
        in_order = sorted((items[place] for place in places), key=_hour)
        for place, item in zip(places, in_order, strict=True):
            items[place] = item


def _hour(item: _Item) -> float:
    act = item[4].act
    return act.hour or 0.0 if isinstance(act, kinds.Moved) else 0.0


def _roles(book: Standing) -> dict[str, Role]:
    """Roles as they are in the end: who might undo an entry is asked of the people there are now."""
    people = [
        (entry.happened_on, line, entry)
        for line, entry in book.entries
        if isinstance(entry.act, kinds.PersonSet)
    ]
    roles: dict[str, Role] = {}
    for _, _, entry in sorted(people, key=lambda each: each[:2]):
        if isinstance(entry.act, kinds.PersonSet):
            roles[entry.act.person or entry.author] = role_said(roles, entry, entry.act)
    return roles


def _bed_of(draft: Draft, entry: Entry) -> str:
    """The bed an entry names, or the one its planting stands in."""
    if entry.bed or not entry.planting:
        return entry.bed
    planting = draft.plantings.get(entry.planting)
    return "" if planting is None else planting.bed


def _take_in(draft: Draft, entry: Entry, line: str) -> None:
    act = entry.act
    kind = type(act)
    word, day = act_word(act), entry.happened_on
    planting: PlantingDraft | None
    if isinstance(act, kinds.Sown):
        planting = sown(draft, entry, act, line)
        bed_key = planting.bed
    elif isinstance(act, kinds.PlantedOut):
        planting = planted_out(draft, entry, act)
        bed_key = planting.bed
    elif isinstance(act, kinds.BedSet):
        planting, bed_key = None, entry.bed or act.name
    else:
        planting = draft.plantings.get(entry.planting) if entry.planting else None
        bed_key = entry.bed or (planting.bed if planting is not None else "")
        if entry.planting and planting is None:
            draft.strays.append(entry)
    minutes = act.minutes * act.people if isinstance(act, kinds.Minutes) else 0.0
    if bed_key:
        bed = draft.bed(bed_key)
        bed.history.append(entry)
        bed.last[word] = day
        bed.minutes += minutes
        if not entry.planting:
            bed.last_whole[word] = day
    if planting is not None:
        planting.history.append(entry)
        planting.last[word] = day
        planting.minutes += minutes
        planting.insisted = planting.insisted or entry.insisted
        _of_plants(draft, planting, entry)
    if kind in SETTING:
        set_locks(draft, entry, bed_key)
    _of_place(draft, entry, bed_key, line)


def _of_plants(draft: Draft, planting: PlantingDraft, entry: Entry) -> None:
    match entry.act:
        case kinds.Counted() as act:
            counted(draft, planting, entry, act)
        case kinds.Thinned() as act:
            thinned(draft, planting, entry, act)
        case kinds.Picked() as act:
            picked(draft, planting, entry, act)
        case kinds.Lifted() as act:
            lifted(planting, entry, act)
        case kinds.Measured() as act:
            measured(planting, act)
        case kinds.Stage() as act:
            stage(planting, entry, act)
        case kinds.PrickedOut() as act:
            pricked_out(planting, entry, act)
        case kinds.Ended() as act:
            ended(planting, entry, act)
        case _:
            pass


def _of_place(draft: Draft, entry: Entry, bed: str, line: str) -> None:
    match entry.act:
        case kinds.Moved() as act:
            cover(draft, entry, act, bed)
        case kinds.Tended() as act if bed:
            tended(draft.beds[bed], act)
        case kinds.Amended() as act if bed:
            amended(draft.beds[bed], entry, act)
        case kinds.Unlocked() as act:
            unlocked(draft, entry, act)
        case kinds.BedSet() as act:
            bed_set(draft, entry, act)
        case kinds.FlowMeasured() as act if bed:
            flow_measured(draft.beds[bed], act)
        case kinds.BedGone() as act if bed:
            bed_gone(draft.beds[bed], entry, act)
        case kinds.KitSet() as act:
            kit_set(draft, entry, act)
        case kinds.LotSet() as act:
            lot_set(draft, entry, act, line)
        case kinds.PersonSet() as act:
            person_set(draft, entry, act)
        case kinds.ChoreSet() as act:
            chore_set(draft, entry, act)
        case kinds.Minutes() | kinds.Skipped() as act if draft.chores:
            chore_done(draft, entry, act)
        case kinds.Stood() as act:
            stood(draft, entry, act)
        case _:
            pass


def _frozen(draft: Draft, book: Standing, order: list[Entry], day: date | None) -> Garden:
    outlines = {key: bed.outline() for key, bed in draft.beds.items()}
    held: dict[str, list[str]] = {}
    for planting in draft.plantings.values():
        if planting.in_tray and planting.ended_on is None:
            held.setdefault(planting.in_tray, []).append(planting.key)
    kit = {key: item.frozen(held.get(key, ())) for key, item in draft.kit.items()}
    return Garden(
        day=day,
        beds=MappingProxyType({key: bed.frozen() for key, bed in draft.beds.items()}),
        plantings=MappingProxyType(
            {
                key: each.frozen(outlines.get(each.bed), _traits(draft, each))
                for key, each in draft.plantings.items()
            }
        ),
        kit=MappingProxyType({key: item for key, item in kit.items() if not item.gone}),
        tin=MappingProxyType({key: lot.frozen() for key, lot in draft.tin.items()}),
        people=MappingProxyType(draft.people),
        chores=MappingProxyType(draft.chores),
        locks=without_doubles(draft.locks),
        told_before=tuple(draft.told_before),
        entries=tuple(order),
        strays=tuple(draft.strays),
        keys=book.keys,
        undone=frozenset(entry.key for entry, _ in book.undone),
        picked_whole=frozenset(draft.picked_whole),
    )


def _traits(draft: Draft, planting: PlantingDraft) -> tuple[str, ...]:
    """Traits told with the seed lot, for a planting of its variety."""
    lot = draft.tin.get(planting.lot) if planting.lot else None
    return () if lot is None or lot.told is None else lot.told.traits
