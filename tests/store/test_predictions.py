"""Predictions are kept as they were shown, once a day for the same thing said, on both engines."""

from __future__ import annotations

from datetime import UTC, date, datetime

import msgspec
import pytest

from spadework.errors import StoreDamaged, StoreError
from spadework.store import predictions as foretold
from spadework.store.predictions import Kept, Prediction, Subject
from spadework.store.sql_book import SqlBook

DAY = date(2026, 5, 20)
NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
READY = Prediction(
    kind="ready",
    subject=Subject(crop="carrot", start="sown", started=date(2026, 5, 1), means="rain alone — wets"),
    made_on=DAY,
    quantiles={"0.1": date(2026, 7, 20), "0.5": date(2026, 8, 1), "0.9": None},
    chance=0.9123,
    years=30,
    made_years=3,
    inputs="ab12",
    program="0.1.0",
)
FROST = Prediction(kind="frost", subject=Subject(event="last in spring", limit_c=-1.5), made_on=DAY)


def test_what_is_kept_comes_back(book: SqlBook) -> None:
    assert book.keep([READY, FROST]) == 2
    found = book.predictions()
    assert [each.prediction for each in found] == [READY, FROST]
    assert all(each.kept_at.tzinfo is not None for each in found)


def test_the_same_said_on_the_same_day_is_one(book: SqlBook) -> None:
    assert book.keep([READY, READY]) == 1
    again = msgspec.structs.replace(READY, inputs="cd34", program="0.2.0")
    assert book.keep([again, FROST]) == 1
    assert [each.prediction for each in book.predictions()] == [READY, FROST]


@pytest.mark.parametrize(
    "other",
    [
        {"made_on": date(2026, 5, 21)},
        {"chance": 0.9},
        {"kind": "emergence"},
        {"by": DAY},
        {"years": 29},
        {"quantiles": READY.quantiles | {"0.9": date(2026, 9, 1)}},
        {"subject": msgspec.structs.replace(READY.subject, bed="long bed")},
        {"subject": msgspec.structs.replace(READY.subject, started=date(2026, 5, 2))},
    ],
)
def test_anything_else_said_is_another(book: SqlBook, other: dict[str, object]) -> None:
    assert book.keep([READY, msgspec.structs.replace(READY, **other)]) == 2


def test_the_key_does_not_hang_on_the_order_of_chances() -> None:
    turned = dict(reversed(READY.quantiles.items()))
    assert msgspec.structs.replace(READY, quantiles=turned).key == READY.key


def test_since_a_day(book: SqlBook) -> None:
    later = msgspec.structs.replace(READY, made_on=date(2026, 6, 1))
    book.keep([later, READY])
    assert [each.prediction for each in book.predictions(date(2026, 5, 21))] == [later]
    assert [each.prediction for each in book.predictions(DAY)] == [later, READY]


def test_what_was_said_of_a_past_day_does_not_count_as_foretold() -> None:
    assert Kept(prediction=READY, kept_at=NOON).foretold
    assert not Kept(prediction=READY, kept_at=datetime(2026, 5, 21, 0, 0, tzinfo=UTC)).foretold


def test_nothing_new_waits_for_no_writer(book: SqlBook, monkeypatch: pytest.MonkeyPatch) -> None:
    book.keep([READY])

    def refused() -> None:
        raise StoreError("a writer was asked for", "")

    monkeypatch.setattr(book.database, "writing", refused)
    assert book.keep([READY]) == 0
    assert book.keep([]) == 0
    with pytest.raises(StoreError, match="asked for"):
        book.keep([FROST])


def test_a_changed_prediction_is_noticed(book: SqlBook) -> None:
    book.keep([READY])
    with book.database.writing():
        book.database.run("UPDATE predictions SET body = replace(body, ?, ?)", [("0.9123", "0.1123")])
    with pytest.raises(StoreDamaged, match="not what was written"):
        book.predictions()


def test_the_moment_of_keeping_is_kept(book: SqlBook) -> None:
    assert foretold.add(book.database, [Kept(prediction=READY, kept_at=NOON)]) == 1
    assert book.predictions() == [Kept(prediction=READY, kept_at=NOON)]
