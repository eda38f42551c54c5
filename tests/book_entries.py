"""Entries for tests of the book, one of every kind among them."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from itertools import count

from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload

DAY = date(2026, 5, 20)
NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
_NUMBERS = count(1)

EVERY_ACT: tuple[Payload, ...] = (
    kinds.Sown(
        planting="carrot-1",
        crop="carrot",
        variety="Früh",
        rows=3,
        row_cm=25.0,
        depth_mm=13.0,
        traits=("early",),
    ),
    kinds.PlantedOut(planting="leek-1", crop="leek", plants=40, spacing_cm=15.0, rows_run="across"),
    kinds.PlantedOut(planting="rhubarb-1", crop="rhubarb", spots=((0.6, 0.5), (0.6, 1.5)), perennial=True),
    kinds.Sown(planting="pea-1", crop="pea", block=kinds.Block(along_m=1.2, width_m=1.2, length_m=0.6)),
    kinds.PrickedOut(plants=24, into="cells"),
    kinds.Counted(standing=12, of_row_m=1.0),
    kinds.Measured(height_cm=12.5, leaves=4.5),
    kinds.Thinned(removed=30, spacing_cm=5.0),
    kinds.Tended(act="hoed", depth_cm=2.0),
    kinds.Moved(act="on", item="fleece", length_m=2.4),
    kinds.Watered(litres=9.0, hour=19.5),
    kinds.Fed(material="seaweed", amount="a can"),
    kinds.Amended(material="manure", state="raw", spray_history="not known"),
    kinds.Treated(product="soap", label_days=3, against="aphids"),
    kinds.Picked(kg=0.85, quality="good"),
    kinds.Lifted(kg=4.0, pieces=20),
    kinds.Kept(act="stored", where="shed", kg=4.0),
    kinds.Ended(how="lost", why="slugs, all of it; \"damn\" 'them' \\ %s ?"),
    kinds.Skipped(job="thin", why="rain"),
    kinds.Seen(what="caterpillars", parts=("leaf", "stem"), plants=3, of_plants=20, hour=7.5),
    kinds.Stage(what="up"),
    kinds.RainGauge(rain_mm=0.1 + 0.2, days=2),
    kinds.ThermometerRead(place="soil", now_c=-0.5, depth_cm=10.0, hour=8.0),
    kinds.SoilFelt(finger="damp", squeeze="holds"),
    kinds.Minutes(minutes=25.0, job="hoe", people=2),
    kinds.Note(text="a line\nand another, 🌱 \u0000 and a tab\t"),
    kinds.Photo(sha256="0" * 64),
    kinds.Locked(lock="lock-1", on="bed", why="raw manure", until=date(2026, 9, 17)),
    kinds.Unlocked(lock="lock-1", why="tested"),
    kinds.BedSet(name="Long bed", shaded_by=("hedge", "shed"), week_allowance_l=120.0),
    kinds.FlowMeasured(flow_l_min=3.5),
    kinds.BedGone(why="moved"),
    kinds.KitSet(item="fleece", sort="fleece", length_m=12.0),
    kinds.LotSet(lot="lot-1", crop="carrot", year=2025, germinated=41, tested=50, traits=("early",)),
    kinds.PersonSet(person="ann", name="Ann", not_for=("lifting",)),
    kinds.ChoreSet(chore="hens", minutes=10.0, person="ann", every_days=1, first=date(2026, 5, 20)),
    kinds.Stood(crop="leek", year=2024, family="onion"),
    kinds.FactTold(
        source="paper", sort="soil", fact={"temp_c": 9.5, "first": "2026-05-20", "list": [1, [2]]}
    ),
)


def entry(act: Payload | None = kinds.Note(text="seen"), *, key: str = "", **fields: object) -> Entry:  # noqa: B008
    """An entry with a key of its own, recorded a second after the one before."""
    number = next(_NUMBERS)
    usual: dict[str, object] = {
        "key": key or f"{number:026d}",
        "happened_on": DAY,
        "recorded_at": NOON + timedelta(seconds=number),
        "author": "ann",
        "act": act,
    }
    return Entry(**(usual | fields))  # type: ignore[arg-type]
