"""How wide letters are in a drawing, and texts made to fit; no font is at hand, so every guess errs wide."""

import unicodedata
from collections.abc import Sequence

from solver.sheet.cells import HIDDEN, JOINERS, WIDE_EMOJI, clean, clusters

FAMILY = "sans-serif"
ELLIPSIS = "…"
BOLD = 1.2
"""How much wider bold letters are: at most 1.2 for letters and digits of the fonts named below."""

TAIL = 0.6
"""How much of the end of a shortened text is kept, in parts of what is kept of its beginning."""

_WIDTHS = {
    0.3: "ijlI'",
    0.35: ",./:;\\| ",
    0.4: "ft()-[]",
    0.45: "r!",
    0.5: 'J"*`',
    0.55: "csz",
    0.6: "kvxyL?_",
    0.65: "0123456789abdeghnopquFT${}",
    0.7: "ABEKPSVXYZ",
    0.75: "CNRU",
    0.8: "DGHOQ&",
    0.85: "w#+<=>^~",
    0.9: "M",
    1.0: "mW%" + ELLIPSIS,
    1.05: "@",
}
_WIDTH_OF = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
"""Widths in parts of the letter size: the wider of DejaVu Sans and Liberation Sans, rounded up to a twentieth.

Measured in the horizontal metrics (hmtx) of the two font files; other common sans-serif fonts are narrower than these.
"""

_OTHER = 1.25
"""Any letter beyond ASCII that is one cell wide: the widest Arabic and Cyrillic letters of DejaVu Sans have 1.22."""
_WIDE = 1.4
"""A letter or picture that takes two cells of a terminal."""


def width_of(text: str, size: float, bold: bool = False) -> float:
    """How wide a text is at most, in units of the drawing.

    Args:
        text: One line.
        size: The size of its letters, in units of the drawing.
        bold: Whether the letters are bold.
    """
    width = sum(map(_cluster_width, clusters(text))) * size * (BOLD if bold else 1)
    return round(width, 2)  # versions of Python add up in different ways; the bytes of a drawing are to be the same


def _cluster_width(cluster: str) -> float:
    width = sum(map(_letter_width, cluster))
    return max(width, _WIDE) if WIDE_EMOJI in cluster else width


def _letter_width(letter: str) -> float:
    if letter in JOINERS or unicodedata.category(letter) in ("Mn", "Me", "Cf"):
        return 0.0
    if letter in _WIDTH_OF:
        return _WIDTH_OF[letter]
    return _WIDE if unicodedata.east_asian_width(letter) in ("W", "F") else _OTHER


def shown(text: str) -> str:
    """A text as a drawing can hold it: on one line, nothing that steers a reader, nothing that XML refuses."""
    return "".join(HIDDEN if letter in "\ufffe\uffff" else letter for letter in clean(text))


def shortened(text: str, room: float, size: float, bold: bool = False) -> str:
    """The text, or as much of its beginning and its end as fits with three dots between them.

    The end is kept because it often tells two labels apart: OUTPUT LEFT, OUTPUT RIGHT.

    Args:
        text: One line.
        room: How wide it may be, in units of the drawing.
        size: The size of its letters.
        bold: Whether the letters are bold.
    """
    if width_of(text, size, bold) <= room:
        return text
    pieces = clusters(text)
    head = tail = 0
    while head + tail < len(pieces):
        more = (head, tail + 1) if tail < head * TAIL else (head + 1, tail)
        if width_of(_cut(pieces, *more), size, bold) > room:
            break
        head, tail = more
    return _cut(pieces, head, tail)


def _cut(pieces: Sequence[str], head: int, tail: int) -> str:
    end = "".join(pieces[len(pieces) - tail :])
    return f"{''.join(pieces[:head]).rstrip()}{ELLIPSIS}{end.lstrip()}"


def apart(name: str) -> str:
    """A name kept together where it is written from right to left, so that it does not turn the text around it."""
    if any(unicodedata.bidirectional(letter) in ("R", "AL") for letter in name):
        return f"\u2068{name}\u2069"
    return name


def lines_of(names: Sequence[str], room: float, size: float, most: int) -> list[str]:
    """Names with commas between them on as few lines as it takes, each name whole or shortened.

    Args:
        names: What to list.
        room: How wide a line may be, in units of the drawing.
        size: The size of the letters.
        most: How many lines there may be; where they do not do, the last one counts the names left out.
    """
    lines: list[list[str]] = []
    for place, name in enumerate(names):
        comma = "," if place < len(names) - 1 else ""
        word = apart(shortened(name, room - width_of(comma, size), size)) + comma
        if lines and width_of(" ".join([*lines[-1], word]), size) <= room:
            lines[-1].append(word)
        else:
            lines.append([word])
    told = [" ".join(line) for line in lines]
    if len(lines) <= most:
        return told
    left = len(names) - sum(map(len, lines[: most - 1]))
    return [*told[: most - 1], shortened(f"and {left} more", room, size)]
