"""Decisions about what stands: thin, pick, cover, sow again."""

from __future__ import annotations

from typing import Any

from spadework.advice.again_answer import AgainAnswer, AgainOption
from spadework.errors import ParameterError
from spadework.faces.charts.course_reeds import course_reeds
from spadework.faces.charts.seedling_reeds import seedling_reeds
from spadework.faces.voice import Voice
from spadework.faces.web.pages.weighed import (
    Asking,
    Choice,
    Weighed,
    crop_blank,
    page,
    sentence,
    tenths,
    years,
)
from spadework.faces.web.visit import Page, Refused, Visit
from spadework.usecases.lock_lines import locks_about
from spadework.usecases.try_sowing import reeds_of_planting
from spadework.usecases.weigh_covering import weigh_covering
from spadework.usecases.weigh_picking import weigh_picking
from spadework.usecases.weigh_resowing import sowing_known, weigh_resowing
from spadework.usecases.weigh_thinning import weigh_thinning

PICTURED = "Its way to ready, a thin line a year; in brick the years in which something takes it first."
DUG = (
    ("", "nobody has looked"),
    ("firm", "it is firm"),
    ("sprouted", "it has sprouted"),
    ("soft", "it is soft"),
    ("gone", "it is gone"),
)
"""What the seed in the drill looks like."""


def thin(visit: Visit) -> Page:
    """Thin now, a week later, or not at all."""
    found = weigh_thinning(visit.garden, visit.today, visit.text("planting"))
    voice = visit.voice
    choices = [
        Choice(
            name="Leave them" if each.to_cm is None else f"Thin {each.when}, to {voice.small(each.to_cm)}",
            said=f"{each.stay} stay, {each.removed} come out in {each.minutes:.0f} min; "
            f"{each.good} worth having, {voice.weight(each.each_g / 1000.0)} each, "
            f"{voice.weight(each.kg)} in all ({voice.weight(each.kg_low)} to {voice.weight(each.kg_high)}"
            " in 8 of 10 years).",
            best=at == found.best,
        )
        for at, each in enumerate(found.options)
    ]
    best = found.options[found.best]
    other = max((each for each in found.options if each is not best), key=lambda each: each.kg)
    turns = [
        f"What you want: {best.good} of {voice.weight(best.each_g / 1000.0)} each here; the next best way "
        f"gives {other.good} of {voice.weight(other.each_g / 1000.0)}, {voice.weight(other.kg)} in all.",
        f"How many stand: {found.standing} are taken to. Count a metre and say it in the book, "
        "and this is weighed anew.",
    ]
    return page(
        Weighed(
            title=f"Thin the {found.crop} in {found.bed}?",
            about=f"{found.standing} stand on {voice.length(found.row_m)} of row",
            lead=f"{choices[found.best].name}.",
            reason=sentence(found.reason),
            choices=choices,
            facts=found.facts,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=found.crop),
            note=found.note,
            **_drawn(visit, found.planting, found.crop),
            turns=turns,
        )
    )


def pick(visit: Visit) -> Page:
    """Pick what there is, or wait."""
    found = weigh_picking(visit.garden, visit.today, visit.text("crop"))
    voice = visit.voice
    lead = {
        "pick": "Pick today.",
        "wait": "Wait." if found.day is None else f"Wait until {voice.day(found.day, weekday=True)}.",
        "locked": "Not now: it is locked.",
    }[found.verdict]
    best = max(found.options, key=lambda each: each.keeps)
    turns = [f"The look of it: {found.sign.rstrip('.')}. That settles it, whatever is worked out here."]
    turns.append("A frost told for the coming nights: what it would spoil is picked before it.")
    return page(
        Weighed(
            title=f"Pick the {found.crop} in {found.where}?",
            about=f"Ready: {found.sign}",
            lead=lead,
            reason=sentence(found.reason),
            choices=[
                Choice(
                    name=f"On {voice.day(each.day, weekday=True)}",
                    said=f"There {years(each.there)}; {voice.weight(each.good_kg)} in good state, "
                    f"{tenths(each.past)} of it past its best, {tenths(each.spoilt)} spoilt by then.",
                    odds=each.there,
                    best=each is best and found.verdict != "locked",
                )
                for each in found.options
            ],
            facts=found.facts,
            cautions=found.cautions,
            locks=locks_about(visit.garden, visit.today, crop=found.key),
            note=found.note,
            **_drawn(visit, found.planting, found.crop),
            turns=turns,
        )
    )


def cover(visit: Visit) -> Page:
    """A bed's cover: shut, open by day, or off."""
    found = weigh_covering(visit.garden, visit.today, visit.text("bed"))
    lies = "lies there" if found.lies else "does not lie there now"
    first, second = found.options[0], found.options[1]
    turns = [
        f"Little: {second.state} costs {second.costs * 100:.1f} in 100 where {first.state} costs "
        f"{first.costs * 100:.1f}."
        if second.costs - first.costs < 0.01
        else f"Much: {second.state}, the next best, costs {(second.costs - first.costs) * 100:.1f} in 100 "
        "more.",
        "A forecast of the night: told on the weather page it takes the place of the years.",
    ]
    return page(
        Weighed(
            title=f"{found.cover[:1].upper()}{found.cover[1:]} on {found.name}?",
            about=f"It {lies}",
            lead=f"Best {found.verdict}, then {found.second}.",
            reason=sentence(found.reason),
            choices=[
                Choice(
                    name=f"{each.state[:1].upper()}{each.state[1:]}",
                    said=f"It costs {each.costs * 100:.1f} in 100 of what stands there.",
                    best=each.state == found.verdict,
                )
                for each in found.options
            ],
            facts=found.facts,
            locks=locks_about(visit.garden, visit.today, bed=found.bed),
            note=found.note,
            turns=turns,
        )
    )


