"""What a differential comes to: causes with reasons for and against, the test that parts them, what to do."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

import msgspec

from spadework.advice.ailing.circumstance_words import HOLDS
from spadework.advice.ailing.differential import Differential
from spadework.advice.ailing.fit import shows
from spadework.advice.circumstances import age_weight
from spadework.crops.trouble import Remedy, Trouble

SHOWN: Final = 3
"""Causes that are shown. Our own rule."""

WORTH_SHOWING: Final = 0.03
"""A cause less likely than this is shown only where it is the likeliest. Our own rule."""

LEADS: Final = 0.25
"""From this chance on, what a cause asks for is said. Our own rule."""

URGENT: Final = 0.15
"""The same where it is urgent for neighbours: the miss costs others. Our own rule."""

UNSURE: Final = 0.35
"""Chance of something not in the list from which somebody else should look. Our own rule."""

STRANGE: Final = 0.05
"""A sign shown less often than this is not explained. Our own rule."""

TELLING: Final = 0.08
"""A sign that more ailing plants show whatever the cause speaks against none. Our own rule."""

MOST_REASONS: Final = 5


class CauseView(msgspec.Struct, frozen=True, kw_only=True, rename={"reasons_for": "for"}):
    """One cause as it is shown.

    Parameters
    ----------
    cause, name, kind : str
        Key, name and kind of its sheet.
    chance : float
        0 to 1.
    before : float
        Its chance before anything was found.
    reasons_for, against : tuple of str
        Sentences.
    test : str
        What parts it from the next best.
    """

    cause: str
    name: str
    kind: str
    chance: float
    before: float
    reasons_for: tuple[str, ...]
    against: tuple[str, ...]
    test: str
    about: str = ""


class ToDo(msgspec.Struct, frozen=True, kw_only=True):
    """One thing to do before dark: for which cause, the kit it needs, and whether that is in the shed."""

    act: str
    cause: str
    kit: str = ""
    at_hand: bool = True


def causes_of(state: Differential) -> tuple[CauseView, ...]:
    """The likeliest causes with what speaks for and against each."""
    top = [
        each
        for at, each in enumerate(state.ranked[:SHOWN])
        if at == 0 or state.chances[each.key] >= WORTH_SHOWING
    ]
    found = []
    for at, each in enumerate(top):
        rival = top[1] if at == 0 and len(top) > 1 else top[0] if at else None
        found.append(
            CauseView(
                cause=each.key,
                name=each.name,
                kind=each.kind,
                chance=round(state.chances[each.key], 4),
                before=round(state.before[each.key], 4),
                reasons_for=tuple(_speaks_for(state, each))[:MOST_REASONS],
                against=tuple(_speaks_against(state, each))[:MOST_REASONS],
                test=test_between(state, each, rival),
                about=each.about.text,
            )
        )
    return tuple(found)


def _seen(state: Differential) -> dict[str, bool]:
    """Signs found, and signs looked for and not found, as surely meant."""
    seen = {key: look == "yes" for key, look in state.found.looks.items() if look != "unknown"}
    for heard in state.found.still_heard:
        if heard.signs and heard.sure >= 0.5:
            for key, weight in heard.signs:
                if weight >= 0.3 or not heard.there:
                    seen.setdefault(key, heard.there)
    return seen


def _speaks_for(state: Differential, each: Trouble) -> Iterator[str]:
    own = {shown.sign: shown.often.value for shown in each.signs}
    there = [key for key, found in _seen(state).items() if found and own.get(key, 0.0) >= 0.2]
    there.sort(key=lambda key: -own[key] / max(state.signs[key].usual, 0.005))
    for key in there:
        yield f"Found: {state.signs[key].words} ({_in_ten(own[key])} show it)."
    for heard in state.found.heard:
        if heard.trouble == each.key:
            yield f"You named it: {heard.words}."
    here = state.here
    if each.key in here.had:
        yield f"It was seen in this bed before: {here.had[each.key]}."
    for favour in sorted(each.favours, key=lambda favour: -favour.times.value):
        hold = here.holds.get(favour.when)
        if hold is not None and hold.share >= 0.5 and favour.times.value >= 1.3:
            yield _sentence(hold.why or HOLDS[favour.when][0])
    if each.events and here.present.get(each.key, 0.0) >= 0.5 and each.key not in here.away:
        yield "By its clock it is about now."
    if here.infection.get(each.key, 1.0) >= 1.5:
        yield "The weather of the last days suits it."


def _speaks_against(state: Differential, each: Trouble) -> Iterator[str]:
    here = state.here
    own = {shown.sign: shown.often.value for shown in each.signs}
    seen = _seen(state)
    missing = [key for key, found in seen.items() if not found and own.get(key, 0.0) >= 0.3]
    for key in sorted(missing, key=lambda key: -own[key]):
        yield f"Not found: {state.signs[key].words} ({_in_ten(own[key])} show it)."
    for said in [*_strange(state, own)][:2]:
        yield f"It does not explain: {said}."
    if each.key in here.away:
        yield "It is not known to live in this part of the world."
    if each.events and here.present.get(each.key, 1.0) <= 0.3:
        yield "By its clock it is hardly about now."
    for favour in sorted(each.favours, key=lambda favour: favour.otherwise):
        hold = here.holds.get(favour.when)
        if hold is not None and hold.share <= 0.2 and favour.otherwise <= 0.6:
            yield _sentence(HOLDS[favour.when][1])
    if age_weight(each, here.age) < 0.5:
        yield f"It mostly harms plants that are {' or '.join(_AGE_WORDS[age] for age in each.ages)}."


def _strange(state: Differential, own: Mapping[str, float]) -> Iterator[str]:
    """What was found and a cause does not show, in the words it was said in."""
    for key, look in state.found.looks.items():
        if look == "yes" and own.get(key, 0.0) < STRANGE and state.signs[key].usual <= TELLING:
            yield state.signs[key].words
    for heard in state.found.still_heard:
        if heard.there and heard.signs and heard.sure >= 0.5:
            usual = min(state.signs[key].usual for key, _ in heard.signs)
            if usual <= TELLING and all(own.get(key, 0.0) < STRANGE for key, _ in heard.signs):
                yield heard.words


_AGE_WORDS: Final = {
    "seed": "not yet up",
    "seedling": "seedlings",
    "young": "young",
    "leafy": "in leaf",
    "flowering": "in flower",
    "fruiting": "setting or swelling",
    "ripe": "ready",
}


def test_between(state: Differential, each: Trouble, rival: Trouble | None) -> str:
    """The cheap test that parts a cause from its rival."""
    if rival is not None:
        for one, other in ((each, rival), (rival, each)):
            for alike in one.alike:
                if alike.trouble in (other.key, other.name):
                    return alike.test
        looked = set(state.found.looks)
        signs = {shown.sign for shown in (*each.signs, *rival.signs)} - looked
        parting = {
            key: shows(each, key, state.signs[key]) - shows(rival, key, state.signs[key])
            for key in sorted(signs)
        }
        best = max(parting, key=lambda key: abs(parting[key]), default="")
        if best and abs(parting[best]) >= 0.3:
            speaks, not_so = (each, rival) if parting[best] > 0 else (rival, each)
            return f"{state.signs[best].ask} Yes speaks for {speaks.name}, no for {not_so.name}."
    return f"Look at {each.scout.where}, {each.scout.when}." if each.scout.where else ""


def before_dark(state: Differential, kit: Collection[str]) -> tuple[ToDo, ...]:
    """What can be done at once, by the sorts of kit in the shed, for the causes that lead."""
    found: list[ToDo] = []
    for each in leading(state):
        now = [remedy for remedy in each.remedies if remedy.now]
        at_hand = [remedy for remedy in now if _at_hand(remedy, kit)]
        found += [
            ToDo(act=_sentence(remedy.act), cause=each.key, kit=remedy.kit, at_hand=remedy in at_hand)
            for remedy in at_hand or now[:1]
        ]
    return tuple(found)


def _at_hand(remedy: Remedy, kit: Collection[str]) -> bool:
    return not remedy.kit or remedy.kit in kit


def leading(state: Differential) -> Sequence[Trouble]:
    """The causes likely enough to be acted on; the likeliest where it is likelier than something else."""
    top = state.ranked[:SHOWN]
    found = [each for each in top if state.chances[each.key] >= LEADS]
    return found or [each for each in top[:1] if state.chances[each.key] > state.other]


def keep_or_pull(state: Differential) -> tuple[Trouble, str] | None:
    """What decides between keeping, pulling and sowing again, where that is the question; None where not."""
    for each in leading(state):
        if each.keep_or_pull:
            return each, each.keep_or_pull
    return None


def urgent_for_neighbours(state: Differential) -> tuple[str, ...]:
    """What makes it urgent for others, of every cause likely enough."""
    return tuple(
        f"{_first_up(each.name)}: {each.neighbours}"
        for each in state.ranked[:SHOWN]
        if each.neighbours and state.chances[each.key] >= URGENT
    )


def to_laboratory(state: Differential) -> tuple[str, ...]:
    """When somebody with a microscope should see it."""
    found = [
        f"{_first_up(each.name)}: {each.laboratory}"
        for each in state.ranked[:SHOWN]
        if each.laboratory and state.chances[each.key] >= URGENT
    ]
    if state.other >= UNSURE:
        found.append(
            "Little of what is known here fits what you see: take a whole plant with its roots, in a bag, to "
            "your extension service or a plant clinic."
        )
    return tuple(found)


def cautions_of(state: Differential) -> tuple[str, ...]:
    """Cautions and laws of the causes that lead, once each."""
    said = [line.text for each in leading(state) for line in (*each.cautions, *each.legal)]
    return tuple(dict.fromkeys(said))


def _in_ten(share: float) -> str:
    count = round(share * 10)
    if count >= 10:
        return "nearly all"
    return "few" if count < 1 else f"{count} in 10"


def _first_up(text: str) -> str:
    return text[:1].upper() + text[1:]


def _sentence(text: str) -> str:
    said = _first_up(text.strip())
    return said if said.endswith((".", "!", "?")) else f"{said}."
