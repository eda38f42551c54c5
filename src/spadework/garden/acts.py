"""The word of what an entry did, as people and the garden's records call it."""

from __future__ import annotations

from typing import Final, cast, get_args

from spadework.garden.entries import Kept, Moved, Payload, Tended

_TAGS: Final[dict[type, str]] = {kind: str(kind.__struct_config__.tag) for kind in get_args(Payload)}
_WITH_ACT: Final = frozenset({Tended, Kept, Moved})


def act_word(act: Payload | None) -> str:
    """The word of an act: "sown", "weeded", "stored", "cover on"; empty for none."""
    if act is None:
        return ""
    kind = type(act)
    if kind not in _WITH_ACT:
        return _TAGS[kind]
    word = cast("Tended | Kept | Moved", act).act
    return f"cover {word}" if kind is Moved else word
