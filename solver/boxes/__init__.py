"""The box files that come with hardpan, and where others are at hand; it loads nothing else, as completion needs it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

Where = Literal["beside", "yours", "shipped"]

SHIPPED = Path(__file__).parent
"""Where the box files are that come with hardpan."""

YOURS = "HARDPAN_BOXES"
"""The environment variable that names the user's own folder of box files."""


def your_folder() -> Path:
    """The user's own folder of box files, whether or not it is there yet."""
    named = os.environ.get(YOURS)
    if named:
        return Path(named).expanduser()
    home = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(home) / "hardpan" / "boxes"


def files_at_hand(*folders: Path) -> Iterator[tuple[Where, Path]]:
    """Every file that may be a box file at hand for a jam in one of some folders, the nearest first."""
    beside = (place for folder in folders for place in (folder, folder / "boxes"))
    places: tuple[tuple[Where, Path], ...] = (
        *(("beside", place) for place in beside),
        ("yours", your_folder()),
        ("shipped", SHIPPED),
    )
    seen: set[Path] = set()
    for where, place in places:
        if place.is_dir() and place.resolve() not in seen:
            seen.add(place.resolve())
            for file in sorted(place.glob("*.toml")):
                yield where, file
