"""Asking Open-Meteo: what is sent, how often it is tried, and what is said when nobody answers."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Final, Literal
from urllib.parse import urlsplit

from spadework.errors import FetchError, ParameterError

if TYPE_CHECKING:
    import httpx2

Kind = Literal["forecast", "archive"]

SERVICE: Final = "Open-Meteo"
CREDIT: Final = (
    "Weather data by Open-Meteo.com, licence CC BY 4.0; its free service is for non-commercial use only."
)
"""The service's terms. Class: memory; see its own pages before relying on them."""

_HOSTS: Final[Mapping[Kind, tuple[str, str]]] = {
    "forecast": ("api.open-meteo.com", "/v1/forecast"),
    "archive": ("archive-api.open-meteo.com", "/v1/archive"),
}

LEAST_DECIMALS, MOST_DECIMALS = 1, 4
FARTHEST_FORECAST_DAYS: Final = 16
"""The service gives no longer forecast. Class: memory."""

ATTEMPTS: Final = 3
LONGEST_ANSWER_BYTES: Final = 40_000_000
"""A century of daily values is a tenth of this; more is not an answer."""

_ELEMENTS: Final = (
    "temperature_2m_max",
    "temperature_2m_min",
    "precipitation_sum",
    "wind_speed_10m_mean",
    "dew_point_2m_mean",
)
DAILY: Final[Mapping[Kind, tuple[str, ...]]] = {
    "forecast": (*_ELEMENTS, "temperature_2m_mean", "precipitation_probability_max", "cloud_cover_mean"),
    "archive": (*_ELEMENTS, "shortwave_radiation_sum", "relative_humidity_2m_mean"),
}
"""What is asked for, by the service's own names."""


@dataclass(frozen=True)
class FetchSettings:
    """How a garden lets weather be fetched.

    Parameters
    ----------
    on : bool
        False: nothing is ever fetched.
    forecast, archive : str
        Addresses to ask; empty for the service's own.
    decimals : int
        Places the garden's coordinates are rounded to before they are sent; 2 is about a kilometre.
    days : int
        Length of a forecast.
    timeout_s : float  [s]
        How long one try may take.
    parameters : mapping
        Further words for the service, such as a model or a key.

    Raises
    ------
    ParameterError
        If anything is out of range.
    """

    on: bool = True
    forecast: str = ""
    archive: str = ""
    decimals: int = 2
    days: int = 10
    timeout_s: float = 10.0
    parameters: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        _within("decimals", self.decimals, LEAST_DECIMALS, MOST_DECIMALS)
        _within("days", self.days, 1, FARTHEST_FORECAST_DAYS)
        _within("timeout_s", self.timeout_s, 0.1, 120.0)
        for name, address in (("forecast", self.forecast), ("archive", self.archive)):
            if address and not _safe(address):
                raise ParameterError(
                    f"The {name} address {address!r} cannot be asked.",
                    "Give a whole address that begins with https, or http on this machine itself.",
                )

    def address(self, kind: Kind) -> str:
        """Where a question goes."""
        own = self.forecast if kind == "forecast" else self.archive
        host, path = _HOSTS[kind]
        return own or f"https://{host}{path}"

    def host(self, kind: Kind) -> str:
        """The name of the machine that is asked."""
        return urlsplit(self.address(kind)).hostname or ""


@dataclass(frozen=True)
class Question:
    """What is sent: two rounded coordinates, two days, and the names of what is wanted."""

    kind: Kind
    lat_deg: float
    lon_deg: float
    first: date
    last: date

    def words(self, settings: FetchSettings) -> dict[str, str]:
        """The question as the service reads it."""
        return {
            "latitude": f"{self.lat_deg:.{settings.decimals}f}",
            "longitude": f"{self.lon_deg:.{settings.decimals}f}",
            "daily": ",".join(DAILY[self.kind]),
            "start_date": self.first.isoformat(),
            "end_date": self.last.isoformat(),
            "temperature_unit": "celsius",
            "wind_speed_unit": "ms",
            "precipitation_unit": "mm",
            "timezone": "auto",
            **settings.parameters,
        }


def ask(question: Question, settings: FetchSettings, transport: httpx2.BaseTransport | None = None) -> bytes:
    """Send a question and bring the answer as it came.

    Parameters
    ----------
    question : Question
    settings : FetchSettings
    transport : httpx2 transport or None
        In place of the network, for tests.

    Returns
    -------
    bytes
        Not looked into; see `answer`.

    Raises
    ------
    FetchError
        If fetching is off, nobody answered, or the service refused.

    Notes
    -----
    A broken connection and an error of the service's own (500 and above) are tried again, `ATTEMPTS` times
    in all; a refusal is not. Redirections are not followed: the coordinates go to the named host only.
    """
    import httpx2
    import stamina

    if not settings.on:
        raise FetchError("Fetching is switched off for this garden.", "Set on = true under [fetch].")
    stamina.instrumentation.set_on_retry_hooks(())
    host = settings.host(question.kind)
    headers = {"User-Agent": "spadework", "Accept": "application/json"}
    try:
        with httpx2.Client(
            transport=transport, timeout=settings.timeout_s, headers=headers, follow_redirects=False
        ) as client:
            for attempt in stamina.retry_context(
                on=_worth_another_try, attempts=ATTEMPTS, timeout=settings.timeout_s * ATTEMPTS
            ):
                with attempt:
                    found = client.get(settings.address(question.kind), params=question.words(settings))
                    if found.status_code >= 500:
                        found.raise_for_status()
    except httpx2.HTTPStatusError as error:
        raise FetchError(
            f"{host} is out of order (answer {error.response.status_code}); nothing was changed.",
            "Try again later; every question is answered from what the garden has.",
        ) from None
    except httpx2.TimeoutException:
        raise _silent(host, f"did not answer within {settings.timeout_s:g} s") from None
    except httpx2.TransportError:
        raise _silent(host, "cannot be reached") from None
    if found.status_code != 200:
        raise _refused(host, found.status_code, found.content)
    if len(found.content) > LONGEST_ANSWER_BYTES:
        raise FetchError(f"{host} sent {len(found.content)} bytes; nothing was changed.", "Ask for less.")
    return found.content


def _worth_another_try(error: Exception) -> bool:
    import httpx2

    return isinstance(error, (httpx2.TransportError, httpx2.HTTPStatusError))


def _silent(host: str, what: str) -> FetchError:
    return FetchError(
        f"{host} {what}; nothing was changed.",
        "Is this machine on the network? Every question is answered from what the garden has.",
    )


def _refused(host: str, status: int, content: bytes) -> FetchError:
    if status == 429:
        return FetchError(
            f"{host} was asked too often; nothing was changed.", "Wait an hour, or use --if-older."
        )
    try:
        reason = str(json.loads(content)["reason"])[:200]
    except (ValueError, KeyError, TypeError):
        reason = ""
    said = f": {' '.join(reason.split())}" if reason.isprintable() and reason else ""
    return FetchError(
        f"{host} refused the question (answer {status}){said}.",
        "Nothing was changed. Check the dates, and [fetch] in garden.toml.",
    )


def _within(name: str, value: float, low: float, high: float) -> None:
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if not number or not low <= value <= high:
        raise ParameterError(f"{name} under [fetch] is {value!r}.", f"Allowed: {low:g} to {high:g}.")


def _safe(address: str) -> bool:
    parts = urlsplit(address)
    here = parts.hostname in ("localhost", "127.0.0.1", "::1")
    return bool(parts.hostname) and (parts.scheme == "https" or (parts.scheme == "http" and here))
