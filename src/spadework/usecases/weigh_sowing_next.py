"""When do I sow the next, so that picking does not stop?"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.advice.succession import standing_of
from spadework.advice.wanted_crops import usual_start
from spadework.advice.weigh_sow_next import NextAnswer, weigh_sow_next
from spadework.crops.names import find
from spadework.errors import ParameterError
from spadework.store.predictions import Subject
from spadework.usecases.keep_book import open_state
from spadework.usecases.keep_predictions import from_sowing_next, keep_shown
from spadework.usecases.scene import build_scene
from spadework.usecases.setting import open_setting


def weigh_sowing_next(garden: Path, today: date, crop: str) -> NextAnswer:
    """Set the next sowing today, later and in two steps side by side.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str

    Raises
    ------
    ParameterError
        If the crop is not sown again within a season.
    UnknownName, RecordError, GardenError, StoreError
    """
    setting = open_setting(garden, today)
    key = find(crop)
    scene = build_scene(setting, open_state(setting.folder, day=today).garden)
    plots = standing_of(scene, key)
    sheet = plots[-1].sheet if plots else scene.sheet_of(key)
    word = sheet.word(setting.site.words)
    way = usual_start(sheet)
    if way is None or sheet.next.every_days is None:
        raise ParameterError(
            f"{word.capitalize()} is sown or planted once, and not again for the next picking.",
            "Ask instead with: spadework weigh sow",
        )
    answer = weigh_sow_next(scene, sheet, plots, crop=word, way=way)
    keep_shown(setting, from_sowing_next(answer, Subject(crop=key)))
    return answer
