"""Invented troubles, small enough to reckon by hand, for tests of clocks and watching."""

from __future__ import annotations

from typing import Any

from spadework.crops.trouble import Event, Remedy, Said, Scout, Shown, Told, Trouble


def told(value: float, low: float | None = None, high: float | None = None) -> Told:
    """A number of no one's."""
    return Told(value=value, low=low, high=high, provenance="common-practice")


def event(key: str, **more: Any) -> Event:
    """An event by warmth above 10 degC since midwinter, unless told otherwise."""
    given: dict[str, Any] = {"words": f"{key} begins", "stage": "adult", "clock": "warmth", "base_c": 10.0}
    return Event(key=key, **(given | more))


def trouble(key: str = "invented-fly", *events: Event, **more: Any) -> Trouble:
    """A trouble of the cabbage family with these events."""
    said = Said(text="Invented for a test.", provenance="common-practice")
    given: dict[str, Any] = {
        "kind": "insect",
        "name": key.replace("-", " "),
        "hosts": ("family Brassicaceae",),
        "ages": ("seedling", "young"),
        "parts": ("leaf",),
        "usual": told(0.5),
        "about": said,
        "signs": (Shown(sign="shot-holes", often=told(0.9)),),
        "scout": Scout(
            where="undersides of the leaves",
            when="in the morning",
            every_days=told(3),
            plants=told(10),
            minutes=told(4),
            too_many="two on a plant",
        ),
        "remedies": (Remedy(act="Rub them off", provenance="common-practice"),),
        "after": "compost",
        "after_why": said,
    }
    return Trouble(key=key, events=events, **(given | more))
