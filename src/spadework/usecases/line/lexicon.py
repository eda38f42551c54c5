"""What words can mean in one garden: the trade's own, and names of beds, kit, people and crops."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from spadework.crops.names import Whole, spoken
from spadework.garden.state import Garden
from spadework.usecases.line import vocabulary as v
from spadework.usecases.line.words import Word, split_words

Phrase = tuple[str, ...]
Meanings = Mapping[Phrase, dict[str, str]]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """What words can mean here.

    Parameters
    ----------
    phrases : mapping
        First word to the phrases that begin with it, longest first.
    beds : mapping
        Phrase to keys of beds.
    numbered : mapping
        A word such as "bed" to the beds called that and a number, by number.
    plural : mapping
        "tubs" to all their keys.
    crops : mapping
        Phrase to a crop.
    several : mapping
        Phrase to crops it may be.
    words : frozenset of str
        All words known.
    wanted : frozenset of str
        Those that a mistyped word may be taken as: what means something alone, and the nouns of names.
    """

    phrases: Mapping[str, Sequence[tuple[Phrase, Mapping[str, str]]]]
    beds: Mapping[Phrase, tuple[str, ...]]
    numbered: Mapping[str, Mapping[int, str]]
    plural: Mapping[str, tuple[str, ...]]
    crops: Mapping[Phrase, Whole]
    several: Mapping[Phrase, tuple[str, ...]]
    words: frozenset[str]
    wanted: frozenset[str]

    def phrase_at(self, words: Sequence[Word], at: int) -> tuple[int, Mapping[str, str]] | None:
        """The longest phrase that begins at a word: where it ends and what it means."""
        for phrase, means in self.phrases.get(words[at].text, ()):
            if tuple(word.text for word in words[at : at + len(phrase)]) == phrase:
                return at + len(phrase), means
        return None

    def crop_at(self, words: Sequence[Word], at: int) -> tuple[int, Whole | None, tuple[str, ...]] | None:
        """The longest crop name that begins at a word: where it ends and what it is."""
        for length in range(min(4, len(words) - at), 0, -1):
            phrase = tuple(word.text for word in words[at : at + length])
            if (found := self.crops.get(phrase)) is not None:
                return at + length, found, ()
            if (choices := self.several.get(phrase)) is not None:
                return at + length, None, choices
        return None


def lexicon_of(garden: Garden) -> Lexicon:
    """The words of the trade with the names of a garden."""
    static, crops, several = _of_the_trade()
    own: dict[Phrase, dict[str, str]] = defaultdict(dict)
    for phrase, tag, key in _own_names(garden):
        own[phrase][tag] = key
    phrases = dict(static)
    for phrase, means in own.items():
        listed = phrases.get(phrase[0], [])
        general = next((found for old, found in listed if old == phrase), {})
        others = [pair for pair in listed if pair[0] != phrase]
        phrases[phrase[0]] = sorted([*others, (phrase, {**general, **means})], key=lambda pair: -len(pair[0]))
    beds, numbered, plural = _bed_names(garden)
    words, wanted = _words_of_the_trade()
    named = {word for phrase in (*beds, *own) for word in phrase} | set(numbered) | set(plural)
    return Lexicon(phrases, beds, numbered, plural, crops, several, words | named, wanted | named)


@cache
def _words_of_the_trade() -> tuple[frozenset[str], frozenset[str]]:
    """All words of the trade, and those that a mistyped one may be taken as."""
    static, crops, several = _of_the_trade()
    phrases = [phrase for pairs in static.values() for phrase, _ in pairs]
    words = {word for phrase in (*phrases, *crops, *several) for word in phrase}
    # Names of several words written as one are what nobody means by a slip.
    joined = {"".join(phrase) for phrase in crops if len(phrase) > 1}
    wanted = {phrase[0] for phrase in phrases if len(phrase) == 1}
    wanted |= {phrase[-1] for phrase in (*crops, *several)} - joined
    return frozenset(words), frozenset(wanted)


@lru_cache(maxsize=4096)
def plain_words(name: str) -> Phrase:
    """A name as a phrase."""
    return tuple(word.text for word in split_words(name) if word.text not in (",", ".", "-"))


@cache
def _of_the_trade() -> tuple[
    dict[str, list[tuple[Phrase, Mapping[str, str]]]], dict[Phrase, Whole], dict[Phrase, tuple[str, ...]]
]:
    table: dict[Phrase, dict[str, str]] = defaultdict(dict)
    for tag, groups in (("act", v.ACTS), ("sign", v.SIGNS), ("thing", v.THINGS)):
        for key, text in groups.items():
            for phrase in _phrases(text):
                table[phrase].setdefault(tag, key)
                if tag == "sign":
                    table[phrase].setdefault(f"sign {key}", " ".join(phrase))
    for key, text in v.STATES.items():
        for phrase in _phrases(text):
            table[phrase][f"is {key}"] = " ".join(phrase)
    for key, text in v.PARTS.items():
        for phrase in _phrases(text):
            table[phrase]["part"] = key
    for key, text in v.COVERS.items():
        for phrase in _phrases(text):
            table[phrase]["cover"] = key
    for tag, text in (
        ("light", v.LIGHT),
        ("feed", v.FEEDS),
        ("amendment", v.AMENDMENTS),
        ("mulch", v.MULCHES),
        ("product", v.PRODUCTS),
        ("plan", v.PLAN),
        ("not", v.NOT_DONE),
        ("younger", v.YOUNGER),
        ("older", v.OLDER),
        ("nothing", v.FALSE_FRIENDS),
        ("idle", v.IDLE),
        ("except", v.EXCEPT),
        ("beside", v.BESIDE),
    ):
        for phrase in _phrases(text):
            table[phrase][tag] = " ".join(phrase)
    by_first: dict[str, list[tuple[Phrase, Mapping[str, str]]]] = defaultdict(list)
    for phrase, means in table.items():
        by_first[phrase[0]].append((phrase, means))
    for listed in by_first.values():
        listed.sort(key=lambda pair: -len(pair[0]))
    crops: dict[Phrase, Whole] = {}
    several: dict[Phrase, tuple[str, ...]] = {}
    names, choices = spoken()
    for name, whole in names.items():
        for form in _plurals(name):
            crops.setdefault(form, whole)
    for name, text in v.GROUPS.items():
        several[(name,)] = tuple(text.split("|"))
        by_first[name].append(((name,), {"is everything": name}))
    for crop, text in v.NICKNAMES.items():
        for phrase in _phrases(text):
            crops.setdefault(phrase, (crop, None, None))
    for name, keys in choices.items():
        for form in _plurals(name):
            if form not in crops:
                several[form] = keys
    return dict(by_first), crops, several


def _phrases(text: str) -> Iterator[Phrase]:
    return (tuple(phrase.split()) for phrase in text.split("|"))


def _plurals(name: str) -> Iterator[Phrase]:
    words = tuple(name.split())
    if not words:
        return
    yield words
    stem, last = words[:-1], words[-1]
    yield (*stem, last + "s")
    if last.endswith(("o", "h", "s", "x")):
        yield (*stem, last + "es")
    if last.endswith("y"):
        yield (*stem, last[:-1] + "ies")
    if last.endswith("leaf"):
        yield (*stem, last[:-1] + "ves")


def _own_names(garden: Garden) -> Iterator[tuple[Phrase, str, str]]:
    lasts: dict[str, list[str]] = defaultdict(list)
    for key, item in garden.kit.items():
        words = plain_words(item.item)
        for name in _one_and_many(words):
            yield name, "kit", key
        if len(words) > 1:
            lasts[words[-1]].append(key)
    for last, keys in lasts.items():
        if len(keys) == 1:
            for name in _one_and_many((last,)):
                yield name, "kit", keys[0]
    for key, person in garden.people.items():
        for own in {person.name, person.name.split()[0] if person.name.split() else ""}:
            if phrase := plain_words(own):
                yield phrase, "person", key
    for key, lot in garden.tin.items():
        if phrase := plain_words(lot.lot):
            yield phrase, "lot", key
        if lot.variety and (phrase := plain_words(lot.variety)):
            yield phrase, "variety", lot.variety
    for planting in garden.plantings.values():
        if planting.variety and (phrase := plain_words(planting.variety)):
            yield phrase, "variety", planting.variety


def _one_and_many(words: Phrase) -> Iterable[Phrase]:
    if not words:
        return ()
    stem, last = words[:-1], words[-1]
    other = last[:-1] if last.endswith("s") else last + "s"
    return (words, (*stem, other))


def _bed_names(
    garden: Garden,
) -> tuple[dict[Phrase, tuple[str, ...]], dict[str, dict[int, str]], dict[str, tuple[str, ...]]]:
    beds: dict[Phrase, tuple[str, ...]] = {}
    numbered: dict[str, dict[int, str]] = defaultdict(dict)
    lasts: dict[str, list[str]] = defaultdict(list)
    initials: dict[str, list[str]] = defaultdict(list)
    plural: dict[str, tuple[str, ...]] = {}
    here = {key: bed for key, bed in garden.beds.items() if bed.described and bed.gone_on is None}
    for key, bed in here.items():
        for name in (bed.name, key):
            phrase = plain_words(name)
            if not phrase:
                continue
            beds[phrase] = (key,)
            if len(phrase) > 1:
                beds.setdefault(("".join(phrase),), (key,))
        phrase = plain_words(bed.name)
        if len(phrase) == 2 and phrase[1].isdigit():
            for word in (phrase[0], phrase[0][:1]):
                numbered[word][int(phrase[1])] = key
            lasts[phrase[0]].append(key)
        elif len(phrase) > 1:
            lasts[phrase[-1]].append(key)
            initials["".join(word[0] for word in phrase)].append(key)
        elif phrase:
            lasts[phrase[0]].append(key)
    for word, keys in lasts.items():
        if len(keys) == 1 and word not in ("bed", "tub"):
            beds.setdefault((word,), tuple(keys))
    for short, keys in initials.items():
        if len(keys) == 1 and short not in ("lb", "oz", "in", "ft", "at", "it", "on", "am", "pm"):
            beds.setdefault((short,), tuple(keys))
    for shape, words in v.SHAPE_WORDS.items():
        of_shape = tuple(key for key, bed in here.items() if bed.shape == shape)
        if len(of_shape) == 1:
            for name in words.split("|"):
                beds.setdefault(tuple(name.split()), of_shape)
        if of_shape:
            plural[words.split("|")[0] + "s"] = of_shape
    pots = plural.get("tubs", ())
    if pots:
        plural["pots"] = plural["containers"] = plural["planters"] = pots
    named = tuple(key for key in here if (phrase := plain_words(here[key].name)) and "bed" in phrase)
    plural["beds"] = named or tuple(here)
    return beds, dict(numbered), plural
