"""Read a line: the acts it tells of, what was asked, and what was left over."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.phrases import day_text
from spadework.garden.question import Question
from spadework.garden.state import Garden
from spadework.usecases.keep_book import Act
from spadework.usecases.line import giving, growing, owning, seeing, starting, taking, tending
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.clauses import clauses_of
from spadework.usecases.line.known_words import KNOWN, WANTED_TOO
from spadework.usecases.line.lexicon import Lexicon, lexicon_of
from spadework.usecases.line.marking import Manner, marks_of
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.plants import Place
from spadework.usecases.line.scene import Scene
from spadework.usecases.line.spelling import mended
from spadework.usecases.line.vocabulary import STOPS
from spadework.usecases.line.which import Sense, ask_bed
from spadework.usecases.line.words import split_words

Builder = Callable[[Scene, Clause], list[Act]]

_BUILDERS: Final[dict[str, Builder]] = {
    **dict.fromkeys(("weed", "hoe", "earth up", "support", "mulch", "harden", "prune"), tending.tended),
    **dict.fromkeys(("cover", "uncover", "open", "shut"), tending.covered),
    **dict.fromkeys(("up", "first flower", "first female flower", "ready", "bolting"), growing.staged),
    **dict.fromkeys(("plant", "plant out"), starting.planted),
    **dict.fromkeys(("cure", "store"), taking.kept),
    **dict.fromkeys(("clear", "lose"), taking.ended),
    "move kit": tending.moved,
    "sow": starting.sown,
    "prick out": growing.pricked_out,
    "count": growing.counted,
    "measure": growing.measured,
    "thin": growing.thinned,
    "water": giving.watered,
    "feed": giving.fed,
    "amend": giving.amended,
    "treat": giving.treated,
    "pick": taking.picked,
    "pull": taking.pulled,
    "lift": taking.lifted,
    "seen": seeing.seen,
    "rain": seeing.rained,
    "soil felt": seeing.felt,
    "thermometer": seeing.read_thermometer,
    "minutes": tending.minutes,
    "skip": tending.skipped,
    "buy": owning.bought,
    "new bed": owning.new_bed,
    "lock": owning.locked,
    "unlock": owning.unlocked,
    "stood": owning.stood,
    "gone": taking.gone,
}


_NEEDS_PLACE: Final = frozenset(
    {
        "weed",
        "hoe",
        "mulch",
        "water",
        "feed",
        "amend",
        "treat",
        "cover",
        "uncover",
        "prune",
        "support",
        "earth up",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a line says.

    Parameters
    ----------
    acts : tuple of Act
        In the order said; empty only where something is asked, or nothing was said.
    questions : tuple of Question
        Where it could mean several things; then nothing is to be written.
    taken : tuple of str
        What was taken for granted: words mistyped, sizes of cans, middles of ranges.
    unused : str
        Words nothing was made of.
    """

    acts: tuple[Act, ...]
    questions: tuple[Question, ...] = ()
    taken: tuple[str, ...] = ()
    unused: str = ""


def read_line(
    line: str,
    garden: Garden,
    manner: Manner,
    *,
    words: str = "british",
    bed: str = "",
    planting: str = "",
    lexicon: Lexicon | None = None,
) -> Reading:
    """The acts a line tells of.

    Parameters
    ----------
    line : str
        As a person says it.
    garden : Garden
        As it stands; decides which plants are meant.
    manner : Manner
        Today, and what signs left out mean here.
    words : "british" or "american"
        For the questions.
    bed, planting : str
        Keys, where the line does not say which; "all" for all of several.
    lexicon : Lexicon or None
        Of this garden, where several lines are read.

    Returns
    -------
    Reading
        A line in which nothing is understood is a note of its own words.
    """
    text = " ".join(line.split())
    if not text:
        return Reading(acts=())
    lexicon = lexicon or lexicon_of(garden)
    spelt, slips = mended(split_words(line), lexicon.words | KNOWN, lexicon.wanted | WANTED_TOO)
    taken = [f"{wrong} taken as {right}" for wrong, right in slips]
    marks = marks_of(line, spelt, lexicon, manner)
    _correct(marks)
    sense = Sense(garden, "american" if words == "american" else "british", bed, planting)
    acts: list[Act] = []
    clauses = clauses_of(marks)
    _settle_times(clauses, manner)
    new: set[str] = set()
    days = _days(sense, clauses, manner.today)
    for clause, day, by in zip(clauses, days, _authors(clauses), strict=True):
        scene = Scene(sense, lexicon, manner, line, day, by, _hour(clause, clauses), taken, new)
        acts += _built(scene, clause, text if len(clauses) == 1 else "")
        scene.note_taken(clause.marks)
    acts = _merged(acts)
    if sense.questions:
        return Reading(acts=(), questions=tuple(sense.questions), taken=tuple(taken))
    return Reading(acts=tuple(acts), taken=tuple(taken), unused=_unused(marks, acts))


