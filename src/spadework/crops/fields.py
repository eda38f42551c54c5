"""What a crop sheet may hold: every field, its unit and allowed range, as data.

The checker, the overrides and the printed list of fields all read this one table.
"""

from __future__ import annotations

from functools import cache

from spadework.crops.care_fields import CARE_FIELDS, CARE_ORDERS, CARE_SECTIONS, CARE_TEXTS
from spadework.crops.field import CONDITIONS, Field, Text

TEXTS: tuple[Text, ...] = (
    Text("", "key", "file name without its ending; lower case, words joined by hyphens"),
    Text("", "name", "name used where no British or American form is asked for"),
    Text("", "british", "British name"),
    Text("", "american", "American name"),
    Text("", "synonyms", "further names that find the sheet", many=True, required=False),
    Text("", "botanical", "botanical name"),
    Text("", "family", "botanical family, the key for rotation"),
    Text(
        "",
        "kind",
        "the part that is grown for",
        ("root", "leaf", "head", "fruit", "pod", "grain", "bulb", "tuber", "stem", "herb", "flower"),
    ),
    Text("", "season", "cool- or warm-season crop", ("cool", "warm")),
    Text("", "life", "length of life", ("annual", "biennial", "perennial")),
    Text(
        "",
        "propagation",
        "how it is started",
        ("direct", "raised", "sets", "tubers", "cloves", "crowns", "slips"),
        many=True,
    ),
    Text("sowing", "seed_size", "size class of the seed, for crust and depth", ("small", "large")),
    Text("development", "day_response", "whether day length sets the pace", ("none", "long", "short")),
    Text(
        "development",
        "packet_from",
        "from when the days of packets are counted",
        ("sowing", "setting out"),
        required=False,
    ),
    Text("frost", "measured_at", "where the killing temperatures were taken", ("leaf", "air")),
    Text("frost", "class", "hardiness class", ("tender", "half-hardy", "hardy", "very-hardy")),
    Text("heat", "harm", "what heat does to the crop", required=False),
    Text("bolting", "kind", "what makes it bolt", ("none", "cold", "long-day")),
    Text("bolting", "harm", "what bolting does to the crop", required=False),
    Text("harvest", "sign", "sign that it is ready"),
    *CARE_TEXTS,
)

