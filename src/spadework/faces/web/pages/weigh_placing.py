"""Decisions about what goes in: sow, sow the next, plant out, what fits."""

from __future__ import annotations

from datetime import date

from spadework.advice.weigh_plant_out import PlantOption
from spadework.advice.weigh_sow import SowAnswer, SowOption
from spadework.faces.charts.course_reeds import course_reeds
from spadework.faces.voice import Voice
from spadework.faces.web.pages.weighed import Asking, Choice, Weighed, crop_blank, page, sentence, years
from spadework.faces.web.visit import Page, Refused, Visit
from spadework.usecases.lock_lines import locks_about
from spadework.usecases.try_sowing import reeds_of_sowing
from spadework.usecases.weigh_fits import ACCEPTED, weigh_what_fits
from spadework.usecases.weigh_planting_out import weigh_planting_out
from spadework.usecases.weigh_sowing import weigh_sowing
from spadework.usecases.weigh_sowing_next import weigh_sowing_next

PICTURED = (
    "Its way from the start to ready, a thin line a year; in brick the years in which too little comes of it."
)
WATER = (("", "is kept damp"), ("rain", "has only the rain"))
ODDS = ((0.5, "1 of 2"), (0.6, "3 of 5"), (0.8, "4 of 5"), (0.9, "9 of 10"))


def sow(visit: Visit) -> Page:
    """May it be sown now, or on which day."""
    crop, on = visit.text("crop"), visit.day("on")
    germination, rain = visit.number("germination"), visit.text("water") == "rain"
    found = weigh_sowing(
        visit.garden, visit.today, crop, on=on, germination_pct=germination, watered=not rain
    )
    voice = visit.voice
    shown = _days_worth_showing(found)
    lead = {
        "sow": f"Sow on {voice.day(found.best_day, weekday=True)}.",
        "wait": f"Wait, and sow on {voice.day(found.best_day, weekday=True)}.",
        "do not sow": "Do not sow it this season.",
    }[found.verdict]
    if found.verdict == "sow" and found.best_day == visit.today:
        lead = "Sow today."
    turns = []
    if found.last_good_day is not None:
        turns.append(
            f"The day: up to {voice.day(found.last_good_day)} it does about as well; later it does not."
        )
    if germination is None and found.way == "sown":
        turns.append("The seed: test ten in a damp cloth, and fill in above how many of a hundred sprout.")
    turns.append("The weather: a forecast or a soil reading, told on the weather page, moves the years.")
    picture = course_reeds(
        reeds_of_sowing(visit.garden, visit.today, crop, max(found.best_day, visit.today)),
        visit.today,
        voice,
        title=f"The way of {found.crop} from {voice.day(found.best_day)} to ready, a line a year.",
    )
    return page(
        Weighed(
            title=f"Sow {found.crop}?",
            about="Sown where it grows"
            if found.way == "sown"
            else "Raised under cover and set out"
            if found.way == "raised"
            else "Set as plants",
            lead=lead,
            reason=sentence(found.reason),
            choices=[_sow_choice(each, found, voice) for each in shown],
            facts=found.facts,
            cautions=found.cautions,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=crop, placing=True),
            note=found.note,
            picture=picture,
            pictured=PICTURED,
            turns=turns,
            rest_name="All the days looked at",
            rest=[
                ("Sown on", "Soil", "Ready about", "Works out"),
                *(
                    (
                        voice.day(each.day, weekday=True),
                        voice.temp(each.soil_c),
                        voice.day(each.ready.q50),
                        years(each.overall),
                    )
                    for each in found.options
                ),
            ],
            asking=[
                crop_blank(visit, "I sow", crop),
                Asking(
                    before="from", name="on", kind="date", value=(on or visit.today).isoformat(), after="on;"
                ),
                Asking(
                    before="of a hundred seeds",
                    name="germination",
                    kind="number",
                    value=visit.text("germination"),
                    after="sprouted in a test,",
                ),
                Asking(
                    before="and the row",
                    name="water",
                    kind="choice",
                    value=visit.text("water"),
                    choices=WATER,
                    after=".",
                ),
            ],
        )
    )


def _days_worth_showing(found: SowAnswer) -> list[SowOption]:
    """The first day, the best, the last good one and the first that is not."""
    days = [found.options[0].day, found.best_day]
    if found.last_good_day is not None:
        days.append(found.last_good_day)
        days += [each.day for each in found.options if each.day > found.last_good_day][:1]
    else:
        days += [each.day for each in found.options[3:10:3]]
    return [each for each in found.options if each.day in days]


