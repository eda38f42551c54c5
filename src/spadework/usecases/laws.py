"""The laws a person can try by hand: name, blanks, result, sources."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from typing import TypeAlias, cast

from spadework import units
from spadework.errors import ParameterError, UnknownName

Given: TypeAlias = Mapping[str, float | str | date]
Result: TypeAlias = dict[str, float | str | None]


@dataclass(frozen=True)
class Blank:
    """One blank of a law's sentence.

    Parameters
    ----------
    name : str
        With its unit as suffix.
    kind : str
        "number", "word", "date" or "crop".
    meaning : str
        What to put in, with its unit.
    low, high : float
        Allowed range of a number.
    words : tuple of str
        Allowed words.
    also : mapping
        Other ways to say them.
    default : float or str or None
        Used when the blank is left; None and `needed` false means left out.
    needed : bool
    """

    name: str
    kind: str
    meaning: str
    low: float = float("-inf")
    high: float = float("inf")
    words: tuple[str, ...] = ()
    also: Mapping[str, str] = field(default_factory=dict)
    default: float | str | None = None
    needed: bool = True


@dataclass(frozen=True)
class Law:
    """A law with its blanks, and how to evaluate it."""

    name: str
    says: str
    blanks: tuple[Blank, ...]
    evaluate: Callable[[Given], Result]
    sources: tuple[str, ...]
    crop_sources: tuple[str, ...] = field(default=())


@dataclass(frozen=True)
class Evaluated:
    """One evaluation: what was put in, what came out, and on whose word."""

    law: str
    inputs: dict[str, float | str]
    result: Result
    sources: list[str]


def number(given: Given, name: str) -> float:
    """A blank that must hold a number."""
    return float(cast(float, given[name]))


def optional(given: Given, name: str) -> float | None:
    """A blank that may have been left out."""
    return number(given, name) if name in given else None


def day_of_year(given: Given) -> float:
    """Day of the year of the blank `date`."""
    return float(cast(date, given["date"]).timetuple().tm_yday)


def rounded(value: float, places: int = 4) -> float:
    """As an answer shows it."""
    return round(float(value), places)


def evaluate(laws: Mapping[str, Law], name: str, pairs: Mapping[str, str]) -> Evaluated:
    """Evaluate a law from words as a person typed them.

    Parameters
    ----------
    laws : mapping
        The laws by name.
    name : str
    pairs : mapping of str to str
        Blank and value. A blank in _c also takes _f, _mm takes _in, _m takes _ft, _m_s takes _kmh or _mph.

    Raises
    ------
    UnknownName
        No such law; the hint lists the nearest.
    ParameterError
        A blank missing, unknown, or out of range; the message names them all.
    """
    law = find_law(laws, name)
    given, problems, unknown = _read(law, pairs)
    if unknown is not None and len(problems) == 1:
        raise unknown
    if problems:
        raise ParameterError(
            f"{law.name}: " + "; ".join(problems) + ".", "Blanks: " + ", ".join(_shown(b) for b in law.blanks)
        )
    result = law.evaluate(given)
    sources = list(law.sources)
    crop = given.get("crop")
    if law.crop_sources and isinstance(crop, str):
        sources = crop_sources(crop, law.crop_sources) + sources
    inputs = {key: value.isoformat() if isinstance(value, date) else value for key, value in given.items()}
    return Evaluated(law.name, inputs, result, sources)


def find_law(laws: Mapping[str, Law], name: str) -> Law:
    """A law by name; spaces and underscores count as hyphens.

    Raises
    ------
    UnknownName
    """
    wanted = name.strip().lower().replace(" ", "-").replace("_", "-")
    if wanted in laws:
        return laws[wanted]
    near = get_close_matches(wanted, laws, n=3, cutoff=0.4)
    raise UnknownName(
        f"There is no law named {name!r}.",
        f"Nearest: {', '.join(near)}." if near else "See them all with: spadework law",
    )


def crop_sources(crop: str, paths: tuple[str, ...]) -> list[str]:
    """Sources of the sheet values a law used, as citations."""
    from spadework.crops.loader import load_sheet
    from spadework.crops.sources import citation

    sheet = load_sheet(crop)
    found: dict[str, None] = {}
    for path in paths:
        section, attribute = path.split(".")
        value = getattr(getattr(sheet, section), attribute)
        if value is None:
            continue
        if not value.sources:
            found[f"{sheet.name} {attribute}: {value.provenance}"] = None
        for key in value.sources:
            found[f"{value.provenance}: {citation(key)}"] = None
    return list(found)


def _shown(blank: Blank) -> str:
    return blank.name if blank.needed and blank.default is None else f"[{blank.name}]"


_OTHER_UNITS: tuple[tuple[str, str, Callable[[float], float]], ...] = (
    ("_c", "_f", lambda value: units.c_from_f(value)),
    ("_mm", "_in", lambda value: value * units.MM_PER_INCH),
    ("_m_s", "_kmh", lambda value: value * units.M_S_PER_KMH),
    ("_m_s", "_mph", lambda value: value * units.M_S_PER_MPH),
    ("_m", "_ft", lambda value: value * units.M_PER_FOOT),
)


def _read(
    law: Law, pairs: Mapping[str, str]
) -> tuple[dict[str, float | str | date], list[str], UnknownName | None]:
    blanks = {blank.name: blank for blank in law.blanks}
    given: dict[str, float | str | date] = {}
    problems: list[str] = []
    unknown: UnknownName | None = None
    for key, text in pairs.items():
        name, convert = _resolve(key, blanks)
        if name is None:
            near = get_close_matches(key, blanks, n=1, cutoff=0.5)
            problems.append(f"{key!r} is not one of its blanks" + (f" (meant {near[0]}?)" if near else ""))
            continue
        if name in given:
            problems.append(f"{name} is given twice")
            continue
        try:
            value = _value(blanks[name], text, convert, problems)
        except UnknownName as error:
            unknown, value = error, None
            problems.append(f"{name} is {text!r}, which no sheet answers to ({error.hint.rstrip('.')})")
        if value is not None:
            given[name] = value
    for blank in law.blanks:
        if blank.name not in given and blank.default is not None:
            given[blank.name] = blank.default
        elif (
            blank.needed
            and blank.name not in given
            and not any(problem.startswith(blank.name) for problem in problems)
        ):
            problems.append(f"{blank.name} is missing ({blank.meaning})")
    return given, problems, unknown


def _resolve(key: str, blanks: Mapping[str, Blank]) -> tuple[str | None, Callable[[float], float] | None]:
    name = key.strip().lower().replace("-", "_")
    if name in blanks:
        return name, None
    for metric, other, convert in _OTHER_UNITS:
        if name.endswith(other) and name.removesuffix(other) + metric in blanks:
            return name.removesuffix(other) + metric, convert
    return None, None


def _value(
    blank: Blank, text: str, convert: Callable[[float], float] | None, problems: list[str]
) -> float | str | date | None:
    text = text.strip()
    if blank.kind == "crop":
        from spadework.crops.names import find

        return find(text)
    if blank.kind == "word":
        word = text.lower().replace(" ", "-").replace("_", "-")
        word = blank.also.get(word, word)
        if word not in blank.words:
            problems.append(f"{blank.name} is {text!r}; allowed: {', '.join(blank.words)}")
            return None
        return word
    if blank.kind == "date":
        try:
            return date.fromisoformat(text)
        except ValueError:
            problems.append(f"{blank.name} is {text!r}; give a date as year-month-day, such as 2026-05-01")
            return None
    try:
        number = float(text.replace(",", ".").removesuffix("%"))
    except ValueError:
        problems.append(f"{blank.name} is {text!r}; give a number ({blank.meaning})")
        return None
    number = number if convert is None else convert(number)
    if not blank.low <= number <= blank.high:
        problems.append(
            f"{blank.name} is {number:g}; allowed: {blank.low:g} to {blank.high:g} ({blank.meaning})"
        )
        return None
    return number
