"""Reads a drawing back from its SVG: boxes, lines, sockets and texts as rectangles and segments."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple
from xml.etree import ElementTree as Xml

from solver.sheet.drawing.letters import width_of

SVG = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]
ASCENT, DESCENT = 0.78, 0.24
"""How far letters reach above and below the line they stand on, in parts of their size: DejaVu Sans, rounded up."""


class Rect(NamedTuple):
    """A rectangle by its edges."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Rect", by: float = 0.0) -> bool:
        """Whether the two share more than a rim of a width."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > by and down > by

    def holds(self, other: "Rect") -> bool:
        """Whether the other lies inside."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )


class Segment(NamedTuple):
    """A straight piece of a cable."""

    start: Point
    end: Point

    @property
    def level(self) -> bool:
        """Whether it runs from left to right."""
        return self.start[1] == self.end[1]

    def rect(self, half: float = 0.0) -> Rect:
        """The rectangle it takes with half its thickness on each side, and none at its ends."""
        (x, y), (u, v) = self
        wide, high = (0.0, half) if self.level else (half, 0.0)
        return Rect(min(x, u) - wide, min(y, v) - high, max(x, u) + wide, max(y, v) + high)


@dataclass(frozen=True)
class Label:
    """A text, or the sign that a text stands in."""

    rect: Rect
    words: str
    box: str | None


@dataclass(frozen=True)
class Plug:
    """A socket with a plug in it: its spot, the number of the cable, where it is, the side told and what is carried."""

    spot: str
    number: str
    at: Point
    side: str | None
    carries: str | None


@dataclass
class Seen:
    """All that a drawing shows.

    Attributes:
        page: The whole.
        boxes: The cards by name.
        cables: The cables in their order: number, ends and kind.
        wires: The segments of each cable by its number.
        plugs: The plugs.
        jacks: Each label of a socket: its spot, and the middle of its height.
        labels: Every text and sign.
    """

    page: Rect
    boxes: dict[str, Rect] = field(default_factory=dict)
    cables: list[tuple[str, str, str]] = field(default_factory=list)
    wires: dict[str, list[Segment]] = field(default_factory=dict)
    plugs: list[Plug] = field(default_factory=list)
    jacks: list[tuple[str, float]] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)


def seen(svg: Xml.Element) -> Seen:
    """Read a drawing."""
    found = Seen(Rect(*map(float, svg.attrib["viewBox"].split())))
    _read(svg, (0.0, 0.0), None, found)
    return found


def _read(above: Xml.Element, moved: Point, box: str | None, found: Seen) -> None:
    signs: list[Rect] = []
    for element in above:
        tag, keys = element.tag.removeprefix(SVG), element.attrib
        if tag == "g":
            _group(element, moved, box, found)
        elif tag in ("rect", "circle") and {"hp-tag", "hp-audio-disc", "hp-midi-disc"} & {keys["class"]}:
            signs.append(shape(element, moved))
            found.labels.append(Label(signs[-1], "sign", box))
        elif tag == "text":
            label = Label(_text(element, moved), element.text or "", box)
            inside = [sign for sign in signs if sign.overlaps(label.rect)]
            if inside:
                assert inside[-1].left <= label.rect.left and label.rect.right <= inside[-1].right, label
            else:
                found.labels.append(label)


def _group(group: Xml.Element, moved: Point, box: str | None, found: Seen) -> None:
    keys = group.attrib
    if "transform" in keys:
        x, y = map(float, re.findall(r"[\d.]+", keys["transform"]))
        moved = moved[0] + x, moved[1] + y
    if "data-box" in keys:
        box = keys["data-box"]
        found.boxes[box] = shape(next(iter(group.iter(f"{SVG}rect"))), moved)
    if "data-cable" in keys:
        number = keys["data-number"]
        found.cables.append((number, keys["data-cable"], keys["data-kind"]))
        line = next(p for p in group.iter(f"{SVG}path") if p.attrib["class"] in ("hp-audio", "hp-midi"))
        found.wires[number] = [*_segments(line.attrib["d"], moved)]
    if "data-plug" in keys:
        found.plugs.append(_plug(group, moved))
    if "data-jack" in keys:
        rect = _text(next(iter(group.iter(f"{SVG}text"))), moved)
        found.jacks.append((keys["data-jack"], (rect.top + rect.bottom) / 2))
    _read(group, moved, box, found)


def _plug(group: Xml.Element, moved: Point) -> Plug:
    socket = next(e for e in group if e.attrib.get("class") in ("hp-audio-socket", "hp-midi-socket"))
    rect = shape(socket, moved)
    said: Mapping[str, str] = {key: value for inner in group.iter(f"{SVG}g") for key, value in inner.attrib.items()}
    at = round((rect.left + rect.right) / 2, 1), round((rect.top + rect.bottom) / 2, 1)
    keys = group.attrib
    return Plug(keys["data-plug"], keys["data-number"], at, said.get("data-side"), said.get("data-carries"))


def shape(element: Xml.Element, moved: Point = (0.0, 0.0)) -> Rect:
    """The rectangle around a rectangle or circle."""
    keys = {key: float(value) for key, value in element.attrib.items() if re.fullmatch(r"-?[\d.]+", value)}
    if "r" in keys:
        x, y, r = keys["cx"] + moved[0], keys["cy"] + moved[1], keys["r"]
        return Rect(x - r, y - r, x + r, y + r)
    x, y = keys["x"] + moved[0], keys["y"] + moved[1]
    return Rect(x, y, x + keys["width"], y + keys["height"])


def _text(element: Xml.Element, moved: Point) -> Rect:
    keys = element.attrib
    size = float(keys["font-size"])
    width = width_of(element.text or "", size, keys.get("font-weight") == "bold")
    x, y = float(keys["x"]) + moved[0], float(keys["y"]) + moved[1]
    left = x - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[keys.get("text-anchor", "start")]
    return Rect(left, y - ASCENT * size, left + width, y + DESCENT * size)


def _segments(steps: str, moved: Point) -> Iterator[Segment]:
    """The straight pieces between corners; the corner of a bend is the control point of its curve."""
    for line in filter(None, steps.split("M")):
        found = re.findall(r"([LQ ]?)(-?[\d.]+),(-?[\d.]+)", line)
        steps_after = [letter for letter, _, _ in found[1:]] + [""]
        corners = [
            (round(float(x) + moved[0], 1), round(float(y) + moved[1], 1))
            for (letter, x, y), after in zip(found, steps_after, strict=True)
            if letter in ("", "Q") or (letter == "L" and after != "Q")
        ]
        yield from (Segment(one, other) for one, other in pairwise(corners) if one != other)
