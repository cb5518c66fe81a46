"""What shares a strip, what it adds up to, and where to start with the strip's trim."""

from collections.abc import Iterator
from dataclasses import dataclass

from solver.flow.gains import Gains
from solver.flow.levels import decibels, in_step, unrelated
from solver.gear.words import Spot
from solver.jam.jam import Jam


@dataclass(frozen=True)
class Company:
    """The parts on one strip, with sums in dB against one engine.

    Attributes:
        parts: All that enter it, in file order.
        layered: Those that play in step with another one of them, as parts of one layer.
        likely: The sum if all of them are unrelated.
        worst: The sum if the parts of each layer are in phase, the layers unrelated.
        trim: Where to start with the strip's trim, 0 or less: the worst sum is then no louder than one engine.
    """

    parts: tuple[str, ...]
    layered: tuple[str, ...]
    likely: float
    worst: float
    trim: float


def company(jam: Jam, gains: Gains, strip: Spot) -> Company:
    """What shares a strip; at least one part has to enter it."""
    here = gains.strips[strip]
    groups = tuple(_groups(jam, here))
    worst = decibels(unrelated(in_step(here[part] for part in group) for group in groups))
    return Company(
        parts=tuple(here),
        layered=tuple(part for group in groups if len(group) > 1 for part in group),
        likely=decibels(unrelated(here.values())),
        worst=worst,
        trim=min(0.0, -worst),
    )


def _groups(jam: Jam, here: dict[str, float]) -> Iterator[list[str]]:
    """The parts that are here, layer by layer."""
    for layer in jam.layers:
        group = [part for part in here if part in layer]
        if group:
            yield group
