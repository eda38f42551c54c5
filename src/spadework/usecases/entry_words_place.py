"""What the garden has, in sentences: beds, kit, seed, people, chores."""

from __future__ import annotations

from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.usecases.amount_words import add_part, count_of, joined, listed, plain_number, with_parts
from spadework.usecases.entry_names import EntryNames

_SHAPES: Final = {
    "framed": "framed bed",
    "ground": "bed in the ground",
    "tub": "tub",
    "sack": "sack",
    "tunnel": "tunnel",
    "frame": "cold frame",
    "shelf": "shelf",
}


def garden_sentence(names: EntryNames, act: Payload) -> str:
    """A bed, a piece of kit, a seed lot, a person or a chore told, without its stop."""
    match act:
        case kinds.BedSet():
            sides = f"{plain_number(act.width_m)} m by {plain_number(act.length_m)} m"
            if act.is_round:
                sides = f"round, {plain_number(act.width_m)} m across"
            about = [sides, f"{plain_number(act.depth_m * 100)} cm deep", act.soil]
            about += [f"inside {names.bed_name(act.inside)}"] if act.inside else []
            about += [f"mulched with {act.mulch}"] if act.mulch else []
            add_part(about, "", act.flow_l_min, f" {names.litre}s a minute as rated")
            add_part(about, "", act.measured_l_min, f" {names.litre}s a minute as measured")
            add_part(about, "at most ", act.week_allowance_l, f" {names.litre}s a week")
            return with_parts(f"{act.name} is a {_SHAPES[act.shape]}", about)
        case kinds.BedGone():
            return f"Took up {names.bed_name(names.bed_key)}{f': {act.why}' if act.why else ''}"
        case kinds.KitSet(pieces=0, length_m=None):
            return f"No {act.item} in the kit any more"
        case kinds.KitSet():
            parts: list[str] = []
            add_part(parts, "", act.pieces, " piece" if act.pieces == 1 else " pieces")
            add_part(parts, "", act.length_m, " m long" if act.width_m is not None else " m")
            add_part(parts, "", act.width_m, " m wide")
            sort = f" ({act.sort})" if act.sort not in (act.item, "other") else ""
            parts += [act.grade] if act.grade else []
            parts += [f"kept in {act.kept}"] if act.kept else []
            return f"Kit: {act.item}{sort}{', ' if parts else ''}{listed(parts)}"
        case kinds.LotSet():
            name = f"{act.variety} {names.crop(act.crop, many=False)}".strip()
            if act.seeds == 0 and act.grams is None:
                return f"Seed lot {act.lot}: no {name} seed left"
            more = [str(act.year)] if act.year is not None else []
            add_part(more, "", act.seeds, " seeds")
            add_part(more, "", act.grams, " g")
            if act.tested is not None:
                more.append(f"{act.germinated} of {act.tested} sprouted")
            return with_parts(f"Seed lot {act.lot}: {name}", [*more, *act.traits])
        case kinds.PersonSet():
            note = f"; knows {joined(act.can)}" if act.can else ""
            note += f"; not for {joined(act.not_for)}" if act.not_for else ""
            return f"{act.name} is a {act.role} here{note}"
        case kinds.FlowMeasured():
            return f"Measured the flow{names.at()}: {plain_number(act.flow_l_min)} {names.litre}s a minute"
        case kinds.Stood():
            return f"{names.crop(act.crop)} stood{names.at()} in {act.year}"
        case kinds.ChoreSet():
            often = "" if act.every_days is None else f", every {count_of(act.every_days, 'day')}"
            gone = ", no more" if act.gone else ""
            return f"Chore: {act.chore}, {plain_number(act.minutes)} min{often}{gone}"
        case _:
            return str(act.__struct_config__.tag)
