"""What every list that is taken in says of itself, and how its acts are asked about and written."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import msgspec

from spadework.store.garden_folder import GardenFolder
from spadework.usecases.keep_book import Act, State, author_key, write_acts


class AskedOfRow(msgspec.Struct, frozen=True, kw_only=True):
    """A question about a row of a list."""

    row: int
    found: str
    why: str
    nearest: tuple[str, ...]
    may_insist: bool


class ListTaken(msgspec.Struct, frozen=True, kw_only=True):
    """What a list brought.

    Parameters
    ----------
    file : str
        With the sheet where there are several.
    what : "beds" or "years"
    stored : bool
        Whether it is in the book; False where something was asked first, or only a trial was wanted.
    trial : bool
    rows : int
        With anything in them.
    new, changed, known : int
        Things the book did not have, had otherwise, and had already.
    notes : list of str
        What was taken for granted, and what was not taken.
    questions : list of AskedOfRow
    """

    file: str
    what: str
    stored: bool
    trial: bool
    rows: int
    new: int
    changed: int
    known: int
    notes: list[str]
    questions: list[AskedOfRow]


def write_list(
    folder: GardenFolder,
    state: State,
    acts: Sequence[tuple[int, Act]],
    *,
    today: date,
    by: str,
    insist: bool,
    trial: bool,
) -> tuple[bool, list[AskedOfRow]]:
    """Ask about the acts of a list and write all or none.

    Parameters
    ----------
    acts : sequence of (int, Act)
        Each with its row, from 0.
    by : str
        Who writes; empty for the usual one.

    Returns
    -------
    tuple of (bool, list of AskedOfRow)
        Whether they are in the book, and what was asked.
    """
    if not acts:
        return not trial, []
    written = write_acts(
        folder,
        [act for _, act in acts],
        today=today,
        author=author_key(state.garden, by),
        insist=insist,
        state=state,
        only_ask=trial,
    )
    asked = [
        AskedOfRow(
            row=acts[place][0] + 1,
            found=question.found,
            why=question.why,
            nearest=question.nearest,
            may_insist=question.may_insist,
        )
        for place, question in written.questions
    ]
    return written.stored, asked
