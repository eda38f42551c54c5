"""Circumstances as the end of a sentence: where they hold, and where they do not."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from spadework.crops.trouble import Circumstance

HOLDS: Final[Mapping[Circumstance, tuple[str, str]]] = {
    "frost lately": ("there was frost lately", "there was no frost lately"),
    "cold nights": ("nights have been cold", "nights have not been cold"),
    "hot days": ("days have been hot", "days have not been hot"),
    "dry spell": ("it has been dry", "it has not been dry"),
    "heavy rain lately": ("heavy rain fell lately", "no heavy rain fell lately"),
    "wet fortnight": ("the last two weeks were wet", "the last two weeks were not wet"),
    "long wet leaves": ("leaves stayed wet for long", "leaves have not stayed wet for long"),
    "dry then soaked": ("a dry time ended in a soaking", "no dry time ended in a soaking"),
    "strong wind": ("the wind was strong", "there was no strong wind"),
    "bright after dull": ("bright days followed dull ones", "no bright days followed dull ones"),
    "mild wet nights": ("nights were mild and wet", "nights were not mild and wet"),
    "cold wet soil": ("the soil is cold and wet", "the soil is not cold and wet"),
    "warm dry weather": ("it is warm and dry", "it is not warm and dry"),
    "hail": ("there was hail", "nobody told of hail"),
    "crusted soil": ("the soil may have crusted", "the soil has not crusted"),
    "planted out lately": ("it was planted out lately", "it was not planted out lately"),
    "sown lately": ("it was sown lately", "it was not sown lately"),
    "short of water": ("it is short of water", "it is not short of water"),
    "standing water": ("water may stand in the bed", "no water stands in the bed"),
    "crowded": ("plants stand crowded", "plants do not stand crowded"),
    "same family last year": (
        "the same family stood here before",
        "the same family has not stood here before",
    ),
    "sod last year": ("the bed was grass not long ago", "the bed was not grass"),
    "outside material lately": (
        "material from elsewhere was brought on",
        "no material from elsewhere was brought on",
    ),
    "fresh manure": ("the bed had manure that may be fresh", "the bed had no fresh manure"),
    "weedkiller near": ("weedkiller was used near by", "no weedkiller is told of"),
    "much nitrogen": ("it had much nitrogen", "it did not have much nitrogen"),
    "no feed this year": ("it has had no feed this year", "it has been fed this year"),
    "organic mulch": ("there is a mulch of plant stuff", "there is no mulch of plant stuff"),
    "weeds near": ("there are weeds", "there are no weeds"),
    "under netting": ("netting lies over it", "no netting lies over it"),
    "under fleece": ("fleece lies over it", "no fleece lies over it"),
    "in a tunnel": ("it stands in a tunnel or frame", "it does not stand in a tunnel or frame"),
    "in a tray": ("it stands in a tray", "it does not stand in a tray"),
    "trouble here before": ("it was seen in this bed before", "it has not been seen in this bed"),
}
"""What is said where a circumstance holds, and where it does not."""
