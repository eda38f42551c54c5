"""The rules a crop number must keep, shared by the sheets and by what a grower puts in their place."""

from __future__ import annotations

import difflib
import math
from collections.abc import Callable, Iterable, Mapping
from itertools import pairwise

from spadework.crops.field import CONDITIONS, Condition, Field, Text
from spadework.crops.fields import ORDERS
from spadework.errors import Fault

_COMPARE: dict[str, Callable[[float, float], bool]] = {
    "<": lambda left, right: left < right,
    "<=": lambda left, right: left <= right,
}
_DO: dict[str, str] = {"<": "must lie below", "<=": "must not lie above"}


def nearest(name: str, names: Iterable[str]) -> str:
    """The known names most like `name`, for the end of a message; empty if none is like it."""
    near = difflib.get_close_matches(name, list(names), n=3, cutoff=0.5)
    return f"Nearest: {', '.join(near)}." if near else ""


def number(where: str, raw: object, field: Field, faults: list[Fault]) -> float | None:
    """A finite number within the field's range, or None with the fault noted."""
    if isinstance(raw, bool) or not isinstance(raw, int | float) or not math.isfinite(raw):
        faults.append(Fault(where, repr(raw), field.allowed, "Give a plain number."))
        return None
    if not field.lowest <= raw <= field.highest:
        faults.append(Fault(where, f"{raw:g}", field.allowed, f"Check the unit: {field.meaning}."))
        return None
    return float(raw)


def spread(
    where: str, low: float | None, value: float | None, high: float | None, faults: list[Fault]
) -> None:
    """Note a fault where low, value and high are not in order."""
    if value is None:
        return
    if low is not None and low > value:
        faults.append(Fault(where, f"low {low:g} above value {value:g}", f"at most {value:g}", "Lower it."))
    if high is not None and high < value:
        faults.append(
            Fault(where, f"high {high:g} below value {value:g}", f"at least {value:g}", "Raise it.")
        )


def conditions(words: Mapping[str, object]) -> frozenset[Condition]:
    """The conditions of the field table that hold for a crop described by its words.

    `words` holds propagation, development.day_response, bolting.kind, support.kind, harvest.repeat, and the
    numbers of `GATES` (any value) that are given.
    """
    propagation = words.get("propagation")
    ways = propagation if isinstance(propagation, list | tuple) else ()
    bolting = words.get("bolting.kind")
    answers: dict[Condition, bool] = {
        "always": True,
        "seed": "direct" in ways or "raised" in ways,
        "direct": "direct" in ways,
        "raised": "raised" in ways or "slips" in ways,
        "day-length": words.get("development.day_response") in ("long", "short"),
        "bolts": bolting in ("cold", "long-day"),
        "cold": bolting == "cold",
        "long-day": bolting == "long-day",
        "heat": words.get("heat.limit_c") is not None,
        "thinned": "direct" in ways and words.get("thin.first_leaves") is not None,
        "earthed": words.get("earth.passes") is not None,
        "supported": words.get("support.kind") not in (None, "", "none"),
        "repeats": words.get("harvest.repeat") in ("many", "cut again"),
    }
    return frozenset(condition for condition, answer in answers.items() if answer)


def presence(field: Field | Text, given: bool, holding: frozenset[Condition], faults: list[Fault]) -> bool:
    """Note a fault where a number or word is missing, or does not apply. True if it is to be read."""
    applies = field.applies in holding
    if given and not applies:
        whom = CONDITIONS[field.applies]
        faults.append(
            Fault(field.path, "a value", f"only for {whom}", "Remove it, or mend the word it hangs on.")
        )
    if not given and applies and field.required:
        faults.append(Fault(field.path, "nothing", field.allowed, f"Add it: {field.meaning}."))
    return given and applies


def orders(numbers: Mapping[str, float], words: Mapping[str, object]) -> list[Fault]:
    """Faults of order between numbers of one sheet, such as a base above its optimum.

    Parameters
    ----------
    numbers : mapping
        Path to number, those that are known and sound.
    words : mapping
        As for `conditions`.
    """
    faults: list[Fault] = []
    for section, chain in ORDERS:
        for left, sign, right in zip(chain[0::2], chain[1::2], chain[2::2], strict=False):
            _order(f"{section}.{left}", sign, f"{section}.{right}", numbers, faults)
    if words.get("development.day_response") == "long":
        _order("development.critical_h", "<", "development.saturating_h", numbers, faults)
    if words.get("development.day_response") == "short":
        _order("development.saturating_h", "<", "development.critical_h", numbers, faults)
    stages = sorted(path for path in numbers if path.startswith("development.stages."))
    for left, right in pairwise(stages):
        _order(left, "<=", right, numbers, faults)
    return faults


def _order(left: str, sign: str, right: str, numbers: Mapping[str, float], faults: list[Fault]) -> None:
    if left not in numbers or right not in numbers or _COMPARE[sign](numbers[left], numbers[right]):
        return
    limit = "below" if sign == "<" else "at most"
    faults.append(
        Fault(
            left,
            f"{numbers[left]:g}",
            f"{limit} {right} ({numbers[right]:g})",
            f"{left.rsplit('.', 1)[-1]} {_DO[sign]} {right.rsplit('.', 1)[-1]}.",
        )
    )
