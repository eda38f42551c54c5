"""Written cases of ailing plants, answered by the differential as a grower would be asked."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any, cast, get_args

import numpy as np

from grounds import years_of
from long_records import by_year, climate
from spadework.advice.ailing.ask_next import next_sign
from spadework.advice.ailing.differential import Differential, differ
from spadework.advice.ailing.evidence import Evidence, Heard, Look
from spadework.advice.ailing.matching import known_matcher
from spadework.advice.ailing.prior import OTHER
from spadework.advice.circumstances import Here, Hold
from spadework.clock.ground import Ground
from spadework.clock.insects import present
from spadework.crops.loader import load_sheet
from spadework.crops.trouble import CIRCUMSTANCES, Age
from spadework.crops.troubles import all_signs, all_troubles
from spadework.garden.site import Site

DAYS, HALF_YEAR = 365, 181

PLACES = {
    "continental": (Site("Champion", 40.4, -101.7, 1000.0), "champion"),
    "maritime": (Site("Norfolk", 52.6, 1.0, 30.0), "norfolk"),
    "southern": (Site("Cordoba", -31.4, -64.2, 480.0), "cordoba"),
}
"""Long real records that stand for the climates of the cases."""

CASES = Path(__file__).parent / "cases"

MEANT, MEANT_SURE = 0.7, 0.6
"""How surely a written sign must be the one asked about to be answered with yes: beside the likeliest, and at
all."""

SOUTHERN = "southern"
"""Climate in which the seasons are turned: the month is half a year on."""


@dataclass(frozen=True, kw_only=True)
class Case:
    """One ailing plant as written."""

    crop: str
    day: date
    climate: str
    age: Age
    holds: tuple[str, ...]
    tells: tuple[str, ...]
    shows: tuple[str, ...]
    absent: tuple[str, ...]
    accepted: tuple[str, ...]
    source: str
    file: str

    @property
    def name(self) -> str:
        """What it is called in a report."""
        return f"{self.crop}: {'; '.join(self.tells)}"


@dataclass(frozen=True, kw_only=True)
class Answered:
    """What came of a case: its end, the causes accepted by key, and the signs asked for."""

    case: Case
    end: Differential
    accepted: frozenset[str]
    asked: tuple[str, ...]

    @property
    def rank(self) -> int | None:
        """Place of the first accepted cause, from 1; None where none can be."""
        ranked = [key for key in self.end.chances if key != OTHER]
        places = [at for at, key in enumerate(ranked, start=1) if key in self.accepted]
        return min(places, default=None)

    @property
    def top_chance(self) -> float:
        """What was said of the likeliest cause."""
        return self.end.chances[self.end.ranked[0].key]


def case_files() -> list[Path]:
    """The files of cases there are."""
    return sorted(CASES.glob("*.toml"))


def read_cases(path: Path) -> list[Case]:
    """The cases of a file."""
    raw: list[dict[str, Any]] = tomllib.loads(path.read_text(encoding="utf-8"))["case"]
    return [_read(each, path.stem) for each in raw]


def _read(raw: Mapping[str, Any], file: str) -> Case:
    unknown = set(raw.get("holds", ())) - set(CIRCUMSTANCES)
    assert not unknown, f"{file}: no circumstance is called {sorted(unknown)}"
    assert raw["age"] in get_args(Age), f"{file}: {raw['age']!r} is no age"
    day = raw["day"]
    return Case(
        crop=raw["crop"],
        day=day if isinstance(day, date) else date.fromisoformat(day),
        climate=raw["climate"],
        age=raw["age"],
        holds=tuple(raw.get("holds", ())),
        tells=tuple(raw["tells"]),
        shows=tuple(raw.get("shows", ())),
        absent=tuple(raw.get("absent", ())),
        accepted=tuple(raw["accepted"]),
        source=raw.get("source", ""),
        file=file,
    )


# -- the names of causes ---------------------------------------------------------------------------

_ASIDE = frozenset({"damage", "injury", "stress", "disease", "attack", "problem", "trouble", "infestation"})
_ASIDE |= frozenset(
    {"feeding", "plant", "crop", "common", "garden", "of", "the", "in", "by", "on", "and", "a"}
)
"""Words of a cause's name that do not tell it from others."""

