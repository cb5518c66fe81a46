"""One part from track to ears: its way, its levels, and where it goes silent."""

from typing import Any

import pytest

import solver
from solver.flow.followed import Followed
from solver.flow.sound_way import AtOutlet, AtStrip, OnCable
from solver.flow.trace import Trace
from solver.gear.words import Spot
from solver.outcome import Planned
from solver.reading import read_jam
from tests.building import (
    BASS,
    KICK,
    LEFT,
    NOTES,
    RIGHT,
    box,
    cable,
    desk,
    dock_and_reef,
    jam,
    lives,
    module,
    named,
    plain_plan,
    plan,
)
from tests.flow.tracing import at, both, levels, sound, traced
from tests.showing import SCENARIOS

CENTRE = -3.0103
"""Each side at centre (RP-036, published)."""

SIDE = -6.0206
"""One side of two that are summed by half (W3C Web Audio API, from memory)."""


@pytest.mark.parametrize("path", sorted(SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_every_part_of_every_scenario_is_traced_as_it_is_followed(path: Any) -> None:
    table = read_jam(path)
    outcome = solver.plan(table, time_limit=None)
    if not isinstance(outcome, Planned):
        assert path.stem == "short-rope"
        return
    followed = Followed(table, outcome.best)
    for part in table.parts:
        found = traced(table, outcome.best, part)
        assert found.heard and found.notes is not None
        assert sorted(sound(found).strips) == sorted(followed.sound.entered[part])
        ears = table.ears
        heard = {
            (side, voice)
            for side in followed.rig.outlets[ears].sides
            for voice in followed.sound.voices_on(ears, side, part)
        }
        assert {(level.side, level.voice) for level in sound(found).heard} == heard
        assert found.notes.inside or (found.notes.ways and found.notes.listens in (found.notes.channel, "all"))


def test_a_part_by_a_side_of_its_own() -> None:
    found = traced(dock_and_reef(), plain_plan())
    assert found.notes is not None
    assert [(hop.number, str(hop.source), str(hop.target)) for hop in found.notes.ways[0]] == [
        (3, "dock/MIDI OUT", "reef/MIDI IN")
    ]
    assert (found.notes.channel, found.notes.listens, found.notes.together) == (1, 1, ())
    assert at(found, "reef/MAIN") == {("left", "whole"): 0.0}
    assert at(found, "1") == {("left", "whole"): 0.0}
    assert at(found, "dock/IN 1") == {("left", "whole"): 0.0}
    assert levels(sound(found).heard) == both(CENTRE)
    assert sound(found).mono is None


def test_a_part_at_centre_over_a_jack_that_sums_loses_nothing_more() -> None:
    """The two equal sides, 3.01 dB down each, come to 3.01 dB down by half of each."""
    found = traced(dock_and_reef(), plain_plan([LEFT, NOTES], bass=BASS | {"pan": "centre"}))
    assert at(found, "reef/MAIN") == both(CENTRE)
    assert at(found, "dock/IN 1") == {("left", "whole"): CENTRE}


def test_a_part_on_one_side_loses_six_decibels_where_sides_are_summed() -> None:
    found = traced(dock_and_reef(), plain_plan([LEFT, NOTES]), "arp")
    assert at(found, "reef/MAIN") == {("right", "whole"): 0.0}
    assert at(found, "1") == {("left", "whole"): SIDE}
    assert levels(sound(found).heard) == both(CENTRE + SIDE)
    assert [point.sums for point in sound(found).points if isinstance(point, OnCable)] == [True]


def test_a_part_at_centre_taken_from_one_side_that_does_not_sum() -> None:
    reef = module(out=[named("MAIN", left="L/MONO", right="R")])
    found = traced(dock_and_reef(reef=reef), plain_plan([LEFT, NOTES], bass=BASS | {"pan": "centre"}))
    assert at(found, "dock/IN 1") == {("left", "whole"): CENTRE}


def test_an_inlet_that_copies_gives_both_sides_the_same() -> None:
    dock = desk(in_=[named("LINE", left="IN 1", right="IN 2", alone="copy")], strip=[named("S", from_="LINE")])
    found = traced(dock_and_reef(dock=dock), plain_plan([LEFT, NOTES], without=["arp"]))
    assert at(found, "1") == {("left", "whole"): SIDE}
    assert at(found, "dock/S") == both(SIDE)
    assert levels(sound(found).heard) == both(SIDE)
    assert [point.copies for point in sound(found).points if isinstance(point, OnCable)] == [True]


def test_mono_mains_sum_the_two_sides_by_half() -> None:
    """A sound on one side is 6.02 dB down, one at centre 3.01 (W3C Web Audio API, from memory; RP-036)."""
    table = dock_and_reef(mains="mono")
    hard = {"dock/IN 1": {"outlet": "MAIN", "pan": "left"}}
    assert sound(traced(table, plain_plan(strips=hard))).mono == pytest.approx(SIDE, abs=0.001)
    assert sound(traced(table, plain_plan())).mono == pytest.approx(CENTRE, abs=0.001)


def test_a_stereo_part_keeps_its_halves() -> None:
    found = traced(dock_and_reef({"stereo": ["bass"]}), plain_plan(bass=BASS | {"pan": "centre"}, without=["arp"]))
    assert at(found, "reef/MAIN") == {("left", "left"): 0.0, ("right", "right"): 0.0}
    assert at(found, "dock/IN 2") == {("right", "right"): 0.0}


def test_a_stereo_part_in_mono_mains() -> None:
    """Its unrelated halves come to 3.01 dB below one of them (W3C Web Audio API, from memory; computed)."""
    table = dock_and_reef({"stereo": ["bass"]}, mains="mono")
    wide = {f"dock/IN {n}": {"outlet": "MAIN", "pan": side} for n, side in ((1, "left"), (2, "right"))}
    found = traced(table, plain_plan(bass=BASS | {"pan": "centre"}, without=["arp"], strips=wide))
    assert sound(found).mono == pytest.approx(-3.0103, abs=0.001)


def test_a_part_inside_the_box_of_the_ears() -> None:
    found = traced(dock_and_reef(), plain_plan(), "kick")
    assert found.notes is not None and found.notes.inside
    assert found.notes.ways == ()
    assert levels(sound(found).heard) == both(CENTRE)


def _shared(found: Trace) -> Any:
    return next(point.company for point in sound(found).points if isinstance(point, AtStrip))


def test_unrelated_sounds_on_a_strip() -> None:
    """Two equal sounds: 3.01 dB above one (Sengpiel, secondary text), here each 6.02 down by the sum."""
    shared = _shared(traced(dock_and_reef(), plain_plan([LEFT, NOTES])))
    assert (shared.parts, shared.layered) == (("bass", "arp"), ())
    assert (shared.likely, shared.worst) == pytest.approx((SIDE + 3.0103,) * 2, abs=0.001)
    assert shared.trim == 0.0


@pytest.mark.parametrize(("count", "apart", "together"), [(2, 3.010, 6.021), (3, 4.771, 9.542), (4, 6.021, 12.041)])
def test_parts_of_a_layer_on_a_strip_may_be_in_phase(count: int, apart: float, together: float) -> None:
    """10 log N unrelated, 20 log N at worst (Sengpiel, secondary text; computed)."""
    names = [f"p{number}" for number in range(count)]
    reef = module(engine=[named(name, channel=1) for name in names], out=[named("MAIN", mono="OUT")])
    dock = desk(in_=[named("LINE", mono="IN")], strip=[named("IN", from_="LINE")], engine=[], track=[named("EXT 1")])
    parts = {name: lives(f"reef/{name}", "dock/EXT 1", 1) for name in names}
    leads = [cable("6.35 mono", "reef/OUT", "dock/IN"), NOTES]
    layer = jam({"dock": dock, "reef": reef}, names, {"layer": names})
    shared = _shared(traced(layer, plan(parts, leads), "p0"))
    assert (shared.parts, shared.layered) == (tuple(names), tuple(names))
    assert (shared.likely, shared.worst, shared.trim) == pytest.approx((apart, together, -together), abs=0.001)
    loose = _shared(traced(jam({"dock": dock, "reef": reef}, names), plan(parts, leads), "p0"))
    assert (loose.layered, loose.worst) == ((), pytest.approx(apart, abs=0.001))


def test_notes_by_two_ways_are_both_told() -> None:
    reef = module(midi=[named("MIDI IN", way="in"), named("IN 2", way="in")])
    dock = desk(midi=[named("MIDI OUT", way="out"), named("OUT 2", way="out")])
    twice = plain_plan([LEFT, RIGHT, NOTES, cable("din", "dock/OUT 2", "reef/IN 2")])
    found = traced(dock_and_reef(dock=dock, reef=reef), twice)
    assert found.notes is not None
    assert [[hop.number for hop in way] for way in found.notes.ways] == [[3], [4]]


def test_where_else_a_sound_goes_is_aside() -> None:
    dock = desk(out=[named("MAIN", left="L", right="R"), named("PHONES", stereo="PH", mirrors="MAIN")])
    found = traced(dock_and_reef(dock=dock), plain_plan())
    assert [str(point.outlet) for point in sound(found).aside] == ["dock/PHONES"]
    assert sound(found).aside[0].mirrors == Spot("dock", "MAIN")
    assert {point.outlet for point in sound(found).points if isinstance(point, AtOutlet)} == {
        Spot("reef", "MAIN"),
        Spot("dock", "MAIN"),
    }


def test_all_voices_follow_even_where_sides_lead_into_each_other() -> None:
    """What is present by the levels is what the follower says, for both halves in a ring of sides."""
    mixer = box(
        "Mixer",
        out=[named("MAIN", left="L", right="R")],
        in_=[named("LINE", left="A", right="B")],
        strip=[named("A", from_="LINE/left", pan="sides"), named("B", from_="LINE/right", pan="sides")],
    )
    table = jam({"dock": desk(), "mix": mixer, "reef": module()}, ("bass", "kick"), {"stereo": ["bass"]})
    cables = [
        cable("6.35 mono", "reef/L/MONO", "mix/A"),
        cable("6.35 mono", "reef/R", "mix/B"),
        cable("6.35 mono", "mix/L", "mix/B"),
        cable("6.35 mono", "mix/R", "mix/A"),
        NOTES,
    ]
    strips = {"mix/A": {"outlet": "MAIN", "pan": "left"}, "mix/B": {"outlet": "MAIN", "pan": "right"}}
    broken = plan({"bass": BASS | {"pan": "centre"}, "kick": KICK}, cables, strips=strips)
    followed = Followed(table, broken)
    found = traced(table, broken)
    for point in sound(found).points:
        if isinstance(point, AtOutlet):
            said = {(level.side, level.voice) for level in point.levels}
            sides = followed.rig.outlets[point.outlet].sides
            assert said == {(s, v) for s in sides for v in followed.sound.voices_on(point.outlet, s, "bass")}
