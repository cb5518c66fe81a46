"""Which column each box stands in, and which edge of its card each plug is on.

Columns are counted from 0 at the right, where the ears are: sound runs from left to right. Gutter ``g`` lies between
column ``g + 1`` on its left and column ``g`` on its right. A plug is on the edge that faces the rest of its cable, so a
cable needs no way around its own box.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from solver.gear.words import Spot
from solver.sheet.drawing.told import Net, Plug

MOST = 3
"""How many columns there are at most; boxes further from the ears share the last one, so that the page stays narrow."""

LONG = 5
"""How many boxes stand in one column before half of them get a column of their own."""


@dataclass(frozen=True)
class Columns:
    """The boxes in columns, and the gutter that each plug is plugged in from.

    Attributes:
        of: The column of each box.
        gutters: The gutter of each plug.
        passes: For each net the columns that it passes without a plug at one of their boxes on its way.
    """

    of: Mapping[str, int]
    gutters: Mapping[Plug, int]
    passes: tuple[tuple[int, ...], ...]

    @property
    def count(self) -> int:
        """How many columns there are, those without a box among them."""
        return max([*self.of.values(), *(gutter + 1 for gutter in self.gutters.values())], default=0) + 1

    def on_left_edge(self, plug: Plug) -> bool:
        """Whether a plug is on the left edge of its card."""
        return self.gutters[plug] == self.of[plug.spot.box]


def in_columns(cards: Iterable[str], nets: Sequence[Net], leader: str, ears: Spot) -> Columns:
    """Put the boxes into columns by how many boxes their sound passes before it is heard.

    Args:
        cards: The names of the boxes.
        nets: The cables.
        leader: The box that leads; without sound to send on, it stands at the right too.
        ears: The outlet that is listened to.
    """
    of = {box: 0 if box in (leader, ears.box) else 1 for box in cards}
    sound = [
        (source.spot.box, to.spot.box)
        for net in nets
        if not net.midi
        for source in net.plugs
        for to in net.plugs
        if source.sends and not to.sends and source.spot.box not in (to.spot.box, ears.box)
    ]
    moved = True
    while moved:  # each round moves a box further to the left, and none goes beyond the last column
        moved = False
        for source, to in sound:
            if of[source] <= of[to] < MOST - 1:
                of[source], moved = of[to] + 1, True
    _spread(of, {box for sent in sound for box in sent[1:]})
    gutters: dict[Plug, int] = {}
    for net in nets:
        gutters |= _gutters(net, of)
    return Columns(of, gutters, tuple(_passed(net, gutters) for net in nets))


def _spread(of: dict[str, int], fed: set[str]) -> None:
    """Put half of a long column of sound sources into the free column beyond, so that the page is not a strip."""
    if max(of.values(), default=0) == 1:
        sources = [box for box, column in of.items() if column == 1 and box not in fed]
        if len(sources) > LONG:
            of.update(dict.fromkeys(sources[(len(sources) + 1) // 2 :], 2))


def _gutters(net: Net, of: Mapping[str, int]) -> dict[Plug, int]:
    """The gutter of each plug: at the right edge of its card, but at the left edge in the rightmost column it has."""
    places = [of[plug.spot.box] for plug in net.plugs]
    first = min(places)
    alone = first == max(places)
    return {
        plug: place if place == 0 or (place == first and not alone) else place - 1
        for plug, place in zip(net.plugs, places, strict=True)
    }


def _passed(net: Net, gutters: Mapping[Plug, int]) -> tuple[int, ...]:
    """The columns between the first and the last gutter of a net."""
    taken = [gutters[plug] for plug in net.plugs]
    return tuple(range(min(taken) + 1, max(taken) + 1))
