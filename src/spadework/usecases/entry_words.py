"""Any entry of the book as one plain sentence, in metric and with the day before the month.

It says neither the day of the entry nor who wrote it; where it is shown stands beside it.
"""

from __future__ import annotations

from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.blocks import stretch_text
from spadework.garden.entries import Entry, Payload
from spadework.garden.phrases import day_text, temp_text
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.amount_words import (
    add_part,
    amount_of,
    clock_hour,
    count_of,
    joined,
    listed,
    plain_number,
    with_parts,
)
from spadework.usecases.crop_words import piece_word
from spadework.usecases.entry_names import EntryNames, Said
from spadework.usecases.entry_words_place import garden_sentence
from spadework.usecases.job_names import job_said

_TENDED: Final = {
    "weeded": "Weeded",
    "hoed": "Hoed",
    "earthed up": "Earthed up",
    "supported": "Tied or staked",
    "mulched": "Mulched",
    "potted on": "Potted on",
    "hardened off": "Hardened off",
    "prepared": "Prepared",
    "pruned": "Pruned",
    "looked over": "Looked over",
}
_MOVED: Final = {"on": "Put {} on", "off": "Took {} off", "opened": "Opened {} on", "shut": "Shut {} on"}
_STAGES: Final = {
    "up": "is up",
    "first flower": "has its first flower",
    "first female flower": "has its first female flower",
    "ready": "is ready",
    "bolting": "is bolting",
}
_NOT_YET: Final = {
    "up": "is not up yet",
    "first flower": "has no flower yet",
    "first female flower": "has no female flower yet",
    "ready": "is not ready yet",
    "bolting": "is not bolting",
}
_STOPPED: Final = {"picking": "no picking", "planting": "no planting", "using": "no using"}


def sentence(said: Entry | Said, garden: Garden, *, words: Words = "british") -> str:
    """An entry, or an act before it is one, in a sentence.

    Parameters
    ----------
    said : Entry or Act
    garden : Garden
        For the names of beds, crops and people.
    words : {"british", "american"}
    """
    act: Payload | None = said.act if isinstance(said, Entry) else getattr(said, "payload", None)
    if act is None:
        return f"Took back entry {short_key(said.withdraws)}."
    text = _Words(said, garden, words).of(act)
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?", "…")) else f"{text}."


def short_key(key: str) -> str:
    """The end of a key, enough to tell a garden's entries apart."""
    return key[-6:].lower()


