"""Beds from a few lines: "12 beds 1.2 x 2.4 m in 3 rows, paths 0.6 m", "a tunnel 3 by 6 m north of them".

The lines give beds with places that do not lie over each other, or every problem at once with its line and
column. What was not said is taken for granted and told.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import msgspec

from spadework.errors import InputFileError
from spadework.garden.entries import BedSet
from spadework.garden.lay_out_group import NOUNS, Group, even
from spadework.garden.lay_out_plot import Plot, bed_key
from spadework.garden.lay_out_usual import ROUND, changes_in, pattern_of
from spadework.garden.lay_out_words import LineReader
from spadework.garden.lookup import plain
from spadework.garden.site import Units

_SMALLEST_M, _LARGEST_M = 0.05, 200.0
_LARGEST_TUB_M: Final = 3.0
_MOST_BEDS: Final = 300
"""Beyond these a wrong unit is likelier than the thing itself. Class: common-practice."""


@dataclass(frozen=True, slots=True)
class Laid:
    """Beds read from lines.

    Parameters
    ----------
    beds : mapping of str to BedSet
        By key, in the order named; those that were there before only where a line changed them.
    lines : mapping of str to int
        Line each was last spoken of in.
    took : tuple of str
        What was taken for granted, a sentence each, in the garden's units.
    """

    beds: Mapping[str, BedSet]
    lines: Mapping[str, int]
    took: tuple[str, ...]


def lay_out(
    lines: str | Sequence[str],
    *,
    units: Units = "metric",
    there: Mapping[str, BedSet] | None = None,
    source: str = "The list of beds",
) -> Laid:
    """Read lines about beds.

    Parameters
    ----------
    lines : str or sequence of str
        One or more groups of beds each; what follows a # is a remark.
    units : {"metric", "us"}
        What bare numbers are in, and what is told in.
    there : mapping of str to BedSet or None
        Beds there are, by key. They stay where they are.
    source : str
        What a refusal calls the lines.

    Raises
    ------
    InputFileError
        If anything cannot be meant, with every problem, its line and its column.
    """
    plot = Plot(units, dict(there or {}))
    rows = lines.splitlines() if isinstance(lines, str) else list(lines)
    for number, row in enumerate(rows, start=1):
        _line(plot, row.split("#", 1)[0], number)
    plot.settle()
    if plot.faults:
        raise InputFileError(source, list(dict.fromkeys(plot.faults)))
    told = {key: plot.beds[key] for key in plot.spoken}
    return Laid(MappingProxyType(told), MappingProxyType(plot.spoken), _told(plot.took))


def _told(took: Mapping[str, Sequence[int]]) -> tuple[str, ...]:
    return tuple(
        f"{'Line' if len(lines) == 1 else 'Lines'} {', '.join(map(str, lines))}: {said}."
        for said, lines in took.items()
    )


def _line(plot: Plot, text: str, number: int) -> None:
    known = {even(bed.name): key for key, bed in plot.beds.items()}
    reader = LineReader(text, number, plot.units, known)
    reader.read()
    plot.faults += reader.faults
    for group in reader.groups:
        for each in group.took:
            plot.take(group, each)
        if group.refers:
            _change(plot, group)
        else:
            _make(plot, group)


# -- beds that are there -------------------------------------------------------------------------


def _change(plot: Plot, group: Group) -> None:
    keys = _meant(plot, group)
    if keys is None or not _sizes(plot, group):
        return
    said = changes_in(group)
    if group.names and len(group.names) != len(keys):
        plot.fault(group, "names", f"{len(group.names)} names for {len(keys)} beds", "a name for each")
        return
    if group.side or group.place or group.inside or group.rows is not None or group.path_m is not None:
        plot.fault(
            group,
            "side",
            "another place for beds that have one",
            "soil, height, depth, water, name",
            "Edit their x_m and y_m in the plan file.",
        )
        return
    for index, key in enumerate(keys):
        bed = msgspec.structs.replace(plot.beds[key], **said)
        if group.names:
            bed = msgspec.structs.replace(bed, name=group.names[index])
        plot.beds[key] = bed
        plot.spoken[key] = group.line
    plot.last = keys


def _meant(plot: Plot, group: Group) -> list[str] | None:
    if group.refers == "numbers":
        base = NOUNS[group.noun][1]
        names = [f"{base} {number}" for number in group.numbers]
        missing = [name for name in names if bed_key(name) not in plot.beds]
        if missing and len(missing) == len(names) and (group.width_m or group.across):
            group.count, group.names, group.refers = len(names), tuple(names), ""
            _make(plot, group)
            return None
        if missing:
            plot.unknown(group, missing[0])
            return None
        return [bed_key(name) for name in names]
    if group.refers == "all":
        shape, base = NOUNS[group.noun]
        found = [
            key
            for key, bed in plot.beds.items()
            if (group.noun == "bed" and bed.shape in ("framed", "ground"))
            or (
                group.noun != "bed"
                and bed.shape == shape
                and (shape not in ROUND or bed.name.startswith(base))
            )
        ]
        if not found:
            plot.unknown(group, group.noun)
            return None
        return found
    first, _, last = group.refers.partition("\n")
    names_to_keys = {even(bed.name): key for key, bed in plot.beds.items()}
    if not last:
        return [names_to_keys[first]]
    keys = list(plot.beds)
    begin, end = keys.index(names_to_keys[first]), keys.index(names_to_keys[last])
    return keys[min(begin, end) : max(begin, end) + 1]


# -- new beds ------------------------------------------------------------------------------------


def _make(plot: Plot, group: Group) -> None:
    if not _sound(plot, group):
        return
    pattern = pattern_of(group, plot.units, lambda said: plot.take(group, said))
    names = _names(plot, group)
    if names is None:
        return
    count = len(names)
    outlines = plot.placed(group, pattern, count)
    if outlines is None:
        return
    host = plot.host(group) if group.inside else ""
    made: list[str] = []
    for name, outline in zip(names, outlines, strict=True):
        key = bed_key(name)
        plot.beds[key] = msgspec.structs.replace(
            pattern,
            name=name,
            x_m=outline.x_m,
            y_m=outline.y_m,
            turn_deg=outline.turn_deg,
            inside=host or "",
        )
        plot.spoken[key] = group.line
        made.append(key)
    if not host and not group.indoors:
        plot.last = made


def _sound(plot: Plot, group: Group) -> bool:
    """Whether new beds can be as described."""
    before = len(plot.faults)
    if group.count is None and group.names:
        group.count = len(group.names)
    if group.count is None:
        plot.fault(group, "noun", f"{group.noun}s without a number", "how many there are")
    elif not 1 <= group.count <= _MOST_BEDS:
        plot.fault(group, "count", f"{group.count} beds", f"1 to {_MOST_BEDS}")
    if group.count and group.rows is not None and not 0 <= group.rows <= group.count:
        plot.fault(group, "rows", f"{group.rows} rows for {group.count}", "not more rows than beds")
    return _sizes(plot, group) and len(plot.faults) == before


def _sizes(plot: Plot, group: Group) -> bool:
    before = len(plot.faults)
    tub = group.noun in NOUNS and NOUNS[group.noun][0] in ROUND
    largest_m = _LARGEST_TUB_M if tub else _LARGEST_M
    for name in ("width_m", "length_m"):
        value = getattr(group, name)
        if value is not None and not _SMALLEST_M <= value <= largest_m:
            plot.fault(
                group,
                name,
                f"a side of {plot.say(value)}",
                f"{plot.say(_SMALLEST_M)} to {plot.say(largest_m)}",
                "Check the unit.",
            )
            break
    for name, most_m in (
        ("height_m", 4.0),
        ("depth_m", 4.0),
        ("path_m", 50.0),
        ("row_path_m", 50.0),
        ("gap_m", 500.0),
    ):
        value = getattr(group, name)
        if value is not None and value > most_m:
            plot.fault(group, name, plot.say(value), f"up to {plot.say(most_m)}", "Check the unit.")
    if group.turn_deg is not None and not -360.0 <= group.turn_deg <= 360.0:
        plot.fault(group, "turn_deg", f"a turn of {group.turn_deg:g} degrees", "-360 to 360")
    return len(plot.faults) == before


def _names(plot: Plot, group: Group) -> list[str] | None:
    count = group.count or 1
    names = list(group.names)
    if not names:
        base = _base(plot, group)
        taken = {*map(plain, plot.beds), *(plain(bed.name) for bed in plot.beds.values())}
        numbered = NOUNS[group.noun][0] in ("framed", *ROUND) and not group.own and "long" not in group.looks
        if count == 1 and not (numbered or group.inside) and plain(base) not in taken:
            names = [base]
        else:
            number = group.number_from or 1
            while len(names) < count:
                name = f"{base} {number}"
                number += 1
                if group.number_from is not None or plain(name) not in taken:
                    names.append(name)
    elif len(names) == 1 and count > 1:
        names = [f"{names[0]} {number}" for number in range(1, count + 1)]
    if len(names) != count:
        plot.fault(group, "names", f"{len(names)} names for {count}", "a name for each", "Name all, or none.")
        return None
    for name in names:
        double = bed_key(name) in plot.beds or any(
            plain(bed.name) == plain(name) for bed in plot.beds.values()
        )
        if double or sum(plain(each) == plain(name) for each in names) > 1:
            plot.fault(group, "names", f"a second {name}", "each name once", "Choose another name.")
            return None
        if not plain(name) or len(name) > 60:
            plot.fault(group, "names", f"the name {name!r}", "letters and figures, up to 60")
            return None
    return names


def _base(plot: Plot, group: Group) -> str:
    base = NOUNS[group.noun][1]
    if group.own:
        return f"{group.own.title()} {base}"
    if group.inside:
        host = plot.host(group)
        return f"{plot.beds[host].name} {base}" if host else base
    if "long" in group.looks and (group.count or 1) == 1:
        return f"Long {base}"
    return base
