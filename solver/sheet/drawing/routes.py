"""Where everything is: cards, columns, gutters, and the way of each cable through its own lanes."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from solver.sheet.drawing.cards import PASS
from solver.sheet.drawing.lanes import lanes
from solver.sheet.drawing.stacking import BETWEEN, Pin, Stood
from solver.sheet.drawing.told import Plug

LANE = 14.0
"""From one lane to the next, in units of the drawing."""
Point = tuple[float, float]


class Gutter(NamedTuple):
    """The space between two columns: its edges, and where its first lane is."""

    left: float
    right: float
    first_lane: float


@dataclass(frozen=True)
class Routed:
    """Everything in its place; lengths are in units of the drawing, from its upper left corner.

    Attributes:
        stood: The cards and passing cables.
        columns: The left edge and the width of each column, the rightmost first.
        sockets: Where each plug is.
        leave_right: The plugs whose cable leaves to the right.
        ways: For each net its lines, each a list of corners.
        joints: For each net the points where three of its lines meet.
        width: Of the whole.
        height: Of the whole.
    """

    stood: tuple[Stood, ...]
    columns: tuple[Point, ...]
    sockets: dict[Plug, Point]
    leave_right: frozenset[Plug]
    ways: tuple[tuple[tuple[Point, ...], ...], ...]
    joints: tuple[tuple[Point, ...], ...]
    width: float
    height: float


def routed(stood: Sequence[Stood], count: int, nets: int, reach: Mapping[Plug, float]) -> Routed:
    """Give columns and lanes their places, and lead every cable through them.

    Args:
        stood: The cards and passing cables of all columns.
        count: How many columns there are.
        nets: How many cables there are.
        reach: How far what is written at each plug reaches from the edge of its card.
    """
    up = min((one.top for one in stood), default=0.0)
    stood = tuple(Stood(one.item, one.top - up) for one in stood)
    pins = [pin for one in stood for pin in one.pins()]
    chosen = [lanes(_by_net(pins, gutter)) for gutter in range(count - 1)]
    gutters: dict[int, Gutter] = {}
    columns: list[Point] = []
    x = 0.0
    for column in reversed(range(count)):
        width = max((one.item.width for one in stood if one.item.column == column), default=0.0)
        columns.insert(0, (x, width))
        x += width
        if column:
            gutters[column - 1] = _gutter(x, pins, column - 1, chosen[column - 1], reach)
            x = gutters[column - 1].right
    lines: list[list[tuple[Point, ...]]] = [[] for _ in range(nets)]
    joints: list[list[Point]] = [[] for _ in range(nets)]
    for number, gutter in gutters.items():
        for net, own in _by_net(pins, number).items():
            lane = chosen[number].get(net)
            at = gutter.first_lane + LANE * lane if lane is not None else None
            lines[net] += _lines(own, gutter, at)
            joints[net] += _joints(own, at)
    for one in stood:
        if one.item.card is None:
            start, width = columns[one.item.column]
            y = one.top + PASS / 2
            lines[one.item.net].append(((start, y), (start + width, y)))
    sockets = {pin.plug: (_edge(pin, gutters[pin.gutter]), pin.y) for pin in pins if pin.plug is not None}
    right = frozenset(pin.plug for pin in pins if pin.plug is not None and pin.from_left)
    height = max((one.top + one.item.height for one in stood), default=0.0)
    ways = tuple(map(tuple, lines))
    return Routed(stood, tuple(columns), sockets, right, ways, tuple(map(tuple, joints)), x, height)


def _by_net(pins: Sequence[Pin], gutter: int) -> dict[int, list[Pin]]:
    """The pins of one gutter by net, each net's from top to bottom."""
    found: dict[int, list[Pin]] = {}
    for pin in sorted(pins, key=lambda pin: (pin.y, not pin.from_left)):
        if pin.gutter == gutter:
            found.setdefault(pin.net, []).append(pin)
    return dict(sorted(found.items()))


def _gutter(
    left: float, pins: Sequence[Pin], number: int, chosen: Mapping[int, int], reach: Mapping[Plug, float]
) -> Gutter:
    """A gutter as wide as its lanes and what is written on both sides of them."""
    beside = {True: LANE, False: LANE}
    for pin in pins:
        if pin.gutter == number and pin.plug is not None:
            beside[pin.from_left] = max(beside[pin.from_left], reach[pin.plug])
    first = left + beside[True] + LANE / 2
    last = first + LANE * max(chosen.values(), default=0)
    return Gutter(left, max(last + LANE / 2 + beside[False], left + 2 * BETWEEN), first)


def _edge(pin: Pin, gutter: Gutter) -> float:
    return gutter.left if pin.from_left else gutter.right


def _lines(own: Sequence[Pin], gutter: Gutter, lane: float | None) -> Iterator[tuple[Point, ...]]:
    """From the highest pin along the lane to the lowest, then from each of the others to the lane."""
    ends = [(_edge(pin, gutter), pin.y) for pin in own]
    if lane is None:
        if len(ends) > 1:
            yield (ends[0], ends[-1])
        return
    (first, top), (last, bottom) = ends[0], ends[-1]
    yield ((first, top), (lane, top), (lane, bottom), (last, bottom))
    yield from ((end, (lane, end[1])) for end in ends[1:-1])


def _joints(own: Sequence[Pin], lane: float | None) -> Iterator[Point]:
    if lane is not None:
        yield from ((lane, pin.y) for pin in own[1:-1])
