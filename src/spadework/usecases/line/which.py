"""Questions about what is meant: which plants, which bed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from spadework.garden.phrases import day_text
from spadework.garden.planting import Planting
from spadework.garden.question import Question
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word
from spadework.usecases.line.marks import Mark


@dataclass(slots=True)
class Sense:
    """What is needed to find the plants meant, and the questions that came up.

    Parameters
    ----------
    garden : Garden
    bed, planting : str
        Given beside the line, as the answer to a question: keys, or a crop's for the planting; "all" for all
        that were asked about.
    questions : list of Question
    words : "british" or "american"
    """

    garden: Garden
    words: Words = "british"
    bed: str = ""
    planting: str = ""
    questions: list[Question] = field(default_factory=list)

    def ask(self, question: Question) -> None:
        """Keep a question once."""
        if question not in self.questions:
            self.questions.append(question)


def ask_place(sense: Sense) -> None:
    """Ask for bed and crop where neither is named."""
    sense.ask(
        Question(
            about="planting",
            found="Which plants, in which bed?",
            why="Name the crop or the bed in the line, or give --bed or --planting.",
            may_insist=False,
        )
    )


def ask_bed(sense: Sense, what: str) -> None:
    """Ask where something was put."""
    sense.ask(
        Question(
            about="bed",
            found=f"{what} where?",
            why="Name the bed in the line, or give it with --bed.",
            nearest=(),
            may_insist=False,
        )
    )


def ask_which(sense: Sense, what: str, choices: Sequence[str], about: str = "planting") -> None:
    """Ask which of some names is meant."""
    shown = ", ".join(choices[:-1]) + f" or {choices[-1]}" if len(choices) > 1 else "".join(choices)
    sense.ask(
        Question(
            about="bed" if about == "bed" else "planting",
            found=f"Which {what}: {shown}?",
            why=f"Say it in the line, or give it with {'--bed' if about == 'bed' else '--planting'}.",
            nearest=tuple(choices),
            may_insist=False,
        )
    )


def ask_plants(sense: Sense, name: str, here: Sequence[Planting]) -> None:
    """Ask which of several plantings is meant."""
    garden = sense.garden
    beds = [garden.beds[each.bed].name if each.bed in garden.beds else "no bed" for each in here]
    if len(set(beds)) == len(here):
        choices = beds
        if len({each.crop for each in here}) > 1:
            choices = [
                f"{crop_word(each.crop, sense.words, many=True)} in {bed}"
                for each, bed in zip(here, beds, strict=True)
            ]
        why = 'Name the bed in the line, or give --bed; "all" means all of them.'
        nearest = tuple(beds)
    else:
        choices = [
            f"{bed}, {'planted' if each.sown_on is None else 'sown'} {day_text(each.started_on)}"
            for each, bed in zip(here, beds, strict=True)
        ]
        why = "Give --planting with one of these."
        nearest = tuple(each.key for each in here)
    shown = (
        "; ".join(choices)
        if any("," in each for each in choices)
        else ", ".join(choices[:-1]) + f" or {choices[-1]}"
    )
    sense.ask(
        Question(
            about="planting", found=f"Which {name}: {shown}?", why=why, nearest=nearest, may_insist=False
        )
    )


def ask_elsewhere(sense: Sense, crop: Mark, standing: Sequence[Planting], beds: Sequence[str]) -> None:
    """Ask about a crop that stands in another bed than the one named."""
    garden = sense.garden
    there = tuple(dict.fromkeys(garden.beds[each.bed].name for each in standing if each.bed in garden.beds))
    named = " or ".join(garden.beds[bed].name for bed in beds if bed in garden.beds)
    name = crop_name(sense, crop)
    stand = "stand" if name.endswith("s") else "stands"
    sense.ask(
        Question(
            about="planting",
            found=f"No {name} {stand} in {named}, but in {', '.join(there)}.",
            why="Either the bed or the crop is another.",
            nearest=there,
            may_insist=False,
        )
    )


def crop_name(sense: Sense, crop: Mark) -> str:
    """What a crop is called in a question."""
    if crop.plain.endswith("s") or crop.crop is None:
        return crop.plain
    return crop_word(crop.crop[0], sense.words, many=True)
