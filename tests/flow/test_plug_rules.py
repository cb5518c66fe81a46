"""The rules of plugs and of the drawer."""

from typing import Any

import pytest

from solver.rules.plugs import AudioPlugs, Drawer, MidiPlugs
from tests.building import (
    ARP,
    LEFT,
    NOTES,
    RIGHT,
    box,
    breaches,
    cable,
    desk,
    dock_and_reef,
    jam,
    module,
    named,
    plain_plan,
)


def _two_boxes(one: dict[str, Any], other: dict[str, Any]) -> dict[str, Any]:
    return {"dock": desk(midi=[named("OUT", way="out", **one)]), "reef": module(midi=[named("IN", way="in", **other)])}


def test_cables_that_fit_and_one_plug_a_jack() -> None:
    assert breaches(AudioPlugs, dock_and_reef(), plain_plan()) == []


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (cable("3.5 mono", "reef/R", "dock/IN 2"), "these jacks take a 6.35 mono cable"),
        (cable("6.35 mono", "dock/IN 2", "reef/R"), "dock/IN 2 sends nothing out"),
        (cable("6.35 mono", "reef/R", "dock/OUT R"), "dock/OUT R takes nothing in"),
        (cable("6.35 mono", "reef/MIDI IN", "dock/IN 2"), "reef/MIDI IN is no audio jack"),
        (cable("6.35 mono", "reef/R", ("dock/IN 1", "dock/IN 2")), "no cable joins these jacks"),
        (cable("6.35 stereo > 2x 6.35 mono", "reef/R", ("dock/IN 1", "dock/IN 2")), "no cable joins these jacks"),
    ],
)
def test_an_audio_cable_that_does_not_fit(wrong: dict[str, Any], said: str) -> None:
    (found,) = breaches(AudioPlugs, dock_and_reef(), plain_plan([wrong, NOTES]))
    assert found.endswith(f"does not fit: {said}")
    assert found.startswith(f"the {wrong['kind']} cable from ")


def test_a_stereo_jack_takes_no_mono_plug() -> None:
    reef = module(out=[named("MAIN", stereo="OUT")])
    (found,) = breaches(
        AudioPlugs, dock_and_reef(reef=reef), plain_plan([cable("6.35 mono", "reef/OUT", "dock/IN 1"), NOTES])
    )
    assert found.endswith("no cable joins these jacks")


@pytest.mark.parametrize(
    ("size", "kind"), [("6.35", "6.35 stereo > 2x 6.35 mono"), ("3.5", "3.5 stereo > 2x 6.35 mono")]
)
def test_a_breakout_joins_a_stereo_jack_and_two_mono_jacks(size: str, kind: str) -> None:
    table = dock_and_reef(reef=module(out=[named("MAIN", stereo="OUT", plug=size)]))
    right = plain_plan([cable(kind, "reef/OUT", ("dock/IN 1", "dock/IN 2")), NOTES])
    assert breaches(AudioPlugs, table, right) == []
    other = {"6.35": "3.5", "3.5": "6.35"}[size]
    wrong = plain_plan([cable(f"{other} stereo > 2x 6.35 mono", "reef/OUT", ("dock/IN 1", "dock/IN 2")), NOTES])
    assert breaches(AudioPlugs, table, wrong) == [
        f"the {other} stereo > 2x 6.35 mono cable from reef/OUT to dock/IN 1 + dock/IN 2 does not fit: "
        f"these jacks take a {kind} cable"
    ]


@pytest.mark.parametrize(
    "inlets",
    [
        [named("LINE", left="IN 1", right="IN 2", plug="3.5")],
        [named("LINE", stereo="IN 1"), named("LINE 2", stereo="IN 2")],
    ],
)
def test_the_legs_of_a_breakout_take_mono_jacks_of_6_35(inlets: list[dict[str, Any]]) -> None:
    table = dock_and_reef(dock=desk(in_=inlets, strip=[]), reef=module(out=[named("MAIN", stereo="OUT", plug="3.5")]))
    legs = cable("3.5 stereo > 2x 6.35 mono", "reef/OUT", ("dock/IN 1", "dock/IN 2"))
    (found,) = breaches(AudioPlugs, table, plain_plan([legs, NOTES]))
    assert found.endswith("does not fit: no cable joins these jacks")


