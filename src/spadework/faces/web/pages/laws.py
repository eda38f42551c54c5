"""Laws to try by hand: each a sentence with blanks, its result and on whose word it is."""

from __future__ import annotations

from typing import Final

from spadework.errors import ParameterError, UnknownName
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.law_book import LAWS
from spadework.usecases.laws import evaluate, find_law


def show_laws(visit: Visit) -> Page:  # noqa: ARG001 - the same for every garden
    """All of them."""
    return Page("laws.html", {"laws": list(LAWS.values())})


def show_law(visit: Visit) -> Page:
    """One, with what was put into its blanks."""
    law = find_law(LAWS, visit.names["law"])
    given = {blank.name: visit.text(blank.name) for blank in law.blanks if visit.text(blank.name)}
    found, wrong = None, ""
    if given:
        try:
            found = evaluate(LAWS, law.name, given)
        except (ParameterError, UnknownName) as error:
            wrong = str(error)
    return Page("law.html", {"law": law, "given": given, "found": found, "wrong": wrong})


WAYS: Final = (
    Way("/laws", show_laws),
    Way("/law/{law}", show_law),
)
