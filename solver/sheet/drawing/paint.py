"""Draws cards, cables and what is written at their plugs, each in its place."""

from collections.abc import Mapping, Sequence
from xml.etree import ElementTree as Xml

from solver.sheet.drawing import pen
from solver.sheet.drawing.cards import EARS, FOOT, HEAD, NAME, PAD, ears_lines, title_lines
from solver.sheet.drawing.labels import APART, DISC, LABEL, LINE, NOTE, SOCKET, Written, mark_width
from solver.sheet.drawing.routes import Point, Routed
from solver.sheet.drawing.stacking import Stood
from solver.sheet.drawing.told import SUMMED, Card, Net, Plug

SIDES_IN_WORDS = {"L": "left", "R": "right", "L R": "left and right", SUMMED: "left and right, summed"}
CORNER = 10.0
"""The radius of a card's corners, in units of the drawing."""


class Painter:
    """Draws what has its place.

    Args:
        above: The group to draw into; its zero is the upper left corner of everything.
        found: Where everything is.
        said: What is written at each plug.
    """

    def __init__(self, above: Xml.Element, found: Routed, said: Mapping[Plug, Written]) -> None:
        self._above, self._found, self._said = above, found, said

    def paint(self, nets: Sequence[Net]) -> None:
        """The cards, the cables over the paper between them, and the plugs over both."""
        for stood in self._found.stood:
            if stood.item.card is not None:
                self._card(stood.item.card, stood)
        for net, ways, joints in zip(nets, self._found.ways, self._found.joints, strict=True):
            self._cable(net, ways, joints)
        for net in nets:
            for plug in net.plugs:
                self._plug(net, plug)

    def _cable(self, net: Net, ways: Sequence[Sequence[Point]], joints: Sequence[Point]) -> None:
        """One cable; it has a rim of paper, so that where two cross one is seen to pass over the other."""
        drawn = pen.group(self._above, cable=net.ends, kind=net.kind, number=str(net.number))
        pen.titled(drawn, f"{net.number}: {net.ends}")
        style = "midi" if net.midi else "audio"
        pen.lines(drawn, "casing", ways)
        pen.lines(drawn, style, ways)
        for joint in joints:
            pen.disc(drawn, f"{style}-socket", joint, APART + 1)

    def _card(self, card: Card, stood: Stood) -> None:
        (x, width), top = self._found.columns[stood.item.column], stood.top
        drawn = pen.group(self._above, box=card.box)
        pen.titled(drawn, ", ".join([card.box, *card.notes]))
        pen.box(drawn, "card", (x, top), (width, stood.item.height), radius=CORNER)
        name, notes = title_lines(card)
        pen.text(drawn, "text", (x + PAD, top + HEAD - 12), NAME, name, bold=True)
        for place, note in enumerate(notes):
            pen.text(drawn, "quiet", (x + PAD, top + HEAD + LINE * place + 4), NOTE, note)
        for rows, inner, anchor in (
            (stood.item.left, x + PAD, "start"),
            (stood.item.right, x + width - PAD, "end"),
        ):
            for row in rows:
                label = pen.group(drawn, jack=str(row.plug.spot))
                pen.titled(label, str(row.plug.spot))
                at = (inner, top + row.wire + LABEL * pen.BASELINE)
                pen.text(label, "text", at, LABEL, self._said[row.plug].socket, anchor=anchor)
        _foot(drawn, card, (x, top + stood.item.height - FOOT), width)

    def _plug(self, net: Net, plug: Plug) -> None:
        """One plug: its socket, the side in it, the number of its cable and what is told of the cable here."""
        (x, y), said = self._found.sockets[plug], self._said[plug]
        out = 1.0 if plug in self._found.leave_right else -1.0
        drawn = pen.group(self._above, plug=str(plug.spot), number=str(net.number))
        style = "midi" if net.midi else "audio"
        if net.midi:
            half = SOCKET - 1
            pen.box(drawn, "midi-socket", (x - half, y - half), (2 * half, 2 * half), radius=2)
        else:
            pen.disc(drawn, "audio-socket", (x, y), SOCKET)
        if plug.mark:
            width = mark_width(plug.mark)
            tag = pen.group(drawn, side=plug.mark)
            pen.titled(tag, SIDES_IN_WORDS[plug.mark])
            pen.tag(tag, (x + out * (SOCKET + APART + width / 2), y), width, plug.mark)
        pen.number_disc(drawn, f"{style}-disc", (x + out * said.disc, y), str(net.number))
        begin, anchor = x + out * (SOCKET + APART), "start" if out > 0 else "end"
        if said.lines:
            label = pen.group(drawn, carries=net.carries)
            pen.titled(label, net.carries)
            for place, line in enumerate(reversed(said.lines)):
                pen.text(label, "text", (begin, y - DISC - APART - LINE * place), LABEL, line, anchor=anchor)
        for place, line in enumerate(said.kind, start=1):
            pen.text(drawn, "quiet", (begin, y + DISC + LINE * place - APART), NOTE, line, anchor=anchor)


def _foot(drawn: Xml.Element, card: Card, at: Point, width: float) -> None:
    """What stands at the lower end of a card: the ears, and what is free."""
    x, bottom = at
    if card.free:
        pen.text(drawn, "quiet", (x + PAD, bottom - 5), NOTE, card.free)
        bottom -= LINE
    told = ears_lines(card)
    if not told:
        return
    heard = pen.group(drawn, ears="/".join((card.box, card.ears[0])))
    pen.titled(heard, f"you listen here: {card.ears[0]} ({', '.join(card.ears[1:])})")
    top = bottom - LINE * len(told)
    pen.lines(heard, "rule", [((x, top - 6), (x + width, top - 6))])
    _ears(heard, (x + PAD + 8, top + LINE / 2))
    for place, line in enumerate(told):
        style, size = ("quiet", NOTE) if place else ("heard", LABEL)
        pen.text(heard, style, (x + PAD + EARS, top + LINE * (place + 1) - 4), size, line)


def _ears(above: Xml.Element, at: Point) -> None:
    """Two ears under a band."""
    left, right, low = (pen.number(value) for value in (at[0] - 7, at[0] + 7, at[1] + 2))
    pen.path(above, "ears", f"M{left},{low}A7,7 0 0 1 {right},{low}M{left},{low}v4M{right},{low}v4")
