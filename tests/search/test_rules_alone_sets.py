"""What is tied in a set is at the value that a jam needs: the rules alone refuse any other."""

from collections.abc import Callable
from typing import Any

import pytest

from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.search.choices import Choices
from solver.search.ground import Place, Value
from solver.search.model import Lit
from tests.building import Table, desk, dock_and_reef, module, named
from tests.search.rules_alone import allowed, strip

PAN, LEVEL = {"stored": {"pan": "box"}}, {"stored": {"level": "box"}}
"""One thing that the box stores ties all of it; the rest may still be other in each jam."""
EFFECTS: Table = {"offers": ["ducking", "reverb"], "key": ["PAD", "RIM"]}
TWO_WAYS: Table = {"to": ["MAIN", "AUX"]}
IN_1, PAD, EXT_1 = Spot("dock", "IN 1"), Spot("dock", "PAD"), Spot("dock", "EXT 1")
REEF_1, REEF_2 = Spot("reef", "1"), Spot("reef", "2")
BASS, RIM = ("bass",), ("rim",)

Said = Callable[[Choices], list[Lit]]


def _jam(*wishes: Table, **keys: Any) -> Jam:
    """A desk with two pads, one of them tied, and a module whose first engine is tied and whose second can be off."""
    dock = desk(
        out=[named("MAIN", left="OUT L", right="OUT R"), named("AUX", mono="AUX")],
        strip=[named("IN 1", from_="LINE/left", **EFFECTS, **TWO_WAYS, **PAN)],
        engine=[named("PAD", channels=[1, 2], offers=["reverb"], **PAN), named("RIM", channels=[1])],
        track=[named("PADS", plays="PAD"), named("RIMS", plays="RIM"), named("EXT 1", stored={"channel": "box"})],
    )
    reef = module(
        out=[named("MAIN", left="L", right="R"), named("AUX", mono="AUX")],
        engine=[
            named("1", channel=1, shift=24, **TWO_WAYS, **PAN),
            named("2", channel=2, can_be_off=True, **LEVEL),
        ],
        track=[named("T")],
        midi=[named("MIDI IN", way="in"), named("MIDI OUT", way="out")],
    )
    parts = {"kick": {"on": "dock/PAD"}, "rim": {"on": "dock/RIM"}, "bass": {"on": "reef/1"}}
    return dock_and_reef(*wishes, dock=dock, reef=reef, **{"parts": parts} | keys)


def _is(place: Place, value: Value, said: Said) -> Said:
    """All that is said holds, and the setting is at the value."""
    return lambda choices: [*said(choices), choices.state(place, value)]


def _over_strip(choices: Choices) -> list[Lit]:
    """The bass goes over the strip and stands at its centre."""
    return [choices.enters("bass", IN_1), choices.pans(IN_1, "centre")]


def _plain(choices: Choices) -> list[Lit]:
    """The bass leaves by the first outlet at centre."""
    return [choices.leaves("bass", Spot("reef", "MAIN")), choices.panned("bass", "centre")]


def _wet(choices: Choices) -> list[Lit]:
    return [choices.enters("bass", IN_1), choices.amounts(strip("dock/IN 1"), "reverb")[20]]


def _on_3(choices: Choices) -> list[Lit]:
    return [choices.plays(BASS, EXT_1), choices.sends(BASS, 3)]


def _rim_on_1(choices: Choices) -> list[Lit]:
    return [choices.sends(RIM, 1)]


def _treat(part: str, key: str | None = None, **amounts: int) -> Table:
    return {"treat": [part], "with": amounts} | ({"key": key} if key is not None else {})


REVERB, DUCKING = _treat("bass", reverb=20), _treat("bass", "kick", ducking=30)
SHIFT = {"layer": ["bass"], "shift": {"bass": -12}}
RIM_FROM_REEF = {"play": ["rim"], "from": "reef"}
AVOID_3 = {"avoid": {"channels": [3]}}


CASES: dict[str, tuple[Table, Said, Place, Value, Value]] = {
    "outlet of a strip": ({}, _over_strip, Place("strip", IN_1, "outlet"), "MAIN", "AUX"),
    "pan of a strip": ({}, _over_strip, Place("strip", IN_1, "pan"), "centre", "left"),
    "amount of a strip": (REVERB, _wet, Place("strip", IN_1, "reverb"), 20, 0),
    "amount that nobody wants": ({}, _over_strip, Place("strip", IN_1, "reverb"), 0, 20),
    "key": (DUCKING, _over_strip, Place("strip", IN_1, "key"), "PAD", "RIM"),
    "outlet of an engine": ({}, _plain, Place("engine", REEF_1, "outlet"), "MAIN", "AUX"),
    "pan of an engine": ({}, _plain, Place("engine", REEF_1, "pan"), "centre", "left"),
    "level of an engine": ({}, _plain, Place("engine", REEF_1, "level"), "up", "zero"),
    "shift": (SHIFT, _plain, Place("engine", REEF_1, "shift"), -12, 0),
    "amount of an engine": (_treat("kick", reverb=20), _plain, Place("engine", PAD, "reverb"), 20, 0),
    "channel of a track": ({}, _on_3, Place("track", EXT_1, "channel"), 3, 1),
    "channel of an engine": ({}, _on_3, Place("engine", REEF_1, "channel"), 3, 1),
    "level of a free engine that can be off": ({}, _plain, Place("engine", REEF_2, "level"), "up", "zero"),
    "channel to avoid": (AVOID_3, _plain, Place("engine", REEF_2, "channel"), 4, 3),
    "channel out of the way": (RIM_FROM_REEF, _rim_on_1, Place("engine", PAD, "channel"), 2, 1),
}


@pytest.mark.parametrize("case", CASES)
def test_a_tied_setting_is_as_the_jam_needs_it(case: str) -> None:
    """The second jam has an amount and a shift that the first could be left at."""
    wish, said, place, right, wrong = CASES[case]
    one = _jam(wish) if wish else _jam()
    asked = JamSet("Set", {"one": one, "two": _jam(REVERB, SHIFT)})
    assert allowed(asked, _is(place, right, said))
    assert not allowed(asked, _is(place, wrong, said))


@pytest.mark.parametrize(("level", "fine"), [("zero", True), ("up", False)])
def test_an_engine_without_a_part_that_its_track_plays_inside_is_at_zero(level: str, fine: bool) -> None:
    one = _jam(parts={"bass": {"on": "reef/1"}})
    asked = JamSet("Set", {"one": one, "two": one})
    played = _is(Place("engine", PAD, "level"), level, lambda c: [c.plays(BASS, Spot("dock", "PADS"))])
    assert allowed(asked, played) is fine


@pytest.mark.parametrize(("parts", "fine"), [({"kick": {"on": "dock/PAD"}}, True), ({"bass": {"on": "reef/1"}}, False)])
def test_a_strip_that_carries_nothing_may_be_left_anywhere(parts: Table, fine: bool) -> None:
    one = _jam(parts=parts)
    asked = JamSet("Set", {"one": one, "two": one})
    stands = _is(Place("strip", IN_1, "outlet"), "AUX", lambda c: [c.emits(IN_1, Spot("dock", "MAIN"))])
    assert allowed(asked, stands) is fine
