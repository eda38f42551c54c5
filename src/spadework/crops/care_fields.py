"""Fields of a crop sheet that the jobs of the season are computed from, beside those of its growth."""

from __future__ import annotations

from spadework.crops.field import Field, Text

CARE_SECTIONS: tuple[str, ...] = (
    "water",
    "thin",
    "weeds",
    "earth",
    "support",
    "bees",
    "use",
    "guard",
    "room",
    "next",
    "start",
)

EATERS: tuple[str, ...] = (
    "slugs",
    "cutworms",
    "flea beetles",
    "mice",
    "voles",
    "gophers",
    "groundhogs",
    "squirrels",
    "raccoons",
    "rabbits",
    "deer",
    "pigeons",
    "sparrows",
    "finches",
    "larks",
    "quail",
    "starlings",
    "blackbirds",
    "thrushes",
    "crows",
    "pheasants",
)

_YES_NO = ("yes", "no")

CARE_TEXTS: tuple[Text, ...] = (
    Text(
        "harvest",
        "repeat",
        "how often a plant is picked: once, fruit by fruit many times, or cut to grow again",
        ("once", "many", "cut again"),
    ),
    Text("harvest", "lift", "how it is taken", ("pick", "cut", "lift", "pull")),
    Text("harvest", "whole", "whether taking a piece takes the whole plant", _YES_NO),
    Text("harvest", "standing_frost", "whether it may stand outside through frost, ready", _YES_NO),
    Text(
        "thin",
        "tap",
        "whether it has a tap root, so that thinnings are not set again",
        _YES_NO,
        applies="thinned",
    ),
    Text("thin", "cluster", "whether one seed gives several seedlings", _YES_NO, applies="thinned"),
    Text("thin", "edible", "whether thinnings are eaten", _YES_NO, applies="thinned"),
    Text(
        "thin",
        "fly",
        "pest drawn by the smell of thinning",
        ("carrot fly", "onion fly"),
        required=False,
        applies="thinned",
    ),
    Text(
        "weeds",
        "free_from",
        "from when the weeks free of weeds are counted: what is sown in place counts from emergence where "
        "this says setting out; spring is when what stood over winter grows again",
        ("emergence", "setting out", "sowing", "spring"),
    ),
    Text(
        "earth",
        "why",
        "what soil is drawn up for: tubers kept from light, pale shanks, a firm stand, or to fill the first "
        "year's planting trench by and by",
        ("light", "blanch", "hold", "trench"),
        applies="earthed",
    ),
    Text(
        "support",
        "kind",
        "what it climbs or leans on",
        ("none", "sticks", "stakes", "cage", "trellis", "poles", "net"),
    ),
    Text(
        "support",
        "need",
        "when it is needed: always, only where wind is strong, or by the grower's choice",
        ("always", "wind", "choice"),
        applies="supported",
    ),
    Text(
        "bees",
        "needs",
        "what sets the crop: none (no flower is needed), itself, itself but better with visits, bees, wind",
        ("none", "self", "few", "bees", "wind"),
    ),
    Text("bees", "uncover", "whether a cover must come off at flowering", _YES_NO),
    Text("bees", "hand", "whether flowers can be set by hand", _YES_NO),
    Text("guard", "eaten_by", "what takes the young plants", EATERS, many=True, required=False),
    Text("guard", "ripe_by", "what takes the ripe crop", EATERS, many=True, required=False),
)