def _correct(marks: Sequence[Mark]) -> None:
    """Of "2 lb, no I tell a lie, 3 lb" the later amount holds."""
    for at, mark in enumerate(marks):
        if "is correction" not in mark.means:
            continue
        wrong = next((each for each in reversed(marks[:at]) if each.amount or each.number), None)
        right = next((each for each in marks[at + 1 : at + 5] if each.amount or each.number), None)
        if wrong is None or right is None:
            continue
        if (wrong.amount and wrong.amount.dim) == (right.amount and right.amount.dim):
            wrong.amount, wrong.number, wrong.used, mark.used = None, None, True, True


def _repeat(clause: Clause) -> None:
    """ "10 litres on Friday and the same again today": the amount and place of the clause before it."""
    prior = clause.prior
    if clause.act != "ask" or prior is None or prior.act != "water":
        return
    amounts = [mark for mark in prior.marks if mark.amount is not None]
    if len(amounts) == 1 and any(mark.plain.endswith("same again") for mark in clause.marks):
        clause.act, clause.taken_from = "water", prior.taken_from or prior
        clause.marks.append(replace(amounts[0], used=False))


def _built(scene: Scene, clause: Clause, whole: str) -> list[Act]:
    _repeat(clause)
    if clause.act == "ask":
        scene.sense.ask(
            Question(
                about="form",
                found="The same as what?",
                why="Say the act and the bed or crop again.",
                may_insist=False,
            )
        )
        return []
    builder = _BUILDERS.get(clause.act)
    if builder is not None:
        asked = len(scene.sense.questions)
        found = builder(scene, clause)
        if clause.act_mark is not None:
            clause.act_mark.used = True
        if clause.act in _NEEDS_PLACE and any(not (act.bed or act.planting) for act in found):
            ask_bed(scene.sense, clause.act_mark.text.capitalize() if clause.act_mark else "That was")
            return []
        if found and clause.act not in ("minutes", "water", "note"):
            found = [*found, *tending.time_taken(scene, clause, found)]
        if found or len(scene.sense.questions) > asked:
            return found
        if clause.act in _NEEDS_PLACE and all(mark.stop or mark is clause.act_mark for mark in clause.marks):
            ask_bed(scene.sense, clause.act_mark.text.capitalize() if clause.act_mark else "That was")
            return []
    return _note(scene, clause, whole)


def _note(scene: Scene, clause: Clause, whole: str) -> list[Act]:
    """The words as they are, about a bed or planting where just one is meant."""
    words = whole or scene.text_of([mark for mark in clause.marks if mark.text])
    if not words.strip(" ,.;:"):
        return []
    quiet = Sense(scene.garden, scene.sense.words)
    aside = replace(scene, sense=quiet)
    spots = {place for _, place in aside.spots(clause)}
    idle = clause.has("idle") is not None or clause.act == "buy"
    place = spots.pop() if len(spots) == 1 and not quiet.questions and not idle else Place()
    for mark in clause.marks:
        mark.used = True
    return [scene.act(kinds.Note(text=words), place)]


def _days(sense: Sense, clauses: Sequence[Clause], today: date) -> list[date]:
    """The day of each clause: its own, else that of the one before, else the next of its sentence."""
    own = [_own_day(sense, clause) for clause in clauses]
    found: list[date] = []
    for at, day in enumerate(own):
        if day is None:
            before = next((each for each in reversed(own[:at]) if each is not None), None)
            day = before
            if before is None:
                later = [
                    own[k] for k in range(at + 1, len(own)) if clauses[k].sentence == clauses[at].sentence
                ]
                day = next((each for each in later if each is not None), None)
        found.append(day or today)
    return found


