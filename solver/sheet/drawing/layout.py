"""The arrangement with the fewest crossings that sweeps over the columns, and then single exchanges, find."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import cycle, islice, pairwise
from typing import TypeVar

from solver.sheet.drawing.cards import Item, Shape, pass_of
from solver.sheet.drawing.columns import Columns
from solver.sheet.drawing.labels import Written
from solver.sheet.drawing.routes import Routed, routed
from solver.sheet.drawing.stacking import stacked
from solver.sheet.drawing.told import Card, Net, Plug

SWEEPS = 8
"""How often cards and sockets are put in order by where their cables lead."""
TRIES, EFFORT = 400, 150_000
"""How many exchanges of neighbours are tried at most; with many cables as many as this over their number squared."""
TALLEST = 1.3
"""How many times as high as wide a drawing may be for the sake of straight cables; a sheet of A4 is 1.41 times."""

T = TypeVar("T")
Name = str | int
"""A card by its box, or a passing cable by its net."""


@dataclass(frozen=True)
class Order:
    """What stands above what: the items of each column, and the plugs on each edge of each card."""

    columns: tuple[tuple[Name, ...], ...]
    edges: tuple[tuple[Plug, ...], ...]

    def neighbours(self) -> list[tuple[int, int]]:
        """Every two that stand one above the other: the column or edge, edges counted first, and the upper's place."""
        stacks: tuple[tuple[object, ...], ...] = (*self.edges, *self.columns)
        return [(stack, place) for stack, things in enumerate(stacks) for place in range(len(things) - 1)]

    def exchanged(self, stack: int, place: int) -> "Order":
        """The order after two neighbours have changed places."""
        if stack < len(self.edges):
            return Order(self.columns, _with(self.edges, stack, place))
        return Order(_with(self.columns, stack - len(self.edges), place), self.edges)


def _with(stacks: tuple[tuple[T, ...], ...], stack: int, place: int) -> tuple[tuple[T, ...], ...]:
    things = stacks[stack]
    things = (*things[:place], things[place + 1], things[place], *things[place + 2 :])
    return (*stacks[:stack], things, *stacks[stack + 1 :])


class Layout:
    """Finds a place for everything.

    Args:
        cards: The boxes.
        nets: The cables.
        columns: Where the boxes stand.
        said: What is written at each plug.
    """

    def __init__(
        self, cards: Mapping[str, Card], nets: Sequence[Net], columns: Columns, said: Mapping[Plug, Written]
    ) -> None:
        self._cards, self._columns = cards, columns
        self._nets, self._reach = nets, {plug: one.reach for plug, one in said.items()}
        self._shapes = {box: Shape(card, columns, nets, said) for box, card in cards.items()}

    def best(self) -> Routed:
        """Straight cables where the page has room for them, else low rows."""
        for even in (True, False):
            order, found = self._swept(even)
            if not even or found.height <= found.width * TALLEST:
                break
        return self._climbed(order, found, even)

    def _swept(self, even: bool) -> tuple[Order, Routed]:
        """The best of the orders that come of putting everything beside what it is joined to, over and over."""
        orders = [self._given()]
        found = [self._routed(orders[0], even)]
        for _ in range(SWEEPS):
            orders.append(self._led(orders[-1], found[-1]))
            found.append(self._routed(orders[-1], even))
        costs = [*map(_cost, found)]
        place = costs.index(min(costs))
        return orders[place], found[place]

    def _climbed(self, order: Order, best: Routed, even: bool) -> Routed:
        """The best after exchanges of neighbours, as long as one makes it better."""
        cost, tries = _cost(best), min(TRIES, EFFORT // max(len(self._nets) ** 2, 1))
        neighbours = order.neighbours()
        unchanged = 0
        for stack, place in islice(cycle(neighbours), tries):
            unchanged += 1
            tried = order.exchanged(stack, place)
            found = self._routed(tried, even)
            if stack >= len(order.edges) and _cost(found) >= cost:  # sockets may have to follow their cards
                tried = Order(tried.columns, self._led(tried, found).edges)
                found = self._routed(tried, even)
            if _cost(found) < cost:
                order, best, cost, unchanged = tried, found, _cost(found), 0
            if unchanged == len(neighbours):
                break
        return best

    def _given(self) -> Order:
        """The order of the files, then the cables that pass."""
        columns: list[list[Name]] = [[] for _ in range(self._columns.count)]
        for box in self._cards:
            columns[self._columns.of[box]].append(box)
        for net, passed in enumerate(self._columns.passes):
            for column in passed:
                columns[column].append(net)
        edges = [
            tuple(plug for plug in card.plugs if self._columns.on_left_edge(plug) is left)
            for card in self._cards.values()
            for left in (True, False)
        ]
        return Order(tuple(map(tuple, columns)), tuple(edge for edge in edges if edge))

    def _routed(self, order: Order, even: bool) -> Routed:
        rank = {plug: place for plugs in order.edges for place, plug in enumerate(plugs)}
        items: list[list[Item]] = [
            [pass_of(name, column) if isinstance(name, int) else self._shapes[name].item(rank, even) for name in names]
            for column, names in enumerate(order.columns)
        ]
        return routed(stacked(items), self._columns.count, len(self._nets), self._reach)

    def _led(self, order: Order, found: Routed) -> Order:
        """Everything in the order of the middle heights of what it is joined to."""
        heights: dict[int, list[tuple[Plug | None, float]]] = defaultdict(list)
        for one in found.stood:
            for pin in one.pins():
                heights[pin.net].append((pin.plug, pin.y))
        wanted = {
            plug: _middle([y for other, y in heights[plug.net] if other != plug])
            for plugs in order.edges
            for plug in plugs
        }
        middles: dict[tuple[int, Name], float] = {}
        for one in found.stood:
            card = one.item.card
            if card is None:
                middles[one.item.column, one.item.net] = _middle([y for _, y in heights[one.item.net]])
            else:
                middles[one.item.column, card.box] = _middle([wanted[plug] for plug in card.plugs] or [one.top])
        return Order(
            tuple(
                tuple(sorted(names, key=lambda name: middles[column, name]))
                for column, names in enumerate(order.columns)
            ),
            tuple(tuple(sorted(plugs, key=lambda plug: wanted[plug])) for plugs in order.edges),
        )


def _middle(heights: Sequence[float]) -> float:
    return sum(heights) / len(heights)


def _cost(found: Routed) -> tuple[int, float, float]:
    """How often cables cross, how high the drawing is, and how long the cables are in all."""
    upright: list[tuple[int, float, float, float]] = []
    level: list[tuple[int, float, float, float]] = []
    for net, lines in enumerate(found.ways):
        for (x, y), (u, v) in (pair for line in lines for pair in pairwise(line)):
            if x == u:
                upright.append((net, x, min(y, v), max(y, v)))
            else:
                level.append((net, y, min(x, u), max(x, u)))
    crossed = sum(
        net != other and left < x < right and top < y < bottom
        for net, x, top, bottom in upright
        for other, y, left, right in level
    )
    length = sum(most - least for _, _, least, most in (*upright, *level))
    return crossed, round(found.height, 3), round(length, 3)
