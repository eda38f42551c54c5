"""The beds: show them, make, change and take up one."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from cyclopts import Parameter

from spadework.faces.cli.book import read_most, tell_lines
from spadework.faces.cli.common import Common, Looking, Writes, answer
from spadework.faces.cli.ground_words import read_length, read_water
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import SCREEN, table, wrapped
from spadework.faces.cli.standing import planting_lines
from spadework.faces.cli.written import answer_written
from spadework.faces.voice import Voice
from spadework.usecases.show_beds import BedRow, BedShown

Size = Annotated[str | None, Parameter(help="Such as 1.2, 120cm or 4ft; plain numbers are m, or ft.")]
Shape = Annotated[
    Literal["framed", "ground", "tub", "sack", "tunnel", "frame", "shelf"] | None,
    Parameter(help="What it is."),
]
Place = Annotated[str | None, Parameter(allow_leading_hyphen=True, help="Of its corner on the plan.")]
Turn = Annotated[float | None, Parameter(help="Degrees it is turned about that corner, anticlockwise.")]
Flow = Annotated[str | None, Parameter(help="Litres a minute, or with gal behind.")]
Allowance = Annotated[
    str | None, Parameter(help="Most it may get a week: litres, or with gal behind; none takes it off.")
]

_SHAPES = {
    "framed": "framed bed",
    "ground": "bed in the ground",
    "tub": "tub",
    "sack": "sack",
    "tunnel": "tunnel",
    "frame": "cold frame",
    "shelf": "shelf",
    "": "never described",
}
_NO_WORK = frozenset(
    {"bed", "bed gone", "flow", "stood", "stage", "ended", "note", "photo", "minutes", "locked"}
)
"""Words of entries that are no work done in a bed."""


def tell_beds(common: Common, looking: Looking) -> None:
    """All beds."""
    from spadework.usecases.show_beds import list_beds

    found = list_beds(common.garden, common.day, **looking.days(common))

    def tell() -> None:
        voice = voice_of(common)
        tell_locks((line for bed in found.beds for line in bed.locks), voice)
        if not found.beds:
            print('No bed is told yet. Tell one: spadework bed add "Bed 1" --width 1.2 --length 2.4')
            return
        rows = [[*_row(bed, voice)] for bed in found.beds]
        others = [max(len(row[column]) for row in rows) for column in (0, 1, 3)]
        room = max(16, SCREEN - 2 - 2 * 3 - sum(others))
        for row in rows:
            row[2] = row[2] if len(row[2]) <= room else f"{row[2][: room - 1].rstrip()}…"
        print(table(["", "", "grows", "watered"], rows))

    answer(common, found, tell)


def tell_bed(common: Common, looking: Looking, name: str, last: str) -> None:
    """One bed."""
    from spadework.usecases.show_beds import show_bed

    found = show_bed(common.garden, common.day, name, most=read_most(last), **looking.days(common))
    answer(common, found, lambda: _tell_bed(found, voice_of(common)))


def add(
    name: str,
    *,
    width: Size = None,
    length: Size = None,
    shape: Shape = None,
    depth: Size = None,
    height: Size = None,
    soil: Annotated[str | None, Parameter(help="Such as loam, clay loam, sandy loam, potting mix.")] = None,
    inside: Annotated[str | None, Parameter(help="Tunnel or frame it is in.")] = None,
    x: Place = None,
    y: Place = None,
    turn: Turn = None,
    flow: Flow = None,
    measured: Flow = None,
    allowance: Allowance = None,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Tell of a bed, tub, tunnel, frame or shelf.

    Parameters
    ----------
    name : str
        What it is called.
    flow, measured : str
        Water it gets as rated, and as measured with a bucket and a watch, which goes before it.
    """
    from spadework.usecases.keep_things import keep_bed

    common, writes = common or Common(), writes or Writes()
    said = _said(common, width, length, shape, depth, height, soil, inside, x, y, flow, measured)
    said |= _allowed(common, allowance) | ({} if turn is None else {"turn_deg": turn % 360.0})
    answer_written(common, keep_bed(common.garden, writes.writing(common), name, said, new=True))