FIELDS: tuple[Field, ...] = (
    Field("sowing", "depth_mm", "mm", 0, 200, "usual depth of sowing or planting in a bed"),
    Field("sowing", "in_row_cm", "cm", 0.5, 200, "final distance in the row"),
    Field("sowing", "row_cm", "cm", 5, 400, "distance between rows"),
    Field("sowing", "seeds_per_gram", "1/g", 0.1, 10000, "seeds in a gram", "seed"),
    Field(
        "sowing",
        "lot_germination_pct",
        "%",
        10,
        100,
        "germination of a usual seed lot; low is the legal minimum for sale where one is known",
    ),
    Field(
        "sowing",
        "field_factor",
        "1",
        0.1,
        1,
        "share of germinable seed that can come up in a good garden bed",
    ),
    Field("sowing", "weeks_to_set_out", "week", 1, 20, "from sowing in trays to setting out", "raised"),
    Field("emergence", "base_c", "degC", -5, 18, "soil temperature below which nothing moves"),
    Field(
        "emergence",
        "sum_cd",
        "degC day",
        20,
        800,
        "warmth above base to median emergence from 13 mm in moist soil",
    ),
    Field("emergence", "optimum_c", "degC", 8, 42, "soil temperature from which emergence gets no faster"),
    Field("emergence", "shoulder_c", "degC", 10, 44, "soil temperature above which emergence slows"),
    Field("emergence", "ceiling_c", "degC", 15, 50, "soil temperature at which emergence stops"),
    Field(
        "emergence", "best_pct", "%", 10, 100, "highest percent of normal seedlings, at the best temperature"
    ),
    Field("emergence", "cold_half_c", "degC", -60, 30, "soil temperature at which cold halves the percent"),
    Field("emergence", "cold_width_c", "degC", 0.1, 30, "how gradually cold lowers the percent"),
    Field("emergence", "heat_half_c", "degC", 5, 60, "soil temperature at which heat halves the percent"),
    Field("emergence", "heat_width_c", "degC", 0.1, 30, "how gradually heat lowers the percent"),
    Field("emergence", "depth_cost_cd_mm", "degC day/mm", 0, 10, "further warmth for each mm below 13 mm"),
    Field("emergence", "sigma", "1", 0.02, 1, "log spread of emergence within one sowing"),
    Field("emergence", "tau", "1", 0.02, 1, "log spread between sowings (lot, depth, bed)"),
    Field(
        "emergence",
        "field_sum_factor",
        "1",
        0.3,
        4,
        "warmth needed in a bed against the table's moist seedbed; used by the clock, not by the plain law",
    ),
    Field("emergence", "crust_factor", "1", 0.05, 1, "share still emerging through a dry crust"),
    Field(
        "emergence",
        "rot_c",
        "degC",
        -2,
        25,
        "mean soil temperature below which wet seed rots",
        required=False,
    ),
    Field("development", "base_c", "degC", -5, 18, "air temperature below which development stops"),
    Field("development", "optimum_c", "degC", 10, 38, "air temperature from which it gets no faster"),
    Field("development", "shoulder_c", "degC", 12, 42, "air temperature above which it slows"),
    Field("development", "ceiling_c", "degC", 20, 55, "air temperature at which it stops"),
    Field(
        "development",
        "ready_days",
        "day",
        5,
        400,
        "days at the optimum from emergence (in spring, for one that stands for years) to the first "
        "worthwhile picking or lifting",
    ),
    Field(
        "development",
        "set_out_days",
        "day",
        5,
        400,
        "the same from setting out; the plant has the rest of its way behind it by then",
        "raised",
    ),
    Field(
        "development", "flower_share", "1", 0, 1, "share of the way to ready at first flower", required=False
    ),
    Field("development", "cv", "1", 0.02, 0.5, "spread of the requirement among varieties"),
    Field(
        "development",
        "critical_h",
        "h",
        8,
        18,
        "day length, sunrise to sunset, at which the response sets in",
        "day-length",
    ),
    Field(
        "development",
        "saturating_h",
        "h",
        8,
        20,
        "day length at which the response is full",
        "day-length",
        required=False,
    ),
    Field(
        "development",
        "packet_days",
        "day",
        5,
        1200,
        "days to ready as packets and lists print them, from sowing (or planting) or from setting out",
        required=False,
    ),
    Field("growth", "leaf_days", "day", 0.3, 30, "days at the optimum from one leaf to the next"),
    Field("growth", "first_leaves", "1", 0, 6, "true leaves at emergence; seed leaves are counted apart"),
    Field("growth", "leaves_max", "1", 3, 200, "leaves on the main stem when full grown"),
    Field("growth", "height_cm", "cm", 3, 400, "height when full grown"),
    Field("frost", "young_kill_c", "degC", -40, 5, "kills most plants with one to four true leaves"),
    Field("frost", "kill_c", "degC", -40, 5, "kills or ruins most grown plants"),
    Field("heat", "limit_c", "degC", 18, 45, "daily maximum above which heat does harm", required=False),
    Field("heat", "dose_cday", "degC day", 1, 1000, "sum of degrees above the limit that spoils it", "heat"),
    Field("heat", "from_share", "1", 0, 1, "share of the way to ready from which heat counts", "heat"),
    Field("chill", "limit_c", "degC", -2, 20, "daily mean below which growth is checked", required=False),
    Field("chill", "set_out_check_days", "day", 0, 21, "days lost when set out", "raised"),
    Field("bolting", "base_c", "degC", -5, 18, "lowest temperature that counts", "bolts"),
    Field("bolting", "optimum_c", "degC", 0, 35, "temperature that counts most", "bolts"),
    Field("bolting", "ceiling_c", "degC", 8, 42, "highest temperature that counts", "bolts"),
    Field("bolting", "juvenile_leaves", "1", 0, 40, "true leaves before which cold leaves no trace", "cold"),
    Field("bolting", "first_cday", "degC day", 5, 1500, "cold after which 5 % bolt", "cold"),
    Field("bolting", "most_cday", "degC day", 10, 3000, "cold after which 90 % bolt", "cold"),
    Field(
        "bolting",
        "removal_above_c",
        "degC",
        10,
        35,
        "daily mean above which the trace of cold is undone",
        "cold",
        required=False,
    ),
    Field(
        "bolting",
        "removal_per_day",
        "degC day/day",
        0,
        20,
        "trace of cold undone by a day above that",
        "cold",
        required=False,
    ),
    Field(
        "bolting",
        "days",
        "day",
        5,
        200,
        "days at the optimum, in saturating day length, from emergence to the flower stalk",
        "long-day",
    ),
    Field("bolting", "critical_h", "h", 6, 17, "day length at which the response sets in", "long-day"),
    Field("bolting", "saturating_h", "h", 8, 20, "day length at which it is full", "long-day"),
    Field("bolting", "cv", "1", 0.02, 0.6, "spread among varieties", "long-day"),
    Field("harvest", "days", "day", 1, 400, "how long it stands or is picked"),
    Field("harvest", "yield_kg_m", "kg/m", 0.05, 30, "usual yield of a metre of row"),
    Field(
        "harvest",
        "first_year",
        "1",
        1,
        6,
        "year of the first picking, 1 being the year of planting; the days to ready count within it",
        required=False,
    ),
    *CARE_FIELDS,
)

