"""Thin now, a week later, or not at all, and to which distance: sizes, kilos and minutes."""

from __future__ import annotations

from datetime import date
from typing import Final, Literal, NamedTuple

import msgspec
import numpy as np

from spadework.advice.odds import Fact
from spadework.advice.pace import Pace
from spadework.advice.room import crowded_from, metres, per_m, slack_days
from spadework.advice.scene import Plot
from spadework.crops.sheet import Sheet
from spadework.science import crowding

LEAST_SHARE: Final = 0.35
"""A plant is worth having from this share of the mass it reaches at the distance for small produce. Source:
memory."""

WEEK: Final = 7

HOUR_WORTH: Final = 1.0
"""Kilograms of carrots an hour is worth, when two options bring nearly the same. Our own rule."""

ThinWhen = Literal["now", "a week later", "not at all"]


class ThinOption(msgspec.Struct, frozen=True, kw_only=True):
    """One way of thinning.

    Parameters
    ----------
    when : {"now", "a week later", "not at all"}
    to_cm : float or None  [cm]
    stay, removed : int
        Plants.
    minutes : float  [min]
    each_g : float  [g]
        Mean mass of a plant that is worth having.
    good : int
        Plants worth having.
    kg, kg_low, kg_high : float  [kg]
        What is worth having of the whole row: mean of the years, and the years' tenth and ninetieth share.
    """

    when: ThinWhen
    to_cm: float | None
    stay: int
    removed: int
    minutes: float
    each_g: float
    good: int
    kg: float
    kg_low: float
    kg_high: float


class ThinAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Thinning weighed."""

    question: str
    today: date
    crop: str
    planting: str
    bed: str
    standing: int
    row_m: float
    options: list[ThinOption]
    best: int
    reason: str
    facts: list[Fact]
    assumptions: list[str]
    note: str


class Density(NamedTuple):
    """w^-theta = alpha + beta rho, of masses as this garden reaches them; `measured` where it was fitted.

    `closed` is the share of the most a square metre can give that the usual stand reaches; of a law that
    falls again at high density it is no share of a most, and None.
    """

    alpha: float
    beta: float
    theta: float
    measured: bool
    closed: float | None


def density_of(sheet: Sheet, kg_m: float) -> Density:
    """The crop's law of density, so scaled that the usual stand gives the sheet's usual yield.

    Parameters
    ----------
    sheet : Sheet
    kg_m : float  [kg]
        Usual yield of a metre of row.
    """
    row_m, gap_m = sheet.sowing.row_cm.value / 100.0, sheet.sowing.in_row_cm.value / 100.0
    usual = 1.0 / (row_m * gap_m)
    usual_g = kg_m * gap_m * 1000.0
    section = sheet.thin
    if section.density_alpha and section.density_beta and section.density_theta:
        alpha, beta = section.density_alpha.value, section.density_beta.value
        theta = section.density_theta.value
        by_law = float(crowding.plant_mass_g(usual, alpha, beta, theta))
        scale = (usual_g / by_law) ** -theta
        closed = beta * usual / (alpha + beta * usual) if theta == 1.0 else None
        return Density(alpha * scale, beta * scale, theta, measured=True, closed=closed)
    half = float(crowding.half_yield_plants_m2(sheet.room.spread_cm.value))
    closed = usual / (half + usual)
    return Density((1.0 - closed) / usual_g, closed / usual_g / usual, 1.0, measured=False, closed=closed)


class Stand(NamedTuple):
    """What a stand brings: plants worth having on a metre, their mean mass, and kilos of them."""

    good_per_m: float
    each_g: float
    kg_m: float


def stand(sheet: Sheet, law: Density, plants_per_m: float, *, thinned: bool) -> Stand:
    """What a metre of row brings at a density.

    Parameters
    ----------
    sheet : Sheet
    law : Density
    plants_per_m : float  [m-1]
    thinned : bool
        Evenly spaced; otherwise scattered by chance, with the wider spread of sizes that goes with it.
    """
    assert sheet.thin.in_row_small_cm is not None
    row_m = sheet.sowing.row_cm.value / 100.0
    terms = (law.alpha, law.beta, law.theta)
    mass = float(crowding.plant_mass_g(plants_per_m / row_m, *terms))
    small = float(
        crowding.plant_mass_g(
            100.0 / sheet.thin.in_row_small_cm.value / row_m, law.alpha, law.beta, law.theta
        )
    )
    cv = crowding.THINNED_CV_SHARE if thinned else crowding.UNTHINNED_CV_SHARE
    least = LEAST_SHARE * small
    share = float(crowding.share_in_grade(mass, least, cv_share=cv))
    # by mass large plants count more: the same lognormal about a mean so much higher
    by_mass = float(crowding.share_in_grade(mass * (1.0 + cv**2), least, cv_share=cv))
    room = plants_per_m if thinned else float(crowding.sound_plants_per_m(plants_per_m))
    good = min(share * plants_per_m, room)
    kg = plants_per_m * mass * by_mass / 1000.0 * good / max(share * plants_per_m, 1e-9)
    return Stand(good, kg * 1000.0 / max(good, 1e-9), kg)


def weigh_thin(plot: Plot, pace: Pace, today: date, *, crop: str, note: str) -> ThinAnswer | None:
    """Every distance now and a week later, beside leaving the row; None where nobody knows the stand.

    Parameters
    ----------
    plot : Plot
        Of a crop that is thinned, with its plants and row known.
    pace : Pace
    today : date
    crop, note : str
    """
    sheet, length, standing = plot.sheet, metres(plot), per_m(plot)
    section = sheet.thin
    assert section.in_row_small_cm is not None
    assert section.in_row_large_cm is not None
    if length is None or standing is None:
        return None
    law = density_of(sheet, sheet.harvest.yield_kg_m.value)
    never = stand(sheet, law, standing, thinned=False)
    start, slack = crowded_from(plot, standing), slack_days(sheet)
    plants = max(round(standing * length), 1)
    options = []
    distances = sorted(
        {section.in_row_small_cm.value, sheet.sowing.in_row_cm.value, section.in_row_large_cm.value}
    )
    for cm in distances:
        stay = max(round(length * 100.0 / cm), 1)
        if not section.in_row_small_cm.value <= cm <= section.in_row_large_cm.value or stay >= plants:
            continue
        full = stand(sheet, law, 100.0 / cm, thinned=True)
        for when, days in (("now", 0), ("a week later", WEEK)):
            late = crowding.late_thinning_share(days - start, slack)
            kg = (full.kg_m - np.maximum(full.kg_m - never.kg_m, 0.0) * late) * length
            good = (full.good_per_m - max(full.good_per_m - never.good_per_m, 0.0) * late) * length
            each_g = float((kg * 1000.0 / np.maximum(good, 1e-9)).mean())
            options.append(
                ThinOption(
                    when="now" if when == "now" else "a week later",
                    to_cm=round(cm, 1),
                    stay=stay,
                    removed=plants - stay,
                    minutes=round(pace.minutes("thin", float(plants - stay)), 1),
                    each_g=round(each_g, 1),
                    good=round(float(good.mean())),
                    kg=round(float(kg.mean()), 2),
                    kg_low=round(float(np.quantile(kg, 0.1)), 2),
                    kg_high=round(float(np.quantile(kg, 0.9)), 2),
                )
            )
    left = never.kg_m * length
    options.append(
        ThinOption(
            when="not at all",
            to_cm=None,
            stay=plants,
            removed=0,
            minutes=0.0,
            each_g=round(never.each_g, 1),
            good=round(never.good_per_m * length),
            kg=round(left, 2),
            kg_low=round(left, 2),
            kg_high=round(left, 2),
        )
    )
    worth = [each.kg - HOUR_WORTH * each.minutes / 60.0 for each in options]
    best = int(np.argmax(worth))
    first, rest = options[best], options[-1]
    soon = float(np.median(start))
    crowd = (
        "they crowd each other already"
        if soon <= 0.0
        else f"they begin to crowd each other in {soon:.0f} days"
    )
    if first.when == "not at all":
        reason = f"Thinning would bring nothing that pays its minutes: {rest.kg:.1f} kg stand as they are."
    else:
        reason = (
            f"It brings {first.kg:.1f} kg worth having against {rest.kg:.1f} kg unthinned, at "
            f"{first.each_g:.0f} g each against {rest.each_g:.0f} g; {crowd}."
        )
    return ThinAnswer(
        question="weigh thin",
        today=today,
        crop=crop,
        planting=plot.key,
        bed=plot.where,
        standing=plants,
        row_m=round(length, 2),
        options=options,
        best=best,
        reason=reason,
        facts=[
            Fact(name="plants on a metre of row", value=round(standing, 1), unit="m-1", source="the book"),
            Fact(
                name="usual yield of a metre",
                value=sheet.harvest.yield_kg_m.value,
                unit="kg m-1",
                source=sheet.harvest.yield_kg_m.receipt,
            ),
            Fact(
                name="most a stand can give that the usual one reaches, share",
                value=None if law.closed is None else round(law.closed, 2),
                law="mass by density",
                source=section.density_beta.receipt if section.density_beta else "computed: from its spread",
            ),
        ],
        assumptions=[
            "The law of density for this crop was measured; kilos are scaled to the sheet's usual yield."
            if law.measured
            else "No law of density was measured for this crop: it is taken from how wide a plant grows, "
            f"{sheet.room.spread_cm.value:g} cm; by that a usual stand gives "
            f"{(law.closed or 0.0) * 100:.0f} % of the most its ground can.",
            "Thinnings are not weighed; pull edible ones for the kitchen.",
        ],
        note=note,
    )
