"""Text measured in the cells of a terminal: wide letters take two, accents that join take none."""

import re
import unicodedata

JOINERS = ("\u200c", "\u200d")
WIDE_EMOJI = "\ufe0f"
"""After a sign it asks for the picture form, which is two cells wide (Unicode Technical Standard 51)."""

NO_BREAK = "\xa0"
"""A space at which no line is broken; it is shown as any other."""

HIDDEN = "\ufffd"
"""Stands for what a terminal would not show as a letter, or would obey."""


MARKS = ("Mn", "Me", "Mc")
"""What joins the letter before it."""

BASE = "\u25cc"
"""Stands for the letter that a mark at the start of a word joins (The Unicode Standard, 2.11: a dotted circle)."""


def clean(text: str) -> str:
    """One line that a terminal can show: every kind of space is a space, and nothing steers the terminal."""
    return "".join(map(_shown, text)).replace(NO_BREAK, " ")


def _shown(letter: str) -> str:
    if letter.isspace():
        return letter if letter == NO_BREAK else " "
    hidden = unicodedata.category(letter) in ("Cc", "Cf", "Co", "Cs") and letter not in JOINERS
    return HIDDEN if hidden else letter


def clusters(text: str) -> list[str]:
    """The text in pieces that belong together: a letter with its accents, a picture with its parts."""
    found: list[str] = []
    for letter in text:
        joins = letter in JOINERS or unicodedata.category(letter) in MARKS
        if found and (joins or found[-1].endswith(JOINERS[1])):
            found[-1] += letter
        else:
            found.append(letter)
    return found


def width_of(text: str) -> int:
    """How many cells the text takes, never less than a terminal gives it."""
    return sum(map(_cluster_width, clusters(text)))


def _cluster_width(cluster: str) -> int:
    width = sum(map(_letter_width, cluster))
    return max(width, 2) if WIDE_EMOJI in cluster else width


def _letter_width(letter: str) -> int:
    if letter in JOINERS or unicodedata.category(letter) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in ("W", "F") else 1


def wrap(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """Break a text into lines of at most ``width`` cells, at spaces where it can, within a word where it must.

    Args:
        text: what to say; line breaks in it count as spaces.
        width: cells a line, with its lead.
        first: lead of the first line, such as "- ".
        rest: lead of every other line.

    Returns:
        At least one line, none with a space at its end.
    """
    lines: list[str] = []
    line, bare = first, True
    for gap, word in re.findall(r"( *)([^ ]+)", "".join(map(_shown, text))):
        left = word if unicodedata.category(word[0]) not in MARKS else BASE + word
        if not bare and width_of(line + gap + left) > width:
            lines.append(line)
            line, bare = rest, True
        while bare and left and width_of(line + left) > width:
            head, left = _split(left, width - width_of(line))
            lines.append(line + head)
            line = rest
        line += left if bare else gap + left
        bare = not left
    if not bare or not lines:
        lines.append(line)
    return [line.replace(NO_BREAK, " ").rstrip() for line in lines]


def _split(word: str, room: int) -> tuple[str, str]:
    """Cut a word so that its head fits into ``room`` cells; at least one piece of it is cut off."""
    pieces = clusters(word)
    taken, used = 1, _cluster_width(pieces[0])
    while taken < len(pieces) and used + _cluster_width(pieces[taken]) <= room:
        used += _cluster_width(pieces[taken])
        taken += 1
    return "".join(pieces[:taken]), "".join(pieces[taken:])
