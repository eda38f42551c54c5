"""Try a law by hand."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.say import wrapped


def law(
    name: str | None = None,
    *pairs: Annotated[str, Parameter(help="Blanks as name=value.")],
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