class _Words(EntryNames):
    """One entry put into words."""

    def of(self, act: Payload) -> str:
        """What was done or seen, without its stop."""
        match act:
            case kinds.Sown() | kinds.PlantedOut() | kinds.PrickedOut():
                return self._start(act)
            case kinds.Counted() | kinds.Measured() | kinds.Thinned() | kinds.Stage():
                return self._plants(act)
            case kinds.Picked() | kinds.Lifted() | kinds.Kept() | kinds.Ended():
                return self._crop(act)
            case kinds.Tended() | kinds.Moved() | kinds.Watered() | kinds.Fed():
                return self._care(act)
            case kinds.Amended() | kinds.Treated() | kinds.Skipped() | kinds.Minutes():
                return self._work(act)
            case kinds.Seen() | kinds.RainGauge() | kinds.ThermometerRead() | kinds.SoilFelt():
                return self._seen(act)
            case kinds.Note() | kinds.Photo() | kinds.Locked() | kinds.Unlocked() | kinds.FactTold():
                return self._told(act)
            case _:
                return garden_sentence(self, act)

    # -- the kinds -----------------------------------------------------------------------------------

    def _start(self, act: kinds.Sown | kinds.PlantedOut | kinds.PrickedOut) -> str:
        if isinstance(act, kinds.PrickedOut):
            into = f" into {act.into}" if act.into else ""
            return f"Pricked out {act.plants} {self.crop()}{into}{self.at('on')}"
        name = f"{act.variety} {self.crop(act.crop)}".strip()
        more = []
        if act.rows is not None:
            more.append("1 row" if act.rows == 1 else f"{act.rows} rows")
        if act.row_cm is not None:
            more.append(f"{plain_number(act.row_cm)} cm between rows")
        if isinstance(act, kinds.PlantedOut):
            add_part(more, "", act.spacing_cm, " cm apart")
            _add_room(more, act)
            count = "" if act.plants is None else f"{act.plants} "
            bought = "bought " if act.bought else ""
            when = "in that year, the day is not known" if act.only_year else ""
            if act.moved:
                return with_parts(f"Moved {count}{name}{self.at('to')}", [*more, *_place(act)])
            return with_parts(f"Planted out {count}{bought}{name}{self.at()}", [*more, *_place(act), when])
        add_part(more, "", act.spacing_cm, " cm apart")
        _add_room(more, act)
        add_part(more, "", act.depth_mm, " mm deep")
        if act.lot:
            lot = self.garden.tin.get(act.lot)
            year = None if lot is None or lot.crop != act.crop else lot.year
            more.append(f"from lot {act.lot}" if year is None else f"from the packet of {year}")
        count = "" if act.seeds is None else count_of(act.seeds, "seed") + " of "
        piece = piece_word(act.crop, act.method)
        how = "Sowed" if piece == "seeds" else "Planted"
        if how == "Planted" and act.seeds is not None:
            piece = piece[:-1] if act.seeds == 1 else piece
            count, name = f"{act.seeds} ", f"{self.crop(act.crop, many=False)} {piece}"
            name = f"{act.variety} {name}".strip()
        tray = f" in {act.tray}" if act.tray else ""
        more += _place(act)
        return with_parts(f"{how} {count}{name}{tray}{self.at('on' if tray else 'in')}", more)

    def _plants(self, act: kinds.Counted | kinds.Measured | kinds.Thinned | kinds.Stage) -> str:
        match act:
            case kinds.Counted():
                of = "" if act.of_row_m is None else f" in {plain_number(act.of_row_m)} m of row"
                return f"Counted {act.standing} {self.crop()} standing{of}{self.at()}"
            case kinds.Measured():
                parts: list[str] = []
                add_part(parts, "", act.height_cm, " cm high")
                add_part(parts, "", act.leaves, " leaf" if act.leaves == 1 else " leaves")
                add_part(parts, "", act.width_mm, " mm across")
                return f"Measured {self.it()}: {listed(parts)}"
            case kinds.Thinned():
                more: list[str] = []
                add_part(more, "", act.removed, " taken out")
                add_part(more, "", act.left, " left")
                to = "" if act.spacing_cm is None else f" to {plain_number(act.spacing_cm)} cm"
                return with_parts(f"Thinned {self.it()}{to}", more)
            case _:
                test = f": {act.test}" if act.test else ""
                stage = (_STAGES if act.reached else _NOT_YET)[act.what]
                return f"{self.crop(many=False)}{self.at()} {stage}{test}"

    def _crop(self, act: kinds.Picked | kinds.Lifted | kinds.Kept | kinds.Ended) -> str:
        match act:
            case kinds.Picked():
                more = [f"{act.quality} quality"] if act.quality else []
                more += ["the last of it"] if act.last else []
                return with_parts(
                    f"Picked {amount_of(act.kg, act.pieces, self.crop())}{self.at('from')}", more
                )
            case kinds.Lifted():
                return f"Lifted {amount_of(act.kg, act.pieces, self.crop())}{self.at('from')}"
            case kinds.Kept():
                done = "Cured" if act.act == "cured" else "Stored"
                where = f" in {act.where}" if act.where else ""
                return f"{done} {amount_of(act.kg, None, self.crop())}{self.at('from')}{where}"
            case _:
                why = f": {act.why}" if act.why else ""
                count = "" if act.plants is None else f"{act.plants} "
                if self.planting is None and not self.named and not count:
                    return f"{act.how} {self.it()}{why}"
                word = "Cleared" if act.how == "cleared" else "Lost"
                return f"{word} {count}{self.crop()}{self.at('from' if word == 'Cleared' else 'in')}{why}"

    def _care(self, act: kinds.Tended | kinds.Moved | kinds.Watered | kinds.Fed) -> str:
        match act:
            case kinds.Tended():
                more: list[str] = []
                add_part(more, "", act.depth_cm, " cm deep")
                with_ = f" with {act.material}" if act.material else ""
                return with_parts(f"{_TENDED[act.act]} {self.it()}{with_}", more)
            case kinds.Moved():
                length = "" if act.length_m is None else f"{plain_number(act.length_m)} m of "
                pieces = "" if act.pieces is None else f"{act.pieces} "
                own = act.item or "the covers"
                hour = _at_hour(act.hour)
                if not act.item and act.act in ("opened", "shut"):
                    return f"{'Opened' if act.act == 'opened' else 'Shut'} {self.it()}{hour}"
                return f"{_MOVED[act.act].format(f'{length}{pieces}{own}')} {self.it()}{hour}"
            case kinds.Watered():
                parts: list[str] = []
                add_part(parts, "", act.litres, f" {self.litre}" if act.litres == 1 else f" {self.litre}s")
                add_part(parts, "", act.depth_mm, " mm")
                add_part(parts, "", act.minutes, " minute" if act.minutes == 1 else " minutes")
                return f"Watered {self.it()}{': ' if parts else ''}{listed(parts)}{_at_hour(act.hour)}"
            case _:
                return f"Fed {self.it()} with {act.material}{f', {act.amount}' if act.amount else ''}"

    def _work(self, act: kinds.Amended | kinds.Treated | kinds.Skipped | kinds.Minutes) -> str:
        match act:
            case kinds.Amended():
                state = "not known to be finished" if act.state == "not known" else act.state
                more: list[str] = [state]
                if act.spray_history:
                    more.append(
                        {
                            "clean": "never sprayed with lasting weedkiller",
                            "sprayed": "sprayed with lasting weedkiller",
                        }.get(act.spray_history, "spray history not known")
                    )
                if act.source:
                    more.append(f"from {act.source}")
                if batch := act.batch or self.batch:
                    more.append(f"batch {batch}")
                litres = "" if act.litres is None else f"{plain_number(act.litres)} {self.litre}s of "
                place = self.at("into") if self.bed_key else ""
                return with_parts(f"Worked {litres}{act.material}{place or ' in'}", more)
            case kinds.Treated():
                against = f" against {act.against}" if act.against else ""
                wait = (
                    "label not read"
                    if act.label_days is None
                    else f"{count_of(act.label_days, 'day')} before picking by the label"
                )
                return with_parts(f"Treated {self.it()} with {act.product}{against}", [wait])
            case kinds.Skipped():
                job = with_parts(f"Left {job_said(act.job)} undone", [])
                where = f", {self.it()}" if self.bed_key or self.named else ""
                return f"{job}{where}{f': {act.why}' if act.why else ''}"
            case _:
                if not act.minutes:
                    return f"Done: {job_said(act.job)}" + (
                        f", {self.it()}" if self.bed_key or self.named else ""
                    )
                who = "" if act.people == 1 else f" for {act.people} people"
                job = f" on {job_said(act.job)}" if act.job else ""
                where = f", {self.it()}" if self.bed_key or self.named else ""
                return f"{plain_number(act.minutes)} minutes{who}{job}{where}"

    def _seen(self, act: kinds.Seen | kinds.RainGauge | kinds.ThermometerRead | kinds.SoilFelt) -> str:
        match act:
            case kinds.Seen():
                on = f" on {joined(act.parts)}" if act.parts else ""
                some = "" if act.plants is None else f", {count_of(act.plants, 'plant')}"
                of = "" if act.of_plants is None else f" of {act.of_plants}"
                hour = _at_hour(act.hour)
                gone = ""
                if act.gone_by_morning is not None:
                    gone = ", gone by morning" if act.gone_by_morning else ", still there in the morning"
                where = f", {self.it()}" if self.bed_key or self.named else ""
                return f"Saw {act.what}{on}{where}{some}{of}{hour}{gone}"
            case kinds.RainGauge():
                days = "" if act.days == 1 else f" in {act.days} days"
                return f"Rain gauge: {plain_number(act.rain_mm)} mm{days}{self.at()}"
            case kinds.ThermometerRead():
                parts = [
                    f"{word}{temp_text(value)}"
                    for word, value in (("", act.now_c), ("lowest ", act.min_c), ("highest ", act.max_c))
                    if value is not None
                ]
                depth = "" if act.depth_cm is None else f" at {plain_number(act.depth_cm)} cm"
                hour = _at_hour(act.hour)
                return f"{act.place} thermometer{depth}{self.at()}: {listed(parts)}{hour}"
            case _:
                parts = [f"feels {act.finger}"] if act.finger else []
                if act.squeeze:
                    parts.append("a squeezed handful " + act.squeeze)
                depth = "" if act.depth_cm is None else f" at {plain_number(act.depth_cm)} cm"
                return f"Soil{self.at()}{depth} {joined(parts)}"

    def _told(self, act: kinds.Note | kinds.Photo | kinds.Locked | kinds.Unlocked | kinds.FactTold) -> str:
        about = f"{self.it()}: " if self.bed_key or self.named else ""
        match act:
            case kinds.Note():
                return f"{about}{' '.join(act.text.split())}" if about else " ".join(act.text.split())
            case kinds.Photo():
                return f"Photo{f' of {self.it()}' if about else ''}{f': {act.words}' if act.words else ''}"
            case kinds.Locked():
                until = ""
                if act.test:
                    until = f" until this is shown: {act.test}"
                elif act.until is not None:
                    until = f" until {day_text(act.until, year=True)}"
                what = {"batch": f"batch {self.batch}", "planting": self.it()}.get(
                    act.on, self.bed_name(self.bed_key)
                )
                stop = "no using" if act.on == "batch" else _STOPPED[act.stops]
                return f"Locked {what}, {stop}{until}: {act.why}"
            case kinds.Unlocked():
                locks = [lock for lock in self.garden.locks if lock.answers_to(act.lock)]
                what = f" ({locks[0].why})" if locks else f" {act.lock}"
                return f"Lifted the lock{what}{f': {act.why}' if act.why else ''}"
            case _:
                return _fact(act)


