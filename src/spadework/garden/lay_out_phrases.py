"""The phrases a line about beds is made of, and what each says of a group.

Length: one pattern and one short function for each phrase.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Final, TypeAlias

from spadework.garden.lay_out_group import COUNTS, SOILS, even
from spadework.garden.lay_out_lengths import LENGTH, NUMBER, metres, number_of, unit_of
from spadework.garden.lay_out_place import Side

if TYPE_CHECKING:
    from spadework.garden.lay_out_words import LineReader

Act: TypeAlias = "Callable[[LineReader, re.Match[str]], None]"
Phrase: TypeAlias = "tuple[re.Pattern[str], Act]"

_N: Final = rf"(?:(?:half\s+)?a\s+dozen|\d+|{'|'.join(COUNTS)})"
_PLURAL: Final = r"(?:beds?|boxes|box|tubs?|pots?|sacks?|bags?|barrels?|troughs?|planters?|containers?" \
    r"|polytunnels?|tunnels?|hoop ?houses?|greenhouses?|glasshouses?|frames?|shelf|shelves)"  # fmt: skip
_STOP: Final = (
    r"(?:and|with|of|each|the|in|at|by|to|paths?|named|called|numbered|raised|framed|wooden|ground|open|long|wide|deep|high"
    r"|all|north|south|east|west|inside|beside|beds?|drip|mulched|soil|rows?|x|m|cm|mm|ft|feet|foot|inch|inches|metres?"
    r"|meters?|across|dozen|a|an|indoors|tall)"
)
_OWN: Final = rf"(?:(?!{_STOP}\b)[^\W\d_]+)"
_LOOKS: Final = r"(?:(?:raised|framed|wooden|timber|ground|open|flat|long|small|big|large|round|square|cold" \
    r"|hot|seed|tray|growing|grow|high|walk-in|hoop|poly)[\s-]+)"  # fmt: skip
_REF_END: Final = r"(?=\s*(?:[,;.]|$|\s(?:and|with|paths?|named|called|of|in|,|\d|raised|mulched)\b))"


# -- what each phrase says ---------------------------------------------------------------------------


def _nothing(reader: LineReader, found: re.Match[str]) -> None:
    pass


def _count(word: str) -> int:
    if word.endswith("dozen"):
        return 6 if word.startswith("half") else 12
    return int(word) if word.isdigit() else COUNTS[word]


def _noun(word: str) -> str:
    word = word.replace(" ", "")
    if word == "shelves":
        return "shelf"
    if word == "boxes":
        return "box"
    return word.removesuffix("s")


def _size(reader: LineReader, found: re.Match[str]) -> None:
    first, second, third = found[1], found[2], found[3]
    unit = unit_of(first) or unit_of(second) or unit_of(third or "")
    bare = unit or reader.bare(second, "side")
    if not unit:
        reader.group.took.append(f"sizes are read in {bare}")
    a_m = reader.length(found, first, bare)
    b_m = reader.length(found, second, unit_of(second) or bare)
    said = {"width_m": min(a_m, b_m), "length_m": max(a_m, b_m)}
    reader.put(found, **said)
    if third:
        reader.put(found, height_m=reader.length(found, third, bare))


def _wide(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, width_m=reader.length(found, found[1], reader.bare(found[1], "side")))


def _long(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, length_m=reader.length(found, found[1], reader.bare(found[1], "side")))


def _across(reader: LineReader, found: re.Match[str]) -> None:
    value_m = reader.length(found, found[1], reader.bare(found[1], "across"))
    reader.put(found, width_m=value_m, length_m=value_m, across=True)


def _volume(reader: LineReader, found: re.Match[str]) -> None:
    litres = number_of(found[1]) * (1.0 if found[2].startswith("l") else 3.785411784)
    reader.put(found, volume_l=litres)


def _deep(reader: LineReader, found: re.Match[str]) -> None:
    text = found[1] or found[2]
    reader.put(found, depth_m=reader.length(found, text, reader.bare(text, "depth")))


def _high(reader: LineReader, found: re.Match[str]) -> None:
    text = found[1] or found[2]
    reader.put(found, height_m=reader.length(found, text, reader.bare(text, "depth")))


def _rows(reader: LineReader, found: re.Match[str]) -> None:
    rows = _count(found[1]) if found[1] else 1
    if found[2] and reader.group.count is None:
        reader.group.count = rows * _count(found[2])
    elif found[2] and reader.group.count != rows * _count(found[2]):
        reader.fault(
            found.start(), repr(found[0]), f"rows that make {reader.group.count}", "Say one of the two."
        )
    reader.put(found, rows=rows)


def _column(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, rows=0)


def _path(reader: LineReader, found: re.Match[str]) -> None:
    text = next(each for each in found.groups() if each)
    reader.put(found, path_m=reader.length(found, text, reader.bare(text, "path")))


def _row_path(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, row_path_m=reader.length(found, found[1], reader.bare(found[1], "path")))


def _touching(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, path_m=0.0)


_SIDES: Final[dict[str, Side]] = {
    "north": "north", "above": "north", "south": "south", "below": "south", "west": "west", "left": "west",
    "east": "east", "right": "east", "beside": "east", "next to": "east", "alongside": "east",
}  # fmt: skip


def _beside(reader: LineReader, found: re.Match[str]) -> None:
    said: dict[str, object] = {"side": _SIDES[found[2]], "beside": found[3]}
    if found[1]:
        said["gap_m"] = reader.length(found, found[1], reader.bare(found[1], "path"))
    reader.put(found, **said)
    if found[2] in ("beside", "next to", "alongside"):
        reader.group.took.append(f"{found[2]} is taken as east of it")


def _inside(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, inside=found[1])


def _indoors(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, indoors=True)


def _at(reader: LineReader, found: re.Match[str]) -> None:
    unit = found[3] or ("ft" if reader.units == "us" else "m")
    factor = metres("1", "ft" if unit in ("ft", "feet", "'") else "m")
    reader.put(found, place=(float(found[1]) * factor, float(found[2]) * factor))


def _soil(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, soil=SOILS[" ".join(found[1].split())])


def _mulch(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, mulch=found[1] or found[2])


def _drip(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, emitters=_count(found[1]), water_by="emitters")
    if found[2]:
        rate = number_of(found[2])
        reader.put(found, emitter_l_h=rate if found[3].startswith("l") else rate * 3.785411784)


def _flow(reader: LineReader, found: re.Match[str]) -> None:
    rate = number_of(found[2])
    rate = rate if found[3].startswith("l") else rate * 3.785411784
    measured = found[1] is not None or found[4] is not None
    by = next((word for word in ("hose", "can") if word in found[0]), "")
    if by:
        reader.put(found, water_by=by)
    reader.put(found, **{"measured_l_min" if measured else "flow_l_min": round(rate, 4)})


def _water_by(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, water_by=found[1])


def _shade(reader: LineReader, found: re.Match[str]) -> None:
    said = re.split(r"\s*(?:,|\band\b|&)\s*", found[1].strip())
    reader.put(found, shaded_by=tuple(re.sub(r"^(?:the|an?)\s+", "", each) for each in said if each))


def _crosswise(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, turn_deg=90.0)


def _lengthwise(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, turn_deg=0.0)


def _turn(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, turn_deg=float(found[1]))


def _named(reader: LineReader, found: re.Match[str]) -> None:
    said = reader.written[found.start(1) : found.end(1)].strip(" ,")
    ends = re.fullmatch(r"(.*?)\s*(\d+)\s*(?:to|-|–)\s*(?:(.*?)\s*)?(\d+)", said, re.I)
    if ends and (not ends[3] or even(ends[3]) == even(ends[1])):
        first, last = int(ends[2]), int(ends[4])
        if last < first or last - first > 300:
            reader.fault(
                found.start(), repr(said), "a range that counts up", "Write it as North 1 to North 4."
            )
            return
        names = tuple(f"{ends[1]} {number}".strip() for number in range(first, last + 1))
    else:
        parts = re.split(r"\s*(?:,|\band\b|&)\s*", said)
        names = tuple(part.strip(' "“”') for part in parts if part.strip(' "“”'))
    reader.put(found, names=names)


def _numbered(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, number_from=int(found[1]))
    if found[2] and reader.group.count is None:
        reader.group.count = max(1, int(found[2]) - int(found[1]) + 1)


def _new(reader: LineReader, found: re.Match[str]) -> None:
    group = reader.start(found)
    group.noun = _noun(found[4])
    group.looks = tuple(re.split(r"[\s-]+", (found[2] or "").strip())) if found[2] else ()
    group.own = reader.written[found.start(3) : found.end(3)].strip() if found[3] else ""
    if found[1]:
        reader.put(found, count=_count(found[1]))
    elif group.count is None and group.noun == found[4].replace(" ", ""):
        group.count = 1
    group.at["noun"] = found.start(4) + 1


def _some(reader: LineReader, found: re.Match[str]) -> None:
    group = reader.start(found)
    group.noun = _noun(found[1])
    group.refers = "numbers"
    text = found[2]
    if ends := re.fullmatch(r"(\d+)\s*(?:to|-)\s*(?:[a-z]+\s*)?(\d+)", text):
        group.numbers = tuple(range(int(ends[1]), min(int(ends[2]), int(ends[1]) + 300) + 1))
        if not group.numbers:
            reader.fault(found.start(), repr(text), "a range that counts up", "Write it as beds 5 to 8.")
    else:
        group.numbers = tuple(int(each) for each in re.findall(r"\d+", text))
    group.at["noun"] = found.start(1) + 1


def _every(reader: LineReader, found: re.Match[str]) -> None:
    group = reader.start(found)
    group.noun, group.refers = _noun(found[1]), "all"
    group.at["noun"] = found.start(1) + 1


def _by_name(reader: LineReader, found: re.Match[str]) -> None:
    group = reader.start(found)
    group.refers = found[1] if not found[2] else f"{found[1]}\n{found[2]}"


def _of_them(reader: LineReader, found: re.Match[str]) -> None:
    reader.put(found, count=_count(found[1]))


def _phrases(*pairs: tuple[str, Act]) -> tuple[Phrase, ...]:
    return tuple((re.compile(pattern), act) for pattern, act in pairs)


_DIAMETER: Final = r"(?:across|in diameter|diameter|round\b(?!\s+(?:tubs?|pots?))|square\b(?!\s+\w*beds?))"
_PER_HOUR: Final = (
    r"(l/h|lph|lit(?:re|er)s?(?: an? | per |/)h(?:our)?|gph|gal(?:lon)?s?(?: an? | per |/)h(?:our)?)"
)
_PER_MIN: Final = (
    r"(l/min|lpm|lit(?:re|er)s?(?: a | per |/)min(?:ute)?|gpm|gal(?:lon)?s?(?: a | per |/)min(?:ute)?)"
)
_SOILS: Final = "|".join(sorted(SOILS, key=len, reverse=True)).replace(" ", "[ ]+")
_NAME_ENDS: Final = (
    r"\s*,\s*(?:\d|in\b|paths?\b|raised\b|mulched\b|beside\b|inside\b|shaded\b|drip\b|soil\b|turned\b)"
    r"|\s*,\s*(?:(?:north|south|east|west)\s+of|next\s+to)\b|\s+paths?\s+[\d.]|\s+raised\s+[\d.]"
)
_NOT_SIZE: Final = (
    r"(?!\s*(?:x|by)\b|\s*x\s*\d|[.,/]\d|\d|\s*['\"½¼¾]|\s+\d+/\d|\s*(?:m|cm|mm|ft|feet|foot|in|inches)\b)"
)

_BEFORE: Final = _phrases(
    (rf"(?:drip(?:\s+(?:lines?|hose|tape))?\s*(?:,|with|of|:)?\s*)?({_N})\s*(?:drip\s+)?(?:emitters?|drippers?)"
     rf"(?:\s*(?:of|at|x|@|,)?\s*({NUMBER})\s*{_PER_HOUR})?(?:\s+each)?", _drip),
    (rf"(measured\s*(?:at|as|to be)?\s*)?(?:flow|hose|tap|can|drip line)?\s*(?:flow)?\s*(?:of|at)?\s*"
     rf"({NUMBER})\s*{_PER_MIN}"
     r"(\s*,?\s*(?:as )?measured\b(?!\s*(?:at|as)?\s*\d))?", _flow),
    (rf"({LENGTH})\s*(?:wide\s*(?:,|and|x|by)|x|by)\s*({LENGTH})(?:\s*long\b)?"
     rf"(?:\s*(?:x|by)\s*({LENGTH})(?:\s*high\b)?)?",
     _size),
    (rf"({LENGTH})\s*{_DIAMETER}", _across),
    (rf"({LENGTH})\s*between\s+(?:the\s+)?rows\b", _row_path),
    (rf"paths?\s+between\s+(?:the\s+)?rows\s+({LENGTH})", _row_path),
    (rf"(?:with\s+)?paths?\s*(?:of|are|is|between(?:\s+(?:them|the beds|beds))?|:)?\s*({LENGTH})"
     rf"(?:\s*wide\b)?"
     rf"|({LENGTH})\s*(?:wide\s+)?paths?\b"
     rf"|({LENGTH})\s*(?:apart\b|between(?:\s+(?:them|the beds|beds)\b)?)", _path),
    (r"(?:watered\s+)?by\s+(?:the\s+|a\s+)?(can|hose)\b", _water_by),
    (r"no paths?\b|touching\b|without paths?\b", _touching),
    (rf"({LENGTH})\s*(?:deep\b|of soil\b)|depth\s*(?:of\s+)?({LENGTH})", _deep),
    (rf"raised\s+(?:by\s+)?({LENGTH})|({LENGTH})\s*(?:high|tall|raised)\b", _high),
    (rf"({LENGTH})\s*(?:wide|broad)\b", _wide),
    (rf"({LENGTH})\s*long\b", _long),
    (rf"({NUMBER})[\s-]*(lit(?:re|er)s?|l|gal(?:lon)?s?)\b", _volume),
    (rf"(?:in\s+)?({_N})\s+rows?(?:\s+of\s+({_N})\b)?", _rows),
    (r"in\s+a\s+(?:single\s+)?(?:row|line)()()\b|side by side()()", _rows),
    (r"one behind the other|in a column", _column),
    (r"at\s+(-?\d+(?:\.\d+)?)\s*(?:m|ft)?\s*(?:,|and|/)\s*(-?\d+(?:\.\d+)?)\s*(m|ft|feet|')?(?!\w)", _at),
    (r"indoors\b|in the (?:house|kitchen|porch|shed|utility room|basement|garage)\b"
     r"|(?:on|by) (?:a|the) window(?:sill)?\b",
     _indoors),
    (rf"(?:(?:in|of|on|with)\s+)?(?:soil\s*:?\s*)?({_SOILS})\b(?:\s+soil)?", _soil),
    (r"mulched\s+(?:with\s+)?([a-z]+(?:\s(?:chips?|clippings|mould|mold|compost))?)\b"
     r"|([a-z]+(?:\schips?)?) mulch\b", _mulch),
    (r"(?:shaded|in the shade)\s*(?:by|of)\s+([^;,.]+)", _shade),
    (r"(?:(?:lying|running|laid|set)\s+)?(?:east[\s-]+(?:to[\s-]+)?west|crosswise|crossways)\b", _crosswise),
    (r"(?:(?:lying|running|laid|set)\s+)?north[\s-]+(?:to[\s-]+)?south\b", _lengthwise),
    (r"(?:turned|turn)\s+(?:by\s+)?(-?\d+(?:\.\d+)?)\s*(?:°|deg(?:rees?)?\b)?", _turn),
    (rf"(?:named|called)\s+((?:\"[^\"]*\"|(?!{_NAME_ENDS})[^;\"])+)", _named),
    (r"numbered\s+(?:from\s+)?(\d+)(?:\s*(?:to|-)\s*(\d+))?", _numbered),
    (rf"({_N})\s+of\s+(?:them|each)\b", _of_them),
)  # fmt: skip

_SOME: Final = (
    rf"(?:the\s+)?({_PLURAL})\s+"
    rf"((?:\d+\s*(?:to|-)\s*(?:{_PLURAL}\s*)?\d+|\d+(?:\s*(?:,|and|&|,\s*and)\s*\d+{_NOT_SIZE})*)){_NOT_SIZE}",
    _some,
)
_AFTER: Final = _phrases(
    (rf"all\s+(?:the\s+)?({_PLURAL})\b", _every),
    (rf"(?:({_N})\s+)?({_LOOKS}*)({_OWN}(?:\s+{_OWN})?\s+)??{_LOOKS}*({_PLURAL})\b", _new),
    (rf"({_N})(?=\s+\d)", _of_them),
    (r"(?:and|with|of|each|the|are|is|soil|filled|size|measuring|all|having|on|plus|we have"
     r"|there (?:is|are)|i have|also|:|\+)"
     r"(?!\w)", _nothing),
)  # fmt: skip


@functools.lru_cache(maxsize=64)
def all_phrases(names: str) -> tuple[Phrase, ...]:
    """Every phrase in the order it is tried, with the names of the beds there are."""
    known = _phrases(
        (rf"(?:({LENGTH})\s*)?(?:to the\s+)?({'|'.join(_SIDES)})(?:\s+of)?"
         rf"\s+(?:the\s+)?({names}|them|those|these|it|that|all|{_PLURAL}(?:\s*\d+)?){_REF_END}", _beside),
        (rf"(?:inside|in|within|under)\s+(?:the\s+|an?\s+)?"
         rf"({names}|{_PLURAL}(?:\s*\d+)?){_REF_END}", _inside),
        _SOME,
        (rf"(?:the\s+)?({names})(?:\s*(?:to|-)\s*({names}))?(?!\w){_NOT_SIZE}", _by_name),
    )  # fmt: skip
    return (*_BEFORE, *known, *_AFTER)
