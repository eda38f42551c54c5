"""The water of each bed."""

from __future__ import annotations

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped


def water(bed: str = "", *, common: Common | None = None) -> None:
    """What each bed holds, what is gone of it, when it goes short, and what to give.

    Parameters
    ----------
    bed : str
        Only this bed.
    """
    from spadework.usecases.show_water import show_water

    common = common or Common()
    found = show_water(common.garden, common.day, bed=bed)

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        if not found.beds:
            print("Nothing grows there.")
        for each in found.beds:
            short = (
                "will probably not go short within three weeks"
                if each.short is None
                else "is short today"
                if each.short == found.today
                else f"goes short about {voice.day(each.short)}"
            )
            give = f" To fill it: {each.give}." if each.give and each.gone_mm >= 1.0 else ""
            told = voice.told(
                f"{each.name} {short}: {each.gone_mm:.0f} mm are gone, {each.spare_mm:.0f} mm can easily be "
                f"spared, its roots reach {each.holds_mm:.0f} mm. Rain does it within two days in "
                f"{each.rain.years_yes} of {each.rain.years} years.{give}"
            )
            print(wrapped(told))
            for said in (*filter(None, [each.allowance]), *each.finger[-3:], *each.assumed):
                print(wrapped(voice.told(said), 4, "  · "))
        if found.note:
            print(wrapped(voice.told(found.note)))

    answer(common, found, tell)