def _sow_choice(each: SowOption, found: SowAnswer, voice: Voice) -> Choice:
    ready = f"ready about {voice.day(each.ready.q50)}" if each.ready.q50 else "not ready in most years"
    return Choice(
        name=f"On {voice.day(each.day, weekday=True)}",
        said=f"Soil about {voice.temp(each.soil_c)}; {ready}. "
        f"A full stand that is ready before anything takes it {years(each.overall)}.",
        odds=each.overall,
        best=each.day == found.best_day and found.verdict != "do not sow",
    )


def sow_next(visit: Visit) -> Page:
    """When to sow the next, so that picking goes on."""
    crop = visit.text("crop")
    found = weigh_sowing_next(visit.garden, visit.today, crop)
    voice, verb = visit.voice, "Sow" if found.way == "sown" else "Start"
    choices = []
    for at, each in enumerate(found.options):
        days = ["today" if day == found.today else f"on {voice.day(day)}" for day in each.days]
        ready = " and ".join(voice.day(one.q50) for one in each.ready)
        name = f"{verb} {days[0]}" if len(days) == 1 else f"{verb} half {days[0]}, half {days[1]}"
        choices.append(
            Choice(
                name=name,
                said=f"Ready about {ready}, {each.gap_days:.0f} days after what stands is over; of the "
                f"{found.wanted_days:.0f} days wanted it feeds you {each.fed_days:.0f}. "
                f"It gets there {years(each.overall)}.",
                odds=each.overall,
                best=at == found.best,
            )
        )
    before = found.before.q50 if found.before is not None else None
    turns = []
    second = max(
        (each for at, each in enumerate(found.options) if at != found.best),
        key=lambda each: each.fed_days,
        default=None,
    )
    if second is not None:
        turns.append(
            f"Little: the next best way feeds you {second.fed_days:.0f} days where this one feeds you "
            f"{found.options[found.best].fed_days:.0f}."
        )
    if before is not None:
        turns.append(
            f"What stands: it is taken to be ready about {voice.day(before)}. Seen ready earlier, or lost, "
            "it is said in the book, and this is weighed anew."
        )
    best = found.options[found.best]
    picture = course_reeds(
        reeds_of_sowing(
            visit.garden, visit.today, crop, best.days[0], plants=None if found.way == "raised" else False
        ),
        visit.today,
        voice,
        title=f"The way of the next {found.crop} to ready, a line a year.",
    )
    return page(
        Weighed(
            title=f"Sow the next {found.crop}?",
            about=f"The last that stands is ready about {voice.day(before)}" if before else "None stands now",
            lead=f"{choices[found.best].name}.",
            reason=sentence(found.reason),
            choices=choices,
            facts=found.facts,
            cautions=found.cautions,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=crop, placing=True),
            note=found.note,
            picture=None if found.way == "raised" else picture,
            pictured=PICTURED,
            turns=turns,
            asking=[crop_blank(visit, "I want to go on picking", crop, ".")],
        )
    )


def plant_out(visit: Visit) -> Page:
    """Out now, out under cover, or hold."""
    crop, on = visit.text("crop"), visit.day("on")
    accepted = _odds(visit, 0.5)
    found = weigh_planting_out(visit.garden, visit.today, crop, on=on, accepted=accepted)
    voice = visit.voice
    chosen = max(found.options, key=lambda each: each.worth)
    lead = {
        "go": f"Plant out {_on(found.day, visit)}.",
        "under cover": f"Plant out {_on(found.day, visit)}, under fleece.",
        "hold": f"Hold them until {voice.day(found.day, weekday=True)}.",
        "too late": "Too late this year: grow something else there.",
    }[found.verdict]
    first = found.options[0]
    turns = [
        f"The nights: in the two weeks after {voice.day(first.day)} the coldest is usually about "
        f"{voice.temp(first.coldest_night[1])}, in one year of ten {voice.temp(first.coldest_night[0])} "
        "or less. A forecast told on the weather page says more.",
    ]
    if found.last_day_that_pays is not None:
        turns.append(f"The day: {voice.day(found.last_day_that_pays)} is the last that pays at these odds.")
    return page(
        Weighed(
            title=f"Plant out the {found.crop}?",
            about="Plants stand ready in their pots",
            lead=lead,
            reason=sentence(found.reason),
            choices=[_out_choice(each, voice, best=each is chosen) for each in found.options],
            facts=found.facts,
            cautions=found.cautions,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=crop, placing=True),
            note=found.note,
            picture=course_reeds(
                reeds_of_sowing(visit.garden, visit.today, crop, chosen.day, plants=True),
                visit.today,
                voice,
                title=f"The way of {found.crop} set out on {voice.day(chosen.day)} to ready, a line a year.",
            ),
            pictured=PICTURED,
            turns=turns,
            asking=[
                crop_blank(visit, "My plants are", crop),
                Asking(
                    before="and could go out from",
                    name="on",
                    kind="date",
                    value=(on or visit.today).isoformat(),
                ),
                _accepts(accepted),
            ],
        )
    )


