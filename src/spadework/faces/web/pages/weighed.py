"""A decision as every page of them shows it: the act, why, options side by side, and what would change it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from markupsafe import Markup

from spadework.advice.odds import Caution, Fact, Odds
from spadework.faces.web.visit import Page, Visit
from spadework.usecases.lock_lines import LockLine
from spadework.usecases.read_sheets import list_sheets, sheet_key


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One option: its name, what it comes to, and its odds where it has any."""

    name: str
    said: str
    odds: Odds | None = None
    best: bool = False


@dataclass(frozen=True, kw_only=True)
class Asking:
    """A blank of the sentence a decision is asked by.

    Parameters
    ----------
    before : str
        Words that lead to it, its label.
    name : str
        In the address.
    kind : str
    value : str
    choices : sequence of (str, str)
        Value and words, for one that is chosen.
    after : str
        Words after it.
    """

    before: str
    name: str
    kind: Literal["number", "date", "choice", "text"]
    value: str = ""
    choices: Sequence[tuple[str, str]] = ()
    after: str = ""


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """A decision as it is shown.

    Parameters
    ----------
    asking : sequence of Asking
        The sentence it is asked by; filled anew it is asked anew.
    kept : mapping of str to str
        What the address keeps beside the blanks.
    picture : Markup or None
    pictured : str
        What the picture shows.
    turns : sequence of str
        What would change the answer.
    rest : sequence of sequence of str
        Further options as a table, its headings first.
    likely : sequence of (str, str)
        Words and address of decisions of this kind that wait here now.
    open : bool
        It is not said yet what it is about.
    """

    title: str
    lead: str
    reason: str
    about: str = ""
    choices: Sequence[Choice] = ()
    facts: Sequence[Fact] = ()
    cautions: Sequence[Caution] = ()
    assumptions: Sequence[str] = ()
    locks: Sequence[LockLine] = ()
    note: str = ""
    asking: Sequence[Asking] = ()
    picture: Markup | None = None
    pictured: str = ""
    turns: Sequence[str] = ()
    rest: Sequence[Sequence[str]] = ()
    rest_name: str = ""
    wrong: str = ""
    likely: Sequence[tuple[str, str]] = ()
    open: bool = False


def page(weighed: Weighed) -> Page:
    """The page of a decision."""
    return Page("weighed.html", {"weighed": weighed})


def choose(title: str, blank: Asking, *, likely: Sequence[tuple[str, str]] = (), wrong: str = "") -> Page:
    """The page of a decision that does not say yet what it is about: what it may be is chosen there.

    Parameters
    ----------
    title : str
    blank : Asking
        The blank it is chosen in.
    likely : sequence of (str, str)
        Words and address of what is to be decided here now.
    wrong : str
        Why what was chosen cannot be weighed.
    """
    some = bool(blank.choices)
    return page(
        Weighed(
            title=title,
            lead="That cannot be weighed." if wrong else "What is it about?",
            reason=""
            if some
            else "Nothing stands here that it could be weighed for; say first what was sown or planted.",
            wrong=wrong,
            likely=likely,
            asking=[blank] if some else [],
            open=True,
        )
    )


def crop_blank(visit: Visit, before: str, crop: str, after: str = "") -> Asking:
    """A blank for a crop: every one that has a sheet, by its name here."""
    known = [(key, name) for name, key in crops_named(visit)]
    chosen = sheet_key(crop)
    empty = [] if chosen else [("", "which crop?")]
    return Asking(
        before=before, name="crop", kind="choice", value=chosen, choices=[*empty, *known], after=after
    )


def crops_named(visit: Visit) -> list[tuple[str, str]]:
    """Every crop that has a sheet, by its name here, with its key."""
    american = visit.site.words == "american"
    return sorted((each.american if american else each.british, each.key) for each in list_sheets())


def years(odds: Odds) -> str:
    """Odds in a sentence."""
    return f"in {odds.years_yes} of {odds.years} years"


def sentence(text: str) -> str:
    """With a capital, and a full stop."""
    text = text.strip()
    return f"{text[:1].upper()}{text[1:]}{'' if text.endswith(('.', '?', '!')) else '.'}"


def tenths(share: float) -> str:
    """A share in words."""
    found = round(share * 10.0)
    return "none" if share < 0.005 else "a little" if found == 0 else f"{found} in 10"
