"""Draws cards, cables and what is written at their plugs, each in its place."""

from collections.abc import Mapping, Sequence
from xml.etree import ElementTree as Xml

from solver.sheet.drawing import pen
from solver.sheet.drawing.cards import EARS, FOOT, HEAD, NAME, PAD, ears_lines, title_lines
from solver.sheet.drawing.labels import (
    APART,
    DISC,
    LABEL,
    LINE,
    NOTE,
    SOCKET,
    carried_lines,
    disc_middle,
    kind_lines,
    mark_width,
    name_of,
)
from solver.sheet.drawing.routes import Point, Routed
from solver.sheet.drawing.stacking import Stood
from solver.sheet.drawing.told import SUMMED, Card, Net, Plug

SIDES_IN_WORDS = {"L": "left", "R": "right", "L R": "left and right", SUMMED: "left and right, summed"}


def draw_cables(above: Xml.Element, nets: Sequence[Net], found: Routed) -> None:
    """Every cable as one group; each has a rim of paper, so that where two cross one is seen to pass over the other."""
    for net, ways, joints in zip(nets, found.ways, found.joints, strict=True):
        drawn = pen.group(above, cable=net.ends, kind=net.kind, number=str(net.number))
        pen.titled(drawn, f"{net.number}: {net.ends}")
        style = "midi" if net.midi else "audio"
        pen.lines(drawn, "casing", ways)
        pen.lines(drawn, style, ways)
        for joint in joints:
            pen.disc(drawn, f"{style}-socket", joint, APART + 1)


def draw_cards(above: Xml.Element, found: Routed) -> None:
    """Every box with the labels of its sockets."""
    for stood in found.stood:
        if stood.item.card is not None:
            x, width = found.columns[stood.item.column]
            _draw_card(above, stood.item.card, stood, (x, width))


def _draw_card(above: Xml.Element, card: Card, stood: Stood, across: Point) -> None:
    (x, width), top = across, stood.top
    drawn = pen.group(above, box=card.box)
    pen.titled(drawn, ", ".join([card.box, *card.notes]))
    pen.box(drawn, "card", (x, top), (width, stood.item.height), radius=10)
    name, notes = title_lines(card)
    pen.text(drawn, "text", (x + PAD, top + HEAD - 12), NAME, name, bold=True)
    for place, note in enumerate(notes):
        pen.text(drawn, "quiet", (x + PAD, top + HEAD + LINE * place + 4), NOTE, note)
    for rows, edge, anchor, inward in (
        (stood.item.left, x, "start", PAD),
        (stood.item.right, x + width, "end", -PAD),
    ):
        for row in rows:
            label = pen.group(drawn, jack=str(row.plug.spot))
            pen.titled(label, str(row.plug.spot))
            at = (edge + inward, top + row.wire + LABEL * pen.BASELINE)
            pen.text(label, "text", at, LABEL, name_of(row.plug), anchor=anchor)
    _draw_foot(drawn, card, (x, top + stood.item.height - FOOT), width)


def _draw_foot(drawn: Xml.Element, card: Card, at: Point, width: float) -> None:
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
    _draw_ears(heard, (x + PAD + 8, top + LINE / 2))
    for place, line in enumerate(told):
        style, size = ("quiet", NOTE) if place else ("heard", LABEL)
        pen.text(heard, style, (x + PAD + EARS, top + LINE * (place + 1) - 4), size, line, bold=False)


def _draw_ears(above: Xml.Element, at: Point) -> None:
    """A pair of ear cups under a band."""
    left, right, low = (pen.number(value) for value in (at[0] - 7, at[0] + 7, at[1] + 2))
    pen.path(above, "ears", f"M{left},{low}A7,7 0 0 1 {right},{low}M{left},{low}v4M{right},{low}v4")


def draw_plugs(above: Xml.Element, nets: Sequence[Net], found: Routed, left_edge: Mapping[Plug, bool]) -> None:
    """At every plug its socket, the side in it and the number of its cable; at one of them what the cable carries."""
    for net in nets:
        for plug in net.plugs:
            _draw_plug(above, net, plug, found.sockets[plug], -1.0 if left_edge[plug] else 1.0)


def _draw_plug(above: Xml.Element, net: Net, plug: Plug, at: Point, out: float) -> None:
    """One plug; ``out`` is 1 where its cable leaves to the right and -1 where it leaves to the left."""
    x, y = at
    drawn = pen.group(above, plug=str(plug.spot), number=str(net.number))
    style = "midi" if net.midi else "audio"
    if net.midi:
        pen.box(drawn, "midi-socket", (x - SOCKET + 1, y - SOCKET + 1), (2 * SOCKET - 2, 2 * SOCKET - 2), radius=2)
    else:
        pen.disc(drawn, "audio-socket", at, SOCKET)
    if plug.mark:
        width = mark_width(plug.mark)
        tag = pen.group(drawn, side=plug.mark)
        pen.titled(tag, SIDES_IN_WORDS[plug.mark])
        pen.tag(tag, (x + out * (SOCKET + APART + width / 2), y), width, plug.mark)
    pen.number_disc(drawn, f"{style}-disc", (x + out * disc_middle(plug), y), str(net.number))
    if plug.named:
        _draw_label(drawn, net, (x + out * (SOCKET + APART), y), "start" if out > 0 else "end")


def _draw_label(drawn: Xml.Element, net: Net, at: Point, anchor: str) -> None:
    x, y = at
    lines = carried_lines(net)
    label = pen.group(drawn, carries=net.carries)
    pen.titled(label, net.carries)
    for place, line in enumerate(lines):
        height = y - DISC - APART - LINE * (len(lines) - 1 - place)
        pen.text(label, "text", (x, height), LABEL, line, anchor=anchor)
    for place, line in enumerate(kind_lines(net)):
        pen.text(drawn, "quiet", (x, y + DISC + LINE * (place + 1) - 4), NOTE, line, anchor=anchor)