CARE_FIELDS: tuple[Field, ...] = (
    Field(
        "harvest",
        "again_cday",
        "degC day",
        5,
        800,
        "warmth of the air above its base from one picking or cutting to the next",
        "repeats",
    ),
    Field(
        "harvest", "again_base_c", "degC", -5, 18, "air temperature below which nothing grows on", "repeats"
    ),
    Field(
        "harvest",
        "past_days",
        "day",
        0.5,
        200,
        "days in usual weather of its season from ready to past its best: of the plant if it is picked once, "
        "of one fruit, pod, flower or leaf if many times",
    ),
    Field("harvest", "keeps_days", "day", 1, 400, "days it keeps in the best store", required=False),
    Field("water", "kc_ini", "1", 0.1, 1.3, "crop coefficient at the start, Table 12 of FAO paper 56"),
    Field("water", "kc_mid", "1", 0.1, 1.4, "crop coefficient at full leaf, Table 12"),
    Field("water", "kc_end", "1", 0.1, 1.3, "crop coefficient at the end, Table 12"),
    Field("water", "kcb_mid", "1", 0.1, 1.4, "basal crop coefficient at full leaf, Table 17", required=False),
    Field(
        "water",
        "roots_m",
        "m",
        0.1,
        3,
        "depth of roots when full grown, Table 22; low is for watering to plan",
    ),
    Field(
        "water",
        "depletion",
        "1",
        0.05,
        0.9,
        "share of available water used before stress, at 5 mm a day, Table 22",
    ),
    Field("water", "thirst_from", "1", 0, 1, "share of the way from which drought costs most"),
    Field(
        "water",
        "thirst_until",
        "1",
        0,
        1,
        "share of the way until which drought costs most; 1 is until the last picking",
    ),
    Field(
        "water",
        "thirst_cost",
        "1",
        0.2,
        2,
        "share of yield lost for each share of evapotranspiration missing over the season",
    ),
    Field("thin", "first_leaves", "1", 0, 8, "true leaves at the first thinning", "direct", required=False),
    Field("thin", "first_height_cm", "cm", 1, 30, "height at the first thinning", "thinned", required=False),
    Field("thin", "final_leaves", "1", 0, 15, "true leaves by which the final distance is wanted", "thinned"),
    Field(
        "thin", "in_row_small_cm", "cm", 0.5, 200, "final distance in the row for small produce", "thinned"
    ),
    Field(
        "thin", "in_row_large_cm", "cm", 0.5, 250, "final distance in the row for large produce", "thinned"
    ),
    Field(
        "thin",
        "density_alpha",
        "g^-theta",
        0,
        1,
        "alpha of w^-theta = alpha + beta rho, w g a plant, rho plants/m2",
        "thinned",
        required=False,
    ),
    Field("thin", "density_beta", "m2 g^-theta", 0, 0.1, "beta of the same law", "thinned", required=False),
    Field("thin", "density_theta", "1", 0.3, 1.5, "theta of the same law", "thinned", required=False),
    Field("weeds", "free_weeks", "week", 1, 30, "weeks the bed is to be kept free of weeds"),
    Field(
        "weeds",
        "stand_weeks",
        "week",
        0.5,
        12,
        "weeks from then that the first weeds may stand before they cost yield",
        required=False,
    ),
    Field("earth", "first_height_cm", "cm", 3, 60, "height at which soil is first drawn up", "earthed"),
    Field("earth", "step_cm", "cm", 2, 60, "growth from one earthing up to the next", "earthed"),
    Field("earth", "depth_cm", "cm", 1, 30, "soil drawn up each time", "earthed"),
    Field("earth", "passes", "1", 1, 8, "how many times soil is drawn up", required=False),
    Field("support", "height_cm", "cm", 5, 100, "height at which the support must stand", "supported"),
    Field(
        "bees",
        "first_female_share",
        "1",
        0,
        1,
        "share of the way at the first female flower, where male flowers come first",
        required=False,
    ),
    Field(
        "use",
        "worth_kg",
        "1",
        0.1,
        20,
        "worth of a kilogram to the kitchen against one of carrots, judged by how hard it is to have as good "
        "from elsewhere: keeping staples below 1, tender pods, fruit and leaves above, herbs most",
    ),
    Field(
        "guard",
        "tender_days",
        "day",
        0,
        200,
        "days after emergence or setting out (in spring, for one that stands for years) while it is taken",
    ),
    Field("guard", "until_leaves", "1", 1, 20, "true leaves from which it outgrows them", required=False),
    Field("room", "spread_cm", "cm", 3, 500, "width of a full-grown plant"),
    Field(
        "room", "cover_from", "1", 0.1, 1, "share of the way at which leaves cover the soil", required=False
    ),
    Field("next", "every_days", "day", 3, 60, "days between sowings for an unbroken supply", required=False),
    Field("next", "rotation_years", "year", 1, 99, "years before it or its kin come back to a bed"),
    Field("start", "prick_leaves", "1", 0, 4, "true leaves at pricking out", "raised", required=False),
    Field(
        "start", "pot_on_weeks", "week", 1, 12, "weeks from sowing to a larger pot", "raised", required=False
    ),
    Field("start", "harden_days", "day", 1, 28, "days of hardening off", "raised"),
    Field("start", "soil_out_c", "degC", 0, 25, "morning soil temperature wanted at setting out", "raised"),
    Field(
        "start", "night_out_c", "degC", -10, 20, "night air temperature wanted after setting out", "raised"
    ),
)

CARE_ORDERS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("water", ("kc_ini", "<=", "kc_mid")),
    ("water", ("kc_end", "<=", "kc_mid")),
    ("water", ("kcb_mid", "<=", "kc_mid")),
    ("water", ("thirst_from", "<", "thirst_until")),
    ("thin", ("first_leaves", "<=", "final_leaves")),
    ("thin", ("in_row_small_cm", "<=", "in_row_large_cm")),
    ("weeds", ("stand_weeks", "<=", "free_weeks")),
    ("earth", ("depth_cm", "<=", "first_height_cm")),
)
