"""The files in a folder and the folders below it; in a file that loads nothing else, for completion needs it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

Unentered = Callable[[Path], object]


def files_in(folder: Path, suffix: str, unentered: Unentered = lambda path: None) -> Iterator[Path]:
    """Every file with an ending, in order, those of a folder before those of the folders in it.

    Links to folders are not followed, and what is hidden, with a dot before its name, is left out.

    Args:
        folder: where to look.
        suffix: the ending, such as ".toml".
        unentered: told of each folder that may not be read.
    """

    def tell(error: OSError) -> None:
        unentered(Path(error.filename))

    for here, folders, files in os.walk(folder, onerror=tell):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            if not name.startswith(".") and name.lower().endswith(suffix):
                yield Path(here) / name