def _add_room(parts: list[str], act: kinds.Sown | kinds.PlantedOut) -> None:
    """Length of rows and area, which a stretch of the bed says too."""
    if act.block is None:
        add_part(parts, "rows of ", act.row_length_m, " m")
        add_part(parts, "on ", act.area_m2, " m²")


def _place(act: kinds.Sown | kinds.PlantedOut) -> list[str]:
    """Where in the bed, which way, and what is special of the plants."""
    parts: list[str] = [f"rows {act.rows_run} the bed"] if act.rows_run else []
    if act.block is not None:
        parts.append(stretch_text(act.block))
    if act.spots:
        at = [f"{plain_number(across)} and {plain_number(along)} m" for across, along in act.spots]
        parts.append(f"at {'; '.join(at)} across and along")
    return [*parts, *(["perennial"] if act.perennial else []), *act.traits]


def _at_hour(hour: float | None) -> str:
    return "" if hour is None else f", at {clock_hour(hour)}"


def _fact(act: kinds.FactTold) -> str:
    from spadework.errors import StoreError
    from spadework.garden.told_words import fact_text
    from spadework.store.told_book import fact_of

    try:
        return f"Told by {act.source}: {fact_text(fact_of(act))}"
    except StoreError:
        return f"Told by {act.source}: something of sort {act.sort} that cannot be read"
