"""Errors a person can act on. Only faces catch them; a traceback is for a bug."""

from __future__ import annotations

from dataclasses import dataclass


class SpadeworkError(Exception):
    """Root of all known errors: what was found, and what to do about it.

    Parameters
    ----------
    message : str
        One sentence with the value found and the place.
    hint : str
        What is allowed or what to do, in one sentence. May be empty.
    """

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.message} {self.hint}".strip()


class ParameterError(SpadeworkError):
    """A number or word given to a law or command lies outside what it can take."""


class UnknownName(SpadeworkError):
    """A name that nothing answers to. The hint lists the nearest known names."""


class RecordError(SpadeworkError):
    """The weather record cannot answer: no record, too few years, or a date outside it."""


class GardenError(SpadeworkError):
    """The garden folder is missing, incomplete or not writable."""


class StoreError(SpadeworkError):
    """The book could not be opened, read or written. Nothing was acknowledged."""


class StoreReadOnly(StoreError):
    """The book can be read but not written: the folder is read-only, or the book is damaged."""


class StoreDamaged(StoreReadOnly):
    """The book is damaged. The hint names the way back."""


class EntryConflict(StoreError):
    """An entry came with the key of one that is in the book and says something else."""


class FetchError(SpadeworkError):
    """A weather service could not be reached, or refused to answer. Nothing was changed."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong in a file: where, what was found, what is allowed, what to do."""

    where: str
    found: str
    allowed: str
    do: str

    def __str__(self) -> str:
        return f"{self.where}: found {self.found}; allowed: {self.allowed}. {self.do}"


class InputFileError(SpadeworkError):
    """A file refused whole, with every fault in it. Nothing of it was taken.

    Parameters
    ----------
    name : str
        The file's name as the person gave it.
    faults : list of Fault
        At least one, in file order.
    """

    def __init__(self, name: str, faults: list[Fault]) -> None:
        shown = "\n".join(f"  {fault}" for fault in faults[:12])
        more = f"\n  ... and {len(faults) - 12} more" if len(faults) > 12 else ""
        super().__init__(f"{name} was not taken; nothing was changed.\n{shown}{more}")
        self.name = name
        self.faults = faults