def _out_choice(each: PlantOption, voice: Voice, *, best: bool) -> Choice:
    name = {"go": "In the open", "under cover": "Under fleece", "hold": "Held, then in the open"}
    # a day at which mostly nothing stands any more tells nobody anything
    usual = each.ready.q50 is not None and 2 * each.overall.years_yes >= each.overall.years
    ready = f" Ready about {voice.day(each.ready.q50)}." if usual else ""
    return Choice(
        name=f"{name.get(each.act, 'In the open')}, {voice.day(each.day, weekday=True)}",
        said=f"Frost kills them young {years(each.killed_young)}.{ready} "
        f"They get there {years(each.overall)}.",
        odds=each.overall,
        best=best,
    )


def fits(visit: Visit) -> Page:
    """What still fits a free place."""
    on, clear_by, accepted = visit.day("on"), visit.day("until"), _odds(visit, ACCEPTED)
    found = weigh_what_fits(visit.garden, visit.today, on=on, clear_by=clear_by, accepted=accepted)
    voice = visit.voice
    good = [each for each in found.crops if each.overall.chance >= found.accepted]
    soon = sorted((each for each in good if each.last_day is not None), key=lambda each: str(each.last_day))[
        :1
    ]
    turns = [
        f"Waiting: {each.crop} can wait until {voice.day(each.last_day)}, the others longer." for each in soon
    ]
    turns.append("The odds you accept: ask for more, and fewer crops are left.")
    return page(
        Weighed(
            title="What still fits a free place?",
            about=f"Free from {voice.day(found.on, weekday=True)}",
            lead=f"{len(good)} crops still get there." if good else "Nothing gets there any more this year.",
            reason="Each with a full stand that is ready before anything takes it"
            + (f", and off by {voice.day(clear_by)}." if clear_by else "."),
            choices=[
                Choice(
                    name=each.crop[:1].upper() + each.crop[1:],
                    said=f"Ready about {voice.day(each.ready.q50)}, {years(each.overall)}; "
                    f"{'sow' if each.way == 'sown' else 'start'} it by {voice.day(each.last_day)}.",
                    odds=each.overall,
                )
                for each in good
            ],
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, placing=True),
            note=found.note,
            turns=turns,
            asking=[
                Asking(before="A place is free from", name="on", kind="date", value=found.on.isoformat()),
                Asking(
                    before="and wanted again by",
                    name="until",
                    kind="date",
                    value=clear_by.isoformat() if clear_by else "",
                    after=",",
                ),
                _accepts(accepted),
            ],
        )
    )


def _odds(visit: Visit, usual: float) -> float:
    accepted = visit.number("odds", usual)
    if accepted is None or not 0.0 <= accepted <= 1.0:
        raise Refused("Odds lie between 0 and 1.", "Choose them in the sentence.", field="odds")
    return accepted


def _accepts(accepted: float) -> Asking:
    choices = [(f"{value:g}", f"{words} years") for value, words in ODDS]
    if f"{accepted:g}" not in dict(choices):
        choices.insert(0, (f"{accepted:g}", f"{100 * accepted:.0f} of 100 years"))
    return Asking(
        before="and it must work out in",
        name="odds",
        kind="choice",
        value=f"{accepted:g}",
        choices=choices,
        after=".",
    )


def _on(day: date, visit: Visit) -> str:
    return "today" if day == visit.today else f"on {visit.voice.day(day, weekday=True)}"
