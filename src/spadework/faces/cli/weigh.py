"""Decisions set side by side."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.advice.again_answer import AgainAnswer
from spadework.advice.weigh_sow import SowAnswer, SowOption
from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer, read_date, read_packet
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import dots, table, wrapped
from spadework.faces.voice import Voice, in_years
from spadework.usecases.lock_lines import locks_about
from spadework.usecases.weigh_sowing import RankAnswer


def sow(
    crop: str | None = None,
    *,
    on: Annotated[str | None, Parameter(help="First sowing day to compare; today by default.")] = None,
    germination: Annotated[float | None, Parameter(help="Tested germination of the lot, %.")] = None,
    depth: Annotated[float | None, Parameter(help="Sowing depth, mm.")] = None,
    raised: Annotated[
        bool | None, Parameter(negative="--in-place", help="Raised and set out, or sown where it grows.")
    ] = None,
    packet_days: Annotated[float | None, Parameter(help="Days printed on the packet.")] = None,
    from_setting_out: Annotated[
        bool | None, Parameter(negative="--from-sowing", help="What they count from; else the usual.")
    ] = None,
    packet_sown: Annotated[str | None, Parameter(help="Day they count from; else the usual one.")] = None,
    variety: Annotated[str, Parameter(help="Variety, where one was learned or has own numbers.")] = "",
    bed: Annotated[str, Parameter(help="Bed, where beds are told apart.")] = "",
    rain_only: Annotated[bool, Parameter(negative="", help="Nobody waters the row.")] = False,
    common: Common | None = None,
) -> None:
    """May I sow this now, or on which day? Without a crop: how every crop would do.

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    common = common or Common()
    today = common.day
    first = None if on is None else read_date(on, "--on", today)
    if crop is None:
        from spadework.usecases.weigh_sowing import rank_sowings

        ranking = rank_sowings(common.garden, today, on=first, watered=not rain_only)
        answer(
            common,
            ranking,
            lambda: _tell_rank(ranking, voice_of(common)),
            locks=lambda: locks_about(common.garden, today, bed=bed, placing=True),
        )
        return
    from spadework.usecases.weigh_sowing import weigh_sowing

    found = weigh_sowing(
        common.garden,
        today,
        crop,
        on=first,
        depth_mm=depth,
        germination_pct=germination,
        watered=not rain_only,
        raised=raised,
        packet=read_packet(packet_days, from_setting_out, packet_sown, today),
        variety=variety.strip(),
        bed=bed.strip(),
    )
    answer(
        common,
        found,
        lambda: _tell_sow(found, voice_of(common)),
        locks=lambda: locks_about(common.garden, today, bed=bed, crop=crop or "", placing=True),
    )


