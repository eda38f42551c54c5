"""Why does it ail, and who ate it? A guided look at one planting, and what came of it into the book."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final

from spadework.advice.ailing.ask_next import next_sign
from spadework.advice.ailing.differential import Differential, differ
from spadework.advice.ailing.evidence import Evidence, Heard
from spadework.advice.ailing.load import Load, load_of
from spadework.advice.ailing.matching import known_matcher
from spadework.advice.ailing.season import away, infection_now, present_now
from spadework.advice.ailing.verdict import (
    before_dark,
    causes_of,
    cautions_of,
    keep_or_pull,
    to_laboratory,
    urgent_for_neighbours,
)
from spadework.advice.circumstances import Here
from spadework.advice.circumstances_here import here_of, here_without
from spadework.advice.odds import odds_of
from spadework.advice.ready_odds import usual_way
from spadework.advice.scene import Plot, Scene
from spadework.crops.names import find, spoken
from spadework.crops.sheet import Sheet
from spadework.crops.trouble import Sign, Trouble
from spadework.crops.troubles import all_signs, all_troubles, hosted_by
from spadework.errors import ParameterError, UnknownName
from spadework.usecases.ailing_answer import (
    AilingAnswer,
    Asked,
    BedOfLoad,
    Decision,
    Guided,
    HeardView,
    LoadView,
    NotHeard,
    PartOfPlant,
    SignView,
    Told,
)
from spadework.usecases.bed_names import bed_called
from spadework.usecases.crop_words import crop_word
from spadework.usecases.keep_book import State, open_state
from spadework.usecases.lock_lines import lines_about
from spadework.usecases.scene import BOUGHT_SHARE, build_scene
from spadework.usecases.setting import column_of, open_setting

BITERS: Final = frozenset({"insect", "animal"})
"""Kinds of trouble that eat, peck, bite, bore or dig."""


@dataclass(frozen=True, kw_only=True, eq=False)
class _Case:
    """A garden opened for one ailing planting."""

    scene: Scene
    state: State
    sheet: Sheet
    plot: Plot | None
    here: Here
    troubles: tuple[Trouble, ...]
    signs: Mapping[str, Sign]


def ask_ailing(
    garden: Path,
    today: date,
    crop: str,
    told: Told,
    *,
    bed: str = "",
    planting: str = "",
    asked: Asked = "ailing",
) -> AilingAnswer:
    """Causes of what is seen on a planting, ranked by their chances here and now.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
        Any name of the crop; may be empty where a planting is named.
    told : Told
    bed, planting : str
        Which, where several stand.
    asked : {"ailing", "bitten"}
        "bitten" thinks only of what eats, pecks, bites, bores and digs.

    Raises
    ------
    ParameterError
        If several plantings may be meant.
    UnknownName, GardenError, RecordError, StoreError
    """
    case = _open(garden, today, crop, bed=bed, planting=planting, asked=asked)
    evidence, heard, not_heard = _evidence(case, told)
    state = differ(case.here, evidence, case.troubles, case.signs)
    return _answer(case, state, heard, not_heard, told, asked)


def open_signs(garden: Path, today: date, planting: str, *, asked: Asked = "ailing") -> Guided:
    """The parts of one planting with the signs worth touching on each, likeliest first.

    Parameters
    ----------
    garden : Path
    today : date
    planting : str
        By key.
    asked : {"ailing", "bitten"}

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    case = _open(garden, today, "", bed="", planting=planting, asked=asked)
    state = differ(case.here, Evidence(), case.troubles, case.signs)
    worth: dict[str, float] = {}
    for each in state.ranked:
        for shown in each.signs:
            more = state.chances[each.key] * shown.often.value
            worth[shown.sign] = worth.get(shown.sign, 0.0) + more
    ranked = sorted(worth, key=lambda key: (-worth[key], key))
    by_part: dict[str, list[SignView]] = {}
    for key in ranked:
        by_part.setdefault(case.signs[key].part, []).append(sign_view(key, case.signs[key]))
    plot, words = case.plot, case.scene.site.words
    assert plot is not None
    return Guided(
        question=asked,
        today=today,
        crop=case.sheet.key,
        name=crop_word(case.sheet.key, words, many=True),
        planting=plot.key,
        bed=plot.bed_key,
        where=plot.where,
        age=case.here.age,
        parts=tuple(PartOfPlant(part=part, signs=tuple(signs)) for part, signs in by_part.items()),
    )


