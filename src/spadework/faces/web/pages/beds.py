"""Beds moved, turned, sized, made and taken up: on the plan by hand or keys, or by a form."""

from __future__ import annotations

import json
from typing import Any, Final

from spadework.errors import ParameterError
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.change_bed import bed_now, bed_to_be, change_bed, read_side
from spadework.usecases.keep_things import end_bed, keep_bed
from spadework.usecases.show_ground import show_ground
from spadework.usecases.write_answer import WriteAnswer

SIDES: Final = ("x_m", "y_m", "width_m", "length_m", "height_m", "depth_m")

KINDS: Final = (
    ("framed", "Framed bed"),
    ("ground", "Bed in the ground"),
    ("tub", "Tub"),
    ("round tub", "Round tub"),
    ("sack", "Sack"),
    ("tunnel", "Tunnel"),
    ("frame", "Cold frame"),
    ("shelf", "Shelf indoors"),
)

US_GRID_M: Final = 1.524
"""Five feet."""


def show_beds(visit: Visit) -> Page:
    """The plan with one bed to be changed, or to choose one on."""
    ground = show_ground(visit.garden, visit.today)
    key = visit.text("bed")
    moving = now = None
    if visit.text("new"):
        now, moving = bed_to_be(visit.garden)
    elif key:
        now = bed_now(visit.garden, key)
        moving = next((bed for bed in ground.beds if bed.key == now.key), None)
    us = visit.voice.us
    return Page(
        "beds.html",
        {
            "ground": ground,
            "moving": moving,
            "now": now,
            "new": bool(visit.text("new")),
            "written": {} if now is None else _written(now.said, us=us),
            "was": "" if now is None else json.dumps(now.said),
            "kinds": KINDS,
            "hosts": [(bed.key, bed.name) for bed in ground.beds if bed.shape in ("tunnel", "frame")],
            "us": us,
            "grid_m": US_GRID_M if us else 1.0,
            "may_write": visit.caller.role == "keeper",
        },
    )


def change(visit: Visit) -> Answer:
    """A bed as it shall be; nothing is written where something is asked."""
    was = _was(visit)
    name = visit.names["bed"]
    found = change_bed(visit.garden, visit.writing, name, _said(visit, was), was=was)
    return _after(visit, found, f"/beds?bed={name}")


def make(visit: Visit) -> Answer:
    """A new bed."""
    said = _said(visit, {})
    name = str(said.pop("name", ""))
    if not name:
        raise Refused("The bed has no name yet.", "Call it something.", field="name")
    found = keep_bed(visit.garden, visit.writing, name, said, new=True)
    return _after(visit, found, "/beds")


def take_up(visit: Visit) -> Answer:
    """A bed is taken up; its history stays."""
    found = end_bed(visit.garden, visit.writing, visit.names["bed"], visit.text("why"))
    return _after(visit, found, "/beds")


def _after(visit: Visit, found: WriteAnswer, to: str) -> Answer:
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    said = " ".join(f"{visit.voice.told(entry.text).rstrip('.')}." for entry in found.entries[:1])
    more = len(found.entries) - 1
    along = f" {more} {'bed' if more == 1 else 'beds'} inside moved with it." if more > 0 else ""
    return Go(to, f"In the book: {said}{along}", undo=found.entries[0].key if found.entries else "")


def _was(visit: Visit) -> dict[str, Any]:
    try:
        was = json.loads(visit.form.get("was", "{}"))
    except ValueError:
        was = None
    if not isinstance(was, dict):
        raise Refused("The page is too old to save from.", "Open it anew.")
    return was


def _said(visit: Visit, was: dict[str, Any]) -> dict[str, Any]:
    """What the fields say; a length left as it was written is the one it was, to the millimetre."""
    us = visit.voice.us
    before = _written(was, us=us) if was else {}
    said: dict[str, Any] = {}
    for field in SIDES:
        text = visit.text(field)
        if not text or text == before.get(field):
            continue
        try:
            said[field] = read_side(text, "us" if us else "metric")
        except ParameterError as error:
            raise Refused(error.message, error.hint, field=field) from None
        if field in ("width_m", "length_m") and said[field] <= 0:
            raise Refused("A side of no length is not possible.", "Write it anew.", field=field)
    turn = visit.number("turn_deg")
    if turn is not None:
        said["turn_deg"] = turn % 360.0
    for field in ("name", "soil"):
        if visit.text(field):
            said[field] = visit.text(field)
    if "inside" in visit.form:
        said["inside"] = visit.text("inside")
    if kind := visit.text("shape"):
        said["is_round"] = kind == "round tub"
        said["shape"] = "tub" if kind == "round tub" else kind
        if said["shape"] not in {each for each, _ in KINDS}:
            raise Refused("There is no such kind of bed.", "Choose one of the list.", field="shape")
    if said.get("is_round") and "width_m" in said:
        said["length_m"] = said["width_m"]
    return said


def _written(said: dict[str, Any], *, us: bool) -> dict[str, str]:
    """Fields as they are written in the form."""
    found = {field: _side(said[field], us=us) for field in SIDES if said.get(field) is not None}
    if "turn_deg" in said:
        found["turn_deg"] = f"{said['turn_deg']:g}"
    return found


def _side(side_m: float, *, us: bool) -> str:
    if not us:
        return f"{round(side_m, 3):g} m"
    feet, inches = divmod(round(abs(side_m) / 0.0254, 1), 12.0)
    parts = [f"{feet:g} ft"] if feet else []
    parts += [f"{round(inches, 1):g} in"] if inches or not feet else []
    return ("-" if side_m < 0 else "") + " ".join(parts)


WAYS: Final = (
    Way("/beds", show_beds),
    Way("/beds/make", make, post=True, least="keeper"),
    Way("/beds/{bed}/change", change, post=True, least="keeper"),
    Way("/beds/{bed}/take-up", take_up, post=True, least="keeper"),
)
