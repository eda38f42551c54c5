"""Keys of entries: 26 letters that sort by the time they were made.

A key is a ULID: 48 bits of milliseconds since 1970 and 80 bits of luck, in the 32 letters of Crockford's
alphabet, which leaves out I, L, O and U.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Final

from spadework.errors import ParameterError

LENGTH: Final = 26
LUCK_BYTES: Final = 10

_LETTERS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_VALUES: Final = {letter: value for value, letter in enumerate(_LETTERS)}
_START: Final = datetime(1970, 1, 1, tzinfo=UTC)
_MILLISECOND: Final = timedelta(milliseconds=1)
_LUCK_BITS: Final = 8 * LUCK_BYTES


def new_key(now: datetime, random: bytes) -> str:
    """A key made at a time with given luck.

    Parameters
    ----------
    now : datetime
        With time zone; not before 1970.
    random : bytes
        Ten bytes.

    Raises
    ------
    ParameterError
        If the time has no zone or lies outside 1970 to 10889, or the bytes are not ten.
    """
    return new_keys(now, random, 1)[0]


def new_keys(now: datetime, random: bytes, count: int) -> tuple[str, ...]:
    """Keys of one moment that sort in the order given, for acts told in one breath.

    Parameters
    ----------
    now : datetime
        With time zone; not before 1970.
    random : bytes
        Ten bytes.
    count : int
        How many.

    Raises
    ------
    ParameterError
        As for `new_key`, or if the count is below one.
    """
    if now.tzinfo is None:
        raise ParameterError(f"The time {now} of a key has no time zone.", "Give one.")
    if len(random) != LUCK_BYTES:
        raise ParameterError(f"A key was given {len(random)} bytes of luck.", f"It takes {LUCK_BYTES}.")
    if count < 1:
        raise ParameterError(f"{count} keys were asked for.", "Ask for one or more.")
    milliseconds = (now - _START) // _MILLISECOND
    if not 0 <= milliseconds < 1 << 48:
        raise ParameterError(f"No key can be made for {now}.", "Use a time from 1970 on.")
    # The top bit of luck is left free, so that counting on cannot run over into the time.
    luck = int.from_bytes(random, "big") >> 1
    first = milliseconds << _LUCK_BITS | luck
    return tuple(_written(first + step) for step in range(count))


def keys_from(first: str, count: int) -> tuple[str, ...]:
    """A key that was made elsewhere, and those that follow it, for acts told in one breath.

    Raises
    ------
    ParameterError
        If the first is no key, or none can follow it.
    """
    if not is_key(first):
        raise ParameterError(
            f"{first!r} is not the key of an entry.", f"Keys have {LENGTH} letters and figures."
        )
    value = 0
    for letter in first:
        value = value << 5 | _VALUES[letter]
    if value + count > 1 << 128:
        raise ParameterError(f"No key can follow {first}.", "Make a new one.")
    return tuple(_written(value + step) for step in range(count))


def is_key(text: str) -> bool:
    """Whether a text is a well-formed key."""
    return len(text) == LENGTH and text[0] in "01234567" and all(letter in _VALUES for letter in text)


def key_time(key: str) -> datetime:
    """When a key was made, to the millisecond, in UTC.

    Raises
    ------
    ParameterError
        If it is no key, or one of a time past the year 9999.
    """
    if not is_key(key):
        raise ParameterError(
            f"{key!r} is not the key of an entry.", f"Keys have {LENGTH} letters and figures."
        )
    value = 0
    for letter in key[:10]:
        value = value << 5 | _VALUES[letter]
    try:
        return _START + value * _MILLISECOND
    except OverflowError:
        raise ParameterError(f"{key!r} is a key of a time past the year 9999.", "Check it.") from None


def _written(value: int) -> str:
    return "".join(_LETTERS[value >> shift & 31] for shift in range(125, -1, -5))
