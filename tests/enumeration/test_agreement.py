"""The planner agrees with trying everything, on many tiny jams: possible or not, at what cost, and by the rules."""

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from solver.jam.jam import Jam
from tests.enumeration.agreement import Compared, compare, report
from tests.enumeration.rigs import seeded
from tests.enumeration.sweep import sweep

BATCH = 25
"""Jams in one test, so that tests run side by side."""


def _agrees(jam: Jam, compared: Compared, seed: int) -> None:
    if compared.differences:
        pytest.fail(f"seed {seed} of rigs.seeded\n{report(jam, compared)}", pytrace=False)


@pytest.mark.parametrize("first", range(0, 10 * BATCH, BATCH))
def test_the_planner_agrees_with_trying_everything(first: int) -> None:
    possible = 0
    for seed, jam, compared in sweep(range(first, first + BATCH)):
        _agrees(jam, compared, seed)
        possible += compared.tried is not None
    assert 0 < possible < BATCH


@given(st.integers(min_value=1_000_000, max_value=2**32))
@settings(
    max_examples=80,
    deadline=None,
    derandomize=True,
    database=None,
    phases=(Phase.generate,),
    suppress_health_check=[HealthCheck.too_slow],
)
def test_the_planner_agrees_on_jams_from_anywhere(seed: int) -> None:
    jam = seeded(seed)
    _agrees(jam, compare(jam), seed)