def _own_day(sense: Sense, clause: Clause) -> date | None:
    named = [mark for mark in clause.marks if mark.day is not None and not mark.day.lead]
    if clause.act == "note":
        if any(_is_to_come(clause, mark) for mark in named):
            return None
        return named[0].day.on if len(named) == 1 and named[0].day and named[0].day.on else None
    days: list[date] = []
    for mark in named:
        mark.used = True
        if mark.day is None:
            continue
        if mark.day.on is None and clause.act == "rain" and "weekend" in mark.plain:
            days.append(max(mark.day.choices))
            continue
        if mark.day.on is None:
            _ask_day(sense, mark)
            continue
        days.append(mark.day.on)
    if clause.act == "seen" and len(set(days)) > 1 and clause.has("is recovered", "is not recovered"):
        return min(days)
    return days[0] if days else None


def _is_to_come(clause: Clause, mark: Mark) -> bool:
    """Whether "Thursday at 7" is an appointment: an hour follows, and nothing tells of what was."""
    told = clause.words("was", "were", "came", "saw", "heard", "last", "back")
    after = clause.after(mark, 1)
    return clause.marks[0] is not mark and bool(after) and after[0].hour is not None and told is None


def _ask_day(sense: Sense, mark: Mark) -> None:
    if mark.day is None:
        return
    shown = [day_text(day) for day in mark.day.choices]
    sense.ask(
        Question(
            about="day",
            found=f"Which day is meant by {mark.text.strip()!r}?",
            why=f"{' or '.join(shown)}? Say it in the line."
            if len(shown) <= 3
            else "Name the day in the line.",
            nearest=tuple(shown),
            may_insist=False,
        )
    )


def _settle_times(clauses: Sequence[Clause], manner: Manner) -> None:
    """A morning by which plants had recovered is not the day they wilted."""
    for clause in clauses:
        if clause.act != "seen":
            continue
        for mark in clause.marks:
            if (
                mark.day is not None
                and mark.day.part in ("morning", "mornin")
                and mark.day.on == manner.today
            ):
                others = [
                    each
                    for each in clause.marks
                    if each.day is not None and each is not mark and not each.day.lead
                ]
                if others and clause.has("is recovered", "is not recovered"):
                    mark.day = replace(mark.day, lead="by")


def _hour(clause: Clause, clauses: Sequence[Clause]) -> float | None:
    own = next((mark for mark in clause.marks if mark.hour is not None), None)
    if own is None and clause.act == "thermometer":
        at = clauses.index(clause)
        if at and clauses[at - 1].sentence == clause.sentence:
            own = next((mark for mark in clauses[at - 1].marks if mark.hour is not None), None)
    if own is None or own.hour is None:
        return None
    own.used = True
    return round(own.hour, 2)


def _authors(clauses: Sequence[Clause]) -> list[str]:
    """Who did each: a person named before the act or after "by"; it holds on until someone else is named."""
    found: list[str] = []
    for clause in clauses:
        named = _by(clause)
        if named is None and clause.prior is not None and clause.prior.sentence == clause.sentence:
            own = any(mark.plain in ("i", "we", "ive", "weve") for mark in clause.marks)
            named = None if own else found[-1]
        found.append(named or "")
    return found


def _by(clause: Clause) -> str | None:
    """Who did it, by key; empty where the speaker is one of them, None where nobody is named."""
    for at, mark in enumerate(clause.marks):
        person = mark.means.get("person")
        if person is None:
            continue
        mark.used = True
        plain = [each.plain for each in clause.marks[max(0, at - 2) : at + 3]]
        after = clause.marks[at + 1].plain if at + 1 < len(clause.marks) else ""
        before = clause.marks[at - 1].plain if at else ""
        if ("i" in plain and "and" in plain) or after in ("says", "said", "thinks", "reckons", "told"):
            return ""
        return "" if before in ("for", "with", "to", "from") else person
    return next((mark.means["person"] for mark in clause.context if "person" in mark.means), None)


def _merged(acts: Sequence[Act]) -> list[Act]:
    """The same act told twice in a line counts once."""
    found: list[Act] = []
    for act in acts:
        if act not in found:
            found.append(act)
    return found


def _unused(marks: Sequence[Mark], acts: Sequence[Act]) -> str:
    """Words nothing was made of, small words left out."""
    if len(acts) == 1 and isinstance(acts[0].payload, kinds.Note):
        return ""
    left = [
        mark.text
        for mark in marks
        if not mark.used and not mark.stop and mark.plain not in STOPS and not _is_spent(mark)
    ]
    return " ".join(left)


def _is_spent(mark: Mark) -> bool:
    """Marks whose sense went into the choice of the act."""
    return bool(mark.means.keys() & {"act", "light", "sign", "beside", "person", "nothing"}) or bool(
        mark.plain and set(mark.plain.split()) <= STOPS
    )
