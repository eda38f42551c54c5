"""A planting said otherwise by its own sentence, and a planting lifted and set anew elsewhere."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any

from cyclopts import Parameter

from spadework import units
from spadework.faces.cli.common import Common, Writes, answer
from spadework.faces.cli.ground_words import read_length
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written
from spadework.faces.voice import Voice
from spadework.usecases.plant_sentence import ComesTo

Look = Annotated[bool, Parameter(negative="", help="Only say what it comes to; write nothing.")]
Apart = Annotated[str | None, Parameter(help="Apart in the row, such as 8cm or 3in.")]
Rows = Annotated[int | None, Parameter(help="How many rows.")]
Between = Annotated[str | None, Parameter(help="Between rows, such as 30cm or 12in.")]
Along = Annotated[str | None, Parameter(help="Where it begins along the bed, from its corner.")]
Across = Annotated[str | None, Parameter(help="Where it begins across the bed, from its corner.")]


def change(
    planting: str,
    *,
    rows: Rows = None,
    number: Annotated[int | None, Parameter(help="How many plants.")] = None,
    seeds: Annotated[int | None, Parameter(help="How many seeds were sown.")] = None,
    spacing: Apart = None,
    between: Between = None,
    length: Annotated[str | None, Parameter(help="Length of a row, such as 2.4m or 8ft.")] = None,
    depth: Annotated[str | None, Parameter(help="How deep it was sown, such as 2cm or 1in.")] = None,
    variety: Annotated[str | None, Parameter(help="Its variety.")] = None,
    lot: Annotated[str | None, Parameter(help="The packet of the tin it came from.")] = None,
    bed: Annotated[str, Parameter(help="The bed it was really put into; moved since, transplant.")] = "",
    along: Along = None,
    across: Across = None,
    dry_run: Look = False,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Say how a planting was really begun: rows, spacing, count, variety, packet, day (--on).

    What hangs on it follows: places, counts, the packet, jobs. The old words stay in the book, shown as
    corrected. With nothing said: the sentence as it stands.

    Parameters
    ----------
    planting : str
        Its key; see: spadework standing
    """
    from spadework.usecases.change_planting import begun, change_comes_to, change_planting
    from spadework.usecases.look import look_at

    common, writes = common or Common(), writes or Writes()
    us = voice_of(common).us
    how = writes.writing(common)
    begin = begun(common.garden, common.day, planting)
    said = _said(rows, number, spacing, between, along, across, us=us)
    said |= {
        name: value
        for name, value in (
            ("seeds", seeds),
            ("length_m", None if length is None else read_length(length, "--length", us=us)),
            ("depth_mm", None if depth is None else 10.0 * _apart(depth, "--depth", us=us)),
            ("variety", variety),
            ("lot", lot),
            ("bed", bed or None),
        )
        if value is not None
    }
    if said.keys() & {"rows", "length_m"} and "seeds" not in said:
        said["seeds"] = None
    blanks = replace(begin.blanks, **said)
    if dry_run or (not said and how.on is None):
        words = look_at(common.garden, common.day).words
        found = change_comes_to(begin, blanks, how.on or begin.entry.happened_on, words)
        answer(common, found, lambda: _tell(found, voice_of(common)))
        return
    answer_written(common, change_planting(common.garden, begin.planting.key, blanks, how))


def transplant(
    planting: str,
    *,
    to: Annotated[str, Parameter(help="The bed it goes to; its own for another place in it.")],
    number: Annotated[int | None, Parameter(help="How many are moved; all where left out.")] = None,
    rows: Rows = None,
    spacing: Apart = None,
    between: Between = None,
    along: Along = None,
    across: Across = None,
    dry_run: Look = False,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Lift plants that stand and set them anew: in another bed, or in another place of their own.

    Fewer than all become a planting of their own.

    Parameters
    ----------
    planting : str
        Its key; see: spadework standing
    """
    from spadework.usecases.change_planting import move_comes_to, move_planting
    from spadework.usecases.look import look_at
    from spadework.usecases.plant_sentence import Blanks

    common, writes = common or Common(), writes or Writes()
    how = writes.writing(common)
    us = voice_of(common).us
    blanks = replace(Blanks(), bed=to, **_said(rows, number, spacing, between, along, across, us=us))
    if not dry_run:
        answer_written(common, move_planting(common.garden, planting, blanks, how))
        return
    words = look_at(common.garden, common.day).words
    moved = move_comes_to(common.garden, common.day, planting, blanks, how.day, words)

    def tell() -> None:
        voice = voice_of(common)
        _tell(moved.found, voice)
        print(wrapped(f"They stand still about {moved.cost.days:.0f} days: all is ready that much later."))
        for said in moved.cost.said:
            print(wrapped(said))

    answer(common, moved, tell)


def _said(
    rows: int | None,
    number: int | None,
    spacing: str | None,
    between: str | None,
    along: str | None,
    across: str | None,
    *,
    us: bool,
) -> dict[str, Any]:
    values = {
        "rows": rows,
        "number": number,
        "spacing_cm": None if spacing is None else _apart(spacing, "--spacing", us=us),
        "row_cm": None if between is None else _apart(between, "--between", us=us),
        "along_m": None if along is None else read_length(along, "--along", us=us),
        "across_m": None if across is None else read_length(across, "--across", us=us),
    }
    return {name: value for name, value in values.items() if value is not None}


def _apart(text: str, name: str, *, us: bool) -> float:
    """A short length in cm; a plain number is in cm, or in inches where `us`."""
    try:
        return float(text.replace(",", ".")) * (units.MM_PER_INCH / 10.0 if us else 1.0)
    except ValueError:
        return 100.0 * read_length(text, name, us=us)


def _tell(found: ComesTo, voice: Voice) -> None:
    """What a sentence comes to, before it is written."""
    if found.rows is not None and found.length_m is not None and found.spacing_cm is not None:
        rows = "1 row" if found.rows == 1 else f"{found.rows} rows"
        seeds = f"{found.pieces} {found.piece} for " if found.piece != "plants" else ""
        plants = f"{found.plants} plants at {voice.small(found.spacing_cm)}"
        print(wrapped(f"{seeds}{rows} of {voice.length(found.length_m)}: {plants}."))
    else:
        print(wrapped(f"{found.pieces} {found.piece} for about {found.plants} good plants."))
    if found.block is not None:
        size = f"{voice.length(found.block.width_m)} by {voice.length(found.block.length_m)}"
        print(wrapped(f"It takes {size} of the bed."))
    elif found.way != "tray":
        print(wrapped("No free place in that bed holds it."))
    if found.left is not None and found.left_after is not None:
        print(wrapped(f"The packet has about {found.left:.0f} left, {found.left_after:.0f} afterwards."))
    tell_locks(found.locks, voice, gap=False)
