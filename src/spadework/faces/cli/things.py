"""The kit and the seed tin: show them, and tell what is there."""

from __future__ import annotations

from itertools import groupby
from typing import Annotated, Any, Literal

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Looking, Writes, answer
from spadework.faces.cli.ground_words import read_length
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written
from spadework.faces.voice import Voice
from spadework.usecases.show_kit import KitShown, PlaceShown
from spadework.usecases.show_tin import LotShown

Sort = Literal["fleece", "netting", "mesh", "film", "hoops", "screen", "scare", "tray", "tool", "other"]


def tell_kit(common: Common, looking: Looking, item: str) -> None:
    """All kit, or one piece."""
    from spadework.usecases.show_kit import list_kit

    found = list_kit(common.garden, common.day, item=item, **looking.days(common))

    def tell() -> None:
        voice = voice_of(common)
        if not found.kit:
            print("No kit is told yet. Tell some: spadework kit add fleece --sort fleece --length 20")
        for each in found.kit:
            print(wrapped(_item(each, voice), 4, first="  "))

    answer(common, found, tell)


def tell_tin(common: Common, looking: Looking, crop: str) -> None:
    """All lots, or those of a crop."""
    from spadework.usecases.show_tin import list_tin

    found = list_tin(common.garden, common.day, crop=crop, **looking.days(common))

    def tell() -> None:
        if not found.lots:
            print("No seed is told yet. Tell some: spadework tin add carrot --year 2026 --seeds 2000")
        for lot in found.lots:
            print(wrapped(_lot(lot, voice_of(common)), 4, first="  "))

    answer(common, found, tell)


