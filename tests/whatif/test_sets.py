"""What a change of a set does: the wiring once, what boxes store once, then what each jam does differently."""

from typing import Any

import solver
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, PlannedSet
from solver.whatif.compared_sets import WhatIfSet
from solver.whatif.difference import Place
from tests.building import desk, jam, module, named

DUCKED = {"treat": ["bass"], "with": {"ducking": 50}, "key": "kick"}


def _desk() -> Box:
    """A desk whose strips keep their ducking for all projects."""
    strips = [
        named(f"IN {n}", from_=f"LINE/{side}", offers=["ducking"], key=["PAD"], stored={"ducking": "box"})
        for n, side in ((1, "left"), (2, "right"))
    ]
    return desk(strip=strips)


def _jam(parts: dict[str, Any], *wishes: dict[str, Any]) -> Jam:
    return jam({"dock": _desk(), "reef": module()}, parts, *wishes)


KICK, BASS = {"kick": {"on": "dock/PAD"}}, {"bass": {"on": "reef/1"}}


def _asked(before: dict[str, Jam], after: dict[str, Jam], **asked: Any) -> WhatIfSet:
    return solver.what_if(JamSet("Set", before), JamSet("Set", after), time_limit=None, **asked)


def test_a_stored_amount_that_a_part_still_passes_goes_back_to_zero() -> None:
    ducked, plain, other = _jam(KICK | BASS, DUCKED), _jam(KICK | BASS), _jam(BASS)
    found = _asked({"a": ducked, "b": other}, {"a": plain, "b": other})
    assert found.wiring is not None
    told = {turn.place: (turn.old, turn.new) for turn in found.wiring.settings}
    assert [change for place, change in told.items() if place.what == "ducking"] == [(50, 0)]


def test_what_no_jam_needs_any_more_is_left() -> None:
    """Without the only jam that passes the strip, its ducking is of no account."""
    found = _asked({"a": _jam(KICK | BASS, DUCKED), "b": _jam(KICK)}, {"b": _jam(KICK)})
    assert found.wiring is not None
    ducking = [turn for turn in found.wiring.settings if turn.place.what == "ducking"]
    assert [(turn.old, turn.new) for turn in ducking] == [(50, None)]


def test_a_jam_that_joins_leaves_the_others_as_they_are() -> None:
    first = _jam(KICK | BASS, DUCKED)
    found = _asked({"a": first, "b": _jam(BASS)}, {"a": first, "b": _jam(BASS), "c": _jam({"arp": {"on": "reef/2"}})})
    assert isinstance(found.had, PlannedSet)
    assert isinstance(found.has, PlannedSet)
    assert found.has.best.cables == found.had.best.cables
    assert found.jams is not None
    assert all(found.jams[file].settings == () and not found.jams[file].parts for file in ("a", "b"))
    assert found.jams["c"].parts


def test_an_idle_engine_that_had_to_move_for_a_jam_stays_where_it_is_when_that_jam_goes() -> None:
    stored = [named(str(n), channel=1, stored={"channel": "box"}) for n in (1, 2)]
    boxes = {"dock": desk(), "reef": module(engine=stored)}
    low, high = jam(boxes, {"bass": {"on": "reef/1"}}), jam(boxes, {"arp": {"on": "reef/2"}})
    found = _asked({"a": low, "b": high, "c": low}, {"a": low, "c": low})
    assert found.wiring is not None
    assert not any(turn.place == Place("reef", "engine", "2", "channel") for turn in found.wiring.settings)


def test_a_set_that_becomes_impossible_says_which_jams_cannot_share_a_wiring() -> None:
    boxes = {"dock": desk(), "reef": module(), "cove": module()}
    wide = jam(boxes, {"bass": {"on": "reef"}, "arp": {"on": "reef"}}, {"separate": ["bass", "arp"]})
    mixed = jam(boxes, {"bass": {"on": "reef"}, "arp": {"on": "cove"}}, {"separate": ["bass", "arp"]})
    found = _asked({"a": wide}, {"a": wide, "b": mixed})
    assert isinstance(found.had, PlannedSet)
    assert isinstance(found.has, Impossible)
    assert found.why is not None
    assert [one.files for one in found.why.clashes] == [("a", "b")]
