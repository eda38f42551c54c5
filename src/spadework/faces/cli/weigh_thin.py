"""Thin now, a week later, or not at all."""

from __future__ import annotations

from spadework.advice.weigh_thin import ThinAnswer, ThinOption
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import table, wrapped
from spadework.faces.voice import Voice
from spadework.usecases.lock_lines import locks_about


def thin(name: str, *, common: Common | None = None) -> None:
    """Thin a row now, a week later, or not at all, and to which distance: sizes, kilos and minutes.

    Parameters
    ----------
    name : str
        A planting by key, or a crop of which one sown row stands.
    """
    from spadework.usecases.weigh_thinning import weigh_thinning

    common = common or Common()
    today = common.day
    found = weigh_thinning(common.garden, today, name)
    answer(
        common,
        found,
        lambda: _tell(found, voice_of(common)),
        locks=lambda: locks_about(common.garden, today, crop=found.crop),
    )


def _what(option: ThinOption, voice: Voice) -> str:
    if option.to_cm is None:
        return "not at all"
    return f"{option.when}, to {voice.small(option.to_cm)}"


def _tell(found: ThinAnswer, voice: Voice) -> None:
    best = found.options[found.best]
    head = "leave them" if best.to_cm is None else f"thin {_what(best, voice)}"
    print(f"{found.crop.capitalize()} in {found.bed}: {head}.")
    print(wrapped(voice.told(found.reason)))
    print(f"{found.standing} stand on {voice.length(found.row_m)} of row.\n")
    rows = [
        [
            _what(option, voice),
            str(option.stay),
            str(option.removed),
            f"{option.minutes:.0f}",
            str(option.good),
            voice.told(f"{option.each_g:.0f} g"),
            voice.weight(option.kg),
        ]
        for option in found.options
    ]
    head_row = ["", "stay", "out", "minutes", "worth having", "each", "in all"]
    print(table(head_row, rows, frozenset({1, 2, 3, 4, 5, 6})))
    tail(found.assumptions, [], found.note, voice)
