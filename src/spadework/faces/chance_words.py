"""A chance as people say it."""

from __future__ import annotations


def chance_said(chance: float) -> str:
    """A chance as so many in ten, or in a hundred where it is small."""
    if chance >= 0.95:
        return "nearly sure"
    if chance >= 0.095:
        return f"{round(chance * 10)} in 10"
    return f"{max(round(chance * 100), 1)} in 100"
