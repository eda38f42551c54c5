"""Every address of the web face."""

from __future__ import annotations

from collections.abc import Iterator

from spadework.faces.web.visit import Way


def all_ways() -> Iterator[Way]:
    """Every address, in the order they are tried."""
    from spadework.faces.web.pages.ailing import WAYS as AILING
    from spadework.faces.web.pages.api import WAYS as API
    from spadework.faces.web.pages.beds import WAYS as BEDS
    from spadework.faces.web.pages.begin import WAYS as BEGIN
    from spadework.faces.web.pages.begin_weather import WAYS as BEGIN_WEATHER
    from spadework.faces.web.pages.book import WAYS as BOOK
    from spadework.faces.web.pages.correct import WAYS as CORRECT
    from spadework.faces.web.pages.garden import WAYS as GARDEN
    from spadework.faces.web.pages.laws import WAYS as LAWS
    from spadework.faces.web.pages.let_in import WAYS as LET_IN
    from spadework.faces.web.pages.offline import WAYS as OFFLINE
    from spadework.faces.web.pages.paper import WAYS as PAPER
    from spadework.faces.web.pages.plant import WAYS as PLANT
    from spadework.faces.web.pages.planting import WAYS as PLANTING
    from spadework.faces.web.pages.planting_change import WAYS as PLANTING_CHANGE
    from spadework.faces.web.pages.round import WAYS as ROUND
    from spadework.faces.web.pages.season import WAYS as SEASON
    from spadework.faces.web.pages.shed import WAYS as SHED
    from spadework.faces.web.pages.sheets import WAYS as SHEETS
    from spadework.faces.web.pages.watch import WAYS as WATCH
    from spadework.faces.web.pages.weather import WAYS as WEATHER
    from spadework.faces.web.pages.weigh import WAYS as WEIGH

    yield from (
        *AILING,
        *API,
        *BEDS,
        *BEGIN,
        *BEGIN_WEATHER,
        *BOOK,
        *CORRECT,
        *GARDEN,
        *LAWS,
        *LET_IN,
        *OFFLINE,
        *PAPER,
        *PLANT,
        *PLANTING,
        *PLANTING_CHANGE,
        *ROUND,
        *SEASON,
        *SHED,
        *SHEETS,
        *WATCH,
        *WEATHER,
        *WEIGH,
    )
