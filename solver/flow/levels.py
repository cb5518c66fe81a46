"""Levels: the pan law, what sounds add up to, and decibels. A gain is a ratio of amplitudes, 1 for unchanged."""

import math
from collections.abc import Iterable

from solver.gear.words import Pan

PAN_VALUES: dict[Pan, int] = {"left": 0, "centre": 64, "right": 127}
"""Controller 10 hard to the left, in the middle and hard to the right (RP-036)."""

HALF = 0.5
"""The gain of each side where two are summed into one, so that two equal sides come out as loud as one.

No standard says how a box sums. This is the down-mix of the W3C Web Audio API (from memory); a plain sum is 6 dB
louder.
"""


def pan_gains(value: int) -> tuple[float, float]:
    """The gains of left and right at a value of controller 10, 0 to 127 (RP-036, MMA 2002; GM2 3.3.5)."""
    angle = math.pi / 2 * max(0, value - 1) / 126
    return (math.cos(angle) if value < 127 else 0.0), math.sin(angle)  # the float cosine of a right angle is not 0


CENTRE = pan_gains(PAN_VALUES["centre"])[0]
"""The gain on each side at centre, 3.01 dB down."""


def decibels(gain: float) -> float:
    """A gain in dB; minus infinity for silence."""
    return 20 * math.log10(gain) if gain > 0 else -math.inf


def unrelated(gains: Iterable[float]) -> float:
    """What unrelated sounds add up to: powers add, so N equal ones are 10 log10 N dB above one (Sengpiel)."""
    return math.sqrt(math.fsum(gain * gain for gain in gains))


def in_step(gains: Iterable[float]) -> float:
    """What sounds add up to at worst, in phase: N equal ones are 20 log10 N dB above one (Sengpiel)."""
    return math.fsum(gains)
