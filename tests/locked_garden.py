"""An invented garden with every sort of lock, each told apart by a word of its own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from gardens import make_garden
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act, garden_state, write_acts

TODAY = date(2018, 5, 10)
SOWN = date(2018, 4, 25)


@dataclass(frozen=True)
class Locked:
    """A bed with a crop in it, and the word of the lock that reaches both."""

    sort: str
    bed: str
    crop: str
    word: str

    @property
    def planting(self) -> str:
        """Key of the planting."""
        return f"{self.crop}-2018-1"

    @property
    def bed_key(self) -> str:
        """Key of the bed."""
        return self.bed.lower().replace(" ", "-")


LOCKED = (
    Locked("a person's, until a day", "Bed 1", "carrot", "leaded paint"),
    Locked("raw manure", "Bed 2", "beet", "cow muck"),
    Locked("dung of pets", "Bed 3", "lettuce", "dog dung"),
    Locked("days on the label", "Bed 4", "kale", "greasy soap"),
    Locked("a label not read", "Bed 5", "leek", "grey powder"),
    Locked("a weedkiller carried over", "Bed 6", "bush-bean", "meadow hay"),
    Locked("a person's, until a test", "Bed 7", "potato", "green skins"),
    Locked("a batch", "Bed 8", "onion", "glass in the heap"),
    Locked("the tunnel round a bed", "Inner bed", "tomato", "broken panes"),
    Locked("one whose entry a helper took back", "Bed 9", "pea", "blue pellets"),
)
"""Every sort of lock, each on its own bed."""

FREE = Locked("none", "Bed 10", "radish", "")
"""A bed and a crop no lock reaches."""

BATCH, BATCH_WORD = "heap-8", "glass in the heap"


def locked_garden(folder: Path, place: str = "north") -> Path:
    """A garden with its weather and all these locks in force on the day."""
    path = make_garden(folder, place)
    _write(path, kinds.PersonSet(person="ann", name="Ann", role="keeper"))
    _write(path, kinds.PersonSet(person="ben", name="Ben"))
    _write(path, kinds.KitSet(item="fleece", sort="fleece", length_m=30.0))
    tunnel = kinds.BedSet(name="Tunnel", shape="tunnel", x_m=30.0, width_m=3.0, length_m=6.0)
    _write(path, tunnel, bed="tunnel")
    for number, each in enumerate((*LOCKED, FREE)):
        inside = each.bed == "Inner bed"
        bed = kinds.BedSet(name=each.bed, x_m=30.5 if inside else 1.8 * number, y_m=0.5 if inside else 0.0,
                           inside="tunnel" if inside else "")  # fmt: skip
        _write(path, bed, bed=each.bed_key)
        sown = kinds.Sown(planting=each.planting, crop=each.crop, seeds=150, rows=2, row_length_m=2.0)
        _write(path, sown, bed=each.bed_key, planting=each.planting)
    one = {each.sort: each for each in LOCKED}
    _write(path, kinds.Locked(lock="k1", on="bed", why="leaded paint", until=date(2018, 9, 1)), bed="bed-1")
    _write(path, kinds.Amended(material="cow muck", state="raw", spray_history="clean"), bed="bed-2")
    _write(path, kinds.Amended(material="dog dung", state="finished", spray_history="clean"), bed="bed-3")
    _write(path, kinds.Treated(product="greasy soap", label_days=60), bed="bed-4", planting="kale-2018-1")
    _write(path, kinds.Treated(product="grey powder"), bed="bed-5")
    hay = kinds.Amended(material="meadow hay", state="finished", spray_history="sprayed", batch="heap-6")
    _write(path, hay, bed="bed-6")
    potato = one["a person's, until a test"].planting
    _write(
        path,
        kinds.Locked(lock="k7", on="planting", why="green skins", test="they are white when cut"),
        planting=potato,
    )
    compost = kinds.Amended(material="compost", state="finished", spray_history="clean", batch=BATCH)
    _write(path, compost, bed="bed-8")
    _write(path, kinds.Locked(lock="k8", on="batch", why=BATCH_WORD), batch=BATCH)
    _write(path, kinds.Locked(lock="k9", on="bed", why="broken panes"), bed="tunnel")
    pellets = _write(path, kinds.Treated(product="blue pellets", label_days=60), bed="bed-9")
    _write(path, None, withdraws=pellets, author="ben")
    found = {lock.why for lock in garden_state(open_garden(path)).locks_on(TODAY)}
    missing = [each.word for each in LOCKED if not any(each.word in why for why in found)]
    assert not missing, missing
    return path


def _write(path: Path, payload: Payload | None, *, author: str = "ann", **about: str) -> str:
    on = SOWN if isinstance(payload, (kinds.Sown, kinds.BedSet)) else date(2018, 5, 2)
    act = Act(payload=payload, on=on, **about)  # type: ignore[arg-type]
    done = write_acts(open_garden(path), [act], today=TODAY, author=author, insist=True)
    assert done.stored, done.questions
    return done.entries[0].key
