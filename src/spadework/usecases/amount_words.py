"""Numbers, amounts and lists as they are said in a sentence, in metric."""

from __future__ import annotations

from collections.abc import Iterable

from spadework.usecases.crop_words import plural


def plain_number(value: float) -> str:
    """A number without needless decimals."""
    return f"{value:.10g}" if value == int(value) else f"{value:.4g}"


def count_of(number: int, thing: str) -> str:
    """So many of a thing."""
    return f"{number} {thing if number == 1 else plural(thing)}"


def add_part(parts: list[str], before: str, value: float | None, after: str) -> None:
    """Add a value with the words round it, where there is one."""
    if value is not None:
        parts.append(f"{before}{plain_number(value)}{after}")


def with_parts(text: str, more: Iterable[str]) -> str:
    """A text and what follows it after commas."""
    return ", ".join((text, *(part for part in more if part)))


def listed(parts: Iterable[str]) -> str:
    """Parts with commas between."""
    return ", ".join(parts)


def joined(parts: Iterable[str]) -> str:
    """Parts as they are spoken: "leaf, stem and root"."""
    each = list(parts)
    return each[0] if len(each) == 1 else f"{', '.join(each[:-1])} and {each[-1]}"


def amount_of(kg: float | None, pieces: int | None, name: str) -> str:
    """So much of a crop, by weight, count or both."""
    if kg is None:
        return name if pieces is None else f"{pieces} {name}"
    weight = f"{plain_number(round(kg * 1000, 1))} g" if 0 < kg < 1 else f"{plain_number(kg)} kg"
    return f"{weight} of {name}" if pieces is None else f"{pieces} {name}, {weight}"


def clock_hour(hour: float) -> str:
    """An hour of the day as a clock shows it."""
    whole, minutes = divmod(round(hour * 60), 60)
    return f"{whole}:{minutes:02d}"
