"""The garden the example lines are about, as a book of entries. All of it is invented."""

from __future__ import annotations

from datetime import date

from garden_book import Pen
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.garden.fold import fold
from spadework.garden.state import Garden
from spadework.usecases.keep_book import picked_whole

TODAY = date(2026, 6, 15)
"""A Monday."""

_STANDING = (
    # crop, bed, how, day, number, planting
    ("garlic", "bed-4", "cloves", date(2025, 10, 15), 50, "garlic-2025-1"),
    ("broad-bean", "bed-2", "sown", date(2026, 3, 15), 60, ""),
    ("pea", "bed-8", "sown", date(2026, 3, 25), 150, ""),
    ("onion", "bed-4", "sets", date(2026, 4, 1), 120, ""),
    ("parsnip", "bed-12", "sown", date(2026, 4, 2), 100, ""),
    ("potato", "long-bed", "tubers", date(2026, 4, 18), 30, ""),
    ("carrot", "bed-3", "sown", date(2026, 4, 20), 300, ""),
    ("beet", "bed-3", "sown", date(2026, 4, 25), 80, ""),
    ("lettuce", "bed-1", "out", date(2026, 5, 2), 24, ""),
    ("kale", "bed-6", "out", date(2026, 5, 5), 8, ""),
    ("cabbage", "bed-6", "out", date(2026, 5, 5), 10, ""),
    ("runner-bean", "bed-10", "sown", date(2026, 5, 20), 30, ""),
    ("bush-bean", "bed-11", "sown", date(2026, 5, 25), 60, ""),
    ("tomato", "tunnel", "out", date(2026, 5, 25), 12, ""),
    ("cucumber", "tunnel", "out", date(2026, 5, 28), 4, ""),
    ("pepper", "tub-3", "out", date(2026, 5, 30), 2, ""),
    ("summer-squash", "bed-9", "out", date(2026, 6, 1), 3, ""),
    ("basil", "herb-tub", "out", date(2026, 6, 1), 6, ""),
    ("carrot", "bed-7", "sown", date(2026, 6, 1), 250, "carrot-2026-2"),
    ("lettuce", "seed-shelf", "tray", date(2026, 6, 1), 40, "lettuce-2026-2"),
    ("leek", "bed-5", "out", date(2026, 6, 10), 60, ""),
)


def line_book() -> list[Entry]:
    """Beds, kit, seed, people, and what stands on 15 June 2026."""
    pen = Pen("ann", date(2024, 3, 1))
    pen(kinds.PersonSet(person="ann", name="Ann", role="keeper"))
    for name in ("Ben", "Kim"):
        pen(kinds.PersonSet(person=name.lower(), name=name, role="helper"))
    _beds(pen)
    _kit_and_seed(pen)
    for bed, crop in (("tub-1", "strawberry"), ("tub-2", "strawberry"), ("bed-12", "rhubarb")):
        number = 2 if bed == "tub-2" else 1
        key = f"{crop}-2024-{number}"
        plants = 1 if crop == "rhubarb" else 5
        pen(
            kinds.PlantedOut(planting=key, crop=crop, plants=plants), date(2024, 4, 10), bed=bed, planting=key
        )
    for crop, bed, how, day, number, own_key in _STANDING:
        sheet = {"broad-bean": "fava-bean"}.get(crop, crop)
        key = own_key or f"{sheet}-2026-1"
        if how == "out":
            act: kinds.Payload = kinds.PlantedOut(planting=key, crop=sheet, plants=number)
        else:
            act = kinds.Sown(
                planting=key,
                crop=sheet,
                seeds=number,
                variety="Nantaise" if key == "carrot-2026-1" else "",
                method=how if how in ("sets", "cloves", "tubers") else "",
                tray="module trays" if how == "tray" else "",
            )
        pen(act, day, bed=bed, planting=key)
    return pen.written


def line_garden() -> Garden:
    """The same, folded."""
    book = line_book()
    return fold(book, picked_whole=picked_whole(entry.act for entry in book))


def _beds(pen: Pen) -> None:
    places = [(f"Bed {number}", "framed", 1.2, 2.4) for number in range(1, 13)]
    places += [("Long Bed", "ground", 1.2, 6.0), ("Herb Tub", "tub", 0.5, 0.5)]
    places += [(f"Tub {number}", "tub", 0.5, 0.5) for number in range(1, 5)]
    places += [
        ("Tunnel", "tunnel", 3.0, 6.0),
        ("Cold Frame", "frame", 1.0, 2.0),
        ("Seed Shelf", "shelf", 0.6, 1.5),
    ]
    for at, (name, shape, width_m, length_m) in enumerate(places):
        act = kinds.BedSet(name=name, shape=shape, x_m=4.0 * at, width_m=width_m, length_m=length_m)  # type: ignore[arg-type]
        pen(act, bed=name.lower().replace(" ", "-"))


def _kit_and_seed(pen: Pen) -> None:
    pen(kinds.KitSet(item="fleece", sort="fleece", length_m=20.0))
    pen(kinds.KitSet(item="insect mesh", sort="mesh", length_m=12.0))
    pen(kinds.KitSet(item="bird netting", sort="netting", length_m=15.0))
    pen(kinds.KitSet(item="hoops", sort="hoops", pieces=24))
    pen(kinds.KitSet(item="module trays", sort="tray", pieces=6))
    pen(kinds.KitSet(item="scare kite", sort="scare", pieces=1))
    pen(kinds.KitSet(item="slug collars", sort="other", pieces=20))
    for lot, crop, variety, year, seeds in (
        ("carrot-25", "carrot", "Nantaise", 2025, 2000),
        ("beet-26", "beet", "", 2026, None),
        ("lettuce-26", "lettuce", "", 2026, None),
        ("radish-26", "radish", "", 2026, None),
        ("dill-26", "dill", "", 2026, None),
        ("spinach-25", "spinach", "", 2025, None),
    ):
        pen(kinds.LotSet(lot=lot, crop=crop, variety=variety, year=year, seeds=seeds))
