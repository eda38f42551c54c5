"""Locks, first and loud."""

from __future__ import annotations

from collections.abc import Iterable

from spadework.faces.cli.say import wrapped
from spadework.faces.voice import Voice
from spadework.usecases.lock_lines import LockLine


def tell_locks(locks: Iterable[LockLine], voice: Voice, *, gap: bool = True, indent: int = 0) -> None:
    """Every lock in full, each once, with the end of the key it is lifted by; a gap before what follows."""
    said = {f"LOCK {line.key}  {voice.told(line.text)}": None for line in locks}
    for text in said:
        print(wrapped(text, 5 + indent, first=f"{' ' * indent}! "))
    if said and gap:
        print()