def sow_again(
    crop: str,
    *,
    sown: Annotated[str, Parameter(help="Day it was sown.")],
    seeds: Annotated[int, Parameter(help="Seeds sown.")],
    up: Annotated[int, Parameter(help="Seedlings standing today.")],
    up_on: Annotated[
        list[str] | None, Parameter(help="An earlier count, as DATE=K. May be repeated.")
    ] = None,
    germination: Annotated[float | None, Parameter(help="Tested germination of the lot, %.")] = None,
    depth: Annotated[float | None, Parameter(help="Sowing depth, mm.")] = None,
    dug: Annotated[str | None, Parameter(help="What digging found: firm, sprouted, soft or gone.")] = None,
    wanted: Annotated[int | None, Parameter(help="Plants that make a full stand.")] = None,
    rain_only: Annotated[bool, Parameter(negative="", help="Nobody watered the row.")] = False,
    common: Common | None = None,
) -> None:
    """It has not come up: wait, look, fill gaps, sow again, or give up the place?

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    from spadework.usecases.weigh_resowing import weigh_resowing

    common = common or Common()
    today = common.day
    earlier = []
    for text in up_on or []:
        day, equals, count = text.rpartition("=")
        if not equals or not count.strip().isdigit():
            raise ParameterError(f"--up-on {text!r} is not a count on a day.", "Write it as 2026-05-01=12.")
        earlier.append((read_date(day, "--up-on", today), int(count)))
    found = weigh_resowing(
        common.garden,
        today,
        crop,
        sown=read_date(sown, "--sown", today),
        seeds=seeds,
        up=up,
        earlier=earlier,
        germination_pct=germination,
        depth_mm=depth,
        dug=dug,
        wanted=wanted,
        watered=not rain_only,
    )
    answer(
        common,
        found,
        lambda: _tell_again(found, voice_of(common)),
        locks=lambda: locks_about(common.garden, today, crop=crop, placing=True),
    )


_WHERE = {"sown": "in place", "planted": "as plants", "raised": "under cover"}
_ACT = {"sown": "Sow", "planted": "Plant", "raised": "Sow under cover"}
_SOW_HEAD = {"sow": "Sow today.", "do not sow": "Not worth sowing in the weeks ahead."}


def _tell_sow(found: SowAnswer, voice: Voice) -> None:
    first, best = found.options[0], next(o for o in found.options if o.day == found.best_day)
    what = _ACT[found.way]
    if found.verdict == "wait":
        head = f"Wait until {voice.day(found.best_day, weekday=True)}."
    elif first.day > found.today and found.verdict == "sow":
        head = f"{what} on {voice.day(first.day, weekday=True)}."
    else:
        head = f"{what} today." if found.verdict == "sow" else _SOW_HEAD[found.verdict]
    print(f"{found.crop.capitalize()}: {head}")
    print(wrapped(voice.told(found.reason[:1].upper() + found.reason[1:])))
    print()
    _tell_option("today" if first.day == found.today else voice.day(first.day), first, voice)
    if best.day != first.day:
        _tell_option(voice.day(best.day), best, voice)
    print()
    rows = []
    for option in found.options:
        up = voice.day(option.emergence.q50) if option.emergence else "–"
        rows.append(
            [
                voice.day(option.day, weekday=True),
                voice.temp(option.soil_c),
                up,
                voice.day(option.ready.q50),
                f"{option.full_stand.years_yes}",
                f"{option.ready_before_loss.years_yes}",
                f"{option.overall.years_yes}",
            ]
        )
    many = best.overall.years
    print(
        table(
            ["sown", "soil", "half up", "ready", "full stand", "gets there", f"both of {many}"],
            rows,
            frozenset({1, 4, 5, 6}),
        )
    )
    if found.autumn is not None and found.autumn.opens.q50 is not None:
        closes = voice.day(found.autumn.closes.q50)
        print()
        line = f"The soil is cool enough from about {voice.day(found.autumn.opens.q50)}"
        print(
            wrapped(
                line
                + (
                    f"; cloves set after {closes} root too little before it freezes."
                    if found.autumn.closes.q50
                    else "."
                )
            )
        )
    if found.ways:
        _tell_ways(found, voice)
    if found.last_good_day is not None and found.verdict != "do not sow":
        print()
        print(wrapped(f"After {voice.day(found.last_good_day)} the odds fall away."))
    tail(
        [voice.told(said) for said in found.assumptions], [c.text for c in found.cautions], found.note, voice
    )


def _tell_ways(found: SowAnswer, voice: Voice) -> None:
    when = "today" if found.options[0].day == found.today else voice.day(found.options[0].day)
    print(f"\nThe soil may be too hot. Ways to sow {when}, by the seed's first day and night")
    rows = [
        [way.way, voice.temp(way.first_hours_c), f"{way.full_stand.years_yes} of {way.full_stand.years}"]
        for way in found.ways
    ]
    print(table(["", "at the seed", "full stand"], rows, frozenset({1, 2})))


def _tell_option(when: str, option: SowOption, voice: Voice) -> None:
    print(f"  {when}: a full stand that is ready in time {in_years(option.overall)}")
    print(f"  {dots(option.overall)}")
    for risk in option.risks[:3]:
        told = f"{risk.name} {in_years(risk.odds)}: {risk.means}; {risk.helps}."
        print(wrapped(voice.told(told), 4, "  · "))


def _tell_rank(found: RankAnswer, voice: Voice) -> None:
    many = found.crops[0].overall.years
    day = ("today " if found.on == found.today else "on ") + voice.day(found.on, weekday=True)
    print(wrapped(f"Sown {day}: years of {many} with a full stand that is ready before anything takes it"))
    print()
    rows = []
    for entry in found.crops:
        option = entry.option
        rows.append(
            [
                entry.crop,
                _WHERE[entry.way],
                voice.day(option.emergence.q50) if option.emergence else "–",
                voice.day(option.ready.q50),
                str(option.overall.years_yes),
                _weakest(option),
            ]
        )
    print(table(["", "sown", "half up", "ready", f"of {many}", "chief risk"], rows, frozenset({4})))
    if found.note:
        print("\n" + wrapped(voice.told(found.note)))


def _weakest(option: SowOption) -> str:
    causes = {
        "frost": option.lost_to_frost.chance,
        "heat": option.lost_to_heat.chance,
        "runs to seed": option.bolted.chance,
        "season too short": option.ready.never,
        "comes up thin": 1.0 - option.full_stand.chance - 0.15,
    }
    name, share = max(causes.items(), key=lambda item: item[1])
    return name if share >= 0.1 else ""


def _tell_again(found: AgainAnswer, voice: Voice) -> None:
    print(
        f"{found.crop.capitalize()}, sown {voice.day(found.sown, weekday=True)}: "
        f"{found.up} of {found.seeds} up on day {found.day}"
    )
    print()
    print(wrapped(voice.told(found.act)))
    print(wrapped(voice.told(found.reason)))
    print()
    for option in found.options:
        print(f"  {voice.told(option.title)}")
        print(wrapped(f"{option.means} {in_years(option.odds)}.", 2))
        print(f"  {dots(option.odds)}")
        for line in option.lines:
            print(wrapped(voice.told(line), 4, "  · "))
        print()
    tail(
        [voice.told(said) for said in found.assumptions], [c.text for c in found.cautions], found.note, voice
    )
