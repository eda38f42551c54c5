"""Why it ails, and who ate it: a planting, a part of it, one question after another, and what came of it.

Nothing is kept between two pages: what was said so far stands in the address.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Final, Literal, TypeAlias
from urllib.parse import urlencode

from spadework.faces.chance_words import chance_said
from spadework.faces.voice import in_years
from spadework.faces.web.visit import Answer, Asks, Go, Page, Visit, Way
from spadework.usecases.ailing import ask_ailing
from spadework.usecases.ailing_answer import AilingAnswer, Asked, Told
from spadework.usecases.ailing_signs import called, sign_called, signs_by_part, standing
from spadework.usecases.note_ailing import note_finding
from spadework.usecases.read_sheets import list_sheets

PARTS: Final[Mapping[str, str]] = {
    "leaf": "The leaves",
    "growing tip": "The growing tip",
    "stem": "The stem",
    "flower": "The flowers",
    "fruit": "Fruit or pods",
    "root": "The roots",
    "bulb": "The bulb",
    "tuber": "The tubers",
    "seedling": "The seedlings",
    "seed": "The seeds",
    "whole plant": "The whole plant, or the bed",
}
"""Parts of a plant as they are offered."""

Look: TypeAlias = Literal["yes", "no", "unknown"]

ANSWERS: Final[Mapping[Look, str]] = {"yes": "yes", "no": "no", "unknown": "cannot tell"}

HEADS: Final[Mapping[Asked, str]] = {"ailing": "What ails it?", "bitten": "Who ate it?"}


@dataclass(frozen=True)
class Said:
    """What was said so far, as it stands in the address.

    Parameters
    ----------
    asked : Asked
    planting, crop : str
        One of them.
    part : str
        Of the plant, whose signs are shown to be chosen from.
    words : tuple of str
        Free words.
    looks : mapping of str to Look
        Answers by key of sign.
    """

    asked: Asked
    planting: str = ""
    crop: str = ""
    part: str = ""
    words: tuple[str, ...] = ()
    looks: Mapping[str, Look] = field(default_factory=dict)

    def fields(self) -> dict[str, str]:
        """All of it but the part, as fields of an address or a form."""
        found = {"planting": self.planting, "crop": "" if self.planting else self.crop}
        found["words"] = "; ".join(self.words)
        for look in ANSWERS:
            found[look] = ",".join(key for key, given in self.looks.items() if given == look)
        return {name: value for name, value in found.items() if value}

    def address(self) -> str:
        """Where the page with all this is."""
        given = self.fields() | ({"part": self.part} if self.part else {})
        return f"/{self.asked}?{urlencode(given)}" if given else f"/{self.asked}"

    def answered(self, sign: str, look: Look) -> str:
        """Where the page with one more answer is."""
        return replace(self, part="", looks={**self.looks, sign: look}).address()

    def without(self, sign: str) -> str:
        """Where the page without an answer is."""
        left = {key: look for key, look in self.looks.items() if key != sign}
        return replace(self, looks=left).address()

    def of_part(self, part: str) -> str:
        """Where the signs of a part are chosen from."""
        return replace(self, part=part).address()

    def only(self, words: str) -> str:
        """Where the page without some words is."""
        return replace(self, words=tuple(each for each in self.words if each != words)).address()


def _said(visit: Visit, asked: Asked) -> Said:
    looks: dict[str, Look] = {}
    for look in ANSWERS:
        looks |= dict.fromkeys((key for key in visit.text(look).split(",") if key), look)
    words = [*visit.text("words").split(";"), visit.text("say")]
    return Said(
        asked=asked,
        planting=visit.text("planting"),
        crop=visit.text("crop"),
        part=visit.text("part"),
        words=tuple(dict.fromkeys(each.strip() for each in words if each.strip())),
        looks=looks,
    )


def _answer(visit: Visit, said: Said) -> AilingAnswer:
    told = Told(words=said.words, looks=dict(said.looks))
    return ask_ailing(visit.garden, visit.today, said.crop, told, planting=said.planting, asked=said.asked)


def show(asked: Asked, visit: Visit) -> Page:
    """Choose what ails; then the plant to touch; then question by question what it is."""
    said = _said(visit, asked)
    head = {"asked": asked, "head": HEADS[asked], "so_far": said}
    if not said.planting and not said.crop:
        american = visit.site.words == "american"
        crops = sorted(
            ((each.american if american else each.british, each.key) for each in list_sheets()),
            key=lambda each: each[0].casefold(),
        )
        return Page(
            "ailing_choose.html", {**head, "standing": standing(visit.garden, visit.today), "crops": crops}
        )
    if not said.planting:
        here = standing(visit.garden, visit.today, said.crop)
        if len(here) > 1:
            return Page("ailing_choose.html", {**head, "standing": here, "crops": ()})
        if here:
            said = replace(said, planting=here[0].planting)
            head["so_far"] = said
    crop, name, where = called(visit.garden, visit.today, planting=said.planting, crop=said.crop)
    by_part = {each.part: each.signs for each in signs_by_part(visit.garden, visit.today, crop, asked)}
    told = bool(said.words or said.looks)
    return Page(
        "ailing.html",
        {
            **head,
            "name": name,
            "where": where,
            "parts": {part: PARTS[part] for part in by_part},
            "leads": {part: said.of_part(part) for part in by_part},
            "shown": [each for each in by_part.get(said.part, []) if each.sign not in said.looks],
            "found": _answer(visit, said) if told else None,
            "told_signs": [(sign_called(key), ANSWERS[look]) for key, look in said.looks.items()],
            "chance": chance_said,
            "years": in_years,
        },
    )


def note(visit: Visit) -> Answer:
    """What it is held to be goes into the book."""
    asked: Asked = "bitten" if visit.text("asked") == "bitten" else "ailing"
    said = _said(visit, asked)
    found = _answer(visit, said)
    written = note_finding(visit.garden, visit.writing, found, cause=visit.text("cause"))
    if not written.stored:
        return Asks(written.questions, written.can_insist)
    words = [*(line.text for line in written.entries), *(lock.text for lock in written.locks)]
    undo = written.entries[-1].key if written.entries else ""
    to = f"/planting/{found.planting}" if found.planting else "/book"
    return Go(to, f"In the book: {' '.join(visit.voice.told(each) for each in words)}", undo=undo)


WAYS: Final = (
    Way("/ailing", partial(show, "ailing")),
    Way("/bitten", partial(show, "bitten")),
    Way("/ailing/note", note, post=True, least="helper"),
)
