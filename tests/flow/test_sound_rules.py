"""The rules of outlets, pans, what cables carry, and loops."""

from typing import Any

import pytest

from solver.rules.sound import AloneCopies, AloneSums, CablesCarry, NoSoundLoops, Outlets
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    RIGHT,
    box,
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

TWO_OUTLETS = [named("MAIN", left="L/MONO", right="R"), named("AUX", mono="AUX"), named("CUE", mono="CUE")]


def test_engines_and_strips_on_outlets_and_pans_that_they_have() -> None:
    settled = plain_plan(strips={"dock/IN 1": {"outlet": "MAIN", "pan": "left"}})
    assert breaches(Outlets, dock_and_reef(), settled) == []


def test_an_engine_on_an_outlet_out_of_reach() -> None:
    reef = module(out=TWO_OUTLETS, engine=[named("1", to=["MAIN", "CUE"]), named("2")])
    there = plain_plan(bass=BASS | {"outlet": "CUE", "pan": "centre"})
    assert breaches(Outlets, dock_and_reef(reef=reef), there) == []
    beyond = plain_plan(bass=BASS | {"outlet": "AUX", "pan": "centre"}, arp=ARP | {"outlet": "CUE"})
    assert breaches(Outlets, dock_and_reef(reef=reef), beyond) == [
        "reef/1 with bass goes to reef/AUX, it can go to reef/MAIN and reef/CUE",
        "reef/2 with arp goes to reef/CUE, it can go to reef/MAIN",
    ]


def test_a_strip_on_an_outlet_out_of_reach() -> None:
    dock = desk(out=[named("MAIN", left="OUT L", right="OUT R"), named("CUE", mono="CUE")])
    beyond = plain_plan(strips={"dock/IN 1": {"outlet": "CUE"}})
    assert breaches(Outlets, dock_and_reef(dock=dock), beyond) == ["dock/IN 1 goes to dock/CUE, it can go to dock/MAIN"]


def test_a_fixed_pan() -> None:
    reef = module(engine=[named("1", pan="fixed"), named("2", pan="sides")])
    assert breaches(Outlets, dock_and_reef(reef=reef), plain_plan(bass=BASS | {"pan": "centre"})) == []
    assert breaches(Outlets, dock_and_reef(reef=reef), plain_plan()) == [
        "reef/1 with bass is panned left, it stays at centre"
    ]


@pytest.mark.parametrize("strip", [named("IN", from_="LINE"), named("IN", from_="LINE/left", pan="fixed")])
def test_a_stereo_strip_and_a_fixed_strip_stay_at_centre(strip: dict[str, Any]) -> None:
    table = dock_and_reef(dock=desk(strip=[strip]))
    assert breaches(Outlets, table, plain_plan(strips={"dock/IN": {"outlet": "MAIN"}})) == []
    moved = plain_plan(strips={"dock/IN": {"outlet": "MAIN", "pan": "right"}})
    assert breaches(Outlets, table, moved) == ["dock/IN is panned right, it stays at centre"]


def _claims(bass: dict[str, list[str]], arp: dict[str, list[str]], **keys: Any) -> Any:
    return plain_plan(bass=BASS | {"strips": bass}, arp=ARP | {"strips": arp}, **keys)


def test_a_plan_that_says_the_strips_that_sound_enters() -> None:
    assert breaches(CablesCarry, dock_and_reef(), _claims({"dock": ["IN 1"]}, {"dock": ["IN 2"], "reef": []})) == []


def test_a_plan_that_says_nothing_of_strips() -> None:
    assert breaches(CablesCarry, dock_and_reef(), plain_plan()) == []


def test_a_strip_that_a_part_enters_unsaid_or_does_not_enter() -> None:
    crossed = _claims({"dock": ["IN 2"]}, {})
    assert breaches(CablesCarry, dock_and_reef(), crossed) == [
        "bass enters dock/IN 1, the plan says dock/IN 2",
        "arp enters dock/IN 2, the plan says no strip of dock",
    ]


def test_strips_are_said_in_file_order() -> None:
    doubled = plain_plan(bass=BASS | {"pan": "centre", "strips": {"dock": ["IN 2", "IN 1"]}})
    assert breaches(CablesCarry, dock_and_reef(), doubled) == [
        "bass enters dock/IN 1 and dock/IN 2, the plan says dock/IN 2 and dock/IN 1"
    ]


def test_left_stays_left_on_a_stereo_plug() -> None:
    table = dock_and_reef(
        reef=module(out=[named("MAIN", stereo="OUT", plug="3.5")]),
        dock=desk(
            in_=[named("LINE", stereo="IN", plug="3.5")],
            strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right")],
        ),
    )
    stereo = [cable("3.5 stereo", "reef/OUT", "dock/IN"), NOTES]
    assert breaches(CablesCarry, table, _claims({"dock": ["IN 1"]}, {"dock": ["IN 2"]}, cables=stereo)) == []
    assert breaches(CablesCarry, table, _claims({"dock": ["IN 2"]}, {"dock": ["IN 1"]}, cables=stereo)) != []


