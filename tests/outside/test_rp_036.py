"""RP-036, Default Pan Formula (MIDI Manufacturers Association and AMEI, 2002)."""

import math

import pytest

from solver.flow.levels import PAN_VALUES, decibels, pan_gains
from solver.flow.sound_way import AtOutlet
from solver.gear.words import Spot
from tests.building import BASS, LEFT, NOTES, RIGHT, dock_and_reef, plain_plan
from tests.flow.tracing import sound, traced
from tests.outside.checks import check

PAPER = "RP-036, Default Pan Formula"
SILENT = -math.inf


@check(
    "The gains of both sides in dB: 20 log cos and 20 log sin of a right angle times (v - 1) / 126",
    source=f"{PAPER}; values between the named ones computed from its formula",
    kind="published",
    right={
        "0, hard left": (0, 0.0, SILENT),
        "1, hard left too": (1, 0.0, SILENT),
        "2": (2, -0.001, -38.085),
        "32": (32, -0.665, -8.475),
        "63": (63, -2.903, -3.120),
        "64, the centre": (64, -3.0103, -3.0103),
        "65": (65, -3.120, -2.903),
        "96": (96, -8.475, -0.665),
        "127, hard right": (127, SILENT, 0.0),
    },
    wrong=(64, -3.064, -2.957),  # what v / 127 would give
)
def test_gains(of: tuple[int, float, float]) -> None:
    value, left, right = of
    assert tuple(map(decibels, pan_gains(value))) == pytest.approx((left, right), abs=0.0006)


@check(
    "The power is the same wherever a sound is panned, and v and 128 - v are mirror images",
    source=f"{PAPER} (follows from its formula)",
    kind="published",
    right={"128": 128},
    wrong=127,
)
def test_power_and_mirror(mirror: int) -> None:
    for value in range(1, 127):
        left, right = pan_gains(value)
        assert left**2 + right**2 == pytest.approx(1)
        assert pan_gains(mirror - value) == pytest.approx((right, left))


@check(
    "Left, centre and right of a plan are 0, 64 and 127 of controller 10",
    source=f"{PAPER}; controller 10 by MIDI 1.0 Detailed Specification 4.2.1, Table III",
    kind="published",
    right={"places": (0, 64, 127)},
    wrong=(0, 63, 127),
)
def test_the_places_of_a_plan(places: tuple[int, int, int]) -> None:
    assert tuple(PAN_VALUES[pan] for pan in ("left", "centre", "right")) == places


@check(
    "A part of a plan leaves its outlet at these levels",
    source=f"{PAPER}",
    kind="published",
    right={
        "left": ("left", {"left": 0.0}),
        "centre": ("centre", {"left": -3.0103, "right": -3.0103}),
        "right": ("right", {"right": 0.0}),
    },
    wrong=("centre", {"left": -6.0206, "right": -6.0206}),
)
def test_levels_of_a_part(of: tuple[str, dict[str, float]]) -> None:
    pan, levels = of
    found = traced(dock_and_reef(), plain_plan([LEFT, RIGHT, NOTES], bass=BASS | {"pan": pan}, without=["arp"]))
    (outlet,) = [
        point for point in sound(found).points if isinstance(point, AtOutlet) and point.outlet == Spot("reef", "MAIN")
    ]
    assert {level.side: level.db for level in outlet.levels} == pytest.approx(levels, abs=0.0001)
