"""Pick what there is today, or wait?"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.advice.scene import Plot, Scene
from spadework.advice.weigh_pick import PickAnswer, weigh_pick
from spadework.errors import UnknownName
from spadework.garden.lookup import nearest, plain
from spadework.usecases.keep_book import open_state
from spadework.usecases.scene import build_scene
from spadework.usecases.setting import open_setting


def weigh_picking(garden: Path, today: date, name: str) -> PickAnswer:
    """Pick now, or wait, for one planting.

    Parameters
    ----------
    garden : Path
    today : date
    name : str
        A planting's key, or any name of a crop of which one planting stands.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    setting = open_setting(garden, today)
    state = open_state(setting.folder, day=today)
    scene = build_scene(setting, state.garden)
    return weigh_pick(scene, plot_named(scene, name))


def plot_named(scene: Scene, name: str) -> Plot:
    """The planting that stands under a key or a crop's name.

    Raises
    ------
    UnknownName
        If none answers, or several do: the hint names them with their beds.
    """
    from spadework.crops.names import find

    asked = plain(name)
    found = [plot for plot in scene.plots if plain(plot.key) == asked]
    if not found:
        try:
            crop = find(name)
        except UnknownName:
            crop = ""
        found = [plot for plot in scene.plots if plot.sheet.key == crop]
    if len(found) == 1:
        return found[0]
    if found:
        which = ", ".join(f"{plot.key} ({plot.where})" for plot in found)
        raise UnknownName(f"{len(found)} plantings answer to {name!r}.", f"Say which: {which}.")
    near = nearest(name, [plot.key for plot in scene.plots])
    hint = f"Nearest: {', '.join(near)}." if near else "See what stands with: spadework standing"
    raise UnknownName(f"Nothing called {name!r} stands today.", hint)
