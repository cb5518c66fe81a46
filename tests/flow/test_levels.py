"""Levels against published values; each check names its source and how sure it is."""

import math
from itertools import pairwise

import pytest

from solver.flow.levels import CENTRE, HALF, PAN_VALUES, decibels, in_step, pan_gains, unrelated

SILENT = -math.inf


@pytest.mark.parametrize(
    ("value", "left", "right"),
    [
        # RP-036 (MMA 2002), GM2 3.3.5: published formula; the values between are computed from it
        (0, 0.0, SILENT),
        (1, 0.0, SILENT),
        (2, -0.001, -38.085),
        (32, -0.665, -8.475),
        (63, -2.903, -3.120),
        (64, -3.0103, -3.0103),
        (65, -3.120, -2.903),
        (96, -8.475, -0.665),
        (127, SILENT, 0.0),
    ],
)
def test_the_pan_law(value: int, left: float, right: float) -> None:
    assert tuple(map(decibels, pan_gains(value))) == pytest.approx((left, right), abs=0.0006)


@pytest.mark.parametrize("value", range(1, 128))
def test_pan_keeps_the_power_and_is_mirrored_about_64(value: int) -> None:
    """Follows from the published formula of RP-036: the mirror of v is 128 - v, not 127 - v."""
    left, right = pan_gains(value)
    assert left**2 + right**2 == pytest.approx(1)
    assert pan_gains(128 - value) == pytest.approx((right, left))


def test_pan_moves_to_the_right_all_the_way() -> None:
    assert all(one[0] > other[0] and one[1] < other[1] for one, other in pairwise(map(pan_gains, range(1, 128))))


def test_the_places_that_a_plan_pans_to() -> None:
    """Controller 10: 0 left, 64 centre, 127 right (MIDI 1.0 table III and RP-036, published)."""
    assert PAN_VALUES == {"left": 0, "centre": 64, "right": 127}
    assert decibels(CENTRE) == pytest.approx(-3.0103, abs=0.0001)


@pytest.mark.parametrize(
    ("number", "apart", "together"),
    [
        # E. Sengpiel's teaching pages, read in a secondary text, and computed
        (1, 0.0, 0.0),
        (2, 3.010, 6.021),
        (3, 4.771, 9.542),
        (4, 6.021, 12.041),
        (8, 9.031, 18.062),
        (16, 12.041, 24.082),
    ],
)
def test_equal_sounds_add_up(number: int, apart: float, together: float) -> None:
    assert decibels(unrelated([1.0] * number)) == pytest.approx(apart, abs=0.0006)
    assert decibels(in_step([1.0] * number)) == pytest.approx(together, abs=0.0006)


@pytest.mark.parametrize(("apart", "gain"), [(0, 3.010), (1, 2.539), (3, 1.764), (6, 0.973), (10, 0.414)])
def test_unequal_sounds_add_up(apart: float, gain: float) -> None:
    """10 log10(1 + 10^(-d/10)), computed."""
    assert decibels(unrelated([1.0, 10 ** (-apart / 20)])) == pytest.approx(gain, abs=0.0006)


@pytest.mark.parametrize(
    ("left", "right", "db"),
    [
        # half of each side, as the W3C Web Audio API mixes down (from memory), computed
        (1.0, 1.0, 0.0),
        (1.0, 0.0, -6.0206),
        (1.0, -1.0, SILENT),
    ],
)
def test_both_sides_summed_into_one(left: float, right: float, db: float) -> None:
    assert decibels(in_step([HALF * left, HALF * right])) == pytest.approx(db, abs=0.0001)


def test_unrelated_sides_summed_into_one() -> None:
    """3 dB down (W3C Web Audio API, from memory; computed)."""
    assert decibels(unrelated([HALF, HALF])) == pytest.approx(-3.0103, abs=0.0001)
