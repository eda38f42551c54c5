"""Correct an entry of the book in one act."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer, read_date
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written
from spadework.usecases.correct_entry import Correctable


def correct(
    key: str,
    *,
    on: Annotated[str | None, Parameter(help="The day it really happened.")] = None,
    bed: Annotated[str, Parameter(help="Where it really was.")] = "",
    planting: Annotated[str, Parameter(help="Which planting, or crop, it really was.")] = "",
    who: Annotated[str, Parameter(help="Who really did it.")] = "",
    minutes: Annotated[float | None, Parameter(help="Minutes it really took.")] = None,
    standing: Annotated[float | None, Parameter(help="Plants counted.")] = None,
    left: Annotated[float | None, Parameter(help="Plants left standing.")] = None,
    removed: Annotated[float | None, Parameter(help="Plants taken out.")] = None,
    plants: Annotated[float | None, Parameter(help="Plants set out.")] = None,
    seeds: Annotated[float | None, Parameter(help="Seeds sown.")] = None,
    kg: Annotated[float | None, Parameter(help="Harvest, kg.")] = None,
    pieces: Annotated[float | None, Parameter(help="Harvest, pieces.")] = None,
    litres: Annotated[float | None, Parameter(help="Water given.")] = None,
    say: Annotated[
        list[str] | None, Parameter(negative="", help="Anything else it says, as name=value. Repeat.")
    ] = None,
    by: Annotated[
        str, Parameter(help="Who corrects; else SPADEWORK_BY of the environment, or the only keeper.")
    ] = "",
    insist: Annotated[
        bool, Parameter(negative="", help="It is so, although the program asks; the entry is marked.")
    ] = False,
    common: Common | None = None,
) -> None:
    """Say an entry anew; the old one stays, shown as corrected. With nothing else: what can be said.

    Parameters
    ----------
    key : str
        The entry's key, or the end of it.
    """
    from spadework.usecases.correct_entry import correct_entry, correctable
    from spadework.usecases.write_answer import Writing

    common = common or Common()
    given = {
        "standing": standing, "left": left, "removed": removed, "plants": plants, "seeds": seeds, "kg": kg,
        "pieces": pieces, "litres": litres,
    }  # fmt: skip
    said: dict[str, object] = {name: value for name, value in given.items() if value is not None}
    for each in say or ():
        name, is_said, value = each.partition("=")
        if not is_said:
            raise ParameterError(f"--say {each!r} is not understood.", "Write it as name=value.")
        said[name.strip()] = value
    if not said and on is None and minutes is None and not (bed or planting or who):
        found = correctable(common.garden, common.day, key)
        answer(common, found, lambda: _tell(found, common))
        return
    day = None if on is None else read_date(on, "--on", common.day)
    how = Writing(today=common.day, on=day, by=by, insist=insist)
    answer_written(
        common,
        correct_entry(common.garden, how, key, said, bed=bed, planting=planting, who=who, minutes=minutes),
    )


def _tell(found: Correctable, common: Common) -> None:
    voice = voice_of(common)
    line = found.entry
    print(wrapped(f"{line.short}  {voice.day(line.on)}  {voice.told(line.text)}", 8, first=""))
    where = ", --bed, --planting" if found.can_move else ""
    print(f"Can be corrected: --on{where}, --who, --minutes, and with --say:")
    for field in found.fields:
        now = "not said" if field.value in (None, "") else str(field.value)
        can = f" ({', '.join(word for word in field.choices if word)})" if field.choices else ""
        print(wrapped(f"{field.name}={now}{can}", 6, first="  "))
