"""What is known of one trouble: an insect, a disease, a disorder, a bird or other animal.

Nothing here reads files; `troubles` does. Every number carries its receipt, and so does every sentence that
says a fact of nature or gives advice.
"""

from __future__ import annotations

from typing import Final, Literal, TypeAlias, get_args

import msgspec

from spadework.crops.sheet import Provenance
from spadework.science.degree_days import Cutoff, Method

TroubleKind: TypeAlias = Literal["insect", "disease", "disorder", "animal"]
"""Slugs, mites and eelworms are kept with the insects; birds and mammals are animals."""

Age: TypeAlias = Literal["seed", "seedling", "young", "leafy", "flowering", "fruiting", "ripe"]
"""Of a planting: not yet up; up to two true leaves; up to six; before flowers or swelling; in flower;
setting, podding or swelling root, bulb or tuber; ready."""

Part: TypeAlias = Literal[
    "seed",
    "seedling",
    "leaf",
    "growing tip",
    "stem",
    "flower",
    "fruit",
    "root",
    "bulb",
    "tuber",
    "whole plant",
]

LifeStage: TypeAlias = Literal["egg", "larva", "nymph", "pupa", "adult"]

Warmth: TypeAlias = Literal["air", "soil"]

Circumstance: TypeAlias = Literal[
    "frost lately",
    "cold nights",
    "hot days",
    "dry spell",
    "heavy rain lately",
    "wet fortnight",
    "long wet leaves",
    "dry then soaked",
    "strong wind",
    "bright after dull",
    "mild wet nights",
    "cold wet soil",
    "warm dry weather",
    "hail",
    "crusted soil",
    "planted out lately",
    "sown lately",
    "short of water",
    "standing water",
    "crowded",
    "same family last year",
    "sod last year",
    "outside material lately",
    "fresh manure",
    "weedkiller near",
    "much nitrogen",
    "no feed this year",
    "organic mulch",
    "weeds near",
    "under netting",
    "under fleece",
    "in a tunnel",
    "in a tray",
    "trouble here before",
]
"""What may hold of a planting here and now, each worked out from weather, book, kit and bed (advice)."""

CIRCUMSTANCES: Final[tuple[Circumstance, ...]] = get_args(Circumstance)

Land: TypeAlias = Literal["north america", "south america", "europe", "africa", "asia", "oceania"]