def test_the_two_legs_of_a_breakout_can_send() -> None:
    dock = desk(
        in_=[named("LINE", stereo="IN", plug="3.5")],
        strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right")],
    )
    right = plain_plan([cable("3.5 stereo > 2x 6.35 mono", ("reef/L/MONO", "reef/R"), "dock/IN"), NOTES])
    assert breaches(AudioPlugs, dock_and_reef(dock=dock), right) == []


def test_two_plugs_in_one_jack() -> None:
    crossed = cable("6.35 mono", "reef/R", "dock/IN 1")
    assert breaches(AudioPlugs, dock_and_reef(), plain_plan([LEFT, crossed, NOTES])) == [
        "dock/IN 1 has 2 plugs in it, it takes one"
    ]


def test_both_legs_of_a_breakout_in_one_jack() -> None:
    table = dock_and_reef(reef=module(out=[named("MAIN", stereo="OUT", plug="3.5")]))
    twice = cable("3.5 stereo > 2x 6.35 mono", "reef/OUT", ("dock/IN 1", "dock/IN 1"))
    assert breaches(AudioPlugs, table, plain_plan([twice, NOTES])) == ["dock/IN 1 has 2 plugs in it, it takes one"]


def test_two_parts_on_one_engine() -> None:
    together = plain_plan(arp=ARP | {"engine": "reef/1"})
    assert breaches(AudioPlugs, dock_and_reef(), together) == ["reef/1 holds bass and arp, it can hold one part"]


def test_a_port_and_a_jack_may_share_a_name() -> None:
    reef = module(out=[named("MAIN", left="L/MONO", right="MIDI IN", alone="sum")])
    table = dock_and_reef(reef=reef)
    shared = plain_plan([LEFT, cable("6.35 mono", "reef/MIDI IN", "dock/IN 2"), NOTES])
    assert breaches(AudioPlugs, table, shared) == []
    assert breaches(MidiPlugs, table, shared) == []


def test_a_plain_midi_cable_fits() -> None:
    assert breaches(MidiPlugs, dock_and_reef(), plain_plan()) == []


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (cable("usb", "dock/MIDI OUT", "reef/MIDI IN"), "these ports take a din cable"),
        (cable("din", "dock/MIDI IN", "reef/MIDI IN"), "dock/MIDI IN does not send"),
        (cable("din", "dock/MIDI OUT", "reef/MIDI THRU"), "reef/MIDI THRU takes nothing in"),
        (cable("din", "dock/OUT L", "reef/MIDI IN"), "dock/OUT L is no MIDI port"),
        (cable("din", "dock/MIDI OUT", ("reef/MIDI IN", "reef/MIDI THRU")), "a MIDI cable has one plug at each end"),
    ],
)
def test_a_midi_cable_that_does_not_fit(wrong: dict[str, Any], said: str) -> None:
    (found,) = breaches(MidiPlugs, dock_and_reef(), plain_plan([LEFT, RIGHT, wrong]))
    assert found.endswith(f"does not fit: {said}")


@pytest.mark.parametrize(
    ("kind", "one", "other", "said"),
    [
        ("trs", "trs-a", "trs-a", None),
        ("trs", "trs-b", "trs-b", None),
        ("trs", "trs-a", "trs-b", "no cable joins trs-a and trs-b"),
        ("din > trs-b", "din", "trs-b", None),
        ("din > trs-a", "din", "trs-b", "these ports take a din > trs-b cable"),
        ("din > trs-a", "trs-a", "din", None),
        ("din", "din", "usb-host", "no cable joins din and usb-host"),
        ("usb", "usb-host", "usb-host", "no cable joins usb-host and usb-host"),
    ],
)
def test_midi_plugs_speak_to_their_own_sort(kind: str, one: str, other: str, said: str | None) -> None:
    table = dock_and_reef(**_two_boxes({"plug": one}, {"plug": other}))
    found = breaches(MidiPlugs, table, plain_plan([LEFT, RIGHT, cable(kind, "dock/OUT", "reef/IN")]))
    expected = f"the {kind} cable from dock/OUT to reef/IN does not fit: {said}"
    assert found == ([] if said is None else [expected])