def test_a_left_jack_alone_carries_both_sides_where_the_outlet_sums() -> None:
    told = _claims({"dock": ["IN 1"]}, {"dock": ["IN 1"]}, cables=[LEFT, NOTES])
    untold = _claims({"dock": ["IN 1"]}, {}, cables=[LEFT, NOTES])
    for rule in (AloneSums, CablesCarry, AloneCopies):
        assert breaches(rule, dock_and_reef(), told) == []
    assert breaches(AloneSums, dock_and_reef(), untold) == [
        "arp also enters dock/IN 1 over a left jack that carries both sides while the right one is empty, "
        "the plan says no strip of dock"
    ]
    assert breaches(CablesCarry, dock_and_reef(), untold) == []


def test_a_left_jack_carries_its_own_side_where_the_outlet_does_not_sum() -> None:
    table = dock_and_reef(reef=module(out=[named("MAIN", left="L/MONO", right="R", alone="own")]))
    told = _claims({"dock": ["IN 1"]}, {}, cables=[LEFT, NOTES])
    assert breaches(AloneSums, table, told) == []
    assert breaches(CablesCarry, table, told) == []


def test_a_plug_in_the_right_jack_ends_the_sum_wherever_it_leads() -> None:
    third = box("Sink", in_=[named("AUX", mono="AUX")], out=[named("MAIN", mono="OUT")])
    table = jam({"dock": desk(), "reef": module(), "sink": third}, ("kick", "bass", "arp"))
    cables = [LEFT, cable("6.35 mono", "reef/R", "sink/AUX"), NOTES]
    assert breaches(CablesCarry, table, _claims({"dock": ["IN 1"]}, {}, cables=cables)) == []


def test_the_right_jack_alone_carries_its_own_side() -> None:
    told = _claims({}, {"dock": ["IN 2"]}, cables=[RIGHT, NOTES])
    assert breaches(CablesCarry, dock_and_reef(), told) == []


def test_a_left_jack_alone_feeds_both_sides_where_the_inlet_copies() -> None:
    copying = [named("LINE", left="IN 1", right="IN 2", alone="copy")]
    table = dock_and_reef(dock=desk(in_=copying), reef=module(out=[named("MAIN", left="L/MONO", right="R")]))
    told = _claims({"dock": ["IN 1", "IN 2"]}, {}, cables=[LEFT, NOTES])
    untold = _claims({"dock": ["IN 1"]}, {}, cables=[LEFT, NOTES])
    for rule in (AloneCopies, CablesCarry, AloneSums):
        assert breaches(rule, table, told) == []
    assert breaches(AloneCopies, table, untold) == [
        "bass also enters dock/IN 2 over a left jack that feeds both sides while the right one is empty, "
        "the plan says dock/IN 1"
    ]
    assert breaches(CablesCarry, table, untold) == []
    both = _claims({"dock": ["IN 1"]}, {"dock": ["IN 2"]})
    assert breaches(AloneCopies, table, both) == []


def _chain(*names: str) -> dict[str, Any]:
    passing = box(
        "Passing",
        out=[named("MAIN", mono="OUT"), named("SEND", mono="SEND")],
        in_=[named("LINE", mono="IN"), named("RETURN", mono="RETURN")],
        strip=[named("IN", from_="LINE")],
        engine=[named("1")],
        track=[named("T")],
    )
    return dict.fromkeys(names, passing)


def test_cables_that_lead_on_make_no_loop() -> None:
    table = jam(_chain("a", "b", "c"), ("bass",))
    onward = [cable("6.35 mono", "c/OUT", "b/IN"), cable("6.35 mono", "b/OUT", "a/IN")]
    assert breaches(NoSoundLoops, table, plan({"bass": lives("c/1", "a/T", 1)}, onward)) == []


@pytest.mark.parametrize(
    ("ends", "said"),
    [
        ([("a/OUT", "a/IN")], "a > a"),
        ([("a/OUT", "b/IN"), ("b/OUT", "a/IN")], "a > b > a"),
        ([("a/SEND", "b/RETURN"), ("b/SEND", "c/RETURN"), ("c/SEND", "a/RETURN")], "a > b > c > a"),
    ],
)
def test_cables_that_lead_back_to_a_box_whatever_the_strips_do(ends: list[tuple[str, str]], said: str) -> None:
    table = jam(_chain("a", "b", "c"), ("bass",))
    looped = plan({"bass": lives("c/1", "a/T", 1)}, [cable("6.35 mono", *pair) for pair in ends])
    assert breaches(NoSoundLoops, table, looped) == [f"audio cables lead in a loop: {said}"]


def test_a_midi_cable_back_is_no_loop_of_sound() -> None:
    back = cable("din", "reef/MIDI THRU", "dock/MIDI IN")
    assert breaches(NoSoundLoops, dock_and_reef(), plain_plan([LEFT, RIGHT, NOTES, back])) == []
