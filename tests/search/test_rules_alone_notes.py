"""Rules of notes and tracks: each refuses by itself what no goal would choose, or what a cut refuses too."""

import pytest

from solver.gear.words import Spot
from solver.jam.jam import Jam
from tests.building import Table, desk, dock_and_reef, module, named
from tests.search.rules_alone import allowed

BASS = ("bass",)
EXT_1, EXT_2 = Spot("dock", "EXT 1"), Spot("dock", "EXT 2")
ON_REEF: Table = {"on": "reef"}


def test_an_engine_holds_one_part_also_of_one_layer() -> None:
    layer = {"layer": ["bass", "arp"]}
    one = module(engine=[named("1", channel=1)])
    parts = {"bass": ON_REEF, "arp": ON_REEF}
    assert allowed(dock_and_reef(layer, parts=parts))
    assert not allowed(dock_and_reef(layer, parts=parts, reef=one))


@pytest.mark.parametrize(("channel", "fine"), [(1, True), (2, False)])
def test_a_track_sends_on_a_channel_that_it_has(channel: int, fine: bool) -> None:
    dock = desk(track=[named("EXT 1", channels=[1]), named("EXT 2", channels=[2])])
    asked = dock_and_reef(dock=dock, parts={"bass": ON_REEF})
    assert allowed(asked, lambda c: [c.plays(BASS, EXT_1), c.sends(BASS, channel)]) is fine


@pytest.mark.parametrize(("track", "fine"), [(EXT_1, True), (EXT_2, False)])
def test_the_track_of_a_program_sends_program_changes(track: Spot, fine: bool) -> None:
    asked = dock_and_reef({"program": ["bass"]}, parts={"bass": ON_REEF})
    assert allowed(asked, lambda c: [c.plays(BASS, track)]) is fine


@pytest.mark.parametrize(("track", "fine"), [(EXT_1, True), (EXT_2, False)])
def test_the_track_that_is_kept(track: Spot, fine: bool) -> None:
    asked = dock_and_reef({"keep": {"part": "bass", "track": "dock/EXT 1"}}, parts={"bass": ON_REEF})
    assert allowed(asked, lambda c: [c.plays(BASS, track)]) is fine


@pytest.mark.parametrize(("channel", "fine"), [(1, False), (3, True)])
def test_no_track_sends_on_a_channel_to_avoid(channel: int, fine: bool) -> None:
    asked = dock_and_reef({"avoid": {"channels": [1]}}, parts={"bass": ON_REEF})
    assert allowed(asked, lambda c: [c.sends(BASS, channel)]) is fine


@pytest.mark.parametrize("track", [{"track": "EXT 1"}, {}])
def test_a_part_that_matches_needs_a_strip_with_a_track(track: Table) -> None:
    dock = desk(strip=[named("IN 1", from_="LINE/left", **track)])
    asked = dock_and_reef({"match": ["bass"]}, dock=dock, parts={"bass": ON_REEF})
    assert allowed(asked) is bool(track)


def _crossed(player: str, **engines: list[int]) -> Jam:
    """A leader with these engines, the first played by a track of its own, and a module that has a track too."""
    dock = desk(
        engine=[named(name, channels=channels) for name, channels in engines.items()],
        track=[named("PADS", plays="PAD"), named("EXT 1")],
        strip=[named("IN 1", from_="LINE/left")],
    )
    midi = [named("MIDI IN", way="in"), named("MIDI OUT", way="out")]
    reef = module(engine=[named("1")], track=[named("T")], midi=midi)
    parts = {name.lower(): {"on": f"dock/{name}"} for name in engines} | {"bass": ON_REEF}
    return dock_and_reef({"play": [player], "from": "reef"}, dock=dock, reef=reef, parts=parts)


@pytest.mark.parametrize(("track", "fine"), [("EXT 1", True), ("PADS", False)])
def test_a_track_that_plays_an_engine_inside_its_box_plays_no_other_part(track: str, fine: bool) -> None:
    """The module's track plays the pad, so the pad's own track could play the bass but for this."""
    asked = _crossed("pad", PAD=[1, 2])
    assert allowed(asked, lambda c: [c.plays(BASS, Spot("dock", track))]) is fine


@pytest.mark.parametrize(("pad", "fine"), [([1, 2], True), ([1], False)])
def test_an_engine_that_is_played_inside_gets_out_of_the_way(pad: list[int], fine: bool) -> None:
    """The module's track plays the rim on channel 1, where the pad stands."""
    asked = _crossed("rim", PAD=pad, RIM=[1])
    assert allowed(asked, lambda c: [c.plays(("pad",), Spot("dock", "PADS"))]) is fine
