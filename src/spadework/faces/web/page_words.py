"""What a refusal or a question says to do, on a page: there are no commands and no options there."""

from __future__ import annotations

import re
from typing import Final

_RULES: Final = tuple(
    (re.compile(said), instead)
    for said, instead in (
        (
            r"Add a record: spadework weather add FILE \(CSV or \.dly\)\.",
            "Tell twelve monthly means under Weather.",
        ),
        (
            r"Add a record \(spadework weather add FILE\), or tell twelve monthly normals "
            r"\(spadework tell normals\)\.",
            "Tell twelve monthly means under Weather.",
        ),
        (r" \(spadework tell (?:minimum|normals)\)", " under Weather"),
        (r"See the keys with: spadework told", "They stand under Weather."),
        (r"See the keys with: spadework book", "They stand in the book."),
        (r"Name the entry by its key; see: spadework book", "Choose it in the book."),
        (r"Correct the one that stands; see: spadework book", "Correct the one that stands in the book."),
        (r"Name the planting; see: spadework standing", "Choose it under Garden."),
        (r"See what stands with: spadework standing", "What stands is shown under Garden."),
        (r"See them with: spadework jobs", "Today’s jobs are on the round."),
        (r"See them all with: spadework law", "All of them are under Laws in the shed."),
        (r"List them all with: spadework sheets", "All of them are under Sheets in the shed."),
        (r"Ask (?:instead|what to sow now) with: spadework weigh sow", "Ask under Weigh when to sow."),
        (r"Count a metre: spadework done \S+ --standing N", "Count a metre, and say it in the book."),
        (r"To describe it anew: spadework bed change .*", "It is described anew under Garden."),
        (r"(?:Withdraw it|To give that back): spadework undo(?: KEY)?\.?", "Take it back in the book."),
        (r",? or give (?:it with )?--[a-z-]+(?: or --[a-z-]+)?", ""),
        (r"Give --planting with one of these\.", "Name one of these."),
        (r"Give --by NAME, or set \w+\.", "Say who you are."),
        (r"Correct the date, or --today\.", "Correct the date."),
        (r"Give the first day as --since\.", "Give the earlier day first."),
        (r"Give --on, or leave the hour out\.", "Give one day, or leave the hour out."),
        (r"Give --until after --from, on the same day\.", "Let it end after it begins, on the same day."),
        (r"Normals need --tmin, --tmax and --rain\.", "Nights, days and rain are needed."),
        (r", or a table: --file normals\.csv", ""),
        (r", or set --today(?: to ask as of then)?|; set --today to ask as of then", ""),
        (r" ?Set --today\.", ""),
        (r"today's count goes to --up\.", "today's count is the one of today."),
        (r", or correct --seeds", ", or correct the seeds"),
        (r"--tmin\b", "the nights"),
        (r"--tmax\b", "the days"),
        (r"--wet-days\b", "the wet days"),
        (r" ?Say it with --[a-z-]+(?: or --[a-z-]+)?\.?", " Write it beside it."),
        (r"--[a-z-]+ (?=[-\d'])", ""),
        (r" \(In place of \w+\.\)", " (In place of what was written before.)"),
    )
)


def on_page(text: str) -> str:
    """A message or hint without commands and options, as far as they are known here."""
    for said, instead in _RULES:
        text = said.sub(instead, text)
    return text
