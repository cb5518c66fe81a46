"""The line of every key in a JSON text."""

import json
import re
from collections.abc import Iterator

from solver.reading.lines import DEEPEST

_Path = tuple[str | int, ...]
_TOKEN = re.compile(r'"(?:[^"\\\n]|\\.)*+"|[{}\[\]:,\n]|[^\s{}\[\]:,"]++')


class _Frame:
    """A list or object that is open: the step to what stands in it now, and whether a key comes next."""

    def __init__(self, opened_by: str) -> None:
        self.step: str | int = 0 if opened_by == "[" else ""
        self.key_next = opened_by == "{"
        self.keys: set[str] = set()

    def comma(self) -> None:
        """Go on to the next item or key."""
        if isinstance(self.step, int):
            self.step += 1
        else:
            self.key_next = True


def json_lines(text: str) -> dict[_Path, int]:
    """The line of every key and list item of a JSON text, a key that stands there twice at its first place.

    Keys are paths from the top of the file; a number in a path counts list items from 0.
    """
    found: dict[_Path, int] = {(): 1}
    for frames, line in _places(text):
        if len(frames) <= DEEPEST:
            found.setdefault(_path(frames), line)
    return found


def json_doubles(text: str) -> Iterator[tuple[str, _Path, int]]:
    """Yield every key of a JSON text that stands there already, its path if it is not too long, and its line.

    What is yielded is never the same twice.
    """
    told: set[tuple[str, _Path, int]] = set()
    for frames, line in _places(text):
        here = frames[-1]
        if not isinstance(here.step, str):
            continue
        if here.step in here.keys:
            double = here.step, _path(frames) if len(frames) <= DEEPEST else (), line
            if double not in told:
                yield double
            told.add(double)
        here.keys.add(here.step)


def _path(frames: list[_Frame]) -> _Path:
    return tuple(frame.step for frame in frames)


def _places(text: str) -> Iterator[tuple[list[_Frame], int]]:
    """Yield all that is open at each key and list item, and the line; the list changes from one to the next."""
    line = 1
    frames: list[_Frame] = []
    for match in _TOKEN.finditer(text):
        token = match[0]
        if token == "\n":
            line += 1
        elif token in "]}":
            del frames[-1:]
        elif token == ",":
            for frame in frames[-1:]:
                frame.comma()
        elif token != ":":
            if _named(frames, token):
                yield frames, line
            if token in "[{":
                frames.append(_Frame(token))


def _named(frames: list[_Frame], token: str) -> bool:
    """Whether a token begins a list item or is a key; a key becomes the step of its frame."""
    if not frames:
        return False
    top = frames[-1]
    if top.key_next:
        top.step, top.key_next = str(json.loads(token)), False
        return True
    return isinstance(top.step, int)
