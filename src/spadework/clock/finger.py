"""A finger in the soil beside the sum of rain and sun: what each says, and which is believed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

import numpy as np

Finger = Literal["dry", "damp", "wet"]

FINGER_SHARES: Final[dict[Finger, tuple[float, float]]] = {
    "wet": (0.0, 0.2),
    "damp": (0.2, 1.0),
    "dry": (1.0, np.inf),
}
"""What a finger says of the water gone, as shares of what may readily be gone. Source: memory."""

FINGER_CM: Final = 4.0
"""A finger that went in less deep than this speaks of the surface alone [cm]. Source: common-practice."""

CLOSE_SHARE: Final = 0.15
"""Balance and finger that differ by less of what may readily be gone are taken to agree. Our own rule."""


@dataclass(frozen=True, kw_only=True)
class Felt:
    """A finger in the soil.

    Parameters
    ----------
    column : int
        The day.
    finger : "dry", "damp" or "wet"
    depth_cm : float or None  [cm]
        None for a finger deep.
    """

    column: int
    finger: Finger
    depth_cm: float | None = None


@dataclass(frozen=True, kw_only=True)
class FingerCheck:
    """What a finger said beside what the balance said, and which is believed.

    Parameters
    ----------
    on : date
    finger, balance : "dry", "damp" or "wet"
    balance_mm, kept_mm, readily_mm : float  [mm]
        Gone by the balance, gone as it is taken from then on, and what may readily be gone.
    agrees : bool
    believed : "finger", "later finger" or "balance"
        A later one where the same bed was felt again that day and was otherwise.
    why : str
        Which is believed and why, in a sentence.
    """

    on: date
    finger: Finger
    balance: Finger
    balance_mm: float
    kept_mm: float
    readily_mm: float
    agrees: bool
    believed: Literal["finger", "later finger", "balance"]
    why: str


def deep(felt: Felt) -> bool:
    """Whether the finger went deep enough to speak of the roots."""
    return felt.depth_cm is None or felt.depth_cm >= FINGER_CM


def finger_check(
    felt: Felt, on: date, gone_mm: float, readily_mm: float, later: Felt | None = None
) -> FingerCheck:
    """A finger test beside what the balance held gone before it.

    Parameters
    ----------
    felt : Felt
    on : date
    gone_mm, readily_mm : float  [mm]
        Gone on the evening before, and what may readily be gone.
    later : Felt or None
        The last that went deep that day, where there was one after this.
    """
    overruled = later is not None and later.finger != felt.finger
    believed_one = later if later is not None and overruled else felt
    low, high = FINGER_SHARES[believed_one.finger]
    told = overruled or deep(felt)
    kept = min(max(gone_mm, low * readily_mm), high * readily_mm) if told else gone_mm
    said: Finger = next(word for word, (_, top) in FINGER_SHARES.items() if gone_mm <= top * readily_mm)
    agrees = said == felt.finger or (deep(felt) and abs(kept - gone_mm) <= CLOSE_SHARE * readily_mm)
    return FingerCheck(
        on=on,
        finger=felt.finger,
        balance=said,
        balance_mm=gone_mm,
        kept_mm=kept,
        readily_mm=readily_mm,
        agrees=agrees,
        believed="later finger" if overruled else "finger" if deep(felt) else "balance",
        why=(
            f"The finger said {felt.finger}, and {believed_one.finger} later that day; the later is believed."
            if overruled
            else _why(felt, said, agrees, gone_mm, kept)
        ),
    )


def _why(felt: Felt, said: Finger, agrees: bool, gone: float, kept: float) -> str:
    if not deep(felt):
        return (
            f"The finger went in {felt.depth_cm:g} cm and speaks of the surface; by the rain and sun the soil"
            f" below is {said}, and that is believed."
        )
    if agrees:
        return f"The finger says {felt.finger}, as the rain and sun do."
    return (
        f"By the rain and sun {gone:.0f} mm were gone ({said}). The finger says {felt.finger}; it felt this"
        f" very bed and is believed: {kept:.0f} mm are taken as gone."
    )