_SAME = {
    **dict.fromkeys(("deficiency", "shortage", "starvation", "hunger"), "lack"),
    **dict.fromkeys(("excess", "excessive", "surplus", "too"), "overmuch"),
    **dict.fromkeys(("herbicide", "spray"), "weedkiller"),
    **dict.fromkeys(("maggot",), "fly"),
    **dict.fromkeys(("carryover", "carry", "residue"), "carried"),
    "mold": "mould",
    "gray": "grey",
    "mice": "mouse",
}

_BIRDS = "blackbirds crows larks pheasants pigeons quail sparrows starlings thrushes"
_CATERPILLARS = "imported-cabbageworm cabbage-looper diamondback-moth"
_KINDS = {"bird": _BIRDS, "caterpillar": _CATERPILLARS}
"""Names of many kinds at once."""


@cache
def _names() -> tuple[tuple[tuple[str, ...], str], ...]:
    found = []
    for key, each in all_troubles().items():
        for name in (each.name, *each.names, each.latin, key):
            words = _plain(name)
            if words:
                found.append((words, key))
    return tuple(found)


def _plain(name: str) -> tuple[str, ...]:
    words = [_SAME.get(word, word) for word in re.findall(r"[a-z]+", name.casefold())]
    ones = [_SAME.get(_one(word), _one(word)) for word in words if word not in _ASIDE]
    return tuple(each for each in ones if each not in _ASIDE)


def _one(word: str) -> str:
    """One of a thing, and the thing where a doing is named."""
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith("ing") and len(word) > 6:
        return word[:-3]
    if word.endswith("ed") and len(word) > 5:
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "is", "us")) else word


def keys_of(name: str) -> frozenset[str]:
    """Troubles a plain name of a cause may mean.

    Of just these words; or a kind of it, as the cabbage aphid is of aphids; else what it is a kind of.
    """
    parts = re.split(r"\band\b|\bor\b|/|\(|\)", name)
    if len(parts) > 1:
        return frozenset().union(*(keys_of(part) for part in (*parts, " ".join(parts)) if part.strip()))
    said = _plain(name)
    for kind, keys in _KINDS.items():
        if kind in said:
            return frozenset(keys.split())
    if not said:
        return frozenset()
    found = {key for words, key in _names() if set(words) == set(said)}
    found |= {key for words, key in _names() if set(said) < set(words) and words[-1] == said[-1]}
    if found:
        return frozenset(found)
    return frozenset(key for words, key in _names() if set(words) < set(said) and len(words) > 1)


# -- asking ----------------------------------------------------------------------------------------


def here_of_case(case: Case) -> Here:
    """What is known of the plant: what the case says holds, and what it does not say does not."""
    sheet = load_sheet(case.crop)
    month = case.day.month if case.climate != SOUTHERN else (case.day.month + 5) % 12 + 1
    return Here(
        crop=case.crop,
        family=sheet.family,
        age=case.age,
        month=month,
        holds={each: Hold(1.0 if each in case.holds else 0.0) for each in CIRCUMSTANCES},
        present=present_in(case),
    )


def present_in(case: Case) -> Mapping[str, float]:
    """How far each trouble's harming stage is there on the day, by its clock on a long real record."""
    first = date(case.day.year, 7 if case.climate == SOUTHERN else 1, 1)
    if first > case.day:
        first = first.replace(year=first.year - 1)
    column = min((case.day - first).days, DAYS - 1)
    return {key: float(share[column]) for key, share in _present(case.climate).items()}


