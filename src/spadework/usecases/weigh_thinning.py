"""Thin a row now, a week later, or not at all?"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.advice.scene import Plot, Scene
from spadework.advice.weigh_thin import ThinAnswer, weigh_thin
from spadework.errors import ParameterError, UnknownName
from spadework.garden.lookup import nearest
from spadework.usecases.keep_book import open_state
from spadework.usecases.setting import open_setting


def weigh_thinning(garden: Path, today: date, name: str) -> ThinAnswer:
    """Set ways of thinning a row side by side.

    Parameters
    ----------
    garden : Path
    today : date
    name : str
        A planting by key, or a crop of which one sown row stands.

    Raises
    ------
    UnknownName
        If nothing that stands is called that, or several rows are.
    ParameterError
        If it is not thinned, or nobody knows how many stand.
    GardenError, RecordError, StoreError
    """
    from spadework.usecases.scene import build_scene

    setting = open_setting(garden, today)
    scene = build_scene(setting, open_state(setting.folder, day=today).garden)
    plot = _plot(scene, name)
    section = plot.sheet.thin
    if section.in_row_small_cm is None or section.in_row_large_cm is None or plot.course.sprout is None:
        raise ParameterError(
            f"{plot.name.capitalize()} in {plot.where} are not thinned.",
            "Only rows sown where they are to grow are.",
        )
    found = weigh_thin(plot, scene.pace, today, crop=plot.name, note=scene.ground.years.note)
    if found is None:
        raise ParameterError(
            f"Nobody knows how many {plot.name} stand in {plot.where}, or on how many metres of row.",
            f"Count a metre: spadework done count-{plot.key} --standing N",
        )
    return found


def _plot(scene: Scene, name: str) -> Plot:
    from spadework.crops.names import find

    asked = name.strip()
    for plot in scene.plots:
        if plot.key.casefold() == asked.casefold():
            return plot
    crop = find(asked)
    found = [plot for plot in scene.plots if plot.planting.crop == crop and plot.bed is not None]
    sown = [plot for plot in found if plot.course.sprout is not None]
    if len(sown) == 1:
        return sown[0]
    keys = [plot.key for plot in (sown or found)]
    if keys:
        raise UnknownName(f"{name!r} could be several plantings.", f"Say which: {', '.join(keys[:6])}.")
    near = nearest(asked, [plot.key for plot in scene.plots])
    raise UnknownName(
        f"No row of {name!r} stands today.",
        f"Nearest: {', '.join(near)}." if near else "See what stands with: spadework standing",
    )
