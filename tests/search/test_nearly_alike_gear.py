"""Engines and strips that differ in one trait alone are not merged: each jam here has another answer if they are."""

import pytest

import solver
from solver.gear.box import Box
from solver.outcome import Planned
from solver.plans import Plan
from tests.building import Table, box, jam, named

P = {"p": {"on": "reef"}}
REVERB = {"treat": ["p"], "with": {"reverb": 10}}
DUCKED: Table = {"treat": ["p"], "with": {"ducking": 30}, "key": "kick"}


def planned(boxes: dict[str, Box], parts: dict[str, Table], *intents: Table, **keys: object) -> Plan:
    outcome = solver.plan(jam(boxes, parts, *intents, **keys))
    assert isinstance(outcome, Planned)
    return outcome.best


def desk(*strips: Table, **tables: list[Table]) -> Box:
    """A leader with a strip for each table given, on an inlet of its own, and three tracks."""
    plain = {
        "out": [named("MAIN", left="L", right="R"), named("AUX", mono="AUX")],
        "in_": [named(f"LINE {n}", mono=f"IN {n}") for n in range(1, len(strips) + 1)],
        "strip": [named(f"S {n}", from_=f"LINE {n}", **strip) for n, strip in enumerate(strips, start=1)],
        "track": [named(f"T {n}", channel=n, program_change=True) for n in (1, 2, 3)],
        "midi": [named("OUT", way="out")],
    }
    return box("Desk", **(plain | tables))


def reef(*engines: Table, **tables: list[Table]) -> Box:
    """A module with the engines given, all on channel 1 if they say nothing else."""
    plain = {
        "out": [named("MAIN", left="L", right="R"), named("A", mono="A")],
        "engine": [named(str(n), **engine) for n, engine in enumerate(engines, start=1)],
        "midi": [named("IN", way="in")],
    }
    return box("Reef", **(plain | tables))


@pytest.mark.parametrize(
    ("one", "other", "part", "intents"),
    [
        pytest.param({"sound": "drum"}, {"sound": "synth"}, {"sound": "synth"}, (), id="sound"),
        pytest.param({"to": ["A"]}, {"to": ["MAIN"]}, {}, ({"avoid": {"jacks": ["reef/A"]}},), id="to"),
        pytest.param({}, {"shift": 12}, {}, ({"layer": ["p", "q"], "shift": {"p": 12}},), id="shift"),
        pytest.param({}, {"program_change": True}, {}, ({"program": ["p"]},), id="program change"),
        pytest.param({}, {"offers": ["reverb"]}, {}, (REVERB,), id="offers"),
        pytest.param({}, {}, {"on": "reef/2"}, (), id="on"),
        pytest.param({}, {}, {}, ({"keep": {"part": "p", "engine": "reef/2"}},), id="keep"),
        pytest.param(
            {"channels": [1]}, {"channels": [1, 5]}, {}, ({"keep": {"part": "p", "channel": 5}},), id="channels"
        ),
    ],
)
def test_a_part_lives_on_the_engine_that_suits_it(one: Table, other: Table, part: Table, intents: tuple[Table]) -> None:
    layered = any("layer" in intent for intent in intents)
    parts = {"p": {"on": "reef"} | part} | ({"q": {"on": "reef"}} if layered else {})
    plan = planned({"desk": desk({}, {}), "reef": reef(one, other)}, parts, *intents)
    assert plan.parts["p"].engine == "reef/2"


def test_an_engine_that_stands_on_the_channel_need_not_be_moved() -> None:
    tracks = [named("T", channels=[2])]
    plan = planned({"desk": desk({}, track=tracks), "reef": reef({"channel": 1}, {"channel": 2})}, P)
    assert plan.parts["p"].engine == "reef/2"
    assert plan.goals is not None
    assert plan.goals.settings_moved == 0


def test_an_engine_that_can_be_off_is_left_without_a_part() -> None:
    plan = planned({"desk": desk({}), "reef": reef({"channels": [1], "can_be_off": True}, {"channels": [1]})}, P)
    assert plan.parts["p"].engine == "reef/2"
    assert plan.goals is not None
    assert plan.goals.silenced == 0


def test_engines_that_pan_keep_two_amounts_apart() -> None:
    parts = {part: {"on": "reef"} for part in ("p", "q")}
    other = {"treat": ["q"], "with": {"reverb": 20}}
    strips = [{"offers": ["reverb"]}] * 2
    plan = planned({"desk": desk(*strips), "reef": reef({"pan": "fixed"}, {}, {})}, parts, REVERB, other)
    assert {part.engine for part in plan.parts.values()} == {"reef/2", "reef/3"}


def test_the_engine_that_a_track_plays_is_the_one_it_plays() -> None:
    alone = box(
        "Dock",
        out=[named("MAIN", mono="OUT")],
        engine=[named("1", channels=[]), named("2", channels=[])],
        track=[named("T", channels=[], plays="2")],
    )
    assert planned({"dock": alone}, {"p": {}}).parts["p"].engine == "dock/2"


