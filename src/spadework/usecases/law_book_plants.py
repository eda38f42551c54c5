"""The laws behind the jobs among plants: room, thinning, weeds, picking.

Heavy rooms are imported inside the evaluators, as in `law_book`.
"""

from __future__ import annotations

from spadework.usecases.laws import Blank, Given, Law, Result, number, optional, rounded


def _room(given: Given) -> Result:
    from spadework.science import crowding

    alpha, beta, theta = (number(given, name) for name in ("alpha", "beta", "theta"))
    density = number(given, "plants_m2")
    mass = float(crowding.plant_mass_g(density, alpha, beta, theta))
    low, high = number(given, "low_g"), optional(given, "high_g")
    cv = crowding.UNTHINNED_CV_SHARE if given["row"] == "unthinned" else crowding.THINNED_CV_SHARE
    share = float(crowding.share_in_grade(mass, low, float("inf") if high is None else high, cv))
    whole = float(crowding.yield_kg_m2(density, alpha, beta, theta))
    return {
        "mass_g": rounded(mass, 0),
        "yield_kg_m2": rounded(whole, 2),
        "share_in_grade": rounded(share, 2),
        "plants_in_grade_m2": rounded(share * density, 1),
    }


def _thinning_gain(given: Given) -> Result:
    from spadework.science import crowding

    standing, apart, row = (number(given, name) for name in ("plants_per_m", "apart_cm", "row_cm"))
    alpha, beta, least = (number(given, name) for name in ("alpha", "beta", "low_g"))
    slack = crowding.LEAF_THINNING_DAYS if given["grown_for"] == "leaf" else crowding.ROOT_THINNING_DAYS
    late = float(crowding.late_thinning_share(number(given, "days_late"), slack))
    left = min(100.0 / apart, standing)

    def sound(per_m: float, roots: float, spread: float) -> tuple[float, float]:
        mass = float(crowding.plant_mass_g(per_m * 100.0 / row, alpha, beta))
        return roots * float(crowding.share_in_grade(mass, least, float("inf"), spread)), mass

    crowded = float(crowding.sound_plants_per_m(standing))
    without, small = sound(standing, crowded, crowding.UNTHINNED_CV_SHARE)
    best, large = sound(left, left, crowding.THINNED_CV_SHARE)
    gain = max(best - without, 0.0)
    return {
        "sound_unthinned_per_m": rounded(without, 1),
        "sound_thinned_per_m": rounded(without + gain * (1.0 - late), 1),
        "mass_unthinned_g": rounded(small, 0),
        "mass_thinned_g": rounded(large, 0),
        "gain_lost_by_waiting": rounded(late, 2),
    }


def _hoed_weeds(given: Given) -> Result:
    from spadework.science import weeds

    stage = ("thread", "two-leaves", "large").index(str(given["weeds"])) + 1
    chance = weeds.hoed_die_chance(
        stage, number(given, "et0_mm"), number(given, "rain_chance"), number(given, "surface_wet_share")
    )
    return {"share_that_die": rounded(float(chance), 2)}


def _past_size(given: Given) -> Result:
    from spadework.science import picking

    gap, good = number(given, "since_pick_cday"), number(given, "stays_good_cday")
    return {
        "past_size": rounded(float(picking.past_size_share(gap, good)), 2),
        "picking_lost": rounded(float(picking.picking_loss_share(gap, good)), 2),
    }


PLANT_JOB_LAWS: tuple[Law, ...] = (
    Law(
        "room-for-plants",
        "Mass of a plant, yield and plants of a size, by how many stand on a square metre.",
        (
            Blank("plants_m2", "number", "plants on a square metre", 0.1, 5000.0),
            Blank(
                "alpha", "number", "alpha of w^-theta = alpha + beta rho, w in g", 1e-9, 1e3, default=0.00188
            ),
            Blank("beta", "number", "beta of the same", 0.0, 1e3, default=0.0000916),
            Blank("theta", "number", "theta of the same", 0.1, 3.0, default=1.0),
            Blank("low_g", "number", "least mass wanted, g", 0.0, 1e5, default=0.0),
            Blank("high_g", "number", "most mass wanted, g", 0.0, 1e5, needed=False),
            Blank("row", "word", "how even the row is", words=("thinned", "unthinned"), default="thinned"),
        ),
        _room,
        (
            "memory: Shinozaki and Kira 1956; Bleasdale and Nelder 1960 (form)",
            "published: Ratkowsky 1983, Nonlinear Regression Modeling (alpha and beta of onions)",
            "memory: how much masses spread",
        ),
    ),
    Law(
        "thinning-gain",
        "Plants big enough in a metre of row, left alone and thinned, and what waiting with it costs.",
        (
            Blank("plants_per_m", "number", "plants in a metre of row", 0.0, 1000.0),
            Blank("apart_cm", "number", "distance to thin to, cm", 0.5, 200.0),
            Blank("row_cm", "number", "distance between rows, cm", 2.0, 300.0, default=30.0),
            Blank("low_g", "number", "least mass worth having, g", 0.0, 1e5, default=50.0),
            Blank("days_late", "number", "days since neighbours crowd", 0.0, 120.0, default=0.0),
            Blank("grown_for", "word", "what it is grown for", words=("root", "leaf"), default="root"),
            Blank("alpha", "number", "alpha of 1/w = alpha + beta rho, w in g", 1e-9, 1e3, default=0.00188),
            Blank("beta", "number", "beta of the same", 0.0, 1e3, default=0.0000916),
        ),
        _thinning_gain,
        (
            "computed: plants scattered by chance along a row, one root to a clump of 3 cm",
            "published: Ratkowsky 1983, Nonlinear Regression Modeling (alpha and beta of onions)",
            "memory: how much masses spread; 15 days of slack for roots, 25 for leaves",
        ),
    ),
    Law(
        "hoed-weeds-die",
        "Share of weeds hoed this morning that are dead by tomorrow.",
        (
            Blank("et0_mm", "number", "reference evapotranspiration, mm a day", 0.0, 15.0),
            Blank("weeds", "word", "their size", words=("thread", "two-leaves", "large"), default="thread"),
            Blank("rain_chance", "number", "chance of rain within a day, 0 to 1", 0.0, 1.0, default=0.0),
            Blank("surface_wet_share", "number", "how wet the surface is, 0 to 1", 0.0, 1.0, default=0.0),
        ),
        _hoed_weeds,
        ("common-practice: hoe small weeds on a dry morning with no rain to come",),
    ),
    Law(
        "past-size",
        "Share of fruit past its size, and of the next picking lost, by warmth since the last.",
        (
            Blank("since_pick_cday", "number", "warmth since, degree-days in °C", 0.0, 5000.0),
            Blank("stays_good_cday", "number", "warmth a fruit stays good, degree-days in °C", 1.0, 5000.0),
        ),
        _past_size,
        ("computed: fruit comes to size at an even pace in warmth", "memory: what a loaded plant holds back"),
    ),
)
"""What stands beside what, and when it is picked."""
