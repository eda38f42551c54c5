"""Tell the garden something in a line, see what was told, and take it back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

import msgspec

from spadework.clock.applied import Applied
from spadework.clock.conditioning import condition_ground, condition_years
from spadework.errors import ParameterError, SpadeworkError
from spadework.garden.told import Fact, ForecastDay, Told
from spadework.garden.told_words import fact_text
from spadework.store.told_file import kind_of, new_key
from spadework.usecases.setting import Setting, open_setting
from spadework.usecases.tell_checks import refuse_impossible
from spadework.usecases.tell_doubts import Doubt, doubts_about


class ToldLine(msgspec.Struct, frozen=True, kw_only=True):
    """One told fact."""

    key: str
    told_on: date
    source: str
    kind: str
    text: str


class ToldNumber(msgspec.Struct, frozen=True, kw_only=True):
    """One number of what a fact did."""

    law: str
    value: float
    unit: str


class ToldAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What was kept, and what it does to the answers.

    Parameters
    ----------
    doubts : list of str
        What speaks against it; then nothing was kept.
    known : list of ToldLine
        What was told before in the same words, and counts once.
    withdrawn : list of str
        Keys of older entries it took the place of.
    does : list of str
        What this kind of fact now does to the years.
    """

    question: str
    today: date
    stored: bool
    told: list[ToldLine]
    known: list[ToldLine]
    withdrawn: list[str]
    doubts: list[str]
    does: list[str]
    facts: list[ToldNumber]


class ToldList(msgspec.Struct, frozen=True, kw_only=True):
    """Everything told that stands."""

    question: str
    today: date
    told: list[ToldLine]


class Forgotten(msgspec.Struct, frozen=True, kw_only=True):
    """What was taken back."""

    question: str
    today: date
    forgotten: ToldLine


def tell(
    garden: Path,
    today: date,
    facts: Sequence[Fact],
    *,
    source: str,
    sure: bool = False,
    station_c: float | None = None,
) -> ToldAnswer:
    """Keep facts, all or none.

    Parameters
    ----------
    garden : Path
    today : date
        The day of telling.
    facts : sequence of Fact
    source : str
        Who says it.
    sure : bool
        Keep them although something speaks against them; what they disagree with is withdrawn.
    station_c : float or None  [degC]
        The station's own reading of a pair of minima.

    Raises
    ------
    ParameterError
        For what is impossible. What is only doubtful comes back in the answer.
    """
    setting = open_setting(garden, today)
    for fact in facts:
        refuse_impossible(fact, setting.site, today)
    known: list[Told] = []
    new: list[Told] = []
    doubts: list[Doubt] = []
    for fact in facts:
        entry = Told(key=new_key(), told_on=today, source=source, fact=fact)
        same = next((old for old in (*setting.told, *new) if is_same(entry, old)), None)
        if same is not None:
            known.append(same)
            continue
        trial = replace(setting, also=tuple(new))
        doubts += doubts_about(trial, entry, station_c)
        new.append(entry)
    refused = bool(doubts) and not sure
    withdrawn: list[str] = []
    if not refused:
        stored = {entry.key for entry in setting.told}
        older = {doubt.older.key for doubt in doubts if doubt.older is not None}
        withdrawn = sorted(older & stored)
        setting.folder.tell(*new)
        for key in withdrawn:
            setting.folder.withdraw(key, today)
    does = [] if refused else _does(open_setting(garden, today), [*new, *known])
    return ToldAnswer(
        question="tell",
        today=today,
        stored=not refused,
        told=[line_of(entry) for entry in new],
        known=[line_of(entry) for entry in known],
        withdrawn=withdrawn,
        doubts=[doubt.text for doubt in doubts] if refused else [],
        does=[use.text for use in does],
        facts=[ToldNumber(law=f.law, value=f.value, unit=f.unit) for use in does for f in use.facts],
    )


def list_told(garden: Path, today: date) -> ToldList:
    """Everything told up to a day that stands, in order of telling."""
    setting = open_setting(garden, today)
    return ToldList(question="told", today=today, told=[line_of(entry) for entry in setting.told])


def forget(garden: Path, today: date, key: str) -> Forgotten:
    """Take back what was told, by its key or the end of it.

    Raises
    ------
    ParameterError
        If no entry that stands has the key, or several end so.
    """
    setting = open_setting(garden, today)
    asked = key.strip().upper()
    found = [entry for entry in setting.told if asked and entry.key.endswith(asked)]
    if not found:
        raise ParameterError(
            f"Nothing told by {today.isoformat()} has a key that ends in {key!r}.",
            "See the keys with: spadework told",
        )
    if len(found) > 1:
        raise ParameterError(f"{len(found)} keys end in {key!r}.", "Give more of its signs.")
    setting.folder.withdraw(found[0].key, today)
    return Forgotten(question="told forget", today=today, forgotten=line_of(found[0]))


def is_same(new: Told, old: Told) -> bool:
    """Whether an entry says again what stands already. A forecast told on another day is a new one."""
    if new.fact != old.fact or new.source != old.source:
        return False
    return new.told_on == old.told_on or not isinstance(new.fact, ForecastDay)


def line_of(entry: Told) -> ToldLine:
    """An entry as it is shown."""
    return ToldLine(
        key=entry.key,
        told_on=entry.told_on,
        source=entry.source,
        kind=kind_of(entry.fact),
        text=fact_text(entry.fact),
    )


def _does(setting: Setting, entries: Sequence[Told]) -> list[Applied]:
    """What facts of these kinds do to the coming month; nothing where there are no years to run yet."""
    kinds = {kind_of(entry.fact) for entry in entries}
    try:
        years = setting.years(setting.today, 30)
        conditioned = condition_years(years, setting.told, setting.site, setting.today, setting.nights())
        _, applied = condition_ground(conditioned, setting.told, setting.site, setting.today)
    except SpadeworkError:
        return []
    return [use for use in applied if use.kind in kinds]
