"""What is wrong only because something else is, and so is not said."""

import re

from solver.gear.words import Fault, quoted
from solver.reading.problems import Path

_LEANS_ON: dict[tuple[str, str], tuple[str, ...]] = {
    ("engine", "channel"): ("channels", "can_be_off"),
    ("track", "channel"): ("channels", "can_be_off"),
    ("engine", "key"): ("offers",),
    ("strip", "key"): ("offers",),
    ("engine", "stored"): ("offers",),
    ("strip", "stored"): ("offers",),
    ("midi", "way"): ("plug",),
    ("midi", "repeats"): ("way",),
    ("midi", "copies"): ("way",),
    ("out", "alone"): ("left", "right", "stereo", "mono"),
    ("in", "alone"): ("left", "right", "stereo", "mono"),
}
"""Keys of a box's tables whose value is judged by that of other keys beside them."""

_NAMED_BY = {
    "out": "an outlet of this box",
    "in": "an inlet of this box",
    "engine": "an engine of this box",
    "track": "a track of this box",
    "midi": "an in port of this box",
    "part": "a part of this jam",
}
"""How messages speak of the things that tables name."""


STAND_IN = "\0stand-in "
"""How names begin that stand in for wrong ones; no message shows one."""


class FollowOns:
    """Remembers what was wrong and has been replaced or left out."""

    def __init__(self) -> None:
        self._lost: set[Path] = set()
        self._meant: set[Path] = set()
        self._inside: dict[Path, set[str]] = {}

    def lose(self, path: Path) -> None:
        """Remember that what stands at a path has been replaced, or is there under another name."""
        self._lost.add(path)
        if path and isinstance(path[-1], str):
            self._inside.setdefault(path[:-1], set()).add(path[-1])

    def mean(self, path: Path, absent: bool) -> None:
        """Remember the key that was meant by a misspelt one, and whether the table has it nowhere."""
        if absent:
            self.lose(path)
        self._meant.add(path)

    def single(self, path: Path, allowed: str) -> bool:
        """Whether a problem at a path only follows from another: at or above it, or of a key that it asks for."""
        if quoted(STAND_IN)[:-1] in allowed:
            return True
        above = any(path[:end] in self._lost for end in range(1, len(path) + 1))
        words = self._inside.get(path, set())
        return above or any(re.search(rf"\b{re.escape(word)}\b", allowed) for word in words)

    def cross(self, fault: Fault) -> bool:
        """Whether a fault of the whole only follows from another: names that are lost are not missed."""
        if self.single(fault.path, fault.allowed):
            return True
        table, key = fault.path[:2], fault.path[2:3]
        leans = _LEANS_ON.get((str(table[0]), str(key[0])), ()) if key else ()
        if any((*table, other) in self._lost for other in leans):
            return True
        kinds = [kind for kind, said in _NAMED_BY.items() if said in fault.allowed]
        return any(_names(path, kind) for path in self._lost | self._meant for kind in kinds)


def _names(path: Path, kind: str) -> bool:
    """Whether losing a path loses the name of a thing of that kind."""
    if kind == "part":  # a part is named by its table's header
        return path == ("part",)
    naming = ("name", "way", "left", "right", "stereo", "mono")
    return path[:1] == (kind,) and (len(path) <= 2 or path[2] in naming)
