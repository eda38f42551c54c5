"""Free words about a plant, matched to the signs that are known."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from math import log
from typing import Final

from spadework.advice.ailing.evidence import Heard
from spadework.advice.ailing.words import FEW, NOT, forms, nearest_form
from spadework.crops.names import spoken
from spadework.crops.sheet import Sheet
from spadework.crops.trouble import Part, Sign, Trouble
from spadework.crops.troubles import all_signs, all_troubles, hosted_by

LEAST_SCORE: Final = 0.4
"""Words that fit no sign better than this are not heard. Our own rule."""

ALTERNATIVE: Final = 0.72
"""Signs that fit so much of the best are kept as what may be meant. Our own rule."""

MOST_ALTERNATIVES: Final = 5
SHARPNESS: Final = 4.0
"""How much more a better fit weighs. Our own rule."""

SUREST: Final = 0.92
"""No words are heard more surely: people call one thing by the name of another. Our own rule."""

SURE_AT: Final = 0.8
"""Fit from which a phrase is taken as surely meant. Our own rule."""

PHRASE_PART: Final = 0.55
"""How much a phrase's own words left out count, beside words said that the phrase has not. Our own rule."""

OTHER_PART: Final = 0.5
"""A sign of another part than the one named fits so much less. Our own rule."""

WHOLE: Final = 0.6
"""Of one way of saying a sign, what the rest of a sentence must hold where it has told a sign already. Our
own rule."""

LONG: Final = 3
LONE: Final = 0.8
"""Where so many words are said and only one of them is a sign's, it fits so much less. Our own rule."""

STRANGE: Final = 0.75
"""A sign that nothing harming the crop shows fits so much less. Our own rule."""

COMMON: Final = 4
"""A form that more signs have does not by itself name a trouble. Our own rule."""

RARE: Final = 0.8
"""One word tells a second sign of a sentence only where so few signs have it. Our own rule."""

ASIDE: Final = 0.3
"""Weight of words that no sign knows. Our own rule."""

_CLAUSE: Final = re.compile(r"[,;:.!?()]|\bbut\b|\bthough\b|\balthough\b|\bwhile\b|\bwhereas\b|\s[-–—]\s")
_OF_PLANTS: Final = re.compile(r"\bplants?\b|\bseedlings?\b|\bsow|\bseeds?\b|\bplanted\b|\bdug\b")
_FINE: Final = re.compile(
    r"(?<=\bis )(?:fine|well|ok|good)\b|(?<=\bare )(?:fine|well|ok|good)\b|\bstands? well\b"
    r"|(?<=\blook )(?:fine|ok|good|green)\b|(?<=\blooks )(?:fine|ok|good|green)\b"
    r"|\b(?:still|all|perfectly|otherwise) (?:fine|green|good)\b"
)
_EASILY: Final = re.compile(r"\b(?:with |without )?(?:no|any|little|hardly any) effort\b|\bwithout effort\b")
_TOO: Final = re.compile(r"\btoo\b|\balso\b|\bas well\b|\bsame\b|\bboth\b|\blikewise\b")
_NAME: Final = re.compile(r"[a-z]+")
_GRASSES: Final = frozenset({"corn", "sweetcorn", "maize", "grass", "grasses"})
_HEALTHY: Final = "healthy"

_PARTS: Final[Mapping[str, tuple[Part, ...]]] = {
    "leaf": ("leaf", "growing tip", "seedling"),
    "fruit": ("fruit",),
    "root": ("root", "tuber", "bulb"),
    "bulb": ("bulb", "root"),
    "tuber": ("tuber", "root"),
    "stem": ("stem", "growing tip", "seedling"),
    "flower": ("flower",),
    "tip": ("growing tip", "leaf", "stem"),
    "seedling": ("seedling", "whole plant", "stem", "leaf"),
}
"""Form that names a part: the parts of signs that may be meant."""

_EATEN: Final[Mapping[str, str]] = {
    "root": "root",
    "bulb": "bulb",
    "tuber": "tuber",
    "fruit": "fruit",
    "pod": "fruit",
    "grain": "fruit",
    "stem": "stem",
}
"""Form of the part that is eaten, by kind of crop; leaves and heads are the plant."""

_SOUND: Final[Mapping[str, Part]] = {
    "leaf": "leaf",
    "fruit": "fruit",
    "root": "root",
    "bulb": "bulb",
    "tuber": "tuber",
    "stem": "stem",
    "flower": "flower",
}


@dataclass(frozen=True)
class _Known:
    """One sign's ways of being said."""

    sign: str
    part: Part
    phrases: tuple[frozenset[str], ...]
    whole: frozenset[str]


