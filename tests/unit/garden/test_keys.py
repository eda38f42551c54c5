"""Keys: well formed, sortable by time, in the order given within a moment."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.garden.keys import is_key, key_time, new_key, new_keys

NOON = datetime(2026, 5, 20, 12, 0, 0, 123000, tzinfo=UTC)
LUCK = bytes(range(10))
MOMENTS = st.datetimes(datetime(1970, 1, 1), datetime(9999, 12, 30), timezones=st.just(UTC))


def test_a_known_key() -> None:
    # The time of the example in the ULID specification, with no luck.
    moment = datetime(1970, 1, 1, tzinfo=UTC) + timedelta(milliseconds=1469918176385)
    assert new_key(moment, bytes(10)) == "01ARYZ6S41" + "0" * 16


@given(MOMENTS, st.binary(min_size=10, max_size=10))
def test_the_time_comes_back_to_the_millisecond(moment: datetime, luck: bytes) -> None:
    key = new_key(moment, luck)
    assert is_key(key)
    assert timedelta(0) <= moment - key_time(key) < timedelta(milliseconds=1)


@given(MOMENTS, MOMENTS, st.binary(min_size=10, max_size=10), st.binary(min_size=10, max_size=10))
def test_later_keys_sort_later(one: datetime, other: datetime, luck: bytes, more: bytes) -> None:
    if abs(one - other) >= timedelta(milliseconds=1):
        assert (new_key(one, luck) < new_key(other, more)) == (one < other)


@pytest.mark.parametrize("luck", [bytes(10), LUCK, b"\xff" * 10])
def test_keys_of_one_moment_keep_their_order(luck: bytes) -> None:
    keys = new_keys(NOON, luck, 300)
    assert list(keys) == sorted(set(keys))
    assert {key_time(key) for key in keys} == {NOON}
    assert keys[0] == new_key(NOON, luck)


def test_zones_do_not_matter() -> None:
    assert new_key(NOON, LUCK) == new_key(NOON.astimezone(timezone(timedelta(hours=9))), LUCK)


@pytest.mark.parametrize(
    ("now", "luck", "count", "message"),
    [
        (datetime(2026, 5, 20), LUCK, 1, "no time zone"),
        (NOON, b"short", 1, "5 bytes"),
        (NOON, LUCK, 0, "0 keys"),
        (datetime(1969, 12, 31, tzinfo=UTC), LUCK, 1, "No key can be made"),
    ],
)
def test_what_makes_no_key(now: datetime, luck: bytes, count: int, message: str) -> None:
    with pytest.raises(ParameterError, match=message):
        new_keys(now, luck, count)


@pytest.mark.parametrize("text", ["", "01ARYZ6S41", "8" + "0" * 25, "0" * 25 + "U", "0" * 25 + "a", "0" * 27])
def test_what_is_no_key(text: str) -> None:
    assert not is_key(text)
    with pytest.raises(ParameterError, match="not the key"):
        key_time(text)


def test_a_key_past_the_calendar() -> None:
    with pytest.raises(ParameterError, match="9999"):
        key_time("7" + "Z" * 25)
