"""Entries about what the garden owns and who works in it: covers and trays, the seed tin, people, chores."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from spadework.errors import ParameterError
from spadework.garden.draft import Draft, KitDraft, LotDraft
from spadework.garden.entries import ChoreSet, Entry, KitSet, LotSet, Minutes, Moved, PersonSet, Skipped
from spadework.garden.locks import Role
from spadework.garden.records import Chore, Person, Placed
from spadework.garden.tin import Germination


def kit_set(draft: Draft, entry: Entry, act: KitSet) -> None:
    """A piece of kit, as it is now."""
    item = draft.kit.setdefault(act.item, KitDraft(act.item))
    item.told = act
    item.last["kit"] = entry.happened_on


def cover(draft: Draft, entry: Entry, act: Moved, bed: str) -> None:
    """Kit put on, taken off, opened or shut; without a name, all that is on the place."""
    day = entry.happened_on
    place = (bed, entry.planting)
    if act.act == "on":
        if act.item:
            item = draft.kit.setdefault(act.item, KitDraft(act.item))
            _put_on(draft, item, entry, act, place)
            item.last["cover on"] = day
        return
    items = [draft.kit[act.item]] if act.item in draft.kit else []
    if not act.item:
        items = list(draft.kit.values())
    for item in items:
        there = [at for at in item.placed if not bed or (at[0] == bed and entry.planting in ("", at[1]))]
        if not there and entry.planting:
            # The person names the planting; the cover lies over its bed.
            there = [at for at in item.placed if at == (bed, "")]
        for at in there:
            item.last[f"cover {act.act}"] = day
            if act.act == "off":
                _take_off(item, at, act)
            else:
                item.placed[at] = _with_opened(item.placed[at], act.act == "opened")
    if act.act != "off" and bed in draft.beds and not act.item:
        draft.beds[bed].opened = act.act == "opened"


def _put_on(draft: Draft, item: KitDraft, entry: Entry, act: Moved, place: tuple[str, str]) -> None:
    """More of it where a length is given; said again without one it only says that it is there."""
    there = item.placed.get(place)
    length_m, pieces, assumed = act.length_m, act.pieces, False
    if there is not None:
        if length_m is None and pieces is None:
            item.placed[place] = _with_opened(there, False)
            return
        length_m = length_m if there.length_m is None or there.assumed else (length_m or 0.0) + there.length_m
        pieces = pieces if there.pieces is None else (pieces or 0) + there.pieces
    elif length_m is None and item.told is not None and item.told.length_m is not None:
        length_m, assumed = _assumed_length(draft, item, place[0]), True
    item.placed[place] = Placed(
        item=item.item,
        bed=place[0],
        planting=place[1],
        length_m=length_m,
        pieces=pieces,
        assumed=assumed,
        since=entry.happened_on if there is None else there.since,
    )


def _assumed_length(draft: Draft, item: KitDraft, bed: str) -> float:
    """The bed's length, or what is free where that is less."""
    free_m = max(0.0, item.free_m() or 0.0)
    outline = draft.beds[bed].outline() if bed in draft.beds else None
    return free_m if outline is None else min(free_m, outline.length_m)


def _take_off(item: KitDraft, at: tuple[str, str], act: Moved) -> None:
    there = item.placed[at]
    left_m = None
    if act.length_m is not None and there.length_m is not None:
        left_m = there.length_m - act.length_m
    left = None if act.pieces is None or there.pieces is None else there.pieces - act.pieces
    if (left_m is None or left_m <= 0) and (left is None or left <= 0):
        del item.placed[at]
        return
    item.placed[at] = replace(
        there,
        length_m=left_m if left_m is not None else there.length_m,
        pieces=left if left is not None else there.pieces,
        assumed=False,
    )


def _with_opened(placed: Placed, opened: bool) -> Placed:
    return replace(placed, opened=opened)


def lot_set(draft: Draft, entry: Entry, act: LotSet, line: str) -> None:
    """A seed lot, as it is now; a test stays known until there is another."""
    lot = draft.tin.setdefault(act.lot, LotDraft(act.lot))
    lot.retold = lot.told is not None
    lot.told, lot.told_at = act, (entry.happened_on, line)
    if act.tested is not None and act.germinated is not None:
        try:
            lot.germination = Germination(act.germinated, act.tested)
        except ParameterError:
            return
        lot.tested_on = entry.happened_on


def person_set(draft: Draft, entry: Entry, act: PersonSet) -> None:
    """Someone, as they are now."""
    key = act.person or entry.author
    role = role_said({each.key: each.role for each in draft.people.values()}, entry, act)
    draft.people[key] = Person(key=key, name=act.name or key, role=role, can=act.can, not_for=act.not_for)


def role_said(roles: Mapping[str, Role], entry: Entry, act: PersonSet) -> Role:
    """The role an entry gives someone. Where there are keepers only these change anybody's.

    Parameters
    ----------
    roles : mapping of str to str
        As they were before it, by person.
    entry : Entry
    act : PersonSet
        Its act.

    Notes
    -----
    Asked about before it is written (garden.ask); here it holds as well for what comes in with a file.
    """
    if "keeper" not in roles.values() or roles.get(entry.author) == "keeper":
        return act.role
    return roles.get(act.person or entry.author, "helper" if act.role == "keeper" else act.role)


def chore_set(draft: Draft, entry: Entry, act: ChoreSet) -> None:
    """A chore, as it is now; when it was last done stays known."""
    if act.gone:
        draft.chores.pop(act.chore, None)
        return
    before = draft.chores.get(act.chore)
    draft.chores[act.chore] = Chore(
        chore=act.chore,
        minutes=act.minutes,
        person=act.person,
        bed=entry.bed,
        every_days=act.every_days,
        first=act.first,
        last=act.last,
        set_on=before.set_on if before else entry.happened_on,
        done_on=before.done_on if before else None,
        put_off_on=before.put_off_on if before else None,
    )


def chore_done(draft: Draft, entry: Entry, act: Minutes | Skipped) -> None:
    """A chore done, or put off, where the job is one."""
    chore = draft.chores.get(act.job)
    if chore is None:
        return
    if isinstance(act, Minutes):
        draft.chores[act.job] = replace(chore, done_on=entry.happened_on)
    else:
        draft.chores[act.job] = replace(chore, put_off_on=entry.happened_on)
