"""Titles as old screens show them: capital letters, digits, spaces and hyphens, as short as a screen asks for."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import NamedTuple

UNTITLED = "JAM"
"""What a title comes to of which no screen can show a letter."""

SMALL = frozenset({"A", "AN", "AND", "AT", "BY", "FOR", "FROM", "IN", "OF", "ON", "OR", "THE", "TO", "WITH"})
"""Words that tell the least of a title; they go first."""

START = 3
"""Letters of each word that are kept until vowels have gone."""

_VOWELS = "AEIOU"
_SPELLED = {"&": " AND ", "þ": "TH", "ð": "D", "ŋ": "NG"} | dict.fromkeys("'`\u2018\u2019\u02bc", "")
_LATIN = re.compile(r"LATIN (?:SMALL|CAPITAL) (?:LETTER|LIGATURE) (?:DOTLESS )?([A-Z]{1,2})(?: WITH .+)?")


class _Piece(NamedTuple):
    """One word, and what stands between it and the word before."""

    gap: str
    word: str


_Pieces = tuple[_Piece, ...]


def fitting(title: str, length: int) -> str:
    """The longest form of a title that a screen shows in so many letters, at least 1.

    Small words go first; then words lose their ends, the longest first, down to their first three letters; then vowels
    go, then gaps. So a shorter form is made of letters of a longer one, in their order, and begins alike. A number
    keeps its digits as long as it can.
    """
    return next(form for form in _forms(title) if len(form) <= length)


@cache
def _forms(title: str) -> tuple[str, ...]:
    """The title in capital letters, then each shorter form, down to one letter."""
    return tuple(map(_joined, _shorter(_pieces(title))))


def _shorter(pieces: _Pieces) -> Iterator[_Pieces]:
    yield pieces
    for step in _STEPS:
        while (shorter := step(pieces)) is not None:
            pieces = shorter
            yield pieces


def _joined(pieces: _Pieces) -> str:
    return "".join(gap + word for gap, word in pieces).lstrip(" -")


def _pieces(title: str) -> _Pieces:
    text = unicodedata.normalize("NFKD", title.casefold())
    found = re.findall(r"([ -]*)([A-Z0-9]+)", "".join(map(_spelled, text)))
    pieces = tuple(_Piece(gap if gap == "-" else " ", word) for gap, word in found)
    lost = not any(letter.isalpha() for _, word in pieces for letter in word)
    return (_Piece("", UNTITLED), *pieces) if lost and (not pieces or any(map(str.isalpha, title))) else pieces


def _spelled(letter: str) -> str:
    """A small letter in those of an old screen; nothing for an accent, a space for a sign."""
    if letter in _SPELLED:
        return _SPELLED[letter]
    if letter.isdecimal():
        return str(unicodedata.decimal(letter))
    if not letter.isalpha():
        kind = unicodedata.category(letter)
        return "-" if kind == "Pd" else "" if kind.startswith("M") else " "
    latin = _LATIN.fullmatch(unicodedata.name(letter, ""))
    return latin[1] if latin is not None else ""


def _without_small(pieces: _Pieces) -> _Pieces | None:
    """Without its first small word, where there are others."""
    small = [place for place, piece in enumerate(pieces) if piece.word in SMALL]
    if not small or len(small) == len(pieces):
        return None
    return pieces[: small[0]] + pieces[small[0] + 1 :]


def _without_end(pieces: _Pieces, least: int) -> _Pieces | None:
    """Without the last letter of its longest word, if that has more than so many; of equals, the last one."""
    lengths = {place: len(piece.word) for place, piece in enumerate(pieces) if not piece.word.isdecimal()}
    longest = max(lengths, key=lambda place: (lengths[place], place), default=None)
    if longest is None or lengths[longest] <= least:
        return None
    return _with_word(pieces, longest, pieces[longest].word[:-1])


def _without_vowel(pieces: _Pieces) -> _Pieces | None:
    """Without its last vowel that begins no word."""
    for place in reversed(range(len(pieces))):
        word = pieces[place].word
        at = max(word.rfind(vowel, 1) for vowel in _VOWELS)
        if at > 0:
            return _with_word(pieces, place, word[:at] + word[at + 1 :])
    return None


def _without_gap(pieces: _Pieces) -> _Pieces | None:
    """Without its last gap."""
    place = max((place for place, piece in enumerate(pieces) if place and piece.gap), default=None)
    if place is None:
        return None
    return (*pieces[:place], _Piece("", pieces[place].word), *pieces[place + 1 :])


def _without_last(pieces: _Pieces) -> _Pieces | None:
    """Without its last letter, where it has more than one."""
    if len(_joined(pieces)) == 1:
        return None
    left = pieces[-1].word[:-1]
    return _with_word(pieces, len(pieces) - 1, left) if left else pieces[:-1]


def _with_word(pieces: _Pieces, place: int, word: str) -> _Pieces:
    return (*pieces[:place], pieces[place]._replace(word=word), *pieces[place + 1 :])


_STEPS: tuple[Callable[[_Pieces], _Pieces | None], ...] = (
    _without_small,
    partial(_without_end, least=START),
    _without_vowel,
    _without_gap,
    partial(_without_end, least=1),
    _without_last,
)