def sow_again(visit: Visit) -> Page:
    """It has not come up as it should: wait, look, fill gaps, sow again, or give up the place."""
    known = (
        sowing_known(visit.garden, visit.today, visit.text("planting")) if visit.text("planting") else None
    )
    crop = visit.text("crop") or (known.crop if known else "")
    sown = visit.day("sown") or (known.sown if known else None)
    seeds = visit.number("seeds", float(known.seeds) if known and known.seeds else None)
    up = visit.number("up", float(known.counts[-1][1]) if known and known.counts else None)
    dug = visit.text("dug")
    asking = [
        crop_blank(visit, "The", crop),
        Asking(before="sown on", name="sown", kind="date", value=sown.isoformat() if sown else ""),
        Asking(
            before="were", name="seeds", kind="number", value=f"{seeds:g}" if seeds else "", after="seeds;"
        ),
        Asking(
            before="today there stand",
            name="up",
            kind="number",
            value="" if up is None else f"{up:g}",
            after="seedlings.",
        ),
        Asking(
            before="As for seed in the drill,", name="dug", kind="choice", value=dug, choices=DUG, after="."
        ),
    ]
    where = f" in {known.where}" if known and known.where else ""
    if not crop or sown is None or seeds is None or up is None:
        return page(
            Weighed(
                title=f"Sow {f'the {known.name}{where}' if known else 'it'} again?",
                lead="Count what stands first.",
                reason="Fill in what is missing in the sentence, and it is weighed.",
                asking=asking,
            )
        )
    earlier = [] if known is None else [each for each in known.counts if each[0] < visit.today]
    try:
        found = weigh_resowing(
            visit.garden,
            visit.today,
            crop,
            sown=sown,
            seeds=_whole(seeds, "seeds"),
            up=_whole(up, "up"),
            earlier=[each for each in earlier if each[0] >= sown],
            dug=dug or None,
        )
    except ParameterError as error:
        return page(
            Weighed(
                title=f"Sow the {crop}{where} again?",
                lead="That cannot be weighed yet.",
                reason="",
                wrong=_plain(error.message),
                asking=asking,
            )
        )
    return page(_sow_again(visit, found, asking, where))


def _sow_again(visit: Visit, found: AgainAnswer, asking: list[Asking], where: str) -> Weighed:
    voice = visit.voice
    turns = [
        voice.told(f"{sentence(line)}")
        for option in found.options
        if option.act in ("wait", "dig")
        for line in option.lines
    ]
    turns += [
        sentence(f"perhaps {each.name}: {each.sign}; to stop it, {each.stops}") for each in found.causes
    ][:2]
    return Weighed(
        title=f"Sow the {found.crop}{where} again?",
        about=f"Sown {found.day} days ago, {found.seeds} seeds; {found.up} stand",
        lead=found.act,
        reason=sentence(found.reason),
        choices=[_again_choice(each, voice, best=at == 0) for at, each in enumerate(found.options)],
        facts=found.facts,
        cautions=found.cautions,
        assumptions=found.assumptions,
        locks=locks_about(visit.garden, visit.today, crop=found.crop, placing=True),
        note=found.note,
        picture=None if found.seedlings is None else seedling_reeds(found.seedlings, voice),
        pictured="Seedlings standing, a thin line a year; in brick the years in which too few come.",
        turns=turns,
        asking=asking,
    )


def _again_choice(each: AgainOption, voice: Voice, *, best: bool) -> Choice:
    said = f"{sentence(each.means).rstrip('.')} {years(each.odds)}."
    if each.ready is not None and each.ready.q50 is not None:
        said += f" Ready about {voice.day(each.ready.q50)}"
        said += f", {each.days_later} days later." if each.days_later else "."
    if each.sow_seeds:
        said += f" Takes about {each.sow_seeds} seeds."
    if each.act not in ("wait", "dig"):
        said = " ".join([said, *(voice.told(sentence(line)) for line in each.lines if line[:5] != "ready")])
    return Choice(name=each.title, said=said, odds=each.odds, best=best)


def _drawn(visit: Visit, planting: str, name: str) -> dict[str, Any]:
    reeds = reeds_of_planting(visit.garden, visit.today, planting)
    if reeds is None:
        return {}
    title = f"The way of these {name} from their start to ready, a line a year."
    return {"picture": course_reeds(reeds, visit.today, visit.voice, title=title), "pictured": PICTURED}


def _whole(value: float, name: str) -> int:
    if value != int(value):
        raise Refused("Whole numbers only.", "Count them.", field=name)
    return int(value)


def _plain(text: str) -> str:
    """A refusal without the words of the command line."""
    for option, words in (
        ("--seeds", "seeds:"),
        ("--sown", "The day"),
        ("--up-on", "The count of"),
        ("--up", "seedlings:"),
    ):
        text = text.replace(option, words)
    return text