class Told(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One number with its receipt; low and high where sources disagree or a spread is published."""

    value: float
    provenance: Provenance = msgspec.field(name="class")
    low: float | None = None
    high: float | None = None
    source: str = ""
    note: str = ""

    @property
    def least(self) -> float:
        """Lower end of what is said, the value itself where no range is."""
        return self.value if self.low is None else self.low

    @property
    def most(self) -> float:
        """Upper end of what is said."""
        return self.value if self.high is None else self.high


class Said(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One sentence with its receipt."""

    text: str
    provenance: Provenance = msgspec.field(name="class")
    source: str = ""


class Shown(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A sign, and the share of plants ailing from this on which a grower who looks finds it."""

    sign: str
    often: Told


class Favour(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """How many times as likely the trouble is where a circumstance holds, and where it does not."""

    when: Circumstance
    times: Told
    otherwise: float = 1.0


class Alike(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Another trouble easily taken for this one, and the cheap test that tells them apart."""

    trouble: str
    test: str
    provenance: Provenance = msgspec.field(name="class")
    source: str = ""


class Scout(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """How it is looked for."""

    where: str
    when: str
    every_days: Told
    plants: Told
    minutes: Told
    too_many: str
    threshold: Told | None = None
    threshold_unit: str = ""


class Remedy(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One thing to do: `kit` is a sort of kit it needs, `now` what can be done before dark."""

    act: str
    provenance: Provenance = msgspec.field(name="class")
    source: str = ""
    kit: str = ""
    now: bool = False


class Event(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Something in the year of an insect that has a clock.

    Parameters
    ----------
    key : str
        Own name within the sheet, in plain words with hyphens: "first-flight".
    words : str
        What a grower would see, as a sentence's end: "the first flies come out".
    stage : LifeStage
        Which stage begins with it.
    harms : bool
        Whether this stage is the one that does the harm.
    lays : bool
        Whether eggs are laid while it lasts: what a cover must be on before.
    clock : str
        "warmth": degree-days since `start`. "days": days since `start`. "trigger": the first day on which the
        mean of `over_days` days passes `base_c`. "season": between months of the year, northern.
    start : str
        "01-01", "03-01" or "04-01" (northern; half a year on in the south), the key of another event of the
        sheet, or "seen" where only a seen event starts it.
    base_c, upper_c, method, cutoff, warmth :
        As published with the total; a total belongs to its method.
    total : Told or None
        degC day or days, with the spread of published totals as low and high.
    lasts : Told or None
        degC day or days for which the stage goes on after the event; None where the next event ends it.
    months : tuple of int
        For "season": first and last month, northern.
    cue : str
        A plant or thing seen at the same time, where one is published; telling it starts the clock anew.
    region : str
        Where the total was measured.
    """

    key: str
    words: str
    stage: LifeStage
    clock: Literal["warmth", "days", "trigger", "season"]
    harms: bool = False
    lays: bool = False
    start: str = "01-01"
    base_c: float | None = None
    upper_c: float | None = None
    method: Method = "average"
    cutoff: Cutoff = "none"
    warmth: Warmth = "air"
    over_days: int = 5
    total: Told | None = None
    lasts: Told | None = None
    months: tuple[int, ...] = ()
    cue: str = ""
    region: str = ""
    provenance: Provenance = msgspec.field(name="class", default="common-practice")
    source: str = ""


class Trouble(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One trouble.

    Parameters
    ----------
    hosts : tuple of str
        Keys of crop sheets, or "family Brassicaceae", or "all".
    poor_hosts : tuple of str
        The same, harmed seldom or little.
    ages : tuple of Age
        At which it harms them.
    parts : tuple of Part
    usual : Told
        Share of host plantings that ail from it at some time of a season in a garden nothing is known of.
    rule : str
        Name of the infection rule (science) that watches the weather for it; empty where none does.
    lives : tuple of Land
        Parts of the world it is known to live in; empty where that is everywhere or not known; recalled.
    stays_in_soil : bool
        Left in the soil by a host, so that a cover shuts it in with the next one.
    came_with : tuple of str
        Materials that bring it: "manure", "compost", "straw", "hay", "clippings", "transplants", "seed".
    keep_or_pull : str
        What decides between keeping, pulling and sowing again; empty where that is not the question.
    neighbours : str
        What makes it urgent for others; empty where it is not.
    laboratory : str
        When a sample should go to a laboratory or the extension service; empty where never.
    after : str
        What becomes of the remains: "destroy", "compost" or "leave".
    """

    key: str
    kind: TroubleKind
    name: str
    hosts: tuple[str, ...]
    ages: tuple[Age, ...]
    parts: tuple[Part, ...]
    usual: Told
    about: Said
    signs: tuple[Shown, ...]
    scout: Scout
    remedies: tuple[Remedy, ...]
    after: Literal["destroy", "compost", "leave"]
    after_why: Said
    latin: str = ""
    names: tuple[str, ...] = ()
    poor_hosts: tuple[str, ...] = ()
    favours: tuple[Favour, ...] = ()
    events: tuple[Event, ...] = ()
    rule: str = ""
    alike: tuple[Alike, ...] = ()
    stops: tuple[Said, ...] = ()
    cautions: tuple[Said, ...] = ()
    legal: tuple[Said, ...] = ()
    lives: tuple[Land, ...] = ()
    stays_in_soil: bool = False
    came_with: tuple[str, ...] = ()
    keep_or_pull: str = ""
    neighbours: str = ""
    laboratory: str = ""
    barrier: tuple[Remedy, ...] = ()
    tender_days: Told | None = None
    mesh_mm: Told | None = None


class Sign(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One sign a plant may show.

    Parameters
    ----------
    part : Part
    words : str
        The sign in a few words: "small round holes, as if shot".
    ask : str
        The question that settles it, answered yes or no by looking.
    phrases : tuple of str
        Other ways growers say it.
    usual : float
        Share of ailing plants that show it whatever the cause: what makes it tell little.
    picture : str
        Name of its drawing; empty where none.
    """

    part: Part
    words: str
    ask: str
    phrases: tuple[str, ...] = ()
    usual: float = 0.05
    picture: str = ""
