"""What must hold of the differential whatever the sheets, the place and the signs."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from spadework.advice.ages import AGES
from spadework.advice.ailing.differential import differ
from spadework.advice.ailing.evidence import Evidence, Heard, Look
from spadework.advice.circumstances import Here, Hold
from spadework.crops.trouble import CIRCUMSTANCES, Trouble
from troubles_made import SIGNS, made, told

_shares = st.floats(0.05, 0.98)
_looks: st.SearchStrategy[Look] = st.sampled_from(("yes", "no", "unknown"))


@st.composite
def troubles(draw: st.DrawFn) -> Trouble:
    """An invented trouble with some of the invented signs."""
    names = draw(st.lists(st.sampled_from(sorted(SIGNS)), min_size=1, max_size=5, unique=True))
    favours = draw(
        st.lists(
            st.builds(
                lambda when, times, otherwise: {"when": when, "times": told(times), "otherwise": otherwise},
                st.sampled_from(CIRCUMSTANCES),
                st.floats(0.2, 6.0),
                st.floats(0.02, 1.0),
            ),
            max_size=2,
        )
    )
    return made(
        f"made-{draw(st.integers(0, 10**9))}",
        {name: draw(_shares) for name in names},
        usual=told(draw(st.floats(0.01, 0.6))),
        hosts=[draw(st.sampled_from(("all", "family Brassicaceae", "onion")))],
        favours=favours,
    )


_lists = st.lists(troubles(), min_size=1, max_size=6, unique_by=lambda each: each.key)
_heres = st.builds(
    Here,
    crop=st.just("kale"),
    family=st.just("Brassicaceae"),
    age=st.sampled_from((None, *AGES)),
    holds=st.dictionaries(st.sampled_from(CIRCUMSTANCES), st.builds(Hold, st.floats(0.0, 1.0)), max_size=6),
)
_evidence = st.builds(
    lambda looks, heard: Evidence(looks=looks, heard=tuple(heard)),
    st.dictionaries(st.sampled_from(sorted(SIGNS)), _looks, max_size=5),
    st.lists(
        st.builds(
            lambda sign, sure, there: Heard(words=sign, signs=((sign, 1.0),), sure=sure, there=there),
            st.sampled_from(sorted(SIGNS)),
            st.floats(0.3, 1.0),
            st.booleans(),
        ),
        max_size=3,
    ),
)


@given(_lists, _heres, _evidence)
def test_chances_sum_to_one(listed: list[Trouble], here: Here, found: Evidence) -> None:
    """Something not in the list is among them, and none is below zero."""
    state = differ(here, found, listed, SIGNS)
    assert abs(sum(state.chances.values()) - 1.0) < 1e-9
    assert all(chance >= 0.0 for chance in state.chances.values())


@given(_lists, _heres, _evidence, st.sampled_from(sorted(SIGNS)))
def test_a_sign_always_shown_never_lowers_its_cause(
    listed: list[Trouble], here: Here, found: Evidence, sign: str
) -> None:
    """Whatever else was found before."""
    always = made("always", {sign: 1.0})
    found = Evidence(
        looks={key: look for key, look in found.looks.items() if key != sign},
        heard=tuple(each for each in found.heard if each.signs[0][0] != sign),
    )
    before = differ(here, found, [*listed, always], SIGNS).chances["always"]
    for after in (
        found.looked(sign, "yes"),
        found.also(Heard(words=sign, signs=((sign, 1.0),))),
    ):
        assert differ(here, after, [*listed, always], SIGNS).chances["always"] >= before - 1e-12


@given(_lists, _heres, _evidence)
def test_no_answer_brings_in_what_the_crop_is_no_host_of(
    listed: list[Trouble], here: Here, found: Evidence
) -> None:
    """Absent hosts stay out, whatever is found."""
    strangers = {each.key for each in listed if each.hosts == ("onion",)}
    assert not strangers & set(differ(here, found, listed, SIGNS).chances)


@given(_lists, _heres)
def test_nothing_found_leaves_the_odds_of_place_and_season(listed: list[Trouble], here: Here) -> None:
    """No sign, no news."""
    state = differ(here, Evidence(), listed, SIGNS)
    assert all(abs(state.chances[key] - share) < 1e-12 for key, share in state.before.items())
