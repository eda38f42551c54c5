"""Commands that show a thing, and have others under them that keep it.

Here are only their words; what they do is loaded when one of them runs.
"""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Looking

Last = Annotated[str, Parameter(help="How many of the newest entries, or all.")]


def bed(
    *name: str,
    last: Last = "10",
    looking: Looking | None = None,
    common: Common | None = None,
) -> None:
    """The beds, or one: what grows and grew, covers, water, locks, its book.

    Parameters
    ----------
    name : str
        One bed; all without it.
    """
    from spadework.faces.cli.beds import tell_bed, tell_beds

    common, looking = common or Common(), looking or Looking()
    if name:
        tell_bed(common, looking, " ".join(name), last)
    else:
        tell_beds(common, looking)


def kit(item: str = "", *, looking: Looking | None = None, common: Common | None = None) -> None:
    """The kit: what is owned, where each piece is, what is free.

    Parameters
    ----------
    item : str
        One piece; all without it.
    """
    from spadework.faces.cli.things import tell_kit

    tell_kit(common or Common(), looking or Looking(), item)


def tin(
    *,
    crop: Annotated[str, Parameter(help="Only lots of this.")] = "",
    looking: Looking | None = None,
    common: Common | None = None,
) -> None:
    """The seed tin: lots, what is left, and what their tests say."""
    from spadework.faces.cli.things import tell_tin

    tell_tin(common or Common(), looking or Looking(), crop)


def people(*, common: Common | None = None) -> None:
    """Who keeps, helps or reads here."""
    from spadework.faces.cli.people import tell_people

    tell_people(common or Common())


def lock(
    *,
    bed: Annotated[str, Parameter(help="Only those that reach this bed.")] = "",
    over: Annotated[bool, Parameter(negative="", help="Also those lifted or run out.")] = False,
    looking: Looking | None = None,
    common: Common | None = None,
) -> None:
    """The locks in force: what may not be picked, planted or used, why, until when, who may lift it."""
    from spadework.faces.cli.locks import tell_all_locks

    tell_all_locks(common or Common(), looking or Looking(), bed, over)


def chore(*, common: Common | None = None) -> None:
    """The chores no planting asks for, what is due first."""
    from spadework.faces.cli.chores import tell_chores

    tell_chores(common or Common())


def photo(
    *,
    bed: Annotated[str, Parameter(help="Only of this bed.")] = "",
    planting: Annotated[str, Parameter(help="Only of this planting, by its key in `standing`.")] = "",
    common: Common | None = None,
) -> None:
    """The photos in the book, newest first."""
    from spadework.faces.cli.photos import tell_photos

    tell_photos(common or Common(), bed, planting)


def sheet(name: str, *, common: Common | None = None) -> None:
    """One crop's sheet: every value with its range, class and source.

    Parameters
    ----------
    name : str
        Any name of the crop, British or American.
    """
    from spadework.faces.cli.crops import tell_sheet

    tell_sheet(common or Common(), name)
