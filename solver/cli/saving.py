"""Saving a plan file: whole or not at all."""

import json
import os
from contextlib import suppress
from pathlib import Path


class SaveError(Exception):
    """A plan cannot be saved where it was asked for; the message says why."""


def target_of(path: Path, source: Path) -> Path:
    """Where a plan is to be saved, told before the long work starts.

    Args:
        path: what the user named; a link is followed.
        source: the jam's file, which must stay as it is.

    Raises:
        SaveError: it is a TOML file, the jam's own file, a folder, a device or a pipe, or a file that is no saved plan,
            or its folder is not there or cannot be written.
    """
    try:
        target = path.resolve()
        if ".toml" in (path.suffix.lower(), target.suffix.lower()) or target == source.resolve():
            raise SaveError(
                f"{path}: not saved there, so that no jam or box file is lost. Name a file such as plan.json."
            )
        if target.exists() and not target.is_file() and not target.is_dir():
            raise SaveError(f"{path}: is a device or a pipe, not a file. Name a file such as plan.json.")
        if target.is_dir():
            raise SaveError(f"{path}: is a folder. Name a file in it, such as {path / 'plan.json'}.")
        if target.is_file() and target.stat().st_size and not _is_plan(target):
            raise SaveError(f"{path}: holds something else than a plan, which would be lost. Name another file.")
        if not target.parent.is_dir():
            raise SaveError(f"{path}: the folder {path.parent} is not there. Make it first, or name another.")
        if not os.access(target.parent, os.W_OK | os.X_OK):
            raise SaveError(f"{path}: the folder {path.parent} cannot be written. Name another.")
    except (OSError, RuntimeError, ValueError) as error:
        raise SaveError(f"{path}: cannot be saved there ({_reason(error)}). Name another file.") from error
    return target


def _is_plan(target: Path) -> bool:
    """Whether a file is a JSON document with the keys that every plan has."""
    try:
        data = json.loads(target.read_bytes())
    except (ValueError, RecursionError):
        return False
    return isinstance(data, dict) and {"title", "cables", "parts"} <= data.keys()


def save(target: Path, text: str) -> None:
    """Write a file aside and put it in place, so that an old file stays whole until the new one is.

    Raises:
        SaveError: the file cannot be written; what stood there is untouched.
    """
    aside = target.with_name(f".hardpan-{os.getpid()}.part")
    try:
        with aside.open("xb") as file:
            file.write(text.encode("utf-8", errors="backslashreplace"))
            file.flush()
            os.fsync(file.fileno())
        aside.replace(target)
    except OSError as error:
        raise SaveError(f"{target}: not saved ({_reason(error)}).") from error
    finally:
        with suppress(OSError):
            aside.unlink()


def _reason(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)
