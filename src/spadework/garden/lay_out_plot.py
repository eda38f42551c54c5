"""The plot while beds are laid on it: what is there, what was taken for granted, what is wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

import msgspec

from spadework.errors import Fault
from spadework.garden.entries import BedSet
from spadework.garden.geometry import Outline, overlap
from spadework.garden.lay_out_group import NOUNS, Group, even
from spadework.garden.lay_out_lengths import length_text
from spadework.garden.lay_out_place import Box, Side, beside, block, box_of, inside, moved
from spadework.garden.lay_out_usual import ROUND
from spadework.garden.lookup import nearest, plain
from spadework.garden.site import Units

PATH_M: Final[dict[Units, float]] = {"metric": 0.5, "us": 0.4572}
TUB_GAP_M: Final[dict[Units, float]] = {"metric": 0.2, "us": 0.2032}
APART_M: Final = 1.0
"""Between beds, between tubs, and round what stands apart, where nothing is said. Class: common-practice."""

_IN_ONE_ROW: Final = 6


def bed_key(name: str) -> str:
    """The key of a bed of this name: in lower case, with hyphens."""
    return plain(name).replace(" ", "-")


def outline_of(bed: BedSet) -> Outline:
    """The rectangle a bed covers."""
    return Outline(
        x_m=bed.x_m, y_m=bed.y_m, width_m=bed.width_m, length_m=bed.length_m, turn_deg=bed.turn_deg
    )


class Plot:
    """Beds by key, and what was said of them so far.

    Parameters
    ----------
    units : {"metric", "us"}
    there : dict of str to BedSet
        Beds that stay where they are.
    """

    def __init__(self, units: Units, there: dict[str, BedSet]) -> None:
        self.units: Units = units
        self.beds = there
        self.fixed = frozenset(there)
        self.spoken: dict[str, int] = {}
        self.took: dict[str, list[int]] = {}
        self.faults: list[Fault] = []
        self.by_hand = False
        self.last: list[str] = [key for key, bed in there.items() if not bed.inside]

    # -- places --------------------------------------------------------------------------------------

    def placed(self, group: Group, pattern: BedSet, count: int) -> list[Outline] | None:
        """Where the beds of a group lie; None where they cannot."""
        if group.inside:
            return self._inside(group, pattern, count)
        path_m = group.path_m
        if path_m is None:
            usual = TUB_GAP_M if pattern.shape in ROUND else PATH_M
            path_m = usual[self.units]
            if count > 1:
                what = "tubs stand" if pattern.shape in ROUND else "paths are"
                tail = " apart" if pattern.shape in ROUND else " wide"
                self.take(group, f"{what} {self.say(path_m)}{tail}")
        anchor, gap_m = self._anchor(group, path_m)
        if group.side and anchor is None:
            return None
        rows = self._rows(group, pattern, count, anchor, path_m)
        own = block(
            count,
            pattern.width_m,
            pattern.length_m,
            rows=rows,
            path_m=path_m,
            row_path_m=path_m if group.row_path_m is None else group.row_path_m,
            turn_deg=group.turn_deg or 0.0,
        )
        if count > 1 and group.number_from is None and not group.names:
            self.take(
                group, "numbered from the north-west, row by row" if rows > 1 else "numbered from the west"
            )
        if group.place is not None:
            self.by_hand = True
            box = box_of(own)
            return moved(own, group.place[0] - box.west, group.place[1] - box.south)
        taken = [box_of([outline_of(bed)]) for bed in self.beds.values() if not bed.inside]
        if not taken:
            box = box_of(own)
            return moved(own, -box.west, -box.south)
        if group.indoors or anchor is None:
            side: Side = "west" if group.indoors else "south"
            whole = _around(self._outdoors() or taken)
            gap_m = max(gap_m, APART_M) if group.indoors else gap_m
            if group.indoors:
                self.take(group, "indoors; kept apart from the plot")
            else:
                self.take(group, "the place was not said: south of what is there")
            return beside(own, whole, side, gap_m, taken, gap_m)
        return beside(own, anchor, group.side or "south", gap_m, taken, min(gap_m, path_m))

    def _rows(self, group: Group, pattern: BedSet, count: int, anchor: Box | None, path_m: float) -> int:
        if group.rows is not None:
            return group.rows or count
        if group.side in ("east", "west") and anchor is not None and count > 1 and pattern.shape in ROUND:
            fits = int((anchor.north - anchor.south + path_m) // (pattern.length_m + path_m))
            if fits >= 1:
                columns = -(-count // fits)
                return -(-count // columns)
        if count <= _IN_ONE_ROW:
            return 1
        rows = -(-count // _IN_ONE_ROW)
        self.take(group, f"the rows were not said: {rows}")
        return rows

    def _anchor(self, group: Group, path_m: float) -> tuple[Box | None, float]:
        gap_m = group.gap_m if group.gap_m is not None else max(path_m, PATH_M[self.units])
        if group.side is None:
            return None, gap_m
        keys = self._named(group, group.beside, "beside")
        if not keys:
            return None, gap_m
        return box_of(outline_of(self.beds[key]) for key in keys), gap_m

    def _inside(self, group: Group, pattern: BedSet, count: int) -> list[Outline] | None:
        host = self.host(group)
        if not host:
            return None
        outer = self.beds[host]
        there = [outline_of(bed) for bed in self.beds.values() if bed.inside == host]
        set_down = inside(
            outline_of(outer), count, pattern.width_m, pattern.length_m, rows=group.rows or None,
            path_m=group.path_m, crosswise=group.turn_deg == 90.0, there=there,
        )  # fmt: skip
        if set_down is None:
            what = f"{count} of {self.say(pattern.width_m)} by {self.say(pattern.length_m)}"
            room = f"{self.say(outer.width_m)} by {self.say(outer.length_m)}"
            if there:
                room += " beside what is there"
            self.fault(
                group, "inside", f"{what} in {outer.name}", f"what fits {room}",
                "Make them fewer or smaller.",
            )  # fmt: skip
            return None
        if group.path_m is None and count > 1:
            self.take(group, f"in {outer.name} they lie {self.say(set_down.gap_m)} apart")
        return list(set_down.outlines)

    def host(self, group: Group) -> str:
        """The tunnel or frame a group is inside; empty where it is none."""
        keys = self._named(group, group.inside, "inside")
        if not keys:
            return ""
        if len(keys) > 1 or self.beds[keys[0]].shape not in ("tunnel", "frame"):
            names = ", ".join(self.beds[key].name for key in keys[:3])
            self.fault(group, "inside", f"beds inside {names}", "one tunnel or frame")
            return ""
        return keys[0]

    def _named(self, group: Group, word: str, part: str) -> list[str]:
        """Keys that a word stands for: them, a name, the tunnel, the beds."""
        if word in ("all",):
            return [key for key, bed in self.beds.items() if not bed.inside]
        if word in ("them", "those", "these", "it", "that"):
            if not self.last:
                self.fault(group, part, word, "a bed named before")
            return self.last
        for key, bed in self.beds.items():
            if even(bed.name) == word or key == word.replace(" ", "-"):
                return [key]
        noun = word.split()[0]
        noun = {"shelves": "shelf", "boxes": "box"}.get(
            noun, noun if noun in NOUNS else noun.removesuffix("s")
        )
        if noun in NOUNS and " " not in word:
            shape = NOUNS[noun][0]
            shapes = ("framed", "ground") if shape == "framed" else (shape,)
            found = [key for key, bed in self.beds.items() if bed.shape in shapes and not bed.inside]
            if found:
                return found
        self.unknown(group, word, part)
        return []

    # -- at the end ----------------------------------------------------------------------------------

    def settle(self) -> None:
        """Move a plot made from nothing to its south-western corner, and look for what lies over another."""
        if not self.fixed and self.beds and not self.by_hand:
            box = _around(self._outdoors() or [box_of(map(outline_of, self.beds.values()))])
            for key, bed in self.beds.items():
                self.beds[key] = msgspec.structs.replace(
                    bed, x_m=round(bed.x_m - box.west, 3) + 0.0, y_m=round(bed.y_m - box.south, 3) + 0.0
                )
        for one, other in overlapping(self.beds):
            if one in self.spoken or other in self.spoken:
                line = max(self.spoken.get(one, 0), self.spoken.get(other, 0))
                self.faults.append(
                    Fault(
                        f"line {line}, column 1",
                        f"{self.beds[other].name} over {self.beds[one].name}",
                        "beds that do not share ground",
                        "Give another place or size.",
                    )
                )

    def _outdoors(self) -> list[Box]:
        return [
            box_of([outline_of(bed)]) for bed in self.beds.values() if not bed.inside and bed.shape != "shelf"
        ]

    # -- small things --------------------------------------------------------------------------------

    def say(self, value_m: float) -> str:
        """A length in the garden's units."""
        return length_text(value_m, self.units)

    def take(self, group: Group, said: str) -> None:
        """Tell what was taken for granted."""
        lines = self.took.setdefault(said, [])
        if group.line not in lines:
            lines.append(group.line)

    def fault(self, group: Group, part: str, found: str, allowed: str, do: str = "Say it otherwise.") -> None:
        column = group.at.get(part, group.column)
        self.faults.append(Fault(f"line {group.line}, column {column}", found, allowed, do))

    def unknown(self, group: Group, name: str, part: str = "noun") -> None:
        """A bed that nobody described."""
        names = [bed.name for bed in self.beds.values()]
        near = nearest(name, names)
        self.fault(
            group,
            part,
            repr(name),
            "a bed named in a line before",
            f"Nearest: {', '.join(near)}." if near else f"Known: {', '.join(names[:6]) or 'none yet'}.",
        )


def overlapping(beds: Mapping[str, BedSet]) -> Iterator[tuple[str, str]]:
    """Pairs of beds that share ground, other than a tunnel or frame and what is inside it."""
    keys = [key for key, bed in beds.items() if bed.width_m > 0 and bed.length_m > 0]
    outlines = {key: outline_of(beds[key]) for key in keys}
    boxes = {key: box_of([outline]) for key, outline in outlines.items()}
    for index, one in enumerate(keys):
        for other in keys[index + 1 :]:
            if (
                beds[one].inside == other
                or beds[other].inside == one
                or not boxes[one].near(boxes[other], 0.0)
            ):
                continue
            if overlap(outlines[one], outlines[other]):
                yield one, other


def _around(boxes: Sequence[Box]) -> Box:
    return Box(
        min(box.west for box in boxes),
        min(box.south for box in boxes),
        max(box.east for box in boxes),
        max(box.north for box in boxes),
    )
