"""A planting as a sentence: what it comes to, and into the book with it."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Writes, answer
from spadework.faces.cli.ground_words import read_length, read_small
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import span_said, voice_of
from spadework.faces.cli.say import dots, wrapped
from spadework.faces.cli.written import answer_written
from spadework.faces.voice import Voice, in_years
from spadework.usecases.plant_look import SentenceLook
from spadework.usecases.plant_sentence import Blanks, Way


def plant(
    crop: str = "",
    *,
    bed: Annotated[str, Parameter(help="Which bed; of a tray, which shelf.")] = "",
    rows: Annotated[int | None, Parameter(help="How many rows; as many as fit without it.")] = None,
    apart: Annotated[
        str | None, Parameter(help="Plants apart in the row, such as 8cm; as the sheet.")
    ] = None,
    rows_apart: Annotated[str | None, Parameter(help="Rows apart, such as 30cm; as the sheet.")] = None,
    length: Annotated[str | None, Parameter(help="Length of a row, such as 2.4m; as the place.")] = None,
    deep: Annotated[str | None, Parameter(help="How deep, such as 15mm; as the sheet.")] = None,
    number: Annotated[int | None, Parameter(help="How many plants, or of a tray, seeds.")] = None,
    seeds: Annotated[
        int | None, Parameter(help="How many seeds are sown in place; as many as it takes.")
    ] = None,
    lot: Annotated[str, Parameter(help="From which packet, by its name in `tin`.")] = "",
    variety: Annotated[str, Parameter(help="Variety.")] = "",
    along: Annotated[str | None, Parameter(help="Begins so far along the bed, such as 1.2m.")] = None,
    across: Annotated[str | None, Parameter(help="And so far across it.")] = None,
    tray: Annotated[bool, Parameter(negative="", help="Sown in a tray, to be planted out later.")] = False,
    bought: Annotated[bool, Parameter(negative="", help="Planted as plants that were bought.")] = False,
    from_: Annotated[
        str, Parameter(name="--from", help="Planted out from these, by their key in `standing`.")
    ] = "",
    look: Annotated[
        bool, Parameter(negative="", help="Only say what it comes to; nothing is written.")
    ] = False,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Sow or plant: seed and plants counted, a place found in the bed, and when it would be ready.

    Parameters
    ----------
    crop : str
        Any name of the crop; not needed with --from.
    """
    from spadework.errors import ParameterError
    from spadework.usecases.plant_look import look_sentence
    from spadework.usecases.plant_sentence import write_sentence

    common, writes = common or Common(), writes or Writes()
    if sum((tray, bought, bool(from_))) > 1:
        raise ParameterError("It is sown or planted in one way.", "Give one of --tray, --bought and --from.")
    if not crop.strip() and not from_:
        raise ParameterError("What is it?", "Name the crop: spadework plant carrot --bed 3")
    us = voice_of(common).us
    way: Way = "tray" if tray else "bought" if bought else "out" if from_ else "here"

    def small(text: str | None, name: str) -> float | None:
        return None if text is None else read_small(text, name, us=us)

    def long(text: str | None, name: str) -> float | None:
        return None if text is None else read_length(text, name, us=us)

    deep_cm = None if deep is None else read_small(deep, "--deep", us=us, fine=True)
    blanks = Blanks(
        way=way,
        crop=crop,
        bed=bed,
        variety=variety,
        lot=lot,
        source=from_,
        rows=rows,
        number=number,
        seeds=seeds,
        spacing_cm=small(apart, "--apart"),
        row_cm=small(rows_apart, "--rows-apart"),
        length_m=long(length, "--length"),
        depth_mm=None if deep_cm is None else round(deep_cm * 10.0, 3),
        along_m=long(along, "--along"),
        across_m=long(across, "--across"),
    )
    if look:
        how = writes.writing(common)
        found = look_sentence(common.garden, common.day, blanks, how.day)
        answer(common, found, lambda: _tell(found, voice_of(common)))
        return
    answer_written(common, write_sentence(common.garden, blanks, writes.writing(common)))


def _tell(found: SentenceLook, voice: Voice) -> None:
    comes = found.comes_to
    tell_locks(comes.locks, voice)
    verb = "sown" if comes.way in ("here", "tray") else "planted"
    where = "a tray" if comes.way == "tray" else found.bed_name
    print(
        f"{found.name[:1].upper()}{found.name[1:]} in {where}, {verb} {voice.day(found.on, weekday=True)}\n"
    )
    print(wrapped(_count(comes_to_text(found, voice)), 2))
    if comes.left is not None and comes.left_after is not None:
        few = ": too few" if comes.left_after < 0 else f", {comes.left_after:.0f} afterwards"
        grow = "" if comes.germination is None else f" {100 * comes.germination:.0f} in 100 germinate."
        print(wrapped(f"The packet has about {comes.left:.0f} left{few}.{grow}", 2))
    if comes.way != "tray":
        print(wrapped(_place(found, voice), 2))
    odds = found.odds
    print()
    if odds is None:
        print("There is no weather to run it through, or the day is too far off.")
    else:
        if odds.emergence is not None:
            print(wrapped(f"Up about {span_said(odds.emergence, voice)}.", 2))
        if comes.way != "tray":
            if odds.ready.q50 is not None:
                print(wrapped(f"Ready about {span_said(odds.ready, voice)}.", 2))
            print(wrapped(f"It gets there {in_years(odds.ready_before_loss)}.", 2))
            print(f"  {dots(odds.ready_before_loss)}")
        for caution in odds.cautions:
            print(wrapped(voice.told(caution.text), 2, "! "))
        if odds.note:
            print(wrapped(voice.told(odds.note)))
    print("\nNothing was written: --look.")


def comes_to_text(found: SentenceLook, voice: Voice) -> str:
    """The count in a sentence."""
    comes = found.comes_to
    if comes.way == "tray":
        return f"{comes.pieces} seeds for about {comes.plants} good plants."
    rows = f"{comes.rows} {'row' if comes.rows == 1 else 'rows'} of {voice.length(comes.length_m or 0.0)}"
    apart = (
        "" if comes.row_cm is None or comes.rows == 1 else f", {voice.small(comes.row_cm)} from each other"
    )
    spaced = "" if comes.spacing_cm is None else f" {voice.small(comes.spacing_cm)} apart"
    if comes.way == "here":
        plants = f"; {comes.plants} plants{spaced}" if comes.piece == "seeds" else spaced
        return f"{comes.pieces} {comes.piece} for {rows}{apart}{plants}."
    return f"{comes.plants} plants in {rows}{apart},{spaced}."


def _count(text: str) -> str:
    return text.replace(",.", ".")


def _place(found: SentenceLook, voice: Voice) -> str:
    block = found.comes_to.block
    if block is None:
        return (
            f"No free place in {found.bed_name} holds that. Something there has to be cleared first, or "
            "shares its ground."
        )
    free = found.comes_to.free_m2
    stays = "" if free is None else f"; {voice.area(free) if free > 0.05 else 'nothing'} stays free"
    across = ", rows across the bed" if found.comes_to.across else ""
    return (
        f"It takes {voice.length(block.width_m)} by {voice.length(block.length_m)} of {found.bed_name}"
        f"{across}{stays}."
    )
