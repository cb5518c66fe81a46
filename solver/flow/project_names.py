"""Project names for the jams of a set or a folder: which project on one box goes with which on the others."""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from string import ascii_uppercase, digits

from solver.flow.shortening import fitting
from solver.jam.jam import Jam
from solver.plans import Recalled

UNTOLD = 16
"""Letters that a name takes where no box file tells how many the screen shows; a guess."""

_GAPPED = 4
"""Letters from which a name has a space before its number."""

_SIGNS = digits + ascii_uppercase
_MOST = len(_SIGNS) ** 2


def recalled(
    jams: Mapping[str, Jam], given: Mapping[str, Mapping[str, str]] | None = None
) -> dict[str, dict[str, Recalled]]:
    """Where each jam of a set is saved on each box, and as what; see ``project_names``."""
    names = project_names(jams, given)
    return {
        key: {box: Recalled(slot=jam.recall.get(box), name=name) for box, name in names[key].items()}
        for key, jam in jams.items()
    }


def project_names(
    jams: Mapping[str, Jam], given: Mapping[str, Mapping[str, str]] | None = None
) -> dict[str, dict[str, str]]:
    """A project name for each jam on each of its boxes that shows names or has a slot for it.

    The names of one jam are its title, as short as each screen needs it. Where another jam would have the same name on
    a box, the later one has the same number behind its names on all of its boxes. So no two jams have one name on one
    box; only on screens of one letter, 36 are all that can be told apart.

    Args:
        jams: By any keys, in their order; boxes of one name are one box.
        given: By the same keys, names by box that are in use already and stay.

    Returns:
        By the same keys, by box: 1 to ``name_length`` capital letters, digits, spaces and hyphens.
    """
    kept = given or {}
    taken = {(box, name.upper()) for names in kept.values() for box, name in names.items()}
    counts: dict[str, int] = {}
    found: dict[str, dict[str, str]] = {}
    for key in sorted(jams, key=lambda key: key not in kept):
        jam, own = jams[key], kept.get(key, {})
        screens = _screens(jam)
        asked = {box: length for box, length in screens.items() if box not in own}
        counts[jam.title], names = _free(jam.title, asked, taken, counts.get(jam.title, 1))
        taken.update(names.items())
        found[key] = {box: own.get(box) or names[box] for box in screens}
    return {key: found[key] for key in jams}


def _free(
    title: str, screens: Mapping[str, int], taken: AbstractSet[tuple[str, str]], first: int
) -> tuple[int, dict[str, str]]:
    """The first number from which on no name is taken, and the names with it; 1 is told by no name.

    Screens of one letter count as long as they can tell so many jams apart.
    """
    names: dict[str, str] = {}
    for least in (1, 2):
        for number in range(first, _MOST):
            names = {box: _numbered(title, length, number) for box, length in screens.items()}
            if taken.isdisjoint((box, name) for box, name in names.items() if screens[box] >= least):
                return number, names
    return _MOST, names


def _screens(jam: Jam) -> dict[str, int]:
    """How many letters a project's name has on each box that shows names, or where the jam has a slot."""
    return {
        name: box.name_length or UNTOLD
        for name, box in jam.boxes.items()
        if box.name_length is not None or name in jam.recall
    }


def _numbered(title: str, length: int, number: int) -> str:
    """A title with a number behind it, in so many letters."""
    if number == 1:
        return fitting(title, length)
    mark = str(number)
    if len(mark) > length:
        mark = (_SIGNS[number // len(_SIGNS)] + _SIGNS[number % len(_SIGNS)]).lstrip("0")[-length:]
    room = length - len(mark)
    if room >= _GAPPED:
        return f"{fitting(title, room - 1)} {mark}"
    return (fitting(title, room) if room else "") + mark
