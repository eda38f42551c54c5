"""Photos: which there are, one of them as its file, and one sent into the book."""

from __future__ import annotations

from typing import Annotated, Final

import msgspec
from msgspec import Meta

from spadework.faces.web.api.call import Asking, Bytes, Call, LongText, Questions, Sent, Text
from spadework.usecases.keep_photo import PhotoKept, PhotoList, keep_photo, read_photo, show_photos

KINDS: Final = ("image/jpeg", "image/png", "image/webp", "image/heic", "application/octet-stream")
"""What a photo may be sent as; which it is is known by its content."""

GIVEN: Final = KINDS[:4]


class OfPhotos(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Photos of a bed, or of a planting; all where neither is named."""

    bed: Text = ""
    planting: Text = ""


class NewPhoto(Sent, frozen=True, kw_only=True):
    """What is on a photo; the file itself is the body of the message."""

    bed: Text = ""
    planting: Text = ""
    words: Annotated[LongText, Meta(description="What is on it.")] = ""


def _photos(asking: Asking) -> PhotoList:
    return show_photos(asking.garden, asking.today, bed=asking.given.bed, planting=asking.given.planting)


def _photo(asking: Asking) -> Bytes:
    return Bytes(*read_photo(asking.garden, asking.names["photo"]))


def _keep(asking: Asking) -> PhotoKept:
    said: NewPhoto = asking.sent
    kept = keep_photo(
        asking.garden, asking.body, asking.writing, bed=said.bed, planting=said.planting, words=said.words
    )
    if not kept.answer.stored:
        raise Questions(kept.answer.questions, can_insist=kept.answer.can_insist)
    return kept


PHOTOS: Final = (
    Call("/photos", "Photos of a bed or a planting, or all.", _photos, PhotoList, OfPhotos),
    Call(
        "/photos",
        "A photo into the book: the file as the body, what is on it in the address.",
        _keep,
        PhotoKept,
        NewPhoto,
        takes=KINDS,
        least="helper",
    ),
    Call("/photos/{photo}", "One photo as its file, by its name.", _photo, PhotoList, gives=GIVEN),
)
