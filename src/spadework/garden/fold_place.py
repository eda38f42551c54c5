"""Entries about places and what is done to them: beds, water, mulch, what stood there before the book."""

from __future__ import annotations

from spadework.garden.draft import BedDraft, Draft
from spadework.garden.entries import Amended, BedGone, BedSet, Entry, FlowMeasured, Stood, Tended
from spadework.garden.records import Before


def bed_set(draft: Draft, entry: Entry, act: BedSet) -> None:
    """A bed made, or described anew. One that was taken up is there again."""
    bed = draft.bed(entry.bed or act.name)
    bed.told = act
    bed.made_on = bed.made_on or entry.happened_on
    bed.gone_on, bed.gone_why = None, ""
    bed.mulch = act.mulch
    if act.measured_l_min is not None:
        bed.measured_l_min = act.measured_l_min


def flow_measured(bed: BedDraft, act: FlowMeasured) -> None:
    """A flow measured goes before what was rated, until it is measured again."""
    bed.measured_l_min = act.flow_l_min


def bed_gone(bed: BedDraft, entry: Entry, act: BedGone) -> None:
    """A bed taken up; its history stays."""
    bed.gone_on, bed.gone_why = entry.happened_on, act.why


def stood(draft: Draft, entry: Entry, act: Stood) -> None:
    """What stood in a bed in a year before the book."""
    draft.told_before.append(Before(bed=entry.bed, year=act.year, crop=act.crop, family=act.family))


def tended(bed: BedDraft, act: Tended) -> None:
    """Of the plain jobs only mulching changes the bed itself."""
    if act.act == "mulched" and act.material:
        bed.mulch = act.material


def amended(bed: BedDraft, entry: Entry, act: Amended) -> None:
    """Which batches are in the soil."""
    batch = act.batch or entry.batch
    if batch:
        bed.batches.append((batch, entry.happened_on))
