"""Marks: what each stretch of a line may mean, before it is known what the line as a whole says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from spadework.crops.names import Whole
from spadework.usecases.line.amounts import Amount
from spadework.usecases.line.days import Day
from spadework.usecases.line.numbers import Number


@dataclass(slots=True, eq=False)
class Mark:
    """One stretch of a line with all it may mean.

    Parameters
    ----------
    first, last : int
        Its words; `last` is one past the end.
    text : str
        As written.
    plain : str
        In plain spelling.
    means : mapping of str to str
        Sort of meaning to what it is: "act" to "weed", "thing" to "slugs", "kit" to the item's key.
    beds : tuple of str
        Keys of beds it names; several for "beds 3 and 7".
    no_bed : str
        A bed named that is not known.
    maybe_beds : tuple of str
        Where one is named that may be several: "the tub".
    crop : Whole or None
    crops : tuple of str
        Where it may be several.
    day, hour, amount, number : Day, float, Amount, Number or None
    ratio : tuple of (float, float) or None
        "2 of 3".
    stop : bool
        It parts clauses: a comma, a full stop, "and".
    used : bool
        Something of the answer came from it.
    """

    first: int
    last: int
    text: str
    plain: str
    means: Mapping[str, str] = field(default_factory=dict)
    beds: tuple[str, ...] = ()
    no_bed: str = ""
    maybe_beds: tuple[str, ...] = ()
    crop: Whole | None = None
    crops: tuple[str, ...] = ()
    day: Day | None = None
    hour: float | None = None
    amount: Amount | None = None
    number: Number | None = None
    ratio: tuple[float, float] | None = None
    stop: bool = False
    used: bool = False
    notes: list[str] = field(default_factory=list)

    @property
    def is_crop(self) -> bool:
        """Whether it names a crop, known or one of several."""
        return self.crop is not None or bool(self.crops)

    @property
    def is_bed(self) -> bool:
        """Whether it names a bed."""
        return bool(self.beds or self.no_bed or self.maybe_beds)

    @property
    def is_plain_word(self) -> bool:
        """Whether nothing is known of it."""
        return (
            not (
                self.means
                or self.is_bed
                or self.is_crop
                or self.stop
                or self.day
                or self.amount
                or self.number
            )
            and self.hour is None
            and self.ratio is None
        )
