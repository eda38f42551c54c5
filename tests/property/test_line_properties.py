"""Whatever is said: the reader never fails, and never lets a line vanish."""

from __future__ import annotations

from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from line_garden import TODAY, line_garden
from spadework.garden.entries import Note
from spadework.garden.state import Garden
from spadework.usecases.line.lexicon import Lexicon, lexicon_of
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.read import read_line
from spadework.usecases.line.words import split_words

TRADE = """
picked watered thinned sowed planted out lifted weeded and then , . not no dont carrots
beetroot beans kale lettuce bed tub tunnel 3 7 99 1/2 2.5 a half dozen kg lb oz litres cm
inches feet minutes hours yesterday last night on Saturday ago June until Ben Kim I each
all both the of in from to with fleece netting on off over slugs blight wilting recovered
up ready first flower min max soil rain C F dry crumbles compost manure soap label days
lost cleared half some except between again same
"""
WORDS = TRADE.split()
SPOKEN = st.lists(st.sampled_from(WORDS), min_size=1, max_size=14).map(" ".join)
MANNERS = st.builds(
    Manner, st.just(TODAY), fahrenheit=st.booleans(), us_gallon=st.booleans(), month_first=st.booleans()
)


@cache
def garden() -> Garden:
    return line_garden()


@cache
def lexicon() -> Lexicon:
    return lexicon_of(garden())


@settings(max_examples=400, deadline=None)
@given(line=st.text(max_size=80) | SPOKEN, manner=MANNERS)
def test_a_line_is_read_asked_about_or_kept(line: str, manner: Manner) -> None:
    reading = read_line(line, garden(), manner, lexicon=lexicon())
    assert not (reading.acts and reading.questions)
    said = any(word.text.isalnum() for word in split_words(line))
    if said:
        assert reading.acts or reading.questions
    for act in reading.acts:
        assert act.bed in garden().beds or act.bed == "" or type(act.payload).__name__ == "BedSet"
        if isinstance(act.payload, Note):
            assert act.payload.text.strip()


@settings(max_examples=100, deadline=None)
@given(line=SPOKEN)
def test_the_same_line_reads_the_same(line: str) -> None:
    first, second = (read_line(line, garden(), Manner(TODAY), lexicon=lexicon()) for _ in range(2))
    assert first == second
