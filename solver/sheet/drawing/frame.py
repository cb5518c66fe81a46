"""What stands around the boxes: the title, the words for who cannot see it, and the key at the foot."""

from collections.abc import Iterator, Sequence
from xml.etree import ElementTree as Xml

from solver.flow.wording import counted
from solver.jam.jam import Jam
from solver.sheet.cells import clean
from solver.sheet.drawing import pen
from solver.sheet.drawing.labels import DISC, LINE, NOTE, mark_width
from solver.sheet.drawing.letters import apart, shortened, shown, width_of
from solver.sheet.drawing.look import ROOT
from solver.sheet.drawing.paint import SIDES_IN_WORDS
from solver.sheet.drawing.routes import Point
from solver.sheet.drawing.told import SUMMED, Net
from solver.sheet.sections import SAFETY

HEADING = 40.0
"""How high the title is with the space below it, in units of the drawing."""
TITLE = 20.0
SAMPLE = 40.0
"""How wide the sample of a line in the key is."""
GAP = 22.0
KEY_LINE = 26.0
AUDIO, MIDI, NUMBER = "audio", "midi", "1"


def describe(svg: Xml.Element, jam: Jam, nets: Sequence[Net]) -> None:
    """The title and the whole wiring in words, for who does not see the drawing."""
    Xml.SubElement(svg, "title", {"id": f"{ROOT}-title"}).text = shown(f"Wiring of {jam.title}")
    told = [f"{counted(len(nets), 'cable').capitalize()}."]
    for net in nets:
        ends = (" and ".join(_plug_words(net, sends)) for sends in (True, False))
        carries = f", carries {net.carries}" if net.carries else ""
        told.append(f"{net.number}: {net.kind} from {' to '.join(ends)}{carries}.")
    told.append(f"The ears are on {jam.listen}.")
    Xml.SubElement(svg, "desc", {"id": f"{ROOT}-desc"}).text = shown(" ".join(told))


def _plug_words(net: Net, sends: bool) -> Iterator[str]:
    for plug in net.plugs:
        if plug.sends is sends:
            yield f"{plug.spot} ({SIDES_IN_WORDS[plug.mark]})" if plug.mark else str(plug.spot)


def draw_heading(svg: Xml.Element, jam: Jam, count: int, at: Point, room: float) -> None:
    """The title of the jam and how many cables there are."""
    drawn = pen.group(svg, heading="title")
    pen.titled(drawn, jam.title)
    told = counted(count, "cable")
    title = shortened(shown(jam.title), room - width_of(told, NOTE) - GAP, TITLE, bold=True)
    y = at[1] + TITLE * 0.8
    pen.text(drawn, "text", (at[0], y), TITLE, apart(title), bold=True)
    pen.text(drawn, "quiet", (at[0] + room, y), NOTE, told, anchor="end")


def _entries(nets: Sequence[Net]) -> list[tuple[tuple[str, ...], str]]:
    """The signs that are in the drawing, and what they mean."""
    marks = {plug.mark for net in nets for plug in net.plugs}
    found: list[tuple[tuple[str, ...], str]] = []
    for sign, midi, words in ((AUDIO, False, "audio"), (MIDI, True, "MIDI")):
        if any(net.midi is midi for net in nets):
            found.append(((sign,), words))
    if nets:
        found.append(((NUMBER,), "cable, in plugging order"))
    if marks & {"L", "R"}:
        found.append((("L", "R"), "left, right"))
    return found + [((mark,), SIDES_IN_WORDS[mark]) for mark in ("L R", SUMMED) if mark in marks]


def _signs_width(signs: Sequence[str]) -> float:
    wide = {AUDIO: SAMPLE, MIDI: SAMPLE, NUMBER: 2 * DISC}
    return sum(wide.get(sign, mark_width(sign)) for sign in signs) + 4 * (len(signs) - 1)


def _key(nets: Sequence[Net], room: float) -> list[list[tuple[tuple[str, ...], str, float]]]:
    """The entries of the key in lines: each with its signs, its words and where it begins."""
    rows: list[list[tuple[tuple[str, ...], str, float]]] = [[]]
    x = 0.0
    for signs, words in _entries(nets):
        width = _signs_width(signs) + 8 + width_of(words, NOTE)
        if rows[-1] and x + width > room:
            rows.append([])
            x = 0.0
        rows[-1].append((signs, words, x))
        x += width + GAP
    return rows


def _safety(room: float) -> list[str]:
    """The sentence about volume, in lines that fit."""
    lines = [""]
    for word in clean(SAFETY[0]).split():
        longer = f"{lines[-1]} {word}".strip()
        if width_of(longer, NOTE) > room:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def foot_height(nets: Sequence[Net], room: float) -> float:
    """How high the foot is with the space above it, in units of the drawing."""
    return GAP + KEY_LINE * len(_key(nets, room)) + LINE * len(_safety(room)) + DISC


def draw_foot(svg: Xml.Element, nets: Sequence[Net], at: Point, room: float) -> None:
    """The key to lines and signs, and what to do before plugging.

    Args:
        svg: The drawing.
        nets: Its cables; only signs that they have are explained.
        at: The lower left corner of what is drawn above.
        room: How wide the foot may be.
    """
    x, y = at[0], at[1] + GAP
    drawn = pen.group(svg, key="lines and signs")
    for row in _key(nets, room):
        y += KEY_LINE
        for signs, words, begin in row:
            here = x + begin
            for sign in signs:
                _draw_sign(drawn, sign, (here, y - NOTE * pen.BASELINE))
                here += _signs_width([sign]) + 4
            pen.text(drawn, "quiet", (here + 4, y), NOTE, words)
    y += DISC
    for line in _safety(room):
        y += LINE
        pen.text(drawn, "quiet", (x, y), NOTE, line)


def _draw_sign(drawn: Xml.Element, sign: str, at: Point) -> None:
    x, y = at
    if sign in (AUDIO, MIDI):
        pen.lines(drawn, sign, [((x, y), (x + SAMPLE, y))])
    elif sign == NUMBER:
        pen.number_disc(drawn, "audio-disc", (x + DISC, y), sign)
    else:
        pen.tag(drawn, (x + mark_width(sign) / 2, y), mark_width(sign), sign)
