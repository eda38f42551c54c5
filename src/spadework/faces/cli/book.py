"""Read the book, and take an entry back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, Writes, answer, read_date
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written
from spadework.faces.voice import Voice
from spadework.usecases.show_book import BookLine

USUAL = 40


def book(
    *,
    bed: Annotated[str, Parameter(help="Only of this bed.")] = "",
    crop: Annotated[str, Parameter(help="Only of this crop, by any name.")] = "",
    kind: Annotated[str, Parameter(help='Only of this kind: sown, picked, weeded, "cover on", undo.')] = "",
    by: Annotated[str, Parameter(help="Only what this person wrote.")] = "",
    from_: Annotated[str | None, Parameter(name="--from", help="First day.")] = None,
    to: Annotated[str | None, Parameter(help="Last day.")] = None,
    known_on: Annotated[str | None, Parameter(help="As known at the end of that day.")] = None,
    last: Annotated[str, Parameter(help="How many of the newest, or all.")] = str(USUAL),
    common: Common | None = None,
) -> None:
    """What was seen and done, newest last; what was undone or corrected is shown as such."""
    from spadework.usecases.show_book import read_book

    common = common or Common()
    today = common.day
    found = read_book(
        common.garden,
        today,
        bed=bed,
        crop=crop,
        kind=kind,
        by=by,
        first=None if from_ is None else read_date(from_, "--from", today),
        last=None if to is None else read_date(to, "--to", today),
        known_on=None if known_on is None else read_date(known_on, "--known-on", today),
        most=read_most(last),
    )

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        if not found.entries:
            print("Nothing is written of that." if bed or crop or kind or by else "The book is empty.")
            return
        if found.earlier:
            print(f"{found.earlier} earlier; all with --last all")
        tell_lines(found.entries, voice)

    answer(common, found, tell)


def undo(
    key: str = "",
    *,
    together: Annotated[
        bool, Parameter(negative="", help="Also what the same person wrote in the same breath.")
    ] = False,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Take back an entry; it stays in the book, shown as undone. Undoing an undo gives it back.

    Parameters
    ----------
    key : str
        The entry's key, or the end of it; without it your own last one.
    """
    from spadework.usecases.take_back import take_back

    common, writes = common or Common(), writes or Writes()
    found = take_back(common.garden, writes.writing(common), key, together=together)
    answer_written(common, found)


def tell_lines(lines: Sequence[BookLine], voice: Voice) -> None:
    """Entries, one under another, with day, person and the end of the key."""
    width = max((len(voice.day(line.on)) for line in lines), default=0)
    for line in lines:
        state = f"({line.state}) " if line.state else ""
        insisted = " (Insisted on.)" if line.insisted else ""
        by = f"{line.by_name}: " if line.by_name else ""
        head = f"  {voice.day(line.on).rjust(width)}  {line.short}  "
        print(wrapped(f"{state}{by}{voice.told(line.text)}{insisted}", len(head), first=head))


def read_most(text: str) -> int | None:
    """How many entries, or all.

    Raises
    ------
    ParameterError
    """
    if text.strip().lower() == "all":
        return None
    if not text.strip().isdigit() or int(text) < 1:
        raise ParameterError(f"--last {text!r} is no number of entries.", "Give 1 or more, or all.")
    return int(text)
