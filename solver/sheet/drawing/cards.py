"""The cards of the boxes: their lines of text and rows of sockets, measured but not yet in their place."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from solver.sheet.drawing.columns import Columns, on_left_edge
from solver.sheet.drawing.labels import LABEL, LINE, NOTE, above_wire, below_wire, name_of
from solver.sheet.drawing.letters import apart, shortened, shown, width_of
from solver.sheet.drawing.told import Card, Net, Plug

NAME = 17.0
"""The size of the letters of a box's name, in units of the drawing."""
WIDEST, NARROWEST, PAD = 230.0, 120.0, 14.0
HEAD, FOOT, EARS = 36.0, 8.0, 24.0
BESIDE = 20.0
"""The space between the labels of the left and the right edge."""
PASS = 24.0
"""How high a cable is that passes a column between two cards."""


@dataclass(frozen=True)
class Row:
    """One socket on an edge of a card: its plug, and how far below the top of the card its wire is."""

    plug: Plug
    wire: float


@dataclass(frozen=True)
class Item:
    """A card in its column, or a cable that passes the column (``card`` is None).

    Attributes:
        column: The column, from 0 at the right.
        net: The net that passes; -1 for a card.
        height: In units of the drawing.
        width: As wide as it must be at least.
        rows: The sockets, those of the left edge first, or the one wire that passes.
    """

    column: int
    card: Card | None
    net: int
    height: float
    width: float
    left: tuple[Row, ...] = ()
    right: tuple[Row, ...] = ()


def title_lines(card: Card) -> tuple[str, tuple[str, ...]]:
    """The name of a box and the lines below it, short enough for the widest card."""
    name = apart(shortened(shown(card.box), WIDEST - 2 * PAD, NAME, bold=True))
    return name, tuple(apart(shortened(shown(note), WIDEST - 2 * PAD, NOTE)) for note in card.notes)


def ears_lines(card: Card) -> tuple[str, ...]:
    """What is said of the outlet that is listened to, one line with its name and one with its jacks."""
    if not card.ears:
        return ()
    outlet, *jacks = map(shown, card.ears)
    room = WIDEST - 2 * PAD - EARS
    lines = [apart(shortened(outlet, room - width_of("ears: ", LABEL), LABEL))]
    own = [apart(shortened(jack, (room - width_of(", ", NOTE)) / len(jacks), NOTE)) for jack in jacks]
    return (f"ears: {lines[0]}", *([", ".join(own)] if jacks != [outlet] else []))


def item_of(card: Card, columns: Columns, nets: Sequence[Net], order: Mapping[Plug, int], even: bool) -> Item:
    """Measure a card with its sockets in a given order on each edge.

    Args:
        card: The box.
        columns: Where the boxes stand.
        nets: The cables.
        order: The place of each plug on its edge, from top to bottom.
        even: Whether a row is as high as that of the other end of its cable, so that cables can run straight.
    """
    plugs = sorted(card.plugs, key=lambda plug: order[plug])
    name, notes = title_lines(card)
    top = HEAD + LINE * len(notes)
    edges: list[tuple[Row, ...]] = []
    bottom = top
    for left in (True, False):
        rows, reached = [], top
        for plug in plugs:
            if on_left_edge(plug, columns) is left:
                tall = replace(plug, named=True) if even else plug
                net = nets[plug.net]
                rows.append(Row(plug, reached + above_wire(tall, net)))
                reached += above_wire(tall, net) + below_wire(tall, net)
        edges.append(tuple(rows))
        bottom = max(bottom, reached)
    height = bottom + LINE * (bool(card.free) + len(ears_lines(card))) + (PAD if card.ears else 0) + FOOT
    return Item(columns.of[card.box], card, -1, height, _width(card, name, notes, edges), *edges)


def _width(card: Card, name: str, notes: Sequence[str], edges: Sequence[Sequence[Row]]) -> float:
    labels = [max((width_of(name_of(row.plug), LABEL) for row in rows), default=0.0) for rows in edges]
    needed = [width_of(name, NAME, bold=True), width_of(card.free, NOTE), sum(labels) + BESIDE * all(labels)]
    needed += [width_of(note, NOTE) for note in notes]
    needed += [EARS + width_of(line, LABEL) for line in ears_lines(card)]
    return max(NARROWEST, max(needed) + 2 * PAD)


def pass_of(net: int, column: int) -> Item:
    """A cable that passes a column."""
    return Item(column, None, net, PASS, 0.0)
