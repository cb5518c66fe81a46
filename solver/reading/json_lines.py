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
    for path, line in _places(text):
        found.setdefault(path, line)
    return found


def json_doubles(text: str) -> Iterator[tuple[_Path, int]]:
    """Yield every key of a JSON text that stands there already, with its line."""
    found: set[_Path] = set()
    for path, line in _places(text):
        if path in found and isinstance(path[-1], str):
            yield path, line
        found.add(path)


def _places(text: str) -> Iterator[tuple[_Path, int]]:
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
            if _named(frames, token) and len(frames) <= DEEPEST:
                yield tuple(frame.step for frame in frames), line
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