def change(
    name: str,
    *,
    new_name: Annotated[str | None, Parameter(help="What it is called from now on.")] = None,
    width: Size = None,
    length: Size = None,
    shape: Shape = None,
    depth: Size = None,
    height: Size = None,
    soil: Annotated[str | None, Parameter(help="Kind of soil.")] = None,
    inside: Annotated[str | None, Parameter(help="Tunnel or frame it is in.")] = None,
    x: Place = None,
    y: Place = None,
    turn: Turn = None,
    flow: Flow = None,
    measured: Flow = None,
    allowance: Allowance = None,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Say something else of a bed; the rest stays as it was.

    Parameters
    ----------
    name : str
        The bed.
    """
    from spadework.usecases.keep_things import keep_bed

    common, writes = common or Common(), writes or Writes()
    said = _said(common, width, length, shape, depth, height, soil, inside, x, y, flow, measured)
    said |= _allowed(common, allowance) | ({} if turn is None else {"turn_deg": turn % 360.0})
    if new_name is not None:
        said["name"] = new_name.strip()
    answer_written(common, keep_bed(common.garden, writes.writing(common), name, said, new=False))


def end(
    name: str,
    *,
    why: Annotated[str, Parameter(help="Why.")] = "",
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Take a bed up; its history stays.

    Parameters
    ----------
    name : str
        The bed.
    """
    from spadework.usecases.keep_things import end_bed

    common, writes = common or Common(), writes or Writes()
    answer_written(common, end_bed(common.garden, writes.writing(common), name, why))


def _said(common: Common, *given: str | None) -> dict[str, Any]:
    """What was said of a bed, in metres and litres."""
    width, length, shape, depth, height, soil, inside, x, y, flow, measured = given
    us = voice_of(common).us
    lengths = {
        "width_m": (width, "--width"),
        "length_m": (length, "--length"),
        "depth_m": (depth, "--depth"),
        "height_m": (height, "--height"),
        "x_m": (x, "--x"),
        "y_m": (y, "--y"),
    }
    said: dict[str, Any] = {
        field: read_length(text, name, us=us) for field, (text, name) in lengths.items() if text is not None
    }
    for field, text, name in (("flow_l_min", flow, "--flow"), ("measured_l_min", measured, "--measured")):
        if text is not None:
            said[field] = read_water(text, name, us=us)
    return said | {
        field: text
        for field, text in (("shape", shape), ("soil", soil), ("inside", inside))
        if text is not None
    }


def _allowed(common: Common, text: str | None) -> dict[str, float | None]:
    if text is None:
        return {}
    if text.strip().lower() == "none":
        return {"week_allowance_l": None}
    return {"week_allowance_l": read_water(text, "--allowance", us=voice_of(common).us)}


def _row(bed: BedRow, voice: Voice) -> list[str]:
    marks = "LOCK " if bed.locks else ""
    covers = f" under {', '.join(dict.fromkeys(bed.covers))}" if bed.covers else ""
    grows = ", ".join(bed.standing) or "–"
    return [
        bed.name,
        _size(bed.width_m, bed.length_m, voice) or bed.shape,
        f"{marks}{grows}{covers}",
        voice.day(bed.watered_on),
    ]


def _size(width_m: float | None, length_m: float | None, voice: Voice) -> str:
    if width_m is None or length_m is None:
        return ""
    return f"{voice.length(width_m).split()[0]} × {voice.length(length_m)}"


def _tell_bed(bed: BedShown, voice: Voice) -> None:
    tell_locks(bed.locks, voice)
    parts = [_SHAPES[bed.shape]]
    if size := _size(bed.width_m, bed.length_m, voice):
        parts.append(f"{size} ({voice.area(bed.area_m2 or 0.0)})")
    if bed.depth_m:
        parts.append(f"{voice.small(bed.depth_m * 100)} deep")
    parts += [text for text in (bed.soil, f"mulched with {bed.mulch}" if bed.mulch else "") if text]
    if bed.inside:
        parts.append(f"inside {bed.inside}")
    if bed.shaded_by:
        parts.append(f"shaded by {', '.join(bed.shaded_by)}")
    print(wrapped(f"{bed.name}: {', '.join(parts)}", 2, first=""))
    if bed.gone_on is not None:
        print(wrapped(f"Taken up {voice.day(bed.gone_on)}{f': {bed.gone_why}' if bed.gone_why else ''}."))
    if bed.opened is not None and bed.shape in ("tunnel", "frame"):
        print(f"It stands {'open' if bed.opened else 'shut'}.")
    print()
    if bed.standing:
        for planting in bed.standing:
            print(planting_lines(planting, voice))
    else:
        print("  Nothing stands in it.")
    if bed.stood:
        print(wrapped(f"Stood before: {_stood(bed)}.", 4, first="  "))
    for cover in bed.covers:
        amount = "" if cover.length_m is None else f" {voice.length(cover.length_m)}"
        amount += "" if cover.pieces is None else f" {cover.pieces} pieces"
        opened = ", opened" if cover.opened else ""
        assumed = " (taken as the bed's length)" if cover.assumed else ""
        print(
            wrapped(f"On it: {cover.item}{amount}{assumed} since {voice.day(cover.since)}{opened}.", 4, "  ")
        )
    print(wrapped(_water(bed, voice), 4, first="  "))
    if bed.allowance:
        print(wrapped(voice.told(bed.allowance), 4, first="  "))
    if bed.batches:
        worked = ", ".join(f"batch {name} {voice.day(on)}" for name, on in bed.batches.items())
        print(wrapped(f"Worked in: {worked}.", 4, first="  "))
    if bed.last:
        done = sorted(bed.last.items(), key=lambda item: item[1], reverse=True)
        shown = ", ".join(f"{word} {voice.day(on)}" for word, on in done if word not in _NO_WORK)
        if shown:
            print(wrapped(f"Last: {shown}.", 4, first="  "))
    if bed.entries:
        print(f"\nIts book{f' ({bed.earlier} earlier: --last all)' if bed.earlier else ''}")
        tell_lines(bed.entries, voice)


def _stood(bed: BedShown) -> str:
    years: dict[int, dict[str, None]] = {}
    for each in bed.stood:
        years.setdefault(each.year, {})[each.name] = None
    return "; ".join(f"{year} {', '.join(names)}" for year, names in years.items())


def _water(bed: BedShown, voice: Voice) -> str:
    if bed.watered is None:
        last = "Not watered yet by the book"
    else:
        amounts = [
            *([] if bed.watered.litres is None else [voice.water(bed.watered.litres)]),
            *([] if bed.watered.depth_mm is None else [_depth(bed.watered.depth_mm, voice)]),
        ]
        said = f", {' or '.join(amounts)}" if amounts else ", nobody said how much"
        last = f"Last watered {voice.day(bed.watered.on)}{said}"
    if bed.flow_l_min is None:
        return f"{last}."
    known = f"as measured; rated {voice.water(bed.rated_l_min)}" if bed.rated_l_min else "as measured"
    how = known if bed.flow_known == "measured" else bed.flow_known.replace("rated", "as rated")
    return f"{last}. It gets {voice.water(bed.flow_l_min)} a minute, {how}."


def _depth(depth_mm: float, voice: Voice) -> str:
    return voice.rain(depth_mm) if voice.us or depth_mm >= 10 else f"{depth_mm:.2g} mm"
