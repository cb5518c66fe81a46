"""Files as text: what cannot be opened, is too large or is no text is said in plain words."""

import stat
from pathlib import Path

from solver.codes import Code
from solver.gear.nearest import nearest
from solver.gear.words import quoted
from solver.reading.problems import BadInput, Problem, Unopened
from solver.reading.writing import shortened

LARGEST = 1_000_000
"""Bytes that a file may have that is written by hand."""
LARGEST_JSON = 16_000_000
"""Bytes that a saved plan may have, which carries the boxes of its jam."""


def text_of(file: str, what: str = "a file", most: int = LARGEST) -> str:
    """The text of a file in UTF-8, without a byte order mark.

    Args:
        file: the path, as it is to stand in messages.
        what: the kind of file that belongs there, such as "a jam file".
        most: bytes that it may have.

    Raises:
        BadInput: it cannot be opened (then ``Unopened``), is larger, has a NUL byte, or is not UTF-8.
    """
    raw = _bytes_of(file, what, most)
    if len(raw) > most:
        raise _too_large(file, f"more than {most}", most)
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        found = f"byte 0x{raw[error.start]:02x} at offset {error.start}, which is no UTF-8"
        raise BadInput([Problem(Code.NOT_UTF8, file, line, "", found, "text in UTF-8")]) from None
    if b"\0" in raw:
        at = raw.index(b"\0")
        found = f"a NUL byte at offset {at}"
        raise BadInput([Problem(Code.NOT_UTF8, file, raw.count(b"\n", 0, at) + 1, "", found, "text in UTF-8")])
    return text.removeprefix("\ufeff")


def _bytes_of(file: str, what: str, most: int) -> bytes:
    try:
        path = Path(file)
        state = path.stat()
        if stat.S_ISDIR(state.st_mode):
            raise _unopened(file, "a directory", what)
        if not stat.S_ISREG(state.st_mode):
            raise _unopened(file, "a device or pipe", what)
        if state.st_size > most:
            raise _too_large(file, str(state.st_size), most)
        with path.open("rb") as stream:
            return stream.read(most + 1)
    except FileNotFoundError:
        raise _unopened(file, "no such file", what, _neighbour(file), Code.NO_FILE) from None
    except PermissionError:
        raise _unopened(file, "a file that may not be read", what) from None
    except (OSError, ValueError) as error:
        reason = error.strerror.lower() if isinstance(error, OSError) and error.strerror else "not a path"
        raise _unopened(file, f"a file that cannot be opened ({reason})", what) from None


def _unopened(file: str, found: str, what: str, suggestion: str | None = None, code: Code = Code.UNOPENED) -> Unopened:
    shown = file if file.isprintable() and file else shortened(quoted(file))
    return Unopened([Problem(code, shown, None, "", found, what, suggestion)])


def _too_large(file: str, size: str, most: int) -> BadInput:
    allowed = f"at most {most} bytes ({most // 1_000_000} MB)"
    return BadInput([Problem(Code.TOO_LARGE, file, None, "", f"{size} bytes", allowed)])


def _neighbour(file: str) -> str | None:
    """A file beside the missing one with nearly its name."""
    path = Path(file)
    try:
        names = sorted(entry.name for entry in path.parent.iterdir() if entry.suffix == path.suffix)
    except (OSError, ValueError):
        return None
    near = nearest(path.name, names)
    return str(path.with_name(near)) if near is not None else None