# -- opening ---------------------------------------------------------------------------------------


def _open(garden: Path, today: date, crop: str, *, bed: str, planting: str, asked: Asked) -> _Case:
    setting = open_setting(garden, today)
    state = open_state(setting.folder, day=today)
    scene = build_scene(setting, state.garden)
    plot = _plot_meant(scene, crop, bed=bed, planting=planting)
    sheet = setting.own(crop) if plot is None else plot.sheet
    troubles = tuple(each for each in all_troubles().values() if asked == "ailing" or each.kind in BITERS)
    here = here_without(scene, sheet) if plot is None else here_of(scene, plot)
    season = scene.season_ground()
    mine = [each for each in troubles if hosted_by(each, sheet.key, sheet.family)]
    present = present_now(mine, season, column_of(season, today), state.garden, south=setting.site.south)
    ground, column = (scene.ground, scene.column) if plot is None else (plot.course.ground, plot.column)
    infection = infection_now(mine, ground, column)
    return _Case(
        scene=scene,
        state=state,
        sheet=sheet,
        plot=plot,
        here=replace(
            here,
            present=present,
            infection=infection,
            away=away(troubles, setting.site.land, here),
        ),
        troubles=troubles,
        signs=all_signs(),
    )


def _plot_meant(scene: Scene, crop: str, *, bed: str, planting: str) -> Plot | None:
    plots = list(scene.plots)
    if planting:
        key = scene.garden.planting(planting).key
        found = next((plot for plot in plots if plot.key == key), None)
        if found is None:
            raise UnknownName(f"Planting {planting!r} does not stand today.", "Choose it from what stands.")
        return found
    meant = _crops_meant(crop)
    plots = [plot for plot in plots if plot.planting.crop in meant]
    if bed:
        where = bed_called(scene.garden, bed)
        plots = [plot for plot in plots if plot.bed_key == where.key]
        if not plots:
            raise UnknownName(f"No {crop} stands in {where.name}.", "Leave --bed away, or name another.")
    if len(plots) > 1:
        named = "; ".join(f"{plot.where} (--planting {plot.key})" for plot in plots)
        raise ParameterError(f"What is meant by {crop!r} stands in several places.", f"Say which: {named}.")
    if not plots:
        find(crop)  # a word for several crops is asked about where none of them stands
    return plots[0] if plots else None


def _crops_meant(name: str) -> frozenset[str]:
    """Keys of the crops a name may mean: "bean" is any of them, and what stands decides."""
    try:
        return frozenset({find(name)})
    except UnknownName:
        several = spoken()[1]
        plain = " ".join(name.casefold().replace("-", " ").split())
        meant = several.get(plain) or several.get(plain.removesuffix("s"))
        if meant is None:
            raise
        return frozenset(meant)


def _evidence(case: _Case, told: Told) -> tuple[Evidence, list[HeardView], list[NotHeard]]:
    matcher = known_matcher()
    found, views, missed = Evidence(looks=dict(told.looks)), [], []
    said = [(text, text) for text in told.words] + [(text, f"no {text}") for text in told.not_there]
    for words, text in said:
        heard = matcher.hear_of(text, case.sheet)
        if heard:
            found = found.also(*heard)
            views += [_heard_view(each, case.signs) for each in heard]
        else:
            missed.append(NotHeard(said=words, nearest=matcher.nearest(words)))
    unknown = set(told.looks) - set(case.signs)
    if unknown:
        raise UnknownName(f"No sign is called {sorted(unknown)[0]!r}.", "Take the keys the answers give.")
    return found, views, missed


