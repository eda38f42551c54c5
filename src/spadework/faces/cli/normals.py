"""Tell twelve monthly normals."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import table, wrapped
from spadework.faces.voice import Voice

if TYPE_CHECKING:
    from spadework.garden.told import MonthlyNormals

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def tell_normals(
    *,
    tmin: Annotated[
        str | None, Parameter(help='Mean night minima, January first: "-11 -9 ... -11", an F behind if so.')
    ] = None,
    tmax: Annotated[str | None, Parameter(help="Mean day maxima.")] = None,
    rain: Annotated[str | None, Parameter(help='Rain of each month, mm; "in" behind if inches.')] = None,
    wet_days: Annotated[str | None, Parameter(help="Days of each month with 1 mm (0.04 in) or more.")] = None,
    climate: Annotated[
        str,
        Parameter(
            help="continental, steppe, maritime, mediterranean, subtropical or tropical: whose spread of "
            "days to borrow; by the numbers where not named."
        ),
    ] = "",
    coldest: Annotated[
        str | None,
        Parameter(
            allow_leading_hyphen=True,
            help='By heart instead: usual night and day of the coldest month, "-4 2", an F behind if so.',
        ),
    ] = None,
    warmest: Annotated[
        str | None,
        Parameter(
            allow_leading_hyphen=True, help="And of the warmest; --rain is then one number for a usual month."
        ),
    ] = None,
    file: Annotated[Path | None, Parameter(help="A table instead: twelve rows of tmin, tmax, rain.")] = None,
    source: Annotated[str, Parameter(help="Where the numbers are from.")] = "told",
    sure: Annotated[
        bool, Parameter(negative="", help="Keep them although the garden's own record says something else.")
    ] = False,
    common: Common | None = None,
) -> None:
    """Tell twelve monthly normals: what a garden without a long record is answered from."""
    from spadework.errors import ParameterError
    from spadework.usecases.rough_normals import ROUGH, normals_by_heart
    from spadework.usecases.tell_normals import tell_normals as keep

    common = common or Common()
    if file is not None and (tmin or tmax or rain or wet_days):
        raise ParameterError("A table and rows were both given.", "Give --file, or the rows.")
    kind = climate.strip().lower()
    by_heart = coldest is not None or warmest is not None
    if by_heart and (file is not None or tmin or tmax or wet_days):
        raise ParameterError("Means by heart and a table were both given.", "Give the one or the other.")
    if by_heart:
        fact = normals_by_heart(common.garden, coldest, warmest, rain, kind)
        source = ROUGH if source == "told" else source
    else:
        fact = _normals(tmin, tmax, rain, wet_days, file, kind)
    found = keep(common.garden, common.day, fact, source, sure=sure)

    def tell() -> None:
        voice = voice_of(common)
        if not found.stored:
            print("Not kept yet: the garden's own record says something else.")
            for doubt in found.doubts:
                print(wrapped(doubt, 2, "· "))
            print(wrapped("If the record is wrong or of another place, tell them again with --sure."))
            return
        if found.used:
            print(
                wrapped(
                    f"Kept. {found.made_years} of {found.years} years are made from these normals; "
                    "every question can be asked now."
                )
            )
        else:
            print(
                wrapped("Kept, but not used: the garden's own record has years enough to speak for itself.")
            )
        if found.replaced:
            print("They take the place of those told before.")
        print()
        rows = []
        for at, month in enumerate(_MONTHS):
            spread = [_degrees(values[at], voice) for values in (found.tmin_sd_c, found.tmax_sd_c)]
            rows.append(
                [
                    month,
                    voice.temp(found.tmin_c[at]),
                    voice.temp(found.tmax_c[at]),
                    voice.rain(found.rain_mm[at]),
                    f"{found.wet_days[at]:.0f}",
                    *spread,
                ]
            )
        head = ["", "night", "day", "rain", "wet days", "nights differ by", "days by"]
        print(table(head, rows, frozenset(range(1, 7))))
        print()
        named = "as named" if found.climate_named else "by the numbers; name another with --climate"
        print(
            wrapped(
                f"How far single days stray from these means is borrowed from a {found.climate} climate "
                f"({named})."
            )
        )
        for freeze in found.freezes:
            if freeze.middle is None:
                continue
            early, middle, late = (
                voice.calendar_day(day) for day in (freeze.early, freeze.middle, freeze.late)
            )
            print(
                wrapped(f"Freezing night, {freeze.which}: {early}, {middle}, {late} (early, middle, late).")
            )
        if found.freezes and found.used:
            print(wrapped("Told frost dates (spadework tell frost-table) would make these surer."))
        for note in found.notes:
            print(wrapped(note))

    answer(common, found, tell)


def _normals(
    tmin: str | None,
    tmax: str | None,
    rain: str | None,
    wet_days: str | None,
    file: Path | None,
    climate: str,
) -> MonthlyNormals:
    from spadework.usecases.tell_normals import normals_from_file, normals_from_rows

    return (
        normals_from_rows(tmin, tmax, rain, wet_days, climate)
        if file is None
        else normals_from_file(file, climate)
    )


def _degrees(spread_c: float, voice: Voice) -> str:
    return f"{spread_c * 1.8:.0f} °F" if voice.us else f"{spread_c:.1f} °C"
