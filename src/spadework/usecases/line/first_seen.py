"""The first of its kind seen this year: which event of which insect's clock that is."""

from __future__ import annotations


def first_of_its_year(words: str) -> tuple[str, str]:
    """Key of the trouble and of the event, from what was seen for the first time; both empty where none is
    meant.

    Parameters
    ----------
    words : str
        As the line was read: "cabbage white", "cabbage white eggs".

    Notes
    -----
    Eggs are the first event of the sheet with eggs; anything else is the first of grown insects that lay or
    eat.
    """
    from spadework.advice.sightings import named_trouble  # the sheets are read only where something is first
    from spadework.crops.troubles import all_troubles

    plain = words.casefold()
    eggs = plain.endswith(" eggs")
    key = named_trouble(plain.removesuffix(" eggs"))
    if not key:
        return "", ""
    for event in all_troubles()[key].events:
        if event.stage == ("egg" if eggs else "adult") and (eggs or event.lays or event.harms):
            return key, event.key
    return key, ""
