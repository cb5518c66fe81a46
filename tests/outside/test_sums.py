"""What sounds add up to: teaching pages of E. Sengpiel, and the down-mix of the W3C Web Audio API."""

import math

import pytest

from solver.flow.levels import HALF, decibels, in_step, unrelated
from solver.flow.sound_way import AtStrip
from tests.building import BASS, LEFT, NOTES, RIGHT, Table, dock_and_reef, plain_plan
from tests.flow.tracing import sound, traced
from tests.outside.checks import check

PAGES = "E. Sengpiel, calculator-leveladding and calculator-coherentsources (read in a secondary text; computed)"
SILENT = -math.inf
ABOUT = 0.0006


@check(
    "N equal sounds that are unrelated are 10 log N dB above one",
    source=PAGES,
    kind="published",
    right=[(1, 0.0), (2, 3.010), (3, 4.771), (4, 6.021), (8, 9.031), (16, 12.041)],
    wrong=(2, 6.021),
)
def test_unrelated_sounds(of: tuple[int, float]) -> None:
    number, db = of
    assert decibels(unrelated([1.0] * number)) == pytest.approx(db, abs=ABOUT)


@check(
    "N equal sounds in phase are 20 log N dB above one",
    source=PAGES,
    kind="published",
    right=[(1, 0.0), (2, 6.021), (3, 9.542), (4, 12.041), (8, 18.062), (16, 24.082)],
    wrong=(2, 3.010),
)
def test_sounds_in_phase(of: tuple[int, float]) -> None:
    number, db = of
    assert decibels(in_step([1.0] * number)) == pytest.approx(db, abs=ABOUT)


@check(
    "Of two unrelated sounds d dB apart the sum is 10 log (1 + 10^(-d/10)) dB above the louder",
    source=PAGES,
    kind="published",
    right=[(0, 3.010), (1, 2.539), (3, 1.764), (6, 0.973), (10, 0.414)],
    wrong=(6, 3.010),
)
def test_sounds_of_different_levels(of: tuple[float, float]) -> None:
    apart, db = of
    assert decibels(unrelated([1.0, 10 ** (-apart / 20)])) == pytest.approx(db, abs=ABOUT)


@check(
    "The trace of a plan says how loud N equal parts of a strip come: likely 10 log N, at worst 20 log N dB above one",
    source=PAGES,
    kind="published",
    right={"2 parts": (2, 3.010, 6.021)},
    wrong=(2, 6.021, 6.021),
)
def test_parts_that_share_a_strip(of: tuple[int, float, float]) -> None:
    number, likely, worst = of
    also: Table = BASS | {"engine": "reef/2"}
    layered = dock_and_reef({"layer": ["bass", "arp"]})
    plan = plain_plan([LEFT, RIGHT, NOTES], arp=also, engines={"reef/2": {"channel": 1}}, without=["kick"])
    (strip,) = [point for point in sound(traced(layered, plan)).points if isinstance(point, AtStrip)]
    assert len(strip.company.parts) == number
    assert (strip.company.likely, strip.company.worst) == pytest.approx((likely, worst), abs=ABOUT)


@check(
    "Both sides summed by half: equal ones stay as loud, one alone is 6.02 dB down, opposite ones cancel",
    source="W3C Web Audio API, down-mix of stereo to mono",
    kind="from memory",
    right={"equal": (1.0, 1.0, 0.0), "one side": (1.0, 0.0, -6.0206), "opposite": (1.0, -1.0, SILENT)},
    wrong=(1.0, 0.0, -3.0103),  # what a sum by the square root of half gives (ITU-R BS.775)
)
def test_sides_summed_to_mono(of: tuple[float, float, float]) -> None:
    left, right, db = of
    assert decibels(in_step([HALF * left, HALF * right])) == pytest.approx(db, abs=0.0001)


@check(
    "Unrelated sides summed by half come to 3.01 dB below one of them",
    source="W3C Web Audio API, down-mix of stereo to mono (computed)",
    kind="from memory",
    right={"unrelated": -3.0103},
    wrong=0.0,
)
def test_unrelated_sides_summed_to_mono(db: float) -> None:
    assert decibels(unrelated([HALF, HALF])) == pytest.approx(db, abs=0.0001)
