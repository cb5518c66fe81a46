"""Saving a file: whole or not at all."""

import os
import shutil
from contextlib import suppress
from pathlib import Path

from solver.codes import Code
from solver.sheet.formats import FORMATS

BOM = "\ufeff".encode()


class SaveError(Exception):
    """A file cannot be saved where it was asked for; the message says why."""

    def __init__(self, code: Code, said: str) -> None:
        super().__init__(said)
        self.code = code

    def __str__(self) -> str:
        return f"{self.args[0]} [{self.code}]"


def target_of(path: Path, source: Path | None, ending: str = ".json") -> Path:
    """Where a file made from a plan is to be saved, told before the long work starts.

    Args:
        path: what the user named; a link is followed.
        source: the jam's file, if it is made from one, which must stay as it is.
        ending: the kind of file.

    Raises:
        SaveError: it is a TOML file, the jam's own file, a folder, a device or a pipe, or a file of another kind, or
            its folder is not there or cannot be written.
    """
    kind = FORMATS[ending]
    try:
        target = path.resolve()
        is_source = source is not None and target == source.resolve()
        if is_source or ".toml" in (path.suffix.lower(), target.suffix.lower()):
            raise SaveError(
                Code.WOULD_BE_LOST,
                f"{path}: not saved there, so that no jam or box file is lost. Name a file such as {kind.example}.",
            )
        if target.exists() and not target.is_file() and not target.is_dir():
            raise SaveError(
                Code.NO_PLACE, f"{path}: is a device or a pipe, not a file. Name a file such as {kind.example}."
            )
        if target.is_dir():
            raise SaveError(Code.NO_PLACE, f"{path}: is a folder. Name a file in it, such as {path / kind.example}.")
        if target.is_file() and target.stat().st_size and not kind.ours(target.read_bytes()):
            what = kind.example.partition(".")[0]
            raise SaveError(
                Code.WOULD_BE_LOST,
                f"{path}: holds something else than a {what}, which would be lost. Name another file.",
            )
        _refuse_folder(path, target)
    except (OSError, RuntimeError, ValueError) as error:
        raise SaveError(
            Code.NO_PLACE, f"{path}: cannot be saved there ({_reason(error)}). Name another file."
        ) from error
    return target


def new_target_of(path: Path, force: bool) -> Path:
    """Where a new jam or box file is to be written; ``.toml`` is added to a name without an ending.

    Args:
        path: what the user named; a link is followed.
        force: whether a file that is there may be replaced.

    Raises:
        SaveError: it is there already, has another ending, is no plain file, or its folder is not there or cannot be
            written.
    """
    try:
        path = path if path.suffix else path.with_name(f"{path.name}.toml")
        target = path.resolve()
        if path.suffix.lower() != ".toml":
            raise SaveError(
                Code.WRONG_ENDING,
                f"{path}: a jam or box file ends in .toml. Name a file such as {path.with_suffix('.toml')}.",
            )
        if target.exists() and not target.is_file():
            raise SaveError(Code.NO_PLACE, f"{path}: is there already and is no file. Name another.")
        if target.exists() and not force:
            raise SaveError(
                Code.FILE_THERE,
                f"{path}: is there already, and stays as it is. Name another, or replace it with --force.",
            )
        _refuse_folder(path, target)
    except (OSError, RuntimeError, ValueError) as error:
        raise SaveError(
            Code.NO_PLACE, f"{path}: cannot be saved there ({_reason(error)}). Name another file."
        ) from error
    return path


def _refuse_folder(path: Path, target: Path) -> None:
    """Refuse a file, as the user named it, in a folder that is not there or cannot be written."""
    if not target.parent.is_dir():
        raise SaveError(
            Code.NO_PLACE, f"{path}: the folder {path.parent} is not there. Make it first, or name another."
        )
    if not os.access(target.parent, os.W_OK | os.X_OK):
        raise SaveError(Code.NO_PLACE, f"{path}: the folder {path.parent} cannot be written. Name another.")


def save(target: Path, what: str | bytes) -> None:
    """Write a file aside and put it in place, so that an old file stays whole until the new one is.

    Raises:
        SaveError: the file cannot be written; what stood there is untouched.
    """
    aside = target.with_name(f".hardpan-{os.getpid()}.part")
    try:
        with aside.open("xb") as file:
            file.write(what if isinstance(what, bytes) else what.encode("utf-8", errors="backslashreplace"))
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, aside)
        aside.replace(target)
    except OSError as error:
        raise SaveError(Code.NO_PLACE, f"{target}: not saved ({_reason(error)}).") from error
    finally:
        with suppress(OSError):
            aside.unlink()


def rewritable(file: Path) -> Path:
    """A file that is to be changed, told before the long work starts; a link is followed.

    Raises:
        SaveError: it is not there, or it or its folder, where the new text is put together, may not be written.
    """
    try:
        target = file.resolve()
        mode = target.stat().st_mode
    except (OSError, RuntimeError) as error:
        raise SaveError(Code.NO_PLACE, f"{file}: not changed ({_reason(error)}).") from error
    if not (mode & 0o222 and os.access(target, os.W_OK)):
        raise SaveError(Code.NO_PLACE, f"{file}: may not be written. Allow that first, or leave out --write.")
    if not os.access(target.parent, os.W_OK | os.X_OK):
        raise SaveError(Code.NO_PLACE, f"{file}: its folder cannot be written. Allow that first, or leave out --write.")
    return target


def rewrite(file: Path, old: str, new: str) -> None:
    """Put a new text into a file that was read before; a byte order mark stays.

    Raises:
        SaveError: the file is another one by now, or cannot be written; what stands there is untouched.
    """
    target = rewritable(file)
    try:
        raw = target.read_bytes()
    except OSError as error:
        raise SaveError(Code.NO_PLACE, f"{file}: not changed ({_reason(error)}).") from error
    mark = BOM if raw.startswith(BOM) else b""
    if raw.removeprefix(BOM) != old.encode():
        raise SaveError(Code.NO_PLACE, f"{file}: not changed, for it is not what it was when it was read. Try again.")
    save(target, mark.decode() + new)


def _reason(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)
