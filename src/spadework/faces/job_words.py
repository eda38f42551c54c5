"""What every face says of a job beside its act and reason: what waiting costs, what to take along."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from spadework.advice.job import Take
from spadework.faces.voice import Voice
from spadework.usecases.jobs_today import JobView
from spadework.usecases.round_answer import ChoreView

SHARES: Final = (
    (0.9, "nearly all"),
    (0.6, "most"),
    (0.42, "about half"),
    (0.28, "about a third"),
    (0.2, "a quarter"),
    (0.14, "a sixth"),
    (0.075, "a tenth"),
    (0.035, "a twentieth"),
    (0.01, "a little"),
)
"""From which share of a crop on it is said in these words."""

WORTH_SAYING: Final = 0.01
"""A smaller share of a crop is not spoken of."""


def share_text(share: float) -> str:
    """A share of a crop in words."""
    return next((words for least, words in SHARES if share >= least), "next to nothing")


def waiting_said(job: JobView, voice: Voice) -> str:
    """From when it makes sense, what waiting costs, and by when it is best done."""
    if job.window.opens > voice.today:
        until = "" if job.window.open_ended else f", best by {voice.day(job.window.closes)}"
        return f"Not before {voice.day(job.window.opens)}{until}."
    window = f"Best by {voice.day(job.window.closes)}." if not job.window.open_ended else ""
    if job.forfeit["7"] >= WORTH_SAYING:
        cost = f"A week later costs {share_text(job.forfeit['7'])} of it."
        if job.forfeit["1"] >= 0.5 * job.forfeit["7"]:
            cost = f"A day later costs {share_text(job.forfeit['1'])} of it."
    else:
        cost = "It can wait a week." if not window else "A week later costs next to nothing."
    return f"{cost} {window}".strip()


def chore_title(chore: ChoreView) -> str:
    """A chore's name where it leads a line."""
    return f"{chore.chore[:1].upper()}{chore.chore[1:]}"


def chore_said(chore: ChoreView, voice: Voice) -> str:
    """Whose a chore is, how often it comes round, and when it was last done."""
    often = "" if chore.every_days is None else f"comes round {often_said(chore.every_days)}"
    last = "" if chore.last_done is None else f"last done {voice.day(chore.last_done)}"
    told = "; ".join(part for part in (often, last) if part) or "to be done once"
    whose = f"{chore.person}’s own chore" if chore.person else "A chore for anyone"
    return f"{whose}: {told}."


def often_said(days: int) -> str:
    """How often something comes round."""
    if days == 1:
        return "every day"
    if days % 7 == 0:
        return "every week" if days == 7 else f"every {days // 7} weeks"
    return f"every {days} days"


def take_said(takes: Iterable[Take], voice: Voice) -> str:
    """What to take along, with amounts."""
    return ", ".join(_taken(take, voice) for take in takes)


def _taken(take: Take, voice: Voice) -> str:
    more = [
        f"{take.length_m:g} m" if take.length_m else "",
        f"{take.pieces}" if take.pieces else "",
        f"{take.litres:.0f} l" if take.litres else "",
        f"{take.seeds} seeds" if take.seeds else "",
    ]
    amount = ", ".join(part for part in more if part)
    return voice.told(f"{take.what}{f' ({amount})' if amount else ''}")