class Matcher:
    """Hears signs in free words.

    Parameters
    ----------
    signs : mapping of str to Sign
    troubles : iterable of Trouble
        Whose names are heard too.
    """

    def __init__(self, signs: Mapping[str, Sign], troubles: Iterable[Trouble] = ()) -> None:
        self._known = [
            _Known(
                key,
                sign.part,
                tuple(frozenset(forms(said)) for said in (sign.words, *sign.phrases)),
                frozenset(forms(" ".join((sign.words, sign.ask, *sign.phrases)))),
            )
            for key, sign in signs.items()
        ]
        self._signs = signs
        self._names = [
            (tuple(forms(name)), each.key) for each in troubles for name in (each.name, *each.names, each.key)
        ]

    @cached_property
    def _counts(self) -> dict[str, int]:
        """How many signs have each form."""
        counts: dict[str, int] = {}
        for known in self._known:
            for each in known.whole:
                counts[each] = counts.get(each, 0) + 1
        return counts

    @cached_property
    def _rare(self) -> dict[str, float]:
        """How much each form tells, by how few signs have it."""
        most = max(len(self._known), 2)
        return {each: 0.3 + log(most / count) / log(most) for each, count in self._counts.items()}

    def hear(
        self,
        text: str,
        *,
        crop_words: Iterable[str] = (),
        eaten: str = "",
        likely: Collection[str] | None = None,
    ) -> tuple[Heard, ...]:
        """What a text says.

        Parameters
        ----------
        text : str
        crop_words : iterable of str
            Names of the crop: said alone, the part that is eaten is meant.
        eaten : str
            That part: "fruit", "root", "leaf" and so on.
        likely : collection of str or None
            Signs that what harms the crop shows: others are less likely meant. None for all.

        Returns
        -------
        tuple of Heard
            In order; empty where nothing is understood.
        """
        own = {each for word in crop_words for each in forms(word)}
        found: list[Heard] = []
        for clause in _CLAUSE.split(text):
            clause = _EASILY.sub("easily", _FINE.sub("healthy", clause.casefold()))
            of_others = self._of_others(clause, own)
            if of_others is not None:
                found += of_others
                continue
            said = [nearest_form(each, self._rare) for each in forms(clause)]
            if eaten and own & set(said):
                # "carrots are forked" is of the root; "carrot leaves" is not
                told = any(each in _PARTS for each in said) or _OF_PLANTS.search(clause.casefold())
                said = [eaten if each in own else each for each in said if not (told and each in own)]
            found += self._clause(clause.strip(), said, likely)
        return tuple(found)

    def hear_of(self, text: str, sheet: Sheet) -> tuple[Heard, ...]:
        """What a text says of plants of a crop."""
        likely = _shown_on(sheet.key, sheet.family)
        names = (sheet.name, sheet.british, sheet.american, *sheet.synonyms)
        own = [each for each in names if " " not in each]
        return self.hear(text, crop_words=own, eaten=_EATEN.get(sheet.kind, ""), likely=likely)

    def _of_others(self, clause: str, own: set[str]) -> list[Heard] | None:
        """What a clause about another crop says of this one; None where it is not about another."""
        low = clause.casefold()
        others = [word for word in _NAME.findall(low) if word in _crop_words() and not own & set(forms(word))]
        if not others:
            return None
        if _HEALTHY in low:
            key = "grasses-well" if any(word in _GRASSES for word in others) else ""
        else:
            key = "many-kinds-hit" if _TOO.search(low) else "?"
        if key == "?":
            return None
        return [Heard(words=clause.strip(), signs=((key, 1.0),), sure=0.9)] if key in self._signs else []

    def nearest(self, text: str, count: int = 3) -> tuple[str, ...]:
        """Words of the signs that come nearest to a text that was not understood."""
        said = frozenset(forms(text))
        scored = sorted(((self._score(known, said), known.sign) for known in self._known), reverse=True)
        return tuple(self._signs[key].words for score, key in scored[:count] if score > 0.1)

    def _clause(self, words: str, said: list[str], likely: Collection[str] | None) -> list[Heard]:
        found: list[Heard] = []
        if _HEALTHY in said and NOT not in said:
            sound = [_SOUND[each] for each in said if each in _SOUND]
            if sound:
                return [Heard(words=words, sound=part) for part in dict.fromkeys(sound)]
        found += self._named(words, said)
        at = said.index(NOT) if NOT in said else len(said)
        left = frozenset(said)
        while left - {NOT}:
            scored = [each for each in self._scored(left, likely) if not found or self._whole(each[1], left)]
            if not scored or scored[0][0] < LEAST_SCORE:
                break
            best, key = scored[0]
            phrase = self._fitting(key, left)
            there = NOT not in left or self._of_lack(key) or not (phrase & set(said[at:]))
            keep = [
                (score, other)
                for score, other in scored
                if score >= ALTERNATIVE * best and self._fitting(other, left) & phrase
            ]
            keep = keep[:MOST_ALTERNATIVES] if there else keep
            total = sum(score**SHARPNESS for score, _ in keep)
            found.append(
                Heard(
                    words=words,
                    signs=tuple((other, score**SHARPNESS / total) for score, other in keep),
                    sure=min(best / SURE_AT, SUREST),
                    there=there,
                )
            )
            parts = left & set(_PARTS)
            left = (left - phrase) | (parts if there else frozenset())
            if not left - parts - {NOT}:
                break
        return found

    def _named(self, words: str, said: list[str]) -> list[Heard]:
        """Troubles called by their names."""
        found = {}
        for name, key in self._names:
            size = len(name)
            if all(self._counts.get(each, 0) > COMMON for each in name):
                continue  # words of many signs name nothing
            for at in range(len(said) - size + 1):
                if tuple(said[at : at + size]) == name and NOT not in said[:at]:
                    found[key] = Heard(words=words, trouble=key)
        return list(found.values())

    def _of_lack(self, key: str) -> bool:
        """Whether a sign is itself that something is not there, or too little of it."""
        known = next(each for each in self._known if each.sign == key)
        return any(phrase & {NOT, FEW} for phrase in known.phrases)

    def _whole(self, key: str, said: frozenset[str]) -> bool:
        """Whether most of one way of saying a sign is there: what is left of a sentence must say as much."""
        known = next(each for each in self._known if each.sign == key)
        for phrase in known.phrases:
            own = phrase - {NOT}
            telling = own & said - set(_PARTS)
            full = sum(self._rare.get(each, ASIDE) for each in own)
            common = sum(self._rare.get(each, ASIDE) for each in own & said)
            rare = max((self._rare.get(each, ASIDE) for each in telling), default=0.0)
            if (len(telling) >= 2 or rare >= RARE) and common >= WHOLE * full:
                return True
        return False

    def _scored(self, said: frozenset[str], likely: Collection[str] | None) -> list[tuple[float, str]]:
        scored = [
            (
                self._score(known, said) * (1.0 if likely is None or known.sign in likely else STRANGE),
                known.sign,
            )
            for known in self._known
        ]
        return sorted((each for each in scored if each[0] > 0.0), key=lambda each: (-each[0], each[1]))

    def _score(self, known: _Known, said: frozenset[str]) -> float:
        heard = said - {NOT}
        parts = {part for each in heard for part in _PARTS.get(each, ())}
        fits = 1.0 if not parts or known.part in parts or known.part == "whole plant" else OTHER_PART
        weight = sum(self._rare.get(each, ASIDE) for each in heard)
        if weight <= 0.0:
            return 0.0
        best = 0.0
        for phrase in known.phrases:
            own = phrase - {NOT}
            common = sum(self._rare.get(each, ASIDE) for each in heard & own)
            if common <= 0.0 or (NOT in phrase and NOT not in said):
                continue
            full = sum(self._rare.get(each, ASIDE) for each in own)
            best = max(best, common / (PHRASE_PART * full + (1.0 - PHRASE_PART) * weight))
        spread = sum(self._rare.get(each, ASIDE) for each in heard & known.whole) / weight
        telling = (heard & known.whole) - set(_PARTS)
        if len(telling) == 1 and len(heard) >= LONG:
            fits *= LONE
        return fits * max(best, 0.7 * spread) if telling else 0.0

    def _fitting(self, key: str, said: frozenset[str]) -> frozenset[str]:
        """The words said that a sign accounts for."""
        known = next(each for each in self._known if each.sign == key)
        phrase = max(
            known.phrases,
            key=lambda own: sum(self._rare.get(each, ASIDE) for each in own & said),
            default=frozenset(),
        )
        common = (phrase | known.whole) & said - {NOT}
        return common | ({NOT} if NOT in phrase and NOT in said else frozenset())


@cache
def _crop_words() -> frozenset[str]:
    """Names of crops that are one word, one and many of them."""
    names = {name for name in spoken()[0] if " " not in name} | _GRASSES
    return frozenset(names | {f"{name}s" for name in names} | {f"{name}es" for name in names})


@cache
def _shown_on(crop: str, family: str) -> frozenset[str]:
    """Signs shown by what harms a crop."""
    hosted = [each for each in all_troubles().values() if hosted_by(each, crop, family) > 0.0]
    return frozenset(shown.sign for each in hosted for shown in each.signs)


@cache
def known_matcher() -> Matcher:
    """Hears the signs of the sheets, and the troubles by their names."""
    return Matcher(all_signs(), all_troubles().values())
