"""Which parts a cable carries."""

from typing import Any

import pytest

from solver.sheet.carried import carried
from tests.sheet.low_tide import BARGE, PLAN, TILLER, low_tide, plan_of

LEFT = {"kind": "6.35 mono", "from": "barge/L/MONO", "to": "tiller/IN 1"}
RIGHT = {"kind": "6.35 mono", "from": "barge/R", "to": "tiller/IN 2"}


def panned(bass: str, arp: str) -> dict[str, Any]:
    return {
        "kick": PLAN["parts"]["kick"],
        "bass": {**PLAN["parts"]["bass"], "pan": bass},
        "arp": {**PLAN["parts"]["arp"], "pan": arp},
    }


def on(
    *cables: dict[str, Any],
    bass: str = "left",
    arp: str = "right",
    tiller: dict[str, Any] = TILLER,
    barge: dict[str, Any] = BARGE,
) -> list[Any]:
    jam = low_tide(boxes={"tiller": tiller, "barge": barge}, cables=None)
    return carried(jam, plan_of(cables=cables, parts=panned(bass, arp)))


@pytest.mark.parametrize(
    ("bass", "arp", "expected"),
    [
        ("left", "right", [("bass",), ("arp",)]),
        ("centre", "right", [("bass",), ("bass", "arp")]),
        ("left", "left", [("bass", "arp"), ()]),
    ],
)
def test_a_side_is_on_its_own_jack(bass: str, arp: str, expected: list[tuple[str, ...]]) -> None:
    assert on(LEFT, RIGHT, bass=bass, arp=arp) == expected


def test_a_left_jack_alone_sums_only_where_the_box_says_so() -> None:
    assert on(LEFT) == [("bass", "arp")]
    assert on(RIGHT) == [("arp",)]
    own = {**BARGE, "out": [{**BARGE["out"][0], "alone": "own"}]}
    assert on(LEFT, barge=own) == [("bass",)]


def test_a_stereo_jack_and_a_mirror_carry_both_sides() -> None:
    phones = {"name": "PHONES", "stereo": "PHONES", "mirrors": "MAIN"}
    barge = {**BARGE, "out": [*BARGE["out"], phones]}
    breakout = {"kind": "6.35 stereo > 2x 6.35 mono", "from": "barge/PHONES", "to": ["tiller/IN 1", "tiller/IN 2"]}
    assert on(breakout, barge=barge) == [("bass", "arp")]


def test_two_legs_that_send_carry_what_either_carries() -> None:
    breakout = {"kind": "6.35 stereo > 2x 6.35 mono", "from": ["barge/L/MONO", "barge/R"], "to": "tiller/AUX"}
    tiller = {**TILLER, "in": [*TILLER["in"], {"name": "AUX", "stereo": "AUX"}]}
    assert on(breakout, tiller=tiller) == [("bass", "arp")]


def test_parts_go_on_from_the_strips_they_pass() -> None:
    onward = {"kind": "6.35 mono", "from": "tiller/MAIN L", "to": "barge/AUX"}
    barge = {**BARGE, "in": [{"name": "AUX", "mono": "AUX"}]}
    assert on(LEFT, RIGHT, onward, barge=barge)[2:] == [("kick", "bass", "arp")]


def test_a_midi_cable_carries_no_sound() -> None:
    assert on({"kind": "din", "from": "tiller/MIDI OUT", "to": "barge/MIDI IN"}) == [()]