def _heard_view(heard: Heard, signs: Mapping[str, Sign]) -> HeardView:
    if heard.trouble:
        return HeardView(said=heard.words, meant=(all_troubles()[heard.trouble].name,), signs=(), there=True)
    if heard.sound:
        return HeardView(said=heard.words, meant=(f"{heard.sound} looks healthy",), signs=(), there=True)
    likely = [key for key, weight in heard.signs if weight >= 0.2 or key == heard.signs[0][0]][:3]
    return HeardView(
        said=heard.words,
        meant=tuple(signs[key].words for key in likely),
        signs=tuple(likely),
        there=heard.there,
    )


def _answer(
    case: _Case,
    state: Differential,
    heard: Sequence[HeardView],
    not_heard: Sequence[NotHeard],
    told: Told,
    asked: Asked,
) -> AilingAnswer:
    plot, scene = case.plot, case.scene
    found_any = bool(heard or told.looks)
    sign = next_sign(state, asked=len(told.looks)) if found_any else ""
    words = scene.site.words
    load = None if plot is None or not found_any else load_of(state, scene, plot)
    crop = case.sheet.key
    return AilingAnswer(
        question=asked,
        today=scene.today,
        crop=crop,
        name=crop_word(crop, words, many=True),
        planting="" if plot is None else plot.key,
        bed="" if plot is None else plot.bed_key,
        where="" if plot is None else plot.where,
        age=case.here.age,
        causes=causes_of(state) if found_any else (),
        other=round(state.other, 4),
        heard=tuple(heard),
        not_heard=tuple(not_heard),
        looks=dict(told.looks),
        next_question=None if not sign else sign_view(sign, case.signs[sign]),
        before_dark=before_dark(state, _shed(scene)) if found_any else (),
        cautions=cautions_of(state) if found_any else (),
        decision=_decision(state, scene, plot) if found_any else None,
        neighbours=urgent_for_neighbours(state) if found_any else (),
        laboratory=to_laboratory(state) if found_any else (),
        load=None if load is None else _load_view(load, scene),
        locks=lines_about(
            scene.garden, scene.today, bed="" if plot is None else plot.bed_key, crop=crop, words=words
        ),
        note=scene.ground.years.note,
    )


def sign_view(key: str, sign: Sign) -> SignView:
    """A sign as it is asked about."""
    return SignView(sign=key, part=sign.part, words=sign.words, ask=sign.ask, picture=sign.picture)


def _shed(scene: Scene) -> frozenset[str]:
    """Sorts of kit there is some of, lying somewhere or not."""
    return frozenset(item.sort for item in scene.garden.kit.values() if not item.gone)


def _decision(state: Differential, scene: Scene, plot: Plot | None) -> Decision | None:
    asked = keep_or_pull(state)
    if asked is None:
        return None
    each, says = asked
    if plot is None or plot.sheet.harvest.first_year is not None:
        return Decision(cause=each.key, says=says)
    anew = scene.start_anew(plot.sheet)[:, 0]
    if usual_way(plot.sheet) != "sown":
        anew = anew / BOUGHT_SHARE
    return Decision(
        cause=each.key,
        says=says,
        keep=odds_of(plot.course.picked[:, -1], scene.made),
        again=odds_of(anew, scene.made),
    )


def _load_view(load: Load, scene: Scene) -> LoadView:
    return LoadView(
        cause=load.trouble.key,
        material=load.material,
        came_on=load.came_on,
        beds=tuple(
            BedOfLoad(
                bed=bed, name=scene.beds[bed].name, locked=bool(load.test) and bed not in load.open_beds
            )
            for bed in load.beds
        ),
        test=load.test,
    )
