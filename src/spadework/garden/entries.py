"""The entries of the book: one frozen record for each kind of thing seen or done.

An entry is never edited. A correction is a new entry that `replaces` another, an undo one that `withdraws`
it. The same key twice is one entry.

Length: one record for each kind of entry, and nothing else.
"""

from __future__ import annotations

from datetime import date, datetime
from typing import Literal, TypeAlias

import msgspec

Finger = Literal["dry", "damp", "wet"]
Squeeze = Literal["crumbles", "holds", "smears"]
RowsRun = Literal["", "along", "across"]

Spot: TypeAlias = tuple[float, float]
"""A single plant's place in its bed, across its width and along its length.  [m]"""


class Block(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A rectangle within a bed: its corner, across the bed and along it, and its size.  [m]"""

    across_m: float = 0.0
    along_m: float = 0.0
    width_m: float
    length_m: float


class _Act(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, tag_field="kind"):
    """Base of all payloads; the tag is the kind as stored."""


# -- plants ------------------------------------------------------------------------------------------


class Sown(_Act, frozen=True, tag="sown"):
    """Seed, tubers, sets or cloves put into a place. Starts a planting named by `planting`.

    `block` says where in the bed it is, or `spots` do for single places; where both are left out nobody said.
    Rows run along the bed unless `rows_run` says across.
    """

    planting: str
    crop: str
    variety: str = ""
    method: str = ""
    rows: int | None = None
    row_cm: float | None = None
    row_length_m: float | None = None
    spacing_cm: float | None = None
    area_m2: float | None = None
    seeds: int | None = None
    depth_mm: float | None = None
    lot: str = ""
    tray: str = ""
    block: Block | None = None
    spots: tuple[Spot, ...] = ()
    rows_run: RowsRun = ""
    traits: tuple[str, ...] = ()
    perennial: bool = False


class PlantedOut(_Act, frozen=True, tag="planted out"):
    """Plants set into a place; starts a planting, or moves one from its tray.

    Places are told as in `Sown`. `only_year` says that of its day only the year is known. `moved` says that
    what stands in one place is lifted and set anew in another: the old place is free from that day.
    """

    planting: str
    crop: str
    variety: str = ""
    plants: int | None = None
    rows: int | None = None
    row_cm: float | None = None
    row_length_m: float | None = None
    spacing_cm: float | None = None
    area_m2: float | None = None
    from_planting: str = ""
    bought: bool = False
    block: Block | None = None
    spots: tuple[Spot, ...] = ()
    rows_run: RowsRun = ""
    traits: tuple[str, ...] = ()
    perennial: bool = False
    only_year: bool = False
    moved: bool = False


class PrickedOut(_Act, frozen=True, tag="pricked out"):
    """Seedlings moved on into cells or pots."""

    plants: int
    into: str = ""


class Counted(_Act, frozen=True, tag="counted"):
    """Plants standing; of a stretch of row where not of all."""

    standing: int
    of_row_m: float | None = None


class Measured(_Act, frozen=True, tag="measured"):
    """Size of the plants."""

    height_cm: float | None = None
    leaves: float | None = None
    width_mm: float | None = None


class Thinned(_Act, frozen=True, tag="thinned"):
    """Plants taken out for room."""

    removed: int | None = None
    left: int | None = None
    spacing_cm: float | None = None


class Tended(_Act, frozen=True, tag="tended"):
    """A plain job done: ground prepared, weeding, earthing up, tying, mulching, potting on, looking round."""

    act: Literal[
        "weeded",
        "hoed",
        "earthed up",
        "supported",
        "mulched",
        "potted on",
        "hardened off",
        "pruned",
        "prepared",
        "looked over",
    ]
    depth_cm: float | None = None
    material: str = ""


class Moved(_Act, frozen=True, tag="cover"):
    """Kit put on, taken off, opened or shut."""

    act: Literal["on", "off", "opened", "shut"]
    item: str = ""
    length_m: float | None = None
    pieces: int | None = None
    hour: float | None = None


class Watered(_Act, frozen=True, tag="watered"):
    """Water given: litres, depth, or minutes of a flow."""

    litres: float | None = None
    depth_mm: float | None = None
    minutes: float | None = None
    hour: float | None = None


class Fed(_Act, frozen=True, tag="fed"):
    """Feed given."""

    material: str
    amount: str = ""


class Amended(_Act, frozen=True, tag="amended"):
    """Manure, compost or the like worked in. Its spray history is asked for hay, straw and manure."""

    material: str
    source: str = ""
    batch: str = ""
    state: Literal["raw", "finished", "not known"] = "not known"
    spray_history: Literal["clean", "sprayed", "not known", ""] = ""
    litres: float | None = None


class Treated(_Act, frozen=True, tag="treated"):
    """A plant protection product used; `label_days` as the person read it on the label."""

    product: str
    label_days: int | None = None
    against: str = ""


class Picked(_Act, frozen=True, tag="picked"):
    """Harvest taken, by weight or count."""

    kg: float | None = None
    pieces: int | None = None
    quality: Literal["", "good", "fair", "poor"] = ""
    last: bool = False


class Lifted(_Act, frozen=True, tag="lifted"):
    """Roots, bulbs or tubers taken out of the ground."""

    kg: float | None = None
    pieces: int | None = None


class Kept(_Act, frozen=True, tag="kept"):
    """Cured or put into store."""

    act: Literal["cured", "stored"]
    where: str = ""
    kg: float | None = None


class Ended(_Act, frozen=True, tag="ended"):
    """The planting is over: cleared after use, or lost."""

    how: Literal["cleared", "lost"]
    why: str = ""
    plants: int | None = None


class Skipped(_Act, frozen=True, tag="skipped"):
    """A job not done, and why."""

    job: str
    why: str = ""


# -- seen --------------------------------------------------------------------------------------------


class Seen(_Act, frozen=True, tag="seen"):
    """Something seen on plants or ground; of wilting, at which hour and whether it was gone by morning.

    `trouble` is the key of the trouble it is held to be, `event` that of the event of its year that was seen:
    "first-flight". Both are empty where nobody said.
    """

    what: str
    sort: Literal["", "pest", "disease", "damage", "wilting", "weed"] = ""
    parts: tuple[str, ...] = ()
    plants: int | None = None
    of_plants: int | None = None
    hour: float | None = None
    gone_by_morning: bool | None = None
    trouble: str = ""
    event: str = ""


class Stage(_Act, frozen=True, tag="stage"):
    """A stage reached: up, first flower, first female flower, ready; or looked for and not reached yet."""

    what: Literal["up", "first flower", "first female flower", "ready", "bolting"]
    test: str = ""
    reached: bool = True


class RainGauge(_Act, frozen=True, tag="rain gauge"):
    """Rain in the garden's own gauge since it was last emptied."""

    rain_mm: float
    days: int = 1


class ThermometerRead(_Act, frozen=True, tag="thermometer"):
    """A thermometer read: air extremes, soil, inside a tunnel or frame."""

    place: Literal["air", "soil", "leaf", "tunnel", "frame"]
    min_c: float | None = None
    max_c: float | None = None
    now_c: float | None = None
    depth_cm: float | None = None
    hour: float | None = None


class SoilFelt(_Act, frozen=True, tag="soil felt"):
    """The soil by finger or by squeezing a handful."""

    finger: Finger | None = None
    squeeze: Squeeze | None = None
    depth_cm: float | None = None


class Minutes(_Act, frozen=True, tag="minutes"):
    """A job done and the time it took; 0 where nobody looked at the clock."""

    minutes: float
    job: str = ""
    people: int = 1


class Note(_Act, frozen=True, tag="note"):
    """Free words."""

    text: str


class Photo(_Act, frozen=True, tag="photo"):
    """A photo, kept as a file named by its content."""

    sha256: str
    media: str = "image/jpeg"
    words: str = ""


# -- locks -------------------------------------------------------------------------------------------


class Locked(_Act, frozen=True, tag="locked"):
    """No picking and eating, planting, or using, until a day (which is free again) or until a test is passed.

    With neither it holds until someone who may lifts it.
    """

    lock: str
    on: Literal["bed", "planting", "batch"]
    why: str
    stops: Literal["picking", "planting", "using"] = "picking"
    until: date | None = None
    test: str = ""
    may_lift: Literal["keeper", "anyone"] = "keeper"
    rule: str = ""


class Unlocked(_Act, frozen=True, tag="unlocked"):
    """A lock lifted by someone who may."""

    lock: str
    why: str


# -- the garden itself -------------------------------------------------------------------------------


class BedSet(_Act, frozen=True, tag="bed"):
    """A bed made, or described anew. Its key is the entry's subject.

    A round tub or sack is as wide as it is long; it is drawn as the square round it. `week_allowance_l` is
    the most water it may get in seven days; None for as much as it needs.
    """

    name: str
    shape: Literal["framed", "ground", "tub", "sack", "tunnel", "frame", "shelf"] = "framed"
    is_round: bool = False
    x_m: float = 0.0
    y_m: float = 0.0
    width_m: float = 1.2
    length_m: float = 2.4
    turn_deg: float = 0.0
    height_m: float = 0.0
    depth_m: float = 0.3
    soil: str = "loam"
    mulch: str = ""
    inside: str = ""
    shaded_by: tuple[str, ...] = ()
    water_by: Literal["", "emitters", "hose", "can"] = ""
    emitters: int | None = None
    emitter_l_h: float | None = None
    flow_l_min: float | None = None
    measured_l_min: float | None = None
    week_allowance_l: float | None = None


class FlowMeasured(_Act, frozen=True, tag="flow"):
    """The water a bed gets a minute, measured with a can and a watch; it goes before the rated flow."""

    flow_l_min: float


class BedGone(_Act, frozen=True, tag="bed gone"):
    """A bed taken up."""

    why: str = ""


class KitSet(_Act, frozen=True, tag="kit"):
    """A piece of kit owned: how much of it, and where it is kept."""

    item: str
    sort: Literal["fleece", "netting", "mesh", "film", "hoops", "screen", "scare", "tray", "tool", "other"]
    length_m: float | None = None
    width_m: float | None = None
    pieces: int | None = None
    grade: str = ""
    kept: str = ""


class LotSet(_Act, frozen=True, tag="seed lot"):
    """Seed in the tin."""

    lot: str
    crop: str
    variety: str = ""
    year: int | None = None
    seeds: int | None = None
    grams: float | None = None
    germinated: int | None = None
    tested: int | None = None
    traits: tuple[str, ...] = ()


class PersonSet(_Act, frozen=True, tag="person"):
    """Someone who works or reads here; `can` and `not_for` name work for and not for them."""

    person: str
    name: str
    role: Literal["keeper", "helper", "reader"] = "helper"
    can: tuple[str, ...] = ()
    not_for: tuple[str, ...] = ()


class ChoreSet(_Act, frozen=True, tag="chore"):
    """A person's own chore, which no planting asks for: minutes, how often, and from when to when.

    Done once where `every_days` is None. Time taken for it (`Minutes` with its name as the job) is its being
    done, a `Skipped` its being put off. `gone` takes it off.
    """

    chore: str
    minutes: float
    person: str = ""
    every_days: int | None = None
    first: date | None = None
    last: date | None = None
    gone: bool = False


class Stood(_Act, frozen=True, tag="stood"):
    """What stood in a bed in a year before the book."""

    crop: str
    year: int
    family: str = ""


class FactTold(_Act, frozen=True, tag="told"):
    """A fact told in a line (garden.told), kept as it was told."""

    source: str
    fact: dict[str, object]
    sort: str


Payload: TypeAlias = (
    Sown
    | PlantedOut
    | PrickedOut
    | Counted
    | Measured
    | Thinned
    | Tended
    | Moved
    | Watered
    | Fed
    | Amended
    | Treated
    | Picked
    | Lifted
    | Kept
    | Ended
    | Skipped
    | Seen
    | Stage
    | RainGauge
    | ThermometerRead
    | SoilFelt
    | Minutes
    | Note
    | Photo
    | Locked
    | Unlocked
    | BedSet
    | BedGone
    | FlowMeasured
    | KitSet
    | LotSet
    | PersonSet
    | ChoreSet
    | Stood
    | FactTold
)


class Entry(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One line of the book.

    Parameters
    ----------
    key : str
        ULID: sortable by the time it was made. The same key twice is one entry.
    happened_on : date
    recorded_at : datetime
        With time zone; what "as known on a day" goes by.
    author : str
        Person's key.
    bed, planting, batch : str
        What it is about; empty where it is not about one.
    act : Payload or None
        None for an entry that only withdraws another.
    replaces, withdraws : str
        Key of the entry corrected or undone.
    insisted : bool
        The program asked whether this can be, and the person said it is.
    """

    key: str
    happened_on: date
    recorded_at: datetime
    author: str
    act: Payload | None = None
    bed: str = ""
    planting: str = ""
    batch: str = ""
    replaces: str = ""
    withdraws: str = ""
    insisted: bool = False
