"""How a harvest keeps, in a sentence, with the usual cautions. Source: common-practice."""

from __future__ import annotations

from typing import Final

from spadework.advice.odds import Caution, Fact
from spadework.crops.sheet import Sheet

_BY_KIND: Final = {
    "bulb": "Cure them two to three weeks in a dry, airy, shaded place until the necks are dry; eat soft and "
    "thick-necked ones first.",
    "tuber": "Dry them for some hours, keep them two weeks in the dark at 10 to 15 °C until the skins are "
    "set, then cool and dark; eat cut ones first.",
    "root": "Twist off the leaves, leave the soil on, and lay them cold and damp, in sand or a lined box; "
    "eat broken ones first.",
}
_CURED: Final = (
    "Leave a piece of stem on, cure them ten days in the warm and dry, then keep them at 10 to 15 °C."
)
_BY_CROP: Final = {
    "sweet-potato": "Cure them a week or more in warm, damp air of about 29 °C, then keep them at "
    "13 to 16 °C.",
    "pumpkin": _CURED,
    "winter-squash": _CURED,
}

MUCH_KG: Final = 3.0
"""Harvest from which some is likely to be preserved. Our own rule."""

LONG_DAYS: Final = 30.0
"""What keeps longer than this is stored as it is. Our own rule."""

PRESERVE: Final = Caution(
    "To bottle, can, pickle or dry any of it, follow a tested recipe to the letter; low-acid food canned "
    "without one can kill."
)


def storing_facts(sheet: Sheet) -> tuple[Fact, ...]:
    """How it is kept, and for how long."""
    keeps = sheet.harvest.keeps_days
    how = _BY_CROP.get(sheet.key, _BY_KIND.get(sheet.kind, ""))
    # a root pulled young is eaten, not stored
    if how and (keeps is None or keeps.value < LONG_DAYS):
        how = ""
    return (
        *((Fact(name="storing", value=how, law="common practice"),) if how else ()),
        *(
            ()
            if keeps is None
            else (Fact(name="keeps", value=keeps.value, unit="days", law="the sheet", source=keeps.receipt),)
        ),
    )


def storing_cautions(sheet: Sheet, kg: float) -> tuple[Caution, ...]:
    """The usual caution where more comes in at once than is eaten fresh, of what does not keep as it is."""
    keeps = sheet.harvest.keeps_days
    spoils = sheet.kind in ("fruit", "pod", "grain") and (keeps is None or keeps.value < LONG_DAYS)
    return (PRESERVE,) if spoils and kg >= MUCH_KG else ()