STAGE = Field("development", "stages", "1", 0, 1, "share of the way to ready at the start of a BBCH stage")

SECTIONS: tuple[str, ...] = (
    "sowing",
    "emergence",
    "development",
    "growth",
    "frost",
    "heat",
    "chill",
    "bolting",
    "harvest",
    *CARE_SECTIONS,
)

# Within a section each number must lie below the next; "<=" lets neighbours be equal.
ORDERS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("emergence", ("base_c", "<", "optimum_c", "<=", "shoulder_c", "<", "ceiling_c")),
    ("emergence", ("cold_half_c", "<", "heat_half_c")),
    ("development", ("base_c", "<", "optimum_c", "<=", "shoulder_c", "<", "ceiling_c")),
    ("development", ("set_out_days", "<", "ready_days")),
    ("growth", ("first_leaves", "<", "leaves_max")),
    ("bolting", ("base_c", "<", "optimum_c", "<", "ceiling_c")),
    ("bolting", ("first_cday", "<", "most_cday")),
    ("bolting", ("critical_h", "<", "saturating_h")),
    *CARE_ORDERS,
)


@cache
def by_path() -> dict[str, Field]:
    """Every number's field under its path, such as "emergence.base_c"."""
    return {field.path: field for field in FIELDS}


@cache
def of_section(section: str) -> dict[str, Field]:
    """A section's number fields by name, in order."""
    return {field.name: field for field in FIELDS if field.section == section}


@cache
def texts_of_section(section: str) -> dict[str, Text]:
    """A section's text fields by name; the empty section holds the sheet's head."""
    return {text.name: text for text in TEXTS if text.section == section}


def fields_markdown() -> str:
    """The list of fields as a table for the documentation."""
    lines = ["| field | unit | allowed | for | meaning |", "| --- | --- | --- | --- | --- |"]
    for text in TEXTS:
        allowed = ", ".join(text.choices) or "text"
        whom = CONDITIONS[text.applies] + ("" if text.required else ", optional")
        lines.append(f"| `{text.path}` | | {allowed} | {whom} | {text.meaning} |")
    for field in FIELDS:
        whom = CONDITIONS[field.applies] + ("" if field.required else ", optional")
        allowed = f"{field.lowest:g} to {field.highest:g}"
        lines.append(f"| `{field.path}` | {field.unit} | {allowed} | {whom} | {field.meaning} |")
    return "\n".join(lines) + "\n"
