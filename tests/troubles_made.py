"""Invented troubles and signs for tests of the differential: no fact of nature is in them."""

from __future__ import annotations

from typing import Any

import msgspec

from spadework.crops.trouble import Sign, Trouble

SIGNS = {
    "round-holes": Sign(
        part="leaf", words="small round holes", ask="Are there small round holes?", usual=0.04
    ),
    "slime": Sign(part="leaf", words="trails of slime", ask="Are there trails of slime?", usual=0.02),
    "wilts": Sign(
        part="whole plant", words="wilts and does not recover", ask="Does it stay wilted?", usual=0.1
    ),
    "yellow": Sign(part="leaf", words="leaves turn yellow", ask="Are leaves yellow?", usual=0.2),
    "maggots": Sign(
        part="root", words="maggots in the root", ask="Are there maggots in the root?", usual=0.01
    ),
    "fuzz": Sign(part="fruit", words="grey fuzz on the fruit", ask="Is there grey fuzz on it?", usual=0.02),
}


def told(value: float) -> dict[str, Any]:
    """A number of common practice."""
    return {"value": value, "class": "common-practice"}


def made(key: str, signs: dict[str, float], **more: Any) -> Trouble:
    """An invented trouble of all crops that shows some signs so often."""
    said = {"text": f"Invented: {key}.", "class": "common-practice"}
    raw: dict[str, Any] = {
        "key": key,
        "kind": "insect",
        "name": key.replace("-", " "),
        "hosts": ["all"],
        "ages": ["seedling", "young", "leafy", "flowering", "fruiting"],
        "parts": ["leaf"],
        "usual": told(0.2),
        "about": said,
        "signs": [{"sign": sign, "often": told(often)} for sign, often in signs.items()],
        "scout": {
            "where": "under the leaves",
            "when": "in the morning",
            "every_days": told(7),
            "plants": told(5),
            "minutes": told(2),
            "too_many": "one a plant",
        },
        "remedies": [],
        "after": "compost",
        "after_why": said,
    }
    return msgspec.convert(raw | more, Trouble)


HOPPER = made("hopper", {"round-holes": 0.95, "yellow": 0.1})
CRAWLER = made("crawler", {"slime": 0.9, "round-holes": 0.3})
ROOT_EATER = made("root-eater", {"wilts": 0.9, "maggots": 0.95, "yellow": 0.5})
MOULD = made("mould", {"fuzz": 1.0}, kind="disease", parts=["fruit"])
OF_ONIONS = made("onion-eater", {"wilts": 0.9}, hosts=["family Amaryllidaceae"])
ALL = (HOPPER, CRAWLER, ROOT_EATER, MOULD, OF_ONIONS)
