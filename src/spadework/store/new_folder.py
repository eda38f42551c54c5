"""A garden folder made whole: with its book filled, or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from spadework.errors import GardenError
from spadework.garden.site import Site
from spadework.store.garden_folder import GARDEN_FILE, GardenFolder, create, open_garden


def create_filled(
    directory: str | os.PathLike[str], site: Site, fill: Callable[[GardenFolder], None]
) -> GardenFolder:
    """Make a garden, let its book be filled, and only then put it in its place.

    Parameters
    ----------
    directory : path
        Made if it does not exist. May hold other files, but no garden and no book.
    site : Site
    fill : function
        Writes into the garden; where it raises, nothing is left behind.

    Raises
    ------
    GardenError
        As for `create`.
    """
    path = Path(directory)
    if (path / GARDEN_FILE).exists():
        raise GardenError(
            f"There is a garden in {path} already.", "Choose another folder; nothing was changed."
        )
    near = path.absolute()
    while not near.exists():
        near = near.parent
    if not near.is_dir():
        raise GardenError(f"{near} is a file.", "Name a folder.")
    try:
        # Beside its place, so that it can be moved there in one step.
        stage = Path(tempfile.mkdtemp(prefix=".spadework-new-", dir=near))
    except OSError as error:
        raise GardenError(
            f"{path} cannot be made: {error.strerror}.", "Choose a folder you may write."
        ) from None
    try:
        made = create(stage / "garden", site).path
        fill(open_garden(made))
        _put_in_place(made, path)
    finally:
        shutil.rmtree(stage, ignore_errors=True)
    return open_garden(path)


def _put_in_place(made: Path, path: Path) -> None:
    try:
        if not path.exists():
            path.parent.mkdir(parents=True, exist_ok=True)
            os.rename(made, path)
            return
        names = sorted((each.name for each in made.iterdir()), key=lambda name: name == GARDEN_FILE)
        there = [
            name for name in names if (path / name).exists() and name not in ("weather", "overrides.toml")
        ]
        if there:
            raise GardenError(
                f"{path / there[0]} is there already, of another garden.", "Choose another folder."
            )
        # The file that makes it a garden comes last.
        for name in names:
            if not (path / name).exists():
                os.rename(made / name, path / name)
    except OSError as error:
        raise GardenError(
            f"{path} cannot be made: {error.strerror}.", "Choose a folder you may write."
        ) from None
