"""The names an entry is told with: of its bed, its crop, and the two together."""

from __future__ import annotations

from typing import Protocol

from spadework.garden.entries import Entry
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word


class Said(Protocol):
    """What is put into words: an entry, or an act that is none yet."""

    @property
    def bed(self) -> str: ...

    @property
    def planting(self) -> str: ...

    @property
    def batch(self) -> str: ...

    @property
    def withdraws(self) -> str: ...

    @property
    def replaces(self) -> str: ...


class EntryNames:
    """The names one entry is told with."""

    def __init__(self, said: Entry | Said, garden: Garden, words: Words) -> None:
        self.garden = garden
        self.words = words
        self.litre = "liter" if words == "american" else "litre"
        self.planting = garden.plantings.get(said.planting)
        self.named = said.planting
        self.batch = said.batch
        stands = "" if self.planting is None else self.planting.bed
        self.bed_key = said.bed or stands

    def bed_name(self, key: str) -> str:
        """A bed by its name."""
        return self.garden.beds[key].name if key in self.garden.beds else key

    def at(self, word: str = "in") -> str:
        """Where: " in Bed 3", or nothing."""
        return f" {word} {self.bed_name(self.bed_key)}" if self.bed_key else ""

    def crop(self, crop: str = "", *, many: bool = True) -> str:
        """The crop it is about; "plants" where none is known."""
        crop = crop or ("" if self.planting is None else self.planting.crop)
        if not crop:
            return self.named or "plants"
        return crop_word(crop, self.words, many=many)

    def it(self, word: str = "in") -> str:
        """What it was done to: "carrots in Bed 3", or the bed alone."""
        if self.planting is not None or self.named:
            return f"{self.crop()}{self.at(word)}"
        return self.bed_name(self.bed_key) if self.bed_key else "the garden"
