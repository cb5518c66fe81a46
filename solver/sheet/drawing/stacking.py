"""How far down each card stands in its column, so that no two cables share a height in one gutter."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from solver.sheet.drawing.cards import PASS, Item
from solver.sheet.drawing.told import Plug

BETWEEN = 26.0
"""The space between two cards of a column, in units of the drawing; cables that pass need none between them."""
CLEAR = 10.0
"""How far apart the wires of two cables are at least where they come from both sides of a gutter."""
SLACK = 80.0
"""How far a card is moved at most so that its cables run straight; up only the first of a column."""


class Pin(NamedTuple):
    """Where a cable enters a gutter.

    Attributes:
        net: The place of the cable in the plan.
        gutter: The gutter it enters.
        from_left: Whether it comes from the column on the left of the gutter.
        y: How far down.
        plug: The plug, or None where the cable passes a column.
    """

    net: int
    gutter: int
    from_left: bool
    y: float
    plug: Plug | None


class Stood(NamedTuple):
    """A card or a passing cable at its height."""

    item: Item
    top: float

    def pins(self) -> Iterator[Pin]:
        """Where its cables enter the gutters beside it."""
        column = self.item.column
        if self.item.card is None:
            for gutter, from_left in ((column, False), (column - 1, True)):
                yield Pin(self.item.net, gutter, from_left, self.top + PASS / 2, None)
        for rows, gutter, from_left in ((self.item.left, column, False), (self.item.right, column - 1, True)):
            for row in rows:
                yield Pin(row.plug.net, gutter, from_left, self.top + row.wire, row.plug)


def stacked(order: Sequence[Sequence[Item]]) -> list[Stood]:
    """Stand the items of each column below each other, the columns with their middles at one height.

    Args:
        order: The items of each column from top to bottom, the rightmost column first.
    """
    gaps = [[_gap(item, after) for item, after in pairwise(items)] for items in order]
    heights = [sum(item.height for item in items) + sum(own) for items, own in zip(order, gaps, strict=True)]
    stood: list[Stood] = []
    facing: list[Pin] = []
    for items, own_gaps, height in zip(order, gaps, heights, strict=True):
        top = (max(heights) - height) / 2
        own: list[Pin] = []
        for place, (item, gap) in enumerate(zip(items, [*own_gaps, 0.0], strict=False)):
            here = _fitted(item, top if place else top - SLACK, top, facing)
            stood.append(here)
            own += here.pins()
            top = here.top + item.height + gap
        facing = [pin for pin in own if not pin.from_left]
    return stood


def _gap(item: Item, after: Item) -> float:
    return 0.0 if item.card is after.card is None else BETWEEN


def _fitted(item: Item, highest: float, wanted: float, facing: Sequence[Pin]) -> Stood:
    """The item where most of its cables run straight over the gutter on its right, else where it is wanted."""
    at_zero = [pin for pin in Stood(item, 0.0).pins() if pin.from_left]
    aligned = {other.y - pin.y for pin in at_zero for other in facing if pin.net == other.net}
    tops = [wanted, *sorted(top for top in aligned if highest <= top <= wanted + SLACK)]
    tries = [_cleared(Stood(item, top), facing) for top in tops]
    return max(tries, key=lambda stood: (_straight(stood, facing), -abs(stood.top - wanted)))


def _straight(stood: Stood, facing: Sequence[Pin]) -> int:
    taken = {(pin.net, pin.y) for pin in facing}
    return sum((pin.net, pin.y) in taken for pin in stood.pins() if pin.from_left)


def _cleared(stood: Stood, facing: Sequence[Pin]) -> Stood:
    """Move down until no wire is too near to one of another cable on the other side of the gutter."""
    while True:
        pins = [pin for pin in stood.pins() if pin.from_left]
        near = [other.y + CLEAR - pin.y for pin in pins for other in facing if _too_near(pin, other)]
        if not near:
            return stood
        stood = Stood(stood.item, stood.top + min(near))


def _too_near(one: Pin, other: Pin) -> bool:
    if one.net == other.net:
        return 0 < abs(one.y - other.y) < CLEAR
    return abs(one.y - other.y) < CLEAR
