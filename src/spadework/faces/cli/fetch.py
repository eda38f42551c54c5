"""Fetch weather from a service."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer, read_date
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped


def weather_fetch(
    *,
    forecast: Annotated[bool, Parameter(negative="", help="The coming days (the default).")] = False,
    archive: Annotated[bool, Parameter(negative="", help="Past days, thirty years of them.")] = False,
    from_: Annotated[str | None, Parameter(name="--from", help="First past day wanted.")] = None,
    to: Annotated[str | None, Parameter(help="Last past day wanted.")] = None,
    if_older: Annotated[
        float | None, Parameter(help="Only if the last fetch is older than this many hours.")
    ] = None,
    common: Common | None = None,
) -> None:
    """Fetch weather, for this garden's rounded coordinates only and only now."""
    from spadework.errors import ParameterError
    from spadework.usecases.fetch_weather import fetch_weather

    common = common or Common()
    if (from_ is not None or to is not None) and not archive:
        raise ParameterError("--from and --to are of past days.", "Add --archive.")
    if if_older is not None and if_older <= 0:
        raise ParameterError(f"--if-older {if_older:g} is no length of time.", "Give hours, such as 6.")
    found = fetch_weather(
        common.garden,
        common.day,
        datetime.now(UTC),
        forecast=forecast or not archive,
        archive=archive,
        first=None if from_ is None else read_date(from_, "--from", common.day),
        last=None if to is None else read_date(to, "--to", common.day),
        if_older_h=if_older,
    )

    def tell() -> None:
        voice = voice_of(common)
        if found.forecast_days:
            days = found.forecast_days
            print(
                wrapped(
                    f"Forecast kept for {len(days)} days, {voice.day(days[0])} to {voice.day(days[-1])}; "
                    "every answer from now on bears it in mind."
                )
            )
        if found.archive is not None:
            past = found.archive
            print(
                wrapped(
                    f"{past.added_days} days added to the record, of {past.days} fetched, "
                    f"{voice.day(past.first_day)} to {voice.day(past.last_day)}."
                )
            )
            if past.own_days_kept:
                print(wrapped(f"{past.own_days_kept} days are left as your own station has them."))
            if past.not_there_yet:
                print(wrapped(f"The archive does not have the last {past.not_there_yet} days yet."))
        for line in [*found.skipped, *found.notes]:
            print(wrapped(line))
        if found.asked:
            print(wrapped(f"Asked {' and '.join(dict.fromkeys(found.asked))}; sent only {found.sent}."))
            print(wrapped(found.credit))

    answer(common, found, tell)