def test_the_engine_that_is_a_key_is_the_one_that_triggers() -> None:
    pads = [named("1"), named("2")]
    mixer = desk({"offers": ["ducking"], "key": ["2"]}, engine=pads, midi=[named("OUT", way="out")], track=[])
    mixer = mixer.model_copy(update={"ports": reef().ports})
    chief = box(
        "Chief", track=[named("A", channel=1), named("B", channel=2)], midi=[named(f"O{n}", way="out") for n in (1, 2)]
    )
    boxes = {"desk": mixer, "reef": reef({}), "chief": chief}
    plan = planned(boxes, P | {"kick": {"on": "desk"}}, DUCKED, leader="chief")
    assert plan.parts["kick"].engine == "desk/2"


LINE_CABLES = {"6.35 mono": 1, "din": 1}
PADS = {
    "engine": [named("1", channels=[]), named("2", channels=[])],
    "track": [named("T", channel=1), named("PADS", channels=[], plays="2")],
}


@pytest.mark.parametrize(
    ("one", "other", "intents", "keys"),
    [
        pytest.param({"to": ["AUX"]}, {"to": ["MAIN"]}, (), {}, id="to"),
        pytest.param({}, {"offers": ["reverb"]}, (REVERB,), {}, id="offers"),
        pytest.param(
            {"offers": ["ducking"], "key": ["1"]}, {"offers": ["ducking"], "key": ["2"]}, (DUCKED,), {}, id="key"
        ),
        pytest.param({}, {}, ({"avoid": {"jacks": ["desk/IN 1"]}},), {}, id="avoid"),
        pytest.param({}, {}, ({"keep": {"part": "p", "strip": "desk/S 2"}},), {}, id="keep strip"),
        pytest.param({}, {}, ({"keep": {"cable": ["reef/L", "desk/IN 2"]}},), {}, id="keep cable"),
        pytest.param(
            {"track": "PADS"}, {"track": "T"}, ({"match": ["p"]}, {"play": ["p"], "from": "desk/T"}), {}, id="track"
        ),
    ],
)
def test_a_part_enters_the_strip_that_suits_it(
    one: Table, other: Table, intents: tuple[Table], keys: dict[str, object]
) -> None:
    parts = P | ({"kick": {"on": "desk"}} if DUCKED in intents else {})
    plan = planned({"desk": desk(one, other, **PADS), "reef": reef({})}, parts, *intents, **keys)
    assert plan.parts["p"].strips == {"desk": ("S 2",)}


def test_strips_on_jacks_of_another_size_take_other_cables() -> None:
    lines = [named("LINE 1", mono="IN 1", plug="3.5"), named("LINE 2", mono="IN 2")]
    plan = planned({"desk": desk({}, {}, in_=lines), "reef": reef({})}, P, cables=LINE_CABLES)
    assert plan.cables[0].to == "desk/IN 2"


def test_strips_that_pan_keep_both_sides_of_a_stereo_part() -> None:
    boxes = {"desk": desk({"pan": "fixed"}, {}, {}), "reef": reef({})}
    assert planned(boxes, P, {"stereo": ["p"]}).parts["p"].strips == {"desk": ("S 2", "S 3")}


def test_an_inlet_is_merged_only_with_all_its_strips() -> None:
    lines = [named("LINE", left="IN 1", right="IN 2"), named("LINE 3", mono="IN 3")]
    strips = [
        named("S 1", from_="LINE/left"),
        named("S 2", from_="LINE/right", offers=["reverb"]),
        named("S 3", from_="LINE 3"),
    ]
    plan = planned({"desk": desk(in_=lines, strip=strips), "reef": reef({})}, P, REVERB)
    assert plan.parts["p"].strips == {"desk": ("S 2",)}


def test_a_stereo_jack_stays_a_stereo_jack() -> None:
    lines = [named(f"LINE {n}", stereo=f"IN {n}", plug="3.5") for n in (1, 2)]
    outs = [named("MAIN", stereo="OUT", plug="3.5")]
    drawer = {"3.5 stereo": 1, "din": 1}
    boxes = {"desk": desk({}, {}, in_=lines), "reef": reef({}, out=outs)}
    assert planned(boxes, P, {"stereo": ["p"]}, cables=drawer).parts["p"].strips == {"desk": ("S 1",)}


def test_a_strip_over_two_jacks_stays_one_strip() -> None:
    lines = [named(f"LINE {n}", left=f"IN {n}L", right=f"IN {n}R") for n in (1, 2)]
    plan = planned({"desk": desk({}, {}, in_=lines), "reef": reef({})}, P, {"stereo": ["p"]})
    assert plan.parts["p"].strips == {"desk": ("S 1",)}
    assert [cable.to for cable in plan.cables[:2]] == ["desk/IN 1L", "desk/IN 1R"]


def test_an_inlet_that_copies_is_not_two_strips_apart() -> None:
    lines = [named("LINE", left="IN 1", right="IN 2", alone="copy")]
    strips = [named("S 1", from_="LINE/left"), named("S 2", from_="LINE/right")]
    plan = planned({"desk": desk(in_=lines, strip=strips), "reef": reef({})}, P)
    assert plan.parts["p"].strips == {"desk": ("S 2",)}


def test_a_jack_that_feeds_two_strips_is_not_a_strip_of_its_own() -> None:
    lines = [named(f"LINE {n}", mono=f"IN {n}") for n in (1, 2)]
    strips = [named("S 1", from_="LINE 1"), named("S 1b", from_="LINE 1"), named("S 2", from_="LINE 2")]
    plan = planned({"desk": desk(in_=lines, strip=strips), "reef": reef({})}, P)
    assert plan.parts["p"].strips == {"desk": ("S 2",)}
