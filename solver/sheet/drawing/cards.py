"""The cards of the boxes: their lines of text and rows of sockets, measured but not yet in their place."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from solver.sheet.drawing.columns import Columns
from solver.sheet.drawing.labels import LABEL, LINE, NOTE, Written
from solver.sheet.drawing.letters import apart, shortened, shown, width_of
from solver.sheet.drawing.told import Card, Net, Plug

NAME = 17.0
"""The size of the letters of a box's name, in units of the drawing."""
WIDEST, NARROWEST, PAD = 230.0, 120.0, 14.0
"""How wide a card is at most for the sake of its texts without sockets, at least, and the space inside its edges."""
HEAD, FOOT, EARS = 36.0, 8.0, 24.0
BESIDE = 20.0
"""The space between the labels of the left and the right edge."""
PASS = 16.0
"""How high a cable is that passes a column between two cards."""


class Row(NamedTuple):
    """One socket on an edge of a card: its plug, and how far below the top of the card its wire is."""

    plug: Plug
    wire: float


class Item(NamedTuple):
    """A card in its column, or a cable that passes the column (``card`` is None); lengths are in units of the drawing.

    Attributes:
        column: The column, from 0 at the right.
        card: The box.
        net: The net that passes; -1 for a card.
        height: How high it is.
        width: How wide it is at least.
        left: The sockets on its left edge.
        right: The sockets on its right edge.
    """

    column: int
    card: Card | None
    net: int
    height: float
    width: float
    left: tuple[Row, ...] = ()
    right: tuple[Row, ...] = ()


def pass_of(net: int, column: int) -> Item:
    """A cable that passes a column."""
    return Item(column, None, net, PASS, 0.0)


class Shape:
    """A card, measured once; its height depends on whether rows are even.

    Args:
        card: The box.
        columns: Where the boxes stand.
        nets: The cables.
        said: What is written at each plug.
    """

    def __init__(self, card: Card, columns: Columns, nets: Sequence[Net], said: Mapping[Plug, Written]) -> None:
        self._card, self._column = card, columns.of[card.box]
        name, notes = title_lines(card)
        self._head = HEAD + LINE * len(notes)
        ears = ears_lines(card)
        self._foot = LINE * (bool(card.free) + len(ears)) + (PAD if card.ears else 0) + FOOT
        self._sides = {
            left: tuple(plug for plug in card.plugs if columns.on_left_edge(plug) is left) for left in (True, False)
        }
        self._own = {plug: (said[plug].above, said[plug].below) for plug in card.plugs}
        self._even = {
            plug: _evened(
                [said[o] for o in nets[plug.net].plugs if o == plug or columns.of[o.spot.box] != self._column]
            )
            for plug in card.plugs
        }
        labels = [max((width_of(said[p].socket, LABEL) for p in plugs), default=0.0) for plugs in self._sides.values()]
        needed = [width_of(name, NAME, bold=True), width_of(card.free, NOTE), sum(labels) + BESIDE * all(labels)]
        needed += [width_of(note, NOTE) for note in notes]
        needed += [EARS + width_of(line, LABEL) for line in ears]
        self._width = max(NARROWEST, max(needed) + 2 * PAD)

    def item(self, rank: Mapping[Plug, int], even: bool) -> Item:
        """The card with its sockets in a given order on each edge.

        Args:
            rank: The place of each plug on its edge, from top to bottom.
            even: Whether a row is as high as that of the other end of its cable, so that cables can run straight.
        """
        heights = self._even if even else self._own
        edges: list[tuple[Row, ...]] = []
        bottom = self._head
        for plugs in self._sides.values():
            rows, reached = [], self._head
            for plug in sorted(plugs, key=lambda plug: rank[plug]):
                above, below = heights[plug]
                rows.append(Row(plug, reached + above))
                reached += above + below
            edges.append(tuple(rows))
            bottom = max(bottom, reached)
        return Item(self._column, self._card, -1, bottom + self._foot, self._width, *edges)


def _evened(said: Sequence[Written]) -> tuple[float, float]:
    return max(one.above for one in said), max(one.below for one in said)


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
    first = f"ears: {apart(shortened(outlet, room - width_of('ears: ', LABEL), LABEL))}"
    own = [apart(shortened(jack, (room - width_of(", ", NOTE)) / len(jacks), NOTE)) for jack in jacks]
    return (first, *([", ".join(own)] if jacks != [outlet] else []))