def kit_add(
    item: str,
    *,
    sort: Annotated[Sort | None, Parameter(help="What it is; needed for a new piece.")] = None,
    length: Annotated[str | None, Parameter(help="How much of it, such as 20, 20m or 60ft.")] = None,
    width: Annotated[str | None, Parameter(help="How wide.")] = None,
    pieces: Annotated[int | None, Parameter(help="How many.")] = None,
    grade: Annotated[str | None, Parameter(help="Such as 17 g/m², or 0.8 mm holes.")] = None,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Tell of a piece of kit, or say anew how much there is.

    Parameters
    ----------
    item : str
        What it is called.
    """
    from spadework.usecases.keep_things import keep_item

    common, writes = common or Common(), writes or Writes()
    us = voice_of(common).us
    said: dict[str, Any] = {
        field: value
        for field, value in (
            ("sort", sort),
            ("length_m", None if length is None else read_length(length, "--length", us=us)),
            ("width_m", None if width is None else read_length(width, "--width", us=us)),
            ("pieces", pieces),
            ("grade", grade),
        )
        if value is not None
    }
    answer_written(common, keep_item(common.garden, writes.writing(common), item, said))


def kit_end(item: str, *, writes: Writes | None = None, common: Common | None = None) -> None:
    """Take a piece of kit off the books; what it was used for stays in them.

    Parameters
    ----------
    item : str
        What it is called.
    """
    from spadework.usecases.keep_things import end_item

    common, writes = common or Common(), writes or Writes()
    answer_written(common, end_item(common.garden, writes.writing(common), item))


def tin_end(lot: str, *, writes: Writes | None = None, common: Common | None = None) -> None:
    """Take a seed lot off the books, used up or given away; its sowings stay in them.

    Parameters
    ----------
    lot : str
        The lot.
    """
    from spadework.usecases.keep_things import end_lot

    common, writes = common or Common(), writes or Writes()
    answer_written(common, end_lot(common.garden, writes.writing(common), lot))


def tin_add(
    crop: str = "",
    *,
    lot: Annotated[str, Parameter(help="Name of the lot; else crop, variety and year.")] = "",
    variety: Annotated[str | None, Parameter(help="Variety.")] = None,
    year: Annotated[int | None, Parameter(help="Year it was packed or saved.")] = None,
    seeds: Annotated[int | None, Parameter(help="Seeds there are.")] = None,
    grams: Annotated[float | None, Parameter(help="Or their weight, g.")] = None,
    traits: Annotated[
        list[str] | None, Parameter(name="--trait", negative="", help="Such as self-setting. Repeat.")
    ] = None,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Put seed into the tin, or say anew how much of a lot there is.

    Parameters
    ----------
    crop : str
        Any name of the crop; not needed for a lot that is known.
    """
    from spadework.usecases.keep_things import keep_lot

    common, writes = common or Common(), writes or Writes()
    said: dict[str, Any] = {
        field: value
        for field, value in (
            ("variety", variety),
            ("year", year),
            ("seeds", seeds),
            ("grams", grams),
            ("traits", None if traits is None else tuple(traits)),
        )
        if value is not None
    }
    answer_written(common, keep_lot(common.garden, writes.writing(common), crop, said, lot=lot))


def tin_test(
    lot: str,
    *,
    sprouted: Annotated[int, Parameter(help="Seeds that sprouted.")],
    of: Annotated[int, Parameter(help="Seeds tested.")],
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Tell how a germination test came out.

    Parameters
    ----------
    lot : str
        The lot.
    """
    from spadework.usecases.keep_things import keep_test

    common, writes = common or Common(), writes or Writes()
    answer_written(common, keep_test(common.garden, writes.writing(common), lot, sprouted, of))


def _item(each: KitShown, voice: Voice) -> str:
    if not each.described:
        text = f"{each.item}: used, but nobody has told that it is owned"
    else:
        owned = [
            *([] if each.length_m is None else [voice.length(each.length_m)]),
            *([] if each.width_m is None else [f"{voice.length(each.width_m)} wide"]),
            *([] if each.pieces is None else ["1 piece" if each.pieces == 1 else f"{each.pieces} pieces"]),
            *([each.grade] if each.grade else []),
        ]
        sort = f" ({each.sort})" if each.sort not in ("other", each.item) else ""
        text = f"{each.item}{sort}{': ' if owned else ''}{', '.join(owned)}"
    free = []
    if each.free_m is not None:
        free.append(f"{voice.length(max(0.0, each.free_m))} free")
    if each.free_pieces is not None:
        free.append(f"{max(0, each.free_pieces)} free")
    if each.free_m is not None and each.free_m < 0:
        free.append(f"{voice.length(-each.free_m)} more out than there is")
    parts = [text, *free, *_places(each.places, voice)]
    if each.holds:
        parts.append(f"holds {', '.join(each.holds)}")
    return "; ".join(parts)


def _places(places: list[PlaceShown], voice: Voice) -> list[str]:
    """Where it is, bed by bed; of several pieces on one bed the sum, and since when the first."""
    return [_place(list(group), voice) for _, group in groupby(places, key=lambda each: each.bed)]


def _place(here: list[PlaceShown], voice: Voice) -> str:
    lengths = [each.length_m for each in here if each.length_m is not None]
    pieces = [each.pieces for each in here if each.pieces is not None]
    amount = f"{voice.length(sum(lengths))} " if lengths else ""
    amount += f"{sum(pieces)} " if pieces else ""
    several = f" in {len(here)} places" if len(here) > 1 else ""
    opened = ", opened" if all(each.opened for each in here) else ""
    since = voice.day(min(each.since for each in here))
    return f"{amount}on {here[0].bed_name or 'no bed'}{several} since {since}{opened}"


def _lot(lot: LotShown, voice: Voice) -> str:
    if not lot.described:
        return f"{lot.lot}: sown from, but nobody has told what it is"
    parts = [f"{lot.lot}: {lot.name}{'' if lot.year is None else f', {lot.year}'}"]
    if lot.left is None:
        parts.append("nobody said how much there is")
    else:
        most = "at most " if lot.uncounted else "about " if lot.left_how == "weighed" else ""
        parts.append(f"{most}{max(0.0, lot.left):.0f} seeds left")
        if lot.left < 0:
            parts.append(f"{-lot.left:.0f} more sown than there were")
    test = lot.germination
    if test is not None:
        on = "" if test.on is None else f" {voice.day(test.on)}"
        parts.append(
            f"{test.sprouted} of {test.tested} sprouted{on}, so {100 * test.low:.0f} to {100 * test.high:.0f}"
            " in 100 (8 times in 10)"
        )
    elif lot.usual_share is not None:
        parts.append(f"never tested; usual for the crop is {100 * lot.usual_share:.0f} in 100")
    return "; ".join([*parts, *lot.traits])
