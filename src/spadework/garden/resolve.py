"""Which entries of the book stand: doubles counted once, corrections in place of what they correct, undone
ones left out.

The rules, none of which depends on the order the entries come in:

* The same key is one entry.
* A correction stands in place of what it `replaces`; of two corrections of one entry the one recorded later.
* An entry withdrawn does not stand, nor do corrections of it. A correction withdrawn gives back what it
  corrected.
* A withdrawal counts only while it stands itself, so undoing an undo gives back the entry.
* Pointing at itself or at an entry that is not there has no effect. A ring, which only a damaged book can
  hold, is cut at its smallest key.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime

from spadework.errors import ParameterError
from spadework.garden.entries import Entry


@dataclass(frozen=True, slots=True)
class Standing:
    """What is left of a book.

    Parameters
    ----------
    entries : tuple of (str, Entry)
        Those that stand, with the key of the first entry in their line of corrections.
    undone : tuple of (Entry, frozenset of str)
        Those that were withdrawn or corrected, each with the authors who did it.
    keys : frozenset of str
        Every key known.
    """

    entries: tuple[tuple[str, Entry], ...]
    undone: tuple[tuple[Entry, frozenset[str]], ...]
    keys: frozenset[str]


def standing(entries: Iterable[Entry], known_on: datetime | None = None) -> Standing:
    """The entries that stand.

    Parameters
    ----------
    entries : iterable of Entry
        In any order, doubled or not.
    known_on : datetime or None
        With time zone: only what was recorded by then is known.

    Raises
    ------
    ParameterError
        If `known_on` has no time zone, or an entry's `recorded_at` has none while it is asked for.
    """
    known = _by_key(entries, known_on)
    root = _lines(known)
    pointing = [entry for entry in known.values() if entry.withdraws in known]
    if not root and not pointing:
        return Standing(tuple(known.items()), (), frozenset(known))
    return _untangle(known, root, pointing)


def _by_key(entries: Iterable[Entry], known_on: datetime | None) -> dict[str, Entry]:
    if known_on is not None and known_on.tzinfo is None:
        raise ParameterError(f"The time {known_on} has no time zone.", "Give one.")
    known: dict[str, Entry] = {}
    for entry in entries:
        if known_on is not None:
            if entry.recorded_at.tzinfo is None:
                raise ParameterError(
                    f"Entry {entry.key} was recorded at {entry.recorded_at}, without a time zone.",
                    "Record entries with one.",
                )
            if entry.recorded_at > known_on:
                continue
        there = known.setdefault(entry.key, entry)
        # The store refuses a second content under one key; should one come all the same, the choice between
        # the two must not hang on which came first.
        if there is not entry and there != entry:
            known[entry.key] = min(there, entry, key=lambda one: (str(one.recorded_at), repr(one)))
    return known


def _lines(known: Mapping[str, Entry]) -> dict[str, str]:
    """The first entry of each line of corrections, by the key of every entry in it."""
    parent = {
        key: entry.replaces
        for key, entry in known.items()
        if entry.replaces and entry.replaces != key and entry.replaces in known
    }
    root: dict[str, str] = {}
    for key in sorted(parent):
        path = [key]
        on_path = {key}
        while path[-1] not in root and path[-1] in parent:
            above = parent[path[-1]]
            if above in on_path:
                first = min(path[path.index(above) :])
                del parent[first]
                path = path[: path.index(first) + 1]
                break
            path.append(above)
            on_path.add(above)
        top = root.get(path[-1], path[-1])
        root.update(dict.fromkeys(path, top))
    return root


def _untangle(known: Mapping[str, Entry], root: Mapping[str, str], pointing: list[Entry]) -> Standing:
    members: dict[str, list[str]] = defaultdict(list)
    for key, line in root.items():
        members[line].append(key)
    withdrawals: dict[str, list[Entry]] = defaultdict(list)
    for entry in pointing:
        mine, theirs = (root.get(key, key) for key in (entry.key, entry.withdraws))
        if mine != theirs:
            withdrawals[entry.withdraws].append(entry)
            for line in (mine, theirs):
                if line not in root:
                    members[line] = [line]
    stands: dict[str, str | None] = {}
    undone: dict[str, frozenset[str]] = {}
    for line in _order(members, withdrawals, root):
        withdrawn = {
            key: frozenset(by.author for by in standing_ones)
            for key in members[line]
            if (
                standing_ones := [
                    by for by in withdrawals.get(key, ()) if stands.get(root.get(by.key, by.key)) == by.key
                ]
            )
        }
        stands[line] = _last_word(line, members[line], known, withdrawn, undone)
    kept = [(key, entry) for key, entry in known.items() if key not in members and key not in root]
    kept += [(line, known[key]) for line, key in stands.items() if key is not None]
    return Standing(tuple(kept), tuple((known[key], by) for key, by in undone.items()), frozenset(known))


def _order(
    members: Mapping[str, list[str]], withdrawals: Mapping[str, list[Entry]], root: Mapping[str, str]
) -> list[str]:
    """Lines, those that withdraw before what they withdraw."""
    order: list[str] = []
    entered: set[str] = set()
    done: set[str] = set()
    for start in sorted(members):
        stack = [start]
        while stack:
            line = stack[-1]
            if line in done:
                stack.pop()
            elif line in entered:
                done.add(line)
                order.append(stack.pop())
            else:
                entered.add(line)
                first = {root.get(by.key, by.key) for key in members[line] for by in withdrawals.get(key, ())}
                stack += sorted(first - entered, reverse=True)
    return order


def _last_word(
    line: str,
    keys: list[str],
    known: Mapping[str, Entry],
    withdrawn: Mapping[str, frozenset[str]],
    undone: dict[str, frozenset[str]],
) -> str | None:
    """Key of the entry that stands in a line of corrections; the others go to `undone` with who did it."""
    corrections: dict[str, list[str]] = defaultdict(list)
    for key in keys:
        if key != line:
            corrections[known[key].replaces].append(key)
    path = [] if line in withdrawn else [line]
    while path:
        left = [key for key in corrections[path[-1]] if key not in withdrawn]
        if not left:
            break
        path.append(max(left, key=lambda key: _age(known[key])))
    for key in keys:
        if path and key == path[-1]:
            continue
        after = path[path.index(key) + 1 :] if key in path else path[-1:]
        above = withdrawn.get(key, frozenset()) | withdrawn.get(line, frozenset())
        undone[key] = above | {known[later].author for later in after}
    return path[-1] if path else None


def _age(entry: Entry) -> tuple[datetime, str]:
    at = entry.recorded_at
    return (at if at.tzinfo else at.replace(tzinfo=UTC)), entry.key
