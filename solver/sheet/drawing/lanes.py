"""Which lane of a gutter each cable takes on its way up or down, so that few cross and none lies on another."""

from collections.abc import Mapping, Sequence

from solver.sheet.drawing.stacking import CLEAR, Pin

ROUNDS = 4
"""How often each cable looks for a better place among the others."""


def lanes(pins: Mapping[int, Sequence[Pin]]) -> dict[int, int]:
    """The lane of each cable that needs one, counted from 0 at the left; cables with no height in common share lanes.

    Args:
        pins: Where each cable enters one gutter.
    """
    turning = [net for net, own in pins.items() if len({pin.y for pin in own}) > 1]
    turning.sort(key=lambda net: (sum(pin.y for pin in pins[net]) / len(pins[net]), net))
    reach = {net: _Reach(pins[net]) for net in turning}
    found: dict[int, int] = {}
    for net in _sifted(turning, reach):
        found[net] = max((lane + 1 for other, lane in found.items() if reach[net].meets(reach[other])), default=0)
    return found


class _Reach:
    """How far up and down a cable goes in a gutter, and where it leaves to the left and to the right."""

    def __init__(self, pins: Sequence[Pin]) -> None:
        heights = [pin.y for pin in pins]
        self.top, self.bottom = min(heights), max(heights)
        self.left = [pin.y for pin in pins if pin.from_left]
        self.right = [pin.y for pin in pins if not pin.from_left]

    def meets(self, other: "_Reach") -> bool:
        """Whether the two cannot share a lane."""
        return self.top < other.bottom + CLEAR and other.top < self.bottom + CLEAR

    def crossings(self, other: "_Reach") -> int:
        """How often the two cross where this one has the lane further to the left."""
        return sum(other.top < y < other.bottom for y in self.right) + sum(
            self.top < y < self.bottom for y in other.left
        )


def _sifted(sequence: Sequence[int], reach: Mapping[int, _Reach]) -> list[int]:
    """The sequence after each cable has moved to where it crosses the fewest others, some times over."""
    cost = {(one, other): reach[one].crossings(reach[other]) for one in sequence for other in sequence}
    best = list(sequence)
    for _ in range(ROUNDS):
        before = list(best)
        for net in sequence:
            best.remove(net)
            crossed = sum(cost[net, other] for other in best)
            costs = [crossed]
            for other in best:
                crossed += cost[other, net] - cost[net, other]
                costs.append(crossed)
            best.insert(costs.index(min(costs)), net)
        if best == before:
            break
    return best
