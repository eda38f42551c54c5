"""Pick what there is today, or wait."""

from __future__ import annotations

from spadework.advice.weigh_pick import PickAnswer
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import dots, table, wrapped
from spadework.faces.voice import Voice
from spadework.usecases.lock_lines import locks_about


def pick_now(planting: str, *, common: Common | None = None) -> None:
    """Pick what there is today, or wait: size against what passes its best, freezes, splits or runs to seed.

    Parameters
    ----------
    planting : str
        A planting's key, or a crop's name where one planting of it stands.
    """
    from spadework.usecases.weigh_picking import weigh_picking

    common = common or Common()
    found = weigh_picking(common.garden, common.day, planting)
    answer(
        common,
        found,
        lambda: _tell(found, voice_of(common)),
        locks=lambda: locks_about(common.garden, common.day, crop=found.key),
    )


def _tell(found: PickAnswer, voice: Voice) -> None:
    verdict = {
        "pick": "pick today.",
        "wait": "wait." if found.day is None else f"wait until {voice.day(found.day, weekday=True)}.",
        "locked": "not now: it is locked.",
    }[found.verdict]
    print(f"{found.crop[:1].upper()}{found.crop[1:]} in {found.where}: {verdict}")
    print(wrapped(voice.told(found.reason)))
    print()
    rows = [
        [
            voice.day(option.day),
            f"{option.there.years_yes} of {option.there.years}",
            voice.told(f"{option.good_kg:.1f} kg"),
            _tenths(option.past),
            _tenths(option.spoilt),
        ]
        for option in found.options
    ]
    print(table(["picked on", "there", "good", "past it", "spoilt"], rows, frozenset({2, 3, 4})))
    print()
    print(f"  {dots(found.options[0].there)}")
    print(wrapped(f"Ready: {found.sign}."))
    tail([], [caution.text for caution in found.cautions], found.note, voice)


def _tenths(share: float) -> str:
    """A share in words: tenths."""
    tenths = round(share * 10.0)
    return "none" if share < 0.005 else "a little" if tenths == 0 else f"{tenths} in 10"
