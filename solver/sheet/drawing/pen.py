"""Puts texts, lines and signs onto a drawing, with what a reader of the file needs to know of each."""

from collections.abc import Sequence
from xml.etree import ElementTree as Xml

from solver.sheet.drawing.labels import DISC, NOTE, TAG
from solver.sheet.drawing.letters import shown
from solver.sheet.drawing.look import attributes
from solver.sheet.drawing.routes import Point

BEND = 7.0
"""The radius of a bend, in units of the drawing."""
BASELINE = 0.36
"""How far below the middle of a line its letters stand, in parts of their size."""


def number(value: float) -> str:
    """A length, to a tenth of a unit."""
    return f"{round(value, 1):g}"


def group(above: Xml.Element, **data: str) -> Xml.Element:
    """A group; its data names what it draws."""
    return Xml.SubElement(above, "g", {f"data-{key}": shown(value) for key, value in data.items()})


def titled(above: Xml.Element, text: str) -> None:
    """The words that appear where a pointer rests on an element."""
    Xml.SubElement(above, "title").text = shown(text)


def text(
    above: Xml.Element, style: str, at: Point, size: float, words: str, *, anchor: str = "start", bold: bool = False
) -> None:
    """One line of text; it stands on the height of its point.

    Args:
        above: The group it belongs to.
        style: Its look.
        at: Where it starts, has its middle or ends, by ``anchor``.
        size: The size of its letters.
        words: What it says, made fit for a drawing by ``letters.shown``.
        anchor: "start", "middle" or "end".
        bold: Whether the letters are bold.
    """
    keys = {"x": number(at[0]), "y": number(at[1]), "font-size": number(size), **attributes(style)}
    if anchor != "start":
        keys["text-anchor"] = anchor
    if bold:
        keys["font-weight"] = "bold"
    Xml.SubElement(above, "text", keys).text = words


def box(above: Xml.Element, style: str, at: Point, size: Point, *, radius: float = 0.0) -> None:
    """A rectangle of a width and a height, its corners rounded by a radius."""
    keys = {"x": number(at[0]), "y": number(at[1]), "width": number(size[0]), "height": number(size[1])}
    if radius:
        keys["rx"] = number(radius)
    Xml.SubElement(above, "rect", keys | attributes(style))


def disc(above: Xml.Element, style: str, at: Point, radius: float) -> None:
    """A circle."""
    keys = {"cx": number(at[0]), "cy": number(at[1]), "r": number(radius)}
    Xml.SubElement(above, "circle", keys | attributes(style))


def tag(above: Xml.Element, middle: Point, width: float, mark: str) -> None:
    """The letters of a side on a small plate."""
    box(above, "tag", (middle[0] - width / 2, middle[1] - TAG / 2), (width, TAG), radius=4)
    at = (middle[0], middle[1] + NOTE * BASELINE)
    text(above, "tag-text", at, NOTE, mark, anchor="middle", bold=True)


def number_disc(above: Xml.Element, style: str, middle: Point, words: str) -> None:
    """The number of a cable in a ring."""
    disc(above, style, middle, DISC)
    text(above, "text", (middle[0], middle[1] + NOTE * BASELINE), NOTE, words, anchor="middle")


def lines(above: Xml.Element, style: str, ways: Sequence[Sequence[Point]]) -> None:
    """Lines with rounded corners; the corner of a bend is the control point of its curve."""
    path(above, style, " ".join(map(_rounded, ways)))


def path(above: Xml.Element, style: str, steps: str) -> None:
    """A path by its steps."""
    Xml.SubElement(above, "path", {"d": steps, **attributes(style)})


def _rounded(corners: Sequence[Point]) -> str:
    steps = [f"M{_point(corners[0])}"]
    for before, corner, after in zip(corners, corners[1:], corners[2:], strict=False):
        steps.append(f"L{_point(_towards(corner, before))}Q{_point(corner)} {_point(_towards(corner, after))}")
    return "".join([*steps, f"L{_point(corners[-1])}"])


def _towards(corner: Point, other: Point) -> Point:
    """A point near a corner, at most half way to the next one."""
    (x, y), (u, v) = corner, other
    long = abs(u - x) + abs(v - y)
    part = min(BEND, long / 2) / long if long else 0.0
    return x + (u - x) * part, y + (v - y) * part


def _point(point: Point) -> str:
    return f"{number(point[0])},{number(point[1])}"
