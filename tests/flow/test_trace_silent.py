"""Where a part goes silent in a broken plan."""

from typing import Any

import pytest

from solver.flow.stops import Stop
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.building import (
    BASS,
    LEFT,
    NOTES,
    RIGHT,
    box,
    cable,
    desk,
    dock_and_reef,
    jam,
    module,
    named,
    plain_plan,
    plan,
)
from tests.flow.tracing import sound, traced

CENTRE = -3.0103
"""Each side at centre (RP-036, published)."""

SIDE = -6.0206
"""One side of two that are summed by half (W3C Web Audio API, from memory)."""


@pytest.mark.parametrize(
    ("changed", "stop"),
    [
        ({"cables": [LEFT, RIGHT]}, Stop("no cable", "dock/MIDI OUT")),
        (
            {"cables": [LEFT, RIGHT, NOTES], "engines": {"reef/1": {"channel": 7}}},
            Stop("other channel", "reef/1", ("1", "7")),
        ),
        (
            {"cables": [LEFT, RIGHT, NOTES], "engines": {"reef/1": {"channel": "off"}}},
            Stop("other channel", "reef/1", ("1", "off")),
        ),
        (
            {"cables": [LEFT, RIGHT, NOTES], "engines": {"reef/1": {"channel": 1, "level": "zero"}}},
            Stop("level at zero", "reef/1"),
        ),
        ({"bass": BASS | {"channel": None}}, Stop("not sent", "dock/EXT 1")),
        ({"bass": BASS | {"track": "reef/T"}}, Stop("not inside", "reef/T", ("reef/1",))),
        ({"cables": [RIGHT, NOTES]}, Stop("no plug", "reef/MAIN", ("reef/L/MONO",))),
        ({"bass": BASS | {"outlet": "AUX"}}, Stop("no plug", "reef/AUX", ("reef/A L",))),
        (
            {"cables": [cable("6.35 mono", "reef/L/MONO", "dock/IN 3"), RIGHT, NOTES]},
            Stop("no strip", "dock/IN 3"),
        ),
        (
            {"cables": [cable("6.35 stereo", "reef/L/MONO", "dock/SPDIF"), RIGHT, NOTES]},
            Stop(
                "wrong cable",
                "reef/MAIN",
                ("the 6.35 stereo cable from reef/L/MONO to dock/SPDIF", "no cable joins these jacks"),
            ),
        ),
        (
            {"cables": [LEFT, RIGHT, cable("din", "dock/MIDI OUT", "reef/MIDI THRU")]},
            Stop(
                "wrong cable",
                "dock/MIDI OUT",
                ("the din cable from dock/MIDI OUT to reef/MIDI THRU", "reef/MIDI THRU takes nothing in"),
            ),
        ),
    ],
)
def test_a_broken_plan_is_silent_at_the_right_point(changed: dict[str, Any], stop: Stop) -> None:
    aux = named("AUX", left="A L", right="A R")
    reef = module(out=[named("MAIN", left="L/MONO", right="R", alone="sum"), aux], track=[named("T")])
    inlets = [named("LINE", left="IN 1", right="IN 2"), named("SPARE", mono="IN 3"), named("DIGITAL", stereo="SPDIF")]
    found = traced(dock_and_reef(reef=reef, dock=desk(in_=inlets)), plain_plan(**changed))
    assert found.stops == (stop,)
    assert not found.heard


def test_a_sound_that_ends_at_every_plug_is_told_at_each() -> None:
    found = traced(dock_and_reef(), plain_plan([NOTES], bass=BASS | {"pan": "centre"}))
    assert found.stops == (Stop("no plug", "reef/MAIN", ("reef/L/MONO", "reef/R")),)


def test_notes_that_no_port_sends() -> None:
    found = traced(dock_and_reef(dock=desk(midi=[named("MIDI IN", way="in")])), plain_plan([LEFT, RIGHT]))
    assert found.stops == (Stop("no port", "dock/EXT 1"),)


def test_notes_that_go_elsewhere() -> None:
    pool = box("Pool", midi=[named("IN", way="in")])
    table = jam({"dock": desk(), "reef": module(), "pool": pool}, ("bass",))
    found = traced(table, plan({"bass": BASS}, [LEFT, cable("din", "dock/MIDI OUT", "pool/IN")]))
    assert found.stops == (Stop("no way on", "pool/IN", ("reef",)),)


def test_a_part_that_the_plan_leaves_out() -> None:
    found = traced(dock_and_reef(), plain_plan(without=["bass"]))
    assert (found.stops, found.notes, found.sound) == ((Stop("not in the plan", "bass"),), None, None)


def _ring() -> tuple[Jam, Plan]:
    """A module into one mixer, which goes round with another; both play notes round as well."""
    ports = [named("IN", way="in"), named("THRU", way="thru", copies="IN")]
    mixer = box(
        "Mixer",
        out=[named("MAIN", mono="OUT")],
        in_=[named("A", mono="A"), named("B", mono="B")],
        strip=[named("A", from_="A"), named("B", from_="B")],
        midi=ports,
    )
    table = jam(
        {"dock": desk(), "one": mixer, "two": mixer, "reef": module(out=[named("MAIN", mono="OUT")])}, ("bass",)
    )
    cables = [
        cable("6.35 mono", "reef/OUT", "one/A"),
        cable("6.35 mono", "one/OUT", "two/A"),
        cable("6.35 mono", "two/OUT", "one/B"),
        cable("din", "one/THRU", "two/IN"),
        cable("din", "two/THRU", "one/IN"),
        NOTES,
    ]
    return table, plan({"bass": BASS}, cables)


def test_sound_that_goes_round_ends_and_is_told() -> None:
    found = traced(*_ring())
    assert found.stops == (Stop("round", "one/B"),)
    assert sound(found).round == Spot("one", "B")
    assert len(sound(found).points) == 10
    assert {str(strip) for strip in sound(found).strips} == {"one/A", "one/B", "two/A"}
