"""Let a phone in: a code that is good once and not for long, a token it shows from then on, and its end."""

from __future__ import annotations

import contextlib
import hashlib
import hmac
import secrets
import threading
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final, Literal

import msgspec

from spadework.errors import ParameterError, StoreError, UnknownName
from spadework.store.let_in_file import (
    Device,
    LetInState,
    keep_let_in,
    let_in_mark,
    new_state,
    read_let_in,
)

CODE_MINUTES: Final = 10
"""A code is good for so long. Our own rule."""

DAYS: Final = 200
"""A device is let in for so long: a season. Our own rule."""

SEEN_EVERY: Final = timedelta(minutes=10)
"""The file is written so often at most because a device was seen."""

MOST_CODES: Final = 20
MOST_WRONG: Final = 20
"""So many wrong codes in ten minutes, and all open codes are void. Our own rule."""

_LETTERS: Final = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Letters and figures that are not taken for each other."""
_CODE_LENGTH: Final = 8


@dataclass(frozen=True)
class Code:
    """A code that lets one device in, once.

    Parameters
    ----------
    text : str
        As it is read aloud and typed: two groups of four.
    person, name : str
        Key and name of whom it lets in.
    until : datetime
    """

    text: str
    person: str
    name: str
    until: datetime


class Rate:
    """So many in so long, by whom.

    Parameters
    ----------
    most : int
    within : timedelta
    now : callable
    """

    def __init__(self, most: int, within: timedelta, now: Callable[[], datetime]) -> None:
        self._most, self._within, self._now = most, within, now
        self._seen: dict[str, deque[datetime]] = {}

    def take(self, who: str) -> bool:
        """Count one more; False where it is one too many, and then it is not counted."""
        now = self._now()
        if len(self._seen) > 1000:  # forget those long quiet
            self._seen = {name: seen for name, seen in self._seen.items() if seen[-1] > now - self._within}
        seen = self._seen.setdefault(who, deque())
        while seen and seen[0] <= now - self._within:
            seen.popleft()
        if len(seen) >= self._most:
            return False
        seen.append(now)
        return True


class LetIn:
    """Who was let in to one garden.

    Parameters
    ----------
    garden : Path
    now : callable
        The time, with zone.
    """

    def __init__(self, garden: Path, now: Callable[[], datetime] = lambda: datetime.now(UTC)) -> None:
        self._garden, self._now = garden, now
        self._lock = threading.RLock()
        self._mark = -1
        self._state = new_state()
        self._codes: dict[str, Code] = {}
        self._tries = Rate(6, timedelta(minutes=1), now)
        self._wrong = Rate(MOST_WRONG, timedelta(minutes=CODE_MINUTES), now)
        self.writes = Rate(240, timedelta(minutes=1), now)

    def code_for(self, person: str, name: str) -> Code:
        """A new code for somebody; an older one for them is void.

        Raises
        ------
        StoreError
            If nothing could be kept of who is let in.
        """
        with self._lock:
            self.keep()
            self._drop_old()
            self._codes = {text: each for text, each in self._codes.items() if each.person != person}
            while len(self._codes) >= MOST_CODES:
                self._codes.pop(next(iter(self._codes)))
            signs = "".join(secrets.choice(_LETTERS) for _ in range(_CODE_LENGTH))
            code = Code(
                text=f"{signs[:4]}-{signs[4:]}",
                person=person,
                name=name,
                until=self._now() + timedelta(minutes=CODE_MINUTES),
            )
            self._codes[signs] = code
            return code

    @property
    def codes(self) -> list[Code]:
        """Codes that are open now, the newest first."""
        with self._lock:
            self._drop_old()
            return list(reversed(self._codes.values()))

    def let_in(self, code: str, device: str, address: str) -> str:
        """Take a code, and give the token the device shows from now on.

        Raises
        ------
        ParameterError
            If the code is not open, or too many were tried.
        StoreError
        """
        signs = "".join(letter for letter in code.upper() if letter.isalnum())
        with self._lock:
            if not self._tries.take(address):
                raise ParameterError("Too many codes were tried from here.", "Wait a minute.")
            self._drop_old()
            found = None
            for text, each in self._codes.items():  # each is compared, whichever it is
                if hmac.compare_digest(text.encode(), signs.encode()):
                    found = each
            if found is None:
                if not self._wrong.take("all"):
                    self._codes.clear()
                raise ParameterError(
                    "This code lets nobody in: it was used, is too old, or has a slip in it.",
                    "Ask a keeper for a new one.",
                )
            token = self._keep(found.person, device, "device", timedelta(days=DAYS))
            self._codes.pop(signs)
            return token

    def calendar_for(self, person: str, name: str) -> str:
        """A token with which a calendar may read the windows, and nothing else.

        Raises
        ------
        StoreError
        """
        with self._lock:
            return self._keep(person, name, "calendar", timedelta(days=2 * 366))

    def seen(self, token: str, sort: Literal["device", "calendar"] = "device") -> Device:
        """The device that shows a token.

        Raises
        ------
        UnknownName
            If it is not let in, or no more.
        """
        with self._lock:
            now, digest = self._now(), _digest(token)
            device = self._read().devices.get(digest)
            if device is None or device.sort != sort:
                raise UnknownName("This device is not let in here.", "Ask a keeper for a code.")
            if device.ended is not None:
                raise UnknownName(
                    f"A keeper ended this on {_day(device.ended)}.", "Ask a keeper for a new code."
                )
            if device.until <= now:
                raise UnknownName(
                    f"This device was let in until {_day(device.until)}.", "Ask a keeper for a new code."
                )
            if now - device.last_seen >= SEEN_EVERY:
                device = msgspec.structs.replace(device, last_seen=now)
                with contextlib.suppress(StoreError):  # that it was seen is not worth failing for
                    self._put({digest: device})
            return device

    @property
    def devices(self) -> list[Device]:
        """Who is let in now, the last seen first."""
        with self._lock:
            now = self._now()
            there = [
                each for each in self._read().devices.values() if each.ended is None and each.until > now
            ]
        return sorted(there, key=lambda each: each.last_seen, reverse=True)

    def end(self, key: str) -> Device:
        """End a device: from now on it is let in no more.

        Raises
        ------
        UnknownName, StoreError
        """
        with self._lock:
            for digest, device in self._read().devices.items():
                if device.key == key:
                    ended = msgspec.structs.replace(device, ended=self._now())
                    self._put({digest: ended})
                    return ended
        raise UnknownName("There is no such device.", "It may have been ended already.")

    def stands(self, key: str) -> bool:
        """Whether a device is let in still."""
        return any(each.key == key for each in self.devices)

    def keep(self) -> None:
        """Keep the secret things are signed with, so that they are good after a new start too.

        Raises
        ------
        StoreError
        """
        with self._lock:
            if let_in_mark(self._garden) == 0:
                keep_let_in(self._garden, self._read())
                self._mark = let_in_mark(self._garden)

    def signed(self, text: str, what: str) -> str:
        """A text with a sign behind it that only this garden can make.

        Parameters
        ----------
        text : str
        what : str
            What it is for: signed for one thing it is good for no other.
        """
        return f"{text}.{self._sign(text, what)}"

    def unsigned(self, signed: str, what: str) -> str | None:
        """The text, where the sign behind it is ours."""
        text, _, sign = signed.rpartition(".")
        return text if hmac.compare_digest(sign.encode(), self._sign(text, what).encode()) else None

    def _sign(self, text: str, what: str) -> str:
        with self._lock:
            secret = bytes.fromhex(self._read().secret)
        return hmac.new(secret, f"{what}\0{text}".encode(), hashlib.sha256).hexdigest()[:40]

    def _keep(self, person: str, name: str, sort: Literal["device", "calendar"], lasts: timedelta) -> str:
        token, now = secrets.token_urlsafe(32), self._now()
        device = Device(
            key=secrets.token_hex(6),
            digest=_digest(token),
            person=person,
            name=name.strip()[:60] or "A device",
            since=now,
            until=now + lasts,
            last_seen=now,
            sort=sort,
        )
        self._put({device.digest: device})
        return token

    def _put(self, changed: dict[str, Device]) -> None:
        state = self._read()
        long_ago = self._now() - timedelta(days=90)
        kept = {
            digest: each
            for digest, each in (state.devices | changed).items()
            if each.until > long_ago and (each.ended is None or each.ended > long_ago)
        }
        fresh = LetInState(secret=state.secret, devices=kept)
        keep_let_in(self._garden, fresh)
        self._state, self._mark = fresh, let_in_mark(self._garden)

    def _read(self) -> LetInState:
        """As the file is now: somebody else may have ended a device, or taken the file away."""
        mark = let_in_mark(self._garden)
        if mark != self._mark:
            found = read_let_in(self._garden)
            self._state = LetInState(secret=self._state.secret) if found is None else found
            self._mark = mark
        return self._state

    def _drop_old(self) -> None:
        now = self._now()
        self._codes = {text: each for text, each in self._codes.items() if each.until > now}


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def _day(moment: datetime) -> str:
    here = moment.astimezone()
    return f"{here.day} {here.strftime('%B %Y')}"
