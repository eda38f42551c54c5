"""Try a law by hand."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.say import table, wrapped


def law(
    name: str | None = None,
    *pairs: Annotated[str, Parameter(help="Blanks as name=value.")],
    over: Annotated[str, Parameter(help="A table over this blank, the others as given.")] = "",
    of: Annotated[str, Parameter(help="Which number of the result the table shows; the first.")] = "",
    common: Common | None = None,
) -> None:
    """List the laws, or evaluate one: spadework law emergence-days crop=carrot soil_c=10.

    Parameters
    ----------
    name : str
        Which law. Without it, all are listed.
    """
    from spadework.usecases.law_book import LAWS
    from spadework.usecases.laws import evaluate

    common = common or Common()
    if name is None:
        listed = [
            {
                "law": entry.name,
                "says": entry.says,
                "inputs": [
                    {
                        "name": blank.name,
                        "needed": blank.needed and blank.default is None,
                        "meaning": blank.meaning,
                    }
                    for blank in entry.blanks
                ],
                "sources": list(entry.sources),
            }
            for entry in LAWS.values()
        ]
        answer(common, listed, lambda: _tell_all())
        return
    given: dict[str, str] = {}
    for pair in pairs:
        key, equals, value = pair.partition("=")
        if not equals or not value:
            raise ParameterError(
                f"{pair!r} is not a blank with its value.", "Write it as name=value, such as soil_c=10."
            )
        if key in given:
            raise ParameterError(f"{key} is given twice.", "Give it once.")
        given[key] = value
    if over or of:
        _over(common, name, given, over, of)
        return
    found = evaluate(LAWS, name, given)

    def tell() -> None:
        print(wrapped(LAWS[found.law].says))
        given = ", ".join(
            f"{key} {value:g}" if isinstance(value, float) else f"{key} {value}"
            for key, value in found.inputs.items()
        )
        print(wrapped(given, 7, "  with "))
        print()
        for key, value in found.result.items():
            if value is not None:
                print(wrapped(f"{value:g}" if isinstance(value, float) else str(value), 24, f"  {key:<22}"))
            elif key != "reason":
                print(f"  {key:<22}will not happen")
        print()
        for source in found.sources:
            print(wrapped(source, 4, "  · "))

    answer(
        common,
        {"law": found.law, "inputs": found.inputs, "result": found.result, "sources": found.sources},
        tell,
    )


def _over(common: Common, name: str, given: dict[str, str], over: str, of: str) -> None:
    """One number of the result along one blank."""
    from spadework.usecases.law_book import LAWS
    from spadework.usecases.law_curve import law_curve

    found = law_curve(LAWS, name, given, over=over, of=of, round_steps=True)
    if found is None:
        raise ParameterError("What comes out of this law is no number.", "Ask it without --over.")

    def tell() -> None:
        print(wrapped(LAWS[found.law].says))
        others = ", ".join(f"{key} {value}" for key, value in given.items() if key != found.over)
        if others:
            print(wrapped(others, 7, "  with "))
        print()
        rows = [
            [
                each.value.isoformat() if isinstance(each.value, date) else f"{each.value:.4g}",
                "–" if each.result is None else f"{each.result:.4g}",
            ]
            for each in found.points
        ]
        print(table([found.over, found.of], rows, frozenset({0, 1})))
        print()
        for source in LAWS[found.law].sources:
            print(wrapped(source, 4, "  · "))

    answer(common, found, tell)


def _tell_all() -> None:
    from spadework.usecases.law_book import LAWS

    print("Laws you can try by hand: spadework law NAME blank=value ...\n")
    for entry in LAWS.values():
        print(f"  {entry.name}")
        print(wrapped(entry.says, 4))
        blanks = [
            blank.name if blank.needed and blank.default is None else f"[{blank.name}]"
            for blank in entry.blanks
        ]
        print(wrapped(" ".join(blanks), 4))
        print()
