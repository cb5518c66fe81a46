"""One step for the hands, as words in which the names that users gave stay apart from the rest."""

from collections.abc import Iterable
from typing import NamedTuple


class Name(str):
    """A name or label as its owner writes it, in whatever script: it is set apart from the words around it."""

    __slots__ = ()


class Label(Name):
    """What is printed on a box or shown on its screen: a jack, an engine, a strip, a track."""

    __slots__ = ()


class Place(Name):
    """A box and what is on it: ``box/NAME``."""

    __slots__ = ()


class New(Name):
    """What a setting is to be."""

    __slots__ = ()


Words = tuple[str, ...]
"""A sentence in pieces, some of them names."""

ARROW = " → "
"""Stands between where something is and where it goes, and between an old value and its new one."""


class Step(NamedTuple):
    """One thing to do, and what helps with it; ``cells`` say both as a row of a table, where its group has headers."""

    does: Words
    note: Words = ()
    cells: tuple[str, ...] = ()


class Group(NamedTuple):
    """Steps that are done together."""

    title: Words
    steps: tuple[Step, ...]
    headers: tuple[str, ...] = ()


def names(given: Iterable[str]) -> Words:
    """Names as a list in a sentence: ``a``, ``a and b``, ``a, b and c``."""
    return _listed(map(Name, given))


def places(spots: Iterable[str]) -> Words:
    """Several places as a list in a sentence."""
    return _listed(map(Place, spots))


def plain(words: Words) -> str:
    """Words as one text."""
    return "".join(words)


def _listed(given: Iterable[str]) -> Words:
    pieces = list(given)
    found: list[str] = []
    for number, piece in enumerate(pieces):
        if number:
            found.append(" and " if number == len(pieces) - 1 else ", ")
        found.append(piece)
    return tuple(found)
