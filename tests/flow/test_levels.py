"""Levels as such; tests/outside compares them with published values."""

from itertools import pairwise

import pytest

from solver.flow.levels import CENTRE, PAN_VALUES, decibels, pan_gains


def test_pan_moves_to_the_right_all_the_way() -> None:
    assert all(one[0] > other[0] and one[1] < other[1] for one, other in pairwise(map(pan_gains, range(1, 128))))


def test_centre_is_the_gain_of_either_side_in_the_middle() -> None:
    assert pan_gains(PAN_VALUES["centre"]) == pytest.approx((CENTRE, CENTRE))


def test_silence_has_no_level() -> None:
    assert decibels(0) == -float("inf")