def test_usb_ends_may_stand_in_either_order() -> None:
    usb = dock_and_reef(
        dock=desk(midi=[named("USB", way="both", plug="usb-host")]),
        reef=module(midi=[named("USB", way="in", plug="usb-device")]),
    )
    for ends in (("dock/USB", "reef/USB"), ("reef/USB", "dock/USB")):
        assert breaches(MidiPlugs, usb, plain_plan([LEFT, RIGHT, cable("usb", *ends)])) == []


def test_two_plugs_in_one_port() -> None:
    dock = desk(midi=[named("MIDI OUT", way="out"), named("OUT 2", way="out")])
    again = cable("din", "dock/OUT 2", "reef/MIDI IN")
    assert breaches(MidiPlugs, dock_and_reef(dock=dock), plain_plan([LEFT, RIGHT, NOTES, again])) == [
        "reef/MIDI IN has 2 plugs in it, it takes one"
    ]


def test_a_lead_each_way_is_fine_where_nothing_repeats() -> None:
    ports = [named("MIDI IN", way="in"), named("MIDI OUT", way="out")]
    back = cable("din", "reef/MIDI OUT", "dock/MIDI IN")
    both_ways = plain_plan([LEFT, RIGHT, NOTES, back])
    assert breaches(MidiPlugs, dock_and_reef(reef=module(midi=ports)), both_ways) == []
    ports[1] |= {"repeats": "MIDI IN"}
    assert breaches(MidiPlugs, dock_and_reef(reef=module(midi=ports)), both_ways) == [
        "notes that leave dock come back to it at dock/MIDI IN"
    ]


def test_a_thru_that_leads_back_to_the_leader() -> None:
    back = cable("din", "reef/MIDI THRU", "dock/MIDI IN")
    assert breaches(MidiPlugs, dock_and_reef(), plain_plan([LEFT, RIGHT, NOTES, back])) == [
        "notes that leave dock come back to it at dock/MIDI IN"
    ]


def test_thrus_in_a_ring() -> None:
    knot = box("Knot", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    table = jam({"dock": desk(), "reef": module(), "knot": knot}, ("kick", "bass", "arp"))
    ring = [cable("din", "reef/MIDI THRU", "knot/IN"), cable("din", "knot/THRU", "reef/MIDI IN")]
    assert breaches(MidiPlugs, table, plain_plan([LEFT, RIGHT, *ring])) == [
        "notes go round and round: reef/MIDI THRU > knot/IN > knot/THRU > reef/MIDI IN > reef/MIDI THRU"
    ]


def test_usb_both_ways_is_no_ring() -> None:
    table = dock_and_reef(
        dock=desk(midi=[named("USB", way="both", plug="usb-host")]),
        reef=module(midi=[named("USB", way="both", plug="usb-device")]),
    )
    assert breaches(MidiPlugs, table, plain_plan([LEFT, RIGHT, cable("usb", "dock/USB", "reef/USB")])) == []


def test_usb_that_repeats_what_it_takes_is_a_ring() -> None:
    table = dock_and_reef(
        dock=desk(midi=[named("USB", way="both", plug="usb-host")]),
        reef=module(midi=[named("USB", way="both", plug="usb-device", repeats="USB")]),
    )
    assert breaches(MidiPlugs, table, plain_plan([LEFT, RIGHT, cable("usb", "dock/USB", "reef/USB")])) == [
        "notes that leave dock come back to it at dock/USB"
    ]


@pytest.mark.parametrize(
    ("drawer", "said"),
    [
        (None, []),
        ({"6.35 mono": 2, "din": 1}, []),
        ({"6.35 mono": 1, "din": 1}, ["the plan uses 2 of the 6.35 mono cable, the drawer holds 1"]),
        ({"6.35 mono": 2}, ["the plan uses 1 of the din cable, the drawer holds 0"]),
    ],
)
def test_the_drawer_holds_the_cables(drawer: dict[str, int] | None, said: list[str]) -> None:
    assert breaches(Drawer, dock_and_reef(cables=drawer), plain_plan()) == said