@cache
def _present(climate_name: str) -> Mapping[str, np.ndarray]:
    """Share of the years in which it is there, by day since midwinter."""
    site, record = PLACES[climate_name]
    south = climate_name == SOUTHERN
    weather = {name: by_year(climate(record), name) for name in ("tmin_c", "tmax_c", "rain_mm")}
    if south:
        weather = {
            name: each.reshape(-1)[HALF_YEAR : HALF_YEAR - DAYS].reshape(-1, DAYS)
            for name, each in weather.items()
        }
    first = "2021-07-01" if south else "2021-01-01"
    years = years_of(weather["tmin_c"], weather["tmax_c"], rain_mm=weather["rain_mm"], first_day=first)
    ground = Ground(site, years, "bare-moist")
    return {
        key: present(each, ground, south=south).mean(axis=0)
        for key, each in all_troubles().items()
        if each.events
    }


def hear(case: Case, said: Sequence[str]) -> tuple[Heard, ...]:
    """What a case's words say."""
    return tuple(heard for text in said for heard in known_matcher().hear_of(text, load_sheet(case.crop)))


def answer_case(case: Case) -> Answered:
    """Ask as a grower would be asked, and answer as the case can."""
    found = Evidence(heard=hear(case, case.tells))
    there = _meant(hear(case, (*case.tells, *case.shows)))
    gone = _absent(case)
    here, signs = here_of_case(case), all_signs()
    state = differ(here, found, all_troubles().values(), signs)
    asked: list[str] = []
    while sign := next_sign(state, asked=len(asked)):
        look: Look = "yes" if sign in there else "no" if sign in gone else "unknown"
        asked.append(sign)
        found = found.looked(sign, look)
        state = differ(here, found, all_troubles().values(), signs)
    accepted = frozenset(key for name in case.accepted for key in keys_of(name))
    return Answered(case=case, end=state, accepted=accepted, asked=tuple(asked))


def _meant(heard: Sequence[Heard]) -> frozenset[str]:
    """Signs surely enough meant by what was said to answer a question."""
    return frozenset(
        key
        for each in heard
        if each.there
        for key, weight in each.signs
        if weight >= MEANT * each.signs[0][1] and each.sure >= MEANT_SURE
    )


def _absent(case: Case) -> frozenset[str]:
    """Signs said not to be there: all that the words may mean, since none of them is."""
    said = [text if text.startswith("no ") else f"no {text}" for text in case.absent]
    told = [each for each in hear(case, [*said, *case.tells, *case.shows]) if not each.there]
    return frozenset(key for each in told for key, _ in each.signs)


@cache
def answered(path: Path) -> tuple[Answered, ...]:
    """All cases of a file, answered."""
    return tuple(answer_case(case) for case in read_cases(path))


# -- measures --------------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class Score:
    """How well a set of cases was told."""

    cases: int
    top_1: float
    top_3: float
    brier: float
    median_questions: float
    bins: tuple[tuple[float, float, float, int], ...]
    """Of the chances said, in bins: from, mean said, share that were right, how many."""


BINS = (0.0, 0.05, 0.2, 0.4, 0.6, 0.8, 1.01)


def score(found: Sequence[Answered]) -> Score:
    """Measures over cases that were answered."""
    ranks = [each.rank for each in found]
    said = [
        (chance, key in each.accepted)
        for each in found
        for key, chance in list(each.end.chances.items())[:6]
        if key != OTHER
    ]
    bins = []
    for low, high in pairwise(BINS):
        own = [(chance, right) for chance, right in said if low <= chance < high]
        if own:
            mean = sum(chance for chance, _ in own) / len(own)
            bins.append((low, mean, sum(right for _, right in own) / len(own), len(own)))
    asked = sorted(len(each.asked) for each in found)
    middle = len(asked) // 2
    median = float(asked[middle]) if len(asked) % 2 else (asked[middle - 1] + asked[middle]) / 2.0
    total = len(found)
    return Score(
        cases=total,
        top_1=sum(rank == 1 for rank in ranks) / total,
        top_3=sum(rank is not None and rank <= 3 for rank in ranks) / total,
        brier=sum((each.top_chance - (each.rank == 1)) ** 2 for each in found) / total,
        median_questions=median,
        bins=tuple(cast(list[tuple[float, float, float, int]], bins)),
    )
