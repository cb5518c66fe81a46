"""The rules of tracks."""

from typing import Any

import pytest

from solver.gear.box import Box
from solver.rules.tracks import Matches, OneTrack, ProgramChanges, Shifts
from tests.building import (
    ARP,
    BASS,
    KICK,
    LEFT,
    NOTES,
    RIGHT,
    breaches,
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

LAYER = {"layer": ["bass", "arp"]}
TOGETHER = ARP | {"track": "dock/EXT 1", "channel": 1}


def test_a_track_for_each_part() -> None:
    assert breaches(OneTrack, dock_and_reef(), plain_plan()) == []


def test_a_layer_on_one_track() -> None:
    assert breaches(OneTrack, dock_and_reef(LAYER), plain_plan(arp=TOGETHER)) == []
    assert breaches(OneTrack, dock_and_reef(LAYER), plain_plan()) == [
        "dock/EXT 1 and dock/EXT 2 play bass and arp, one track plays a layer"
    ]


def test_two_layers_on_one_track() -> None:
    assert breaches(OneTrack, dock_and_reef(), plain_plan(arp=TOGETHER)) == [
        "dock/EXT 1 plays bass and arp, which are not one layer"
    ]


def test_layers_that_share_a_part_are_one() -> None:
    table = dock_and_reef({"layer": ["kick", "bass"]}, LAYER)
    one = plain_plan(kick=KICK | {"track": "dock/EXT 1", "channel": 1}, arp=TOGETHER)
    assert breaches(OneTrack, table, one) == []
    assert breaches(OneTrack, table, plain_plan(arp=TOGETHER)) == [
        "dock/PADS and dock/EXT 1 play kick, bass and arp, one track plays a layer"
    ]


def _sequencer() -> Box:
    return module(track=[named("T1"), named("T2")])


def test_the_leader_plays_unless_you_say_otherwise() -> None:
    own = plain_plan(bass=BASS | {"track": "reef/T1"})
    assert breaches(OneTrack, dock_and_reef(reef=_sequencer()), own) == ["reef/T1 plays bass, dock should"]


@pytest.mark.parametrize(
    ("source", "track", "said"),
    [
        ("reef", "reef/T1", []),
        ("reef", "dock/EXT 1", ["dock/EXT 1 plays bass, reef should"]),
        ("reef/T2", "reef/T2", []),
        ("reef/T2", "reef/T1", ["reef/T1 plays bass, reef/T2 should"]),
    ],
)
def test_another_box_or_track_plays(source: str, track: str, said: list[str]) -> None:
    table = dock_and_reef({"play": ["bass"], "from": source}, reef=_sequencer())
    assert breaches(OneTrack, table, plain_plan(bass=BASS | {"track": track})) == said


def test_who_plays_a_part_plays_its_layer() -> None:
    table = dock_and_reef(LAYER, {"play": ["arp"], "from": "reef"}, reef=_sequencer())
    on_reef = {"track": "reef/T1", "channel": 1}
    assert breaches(OneTrack, table, plain_plan(bass=BASS | on_reef, arp=ARP | on_reef)) == []
    assert breaches(OneTrack, table, plain_plan(arp=TOGETHER)) == ["dock/EXT 1 plays bass and arp, reef should"]


def test_two_wishes_of_who_plays_hold_both() -> None:
    table = dock_and_reef({"play": ["bass"], "from": "reef"}, {"play": ["bass"], "from": "dock"}, reef=_sequencer())
    assert breaches(OneTrack, table, plain_plan()) == ["dock/EXT 1 plays bass, reef should"]


PROGRAM = {"program": ["bass"]}


def test_program_changes_reach_the_engine() -> None:
    assert breaches(ProgramChanges, dock_and_reef(PROGRAM), plain_plan()) == []


def test_a_track_that_sends_no_program_changes() -> None:
    swapped = plain_plan(bass=BASS | {"track": "dock/EXT 2", "channel": 1})
    assert breaches(ProgramChanges, dock_and_reef(PROGRAM), swapped) == [
        "dock/EXT 2 plays bass and sends no program changes"
    ]


def test_an_engine_that_obeys_no_program_changes() -> None:
    reef = module(engine=[named("1", channel=1), named("2", channel=2)])
    assert breaches(ProgramChanges, dock_and_reef(PROGRAM, reef=reef), plain_plan()) == [
        "reef/1 holds bass and obeys no program changes"
    ]


def _layered(obeys: bool) -> dict[str, Any]:
    reef = module(engine=[named("1", channel=1, program_change=True), named("2", program_change=obeys)])
    return {"reef": reef}


def test_a_program_change_that_switches_another_part_too() -> None:
    both_on_one = plain_plan(arp=TOGETHER, engines={"reef/2": {"channel": 1}})
    assert breaches(ProgramChanges, dock_and_reef(PROGRAM, LAYER, **_layered(True)), both_on_one) == [
        "program changes for bass also switch reef/2 with arp"
    ]
    assert breaches(ProgramChanges, dock_and_reef(PROGRAM, LAYER, **_layered(False)), both_on_one) == []
    named_too = {"program": ["bass", "arp"]}
    assert breaches(ProgramChanges, dock_and_reef(named_too, LAYER, **_layered(True)), both_on_one) == []
    apart = plain_plan(engines={"reef/2": {"channel": 2}})
    assert breaches(ProgramChanges, dock_and_reef(PROGRAM, **_layered(True)), apart) == []


DOWN = {"layer": ["bass", "arp"], "shift": {"bass": -12}}


def _shifted(shift: int, engine: str = "reef/1") -> Any:
    return plain_plan(engines={engine: {"channel": 1, "shift": shift}})


def test_a_shift_as_wanted() -> None:
    assert breaches(Shifts, dock_and_reef(DOWN), _shifted(-12)) == []
    assert breaches(Shifts, dock_and_reef(), plain_plan()) == []


@pytest.mark.parametrize("shift", [0, 12])
def test_another_shift_than_wanted(shift: int) -> None:
    assert breaches(Shifts, dock_and_reef(DOWN), _shifted(shift)) == [f"reef/1 is shifted by {shift}, bass wants -12"]


def test_a_shift_that_nobody_wants() -> None:
    assert breaches(Shifts, dock_and_reef(), _shifted(7)) == ["reef/1 is shifted by 7, bass wants 0"]
    unused = plain_plan(without=["bass"], engines={"reef/1": {"channel": 1, "shift": 7}})
    assert breaches(Shifts, dock_and_reef(), unused) == ["reef/1 is shifted by 7, it has no part"]


@pytest.mark.parametrize(("reach", "fits"), [(12, True), (11, False)])
def test_a_shift_beyond_the_reach_of_the_engine(reach: int, fits: bool) -> None:
    reef = module(engine=[named("1", shift=reach), named("2", channel=2)])
    said = [] if fits else ["reef/1 is shifted by -12, it can shift by 11 either way"]
    assert breaches(Shifts, dock_and_reef(DOWN, reef=reef), _shifted(-12)) == said


def test_two_shifts_for_one_part() -> None:
    up = {"layer": ["bass", "arp"], "shift": {"bass": 12}}
    assert breaches(Shifts, dock_and_reef(DOWN, up), _shifted(-12)) == ["reef/1 is shifted by -12, bass wants 12"]


MATCH = {"match": ["bass"]}


def test_the_track_of_the_strip_plays_the_part() -> None:
    assert breaches(Matches, dock_and_reef(MATCH), plain_plan()) == []


def test_the_strip_belongs_to_another_track() -> None:
    crossed = [cable("6.35 mono", "reef/L/MONO", "dock/IN 2"), cable("6.35 mono", "reef/R", "dock/IN 1"), NOTES]
    assert breaches(Matches, dock_and_reef(MATCH), plain_plan(crossed)) == [
        "dock/EXT 1 plays bass, its strip in dock belongs to dock/EXT 2"
    ]


def test_the_track_that_plays_the_engine_inside_its_box() -> None:
    table = dock_and_reef({"match": ["kick"]})
    assert breaches(Matches, table, plain_plan()) == []
    assert breaches(Matches, table, plain_plan(kick=lives("dock/PAD", "dock/EXT 1", 1))) == [
        "dock/EXT 1 plays kick, it neither plays dock/PAD inside its box nor has a strip of kick"
    ]


def test_a_strip_without_a_track_is_no_match() -> None:
    dock = desk(strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right")])
    assert breaches(Matches, dock_and_reef(MATCH, dock=dock), plain_plan()) == [
        "dock/EXT 1 plays bass, it neither plays reef/1 inside its box nor has a strip of bass"
    ]


def test_a_module_with_a_track_for_its_engine_and_a_strip_without_one() -> None:
    dock = desk(strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right")])
    reef = module(track=[named("T1", plays="1")])
    table = dock_and_reef(MATCH, {"play": ["bass"], "from": "reef"}, dock=dock, reef=reef)
    assert breaches(Matches, table, plain_plan(bass=BASS | {"track": "reef/T1"})) == []


def test_one_of_a_stereo_parts_strips_is_enough() -> None:
    table = dock_and_reef(MATCH, {"stereo": ["bass"]}, parts=("bass",))
    for track, count in (("EXT 1", 0), ("EXT 2", 0), ("PADS", 1)):
        wide = plan({"bass": lives("reef/1", f"dock/{track}", 1)}, [LEFT, RIGHT, NOTES])
        assert len(breaches(Matches, table, wide)) == count


def test_a_strip_that_leads_nowhere_has_no_track_that_matters() -> None:
    dock = desk(strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right", track="EXT 2")])
    reef = module(
        out=[
            named("MAIN", left="L/MONO", right="R", alone="sum"),
            named("PHONES", left="PH L", right="PH R", mirrors="MAIN"),
        ]
    )
    cove = desk(strip=[named("IN 1", from_="LINE/left", track="EXT 1")])
    boxes = {"dock": dock, "reef": reef, "cove": cove}
    table = jam(boxes, ("kick", "bass", "arp"), {"match": ["bass"]}, {"play": ["bass"], "from": "cove"})
    aside = cable("6.35 mono", "reef/PH L", "cove/IN 1")
    played = plain_plan([LEFT, RIGHT, NOTES, aside], bass=BASS | {"track": "cove/EXT 1"})
    assert breaches(Matches, table, played) == [
        "cove/EXT 1 plays bass, no strip with a track carries bass to where you listen"
    ]
