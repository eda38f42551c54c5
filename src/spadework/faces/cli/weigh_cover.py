"""Shut, open by day, or off: a bed's cover weighed."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import table, wrapped
from spadework.faces.voice import Voice
from spadework.usecases.lock_lines import locks_about
from spadework.usecases.weigh_covering import CoverAnswer


def cover(
    *bed: str,
    item: Annotated[str, Parameter(help="A piece of kit; else what lies there, or usual fleece.")] = "",
    common: Common | None = None,
) -> None:
    """Is a bed better under its cover, with it open by day, or bare?

    Parameters
    ----------
    bed : str
        The bed.
    """
    from spadework.usecases.weigh_covering import weigh_covering

    common = common or Common()
    found = weigh_covering(common.garden, common.day, " ".join(bed), item=item)
    answer(
        common,
        found,
        lambda: _tell(found, voice_of(common)),
        locks=lambda: locks_about(common.garden, common.day, bed=found.bed),
    )


def _tell(found: CoverAnswer, voice: Voice) -> None:
    lies = "lies there" if found.lies else "does not lie there now"
    print(f"{found.cover} on {found.name}, which {lies}: best {found.verdict}, then {found.second}.")
    print(wrapped(voice.told(found.reason)))
    print()
    rows = [[option.state, f"{option.costs * 100:.1f} in 100"] for option in found.options]
    print(table(["", "of its worth it costs"], rows, frozenset({1})))
    tail([], [], found.note, voice)
