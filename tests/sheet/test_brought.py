"""Which parts a MIDI cable brings to the boxes behind it."""

from typing import Any

from solver.gear.box import Box
from solver.sheet.brought import NOTHING, Brought, brought
from tests.building import LEFT, NOTES, box, cable, desk, jam, lives, module, named, plan

THRU = cable("din", "reef/MIDI THRU", "far/MIDI IN")
PARTS = {
    "kick": lives("dock/PAD", "dock/PADS", None),
    "bass": lives("reef/1", "dock/EXT 1", 1),
    "pad": lives("reef/2", "dock/EXT 1", 1),
    "bell": lives("far/1", "dock/EXT 2", 2),
}


def far(clock: bool = True) -> Box:
    return box(
        "Far",
        out=[named("MAIN", mono="OUT")],
        engine=[named("1")],
        track=[named("OWN")],
        midi=[named("MIDI IN", way="in", clock=clock), named("MIDI OUT", way="out")],
    )


def over(
    *cables: dict[str, Any], clock: tuple[str, ...] = (), far_box: Box | None = None, **parts: Any
) -> list[Brought]:
    boxes = {"dock": desk(), "reef": module(), "far": far_box or far()}
    planned = {**PARTS, **parts}
    intents = [{"clock": list(clock)}] if clock else []
    return brought(jam(boxes, list(planned), *intents), plan(planned, cables))


def test_a_cable_brings_what_lives_behind_it_and_a_thru_what_lives_behind_that() -> None:
    assert over(NOTES, THRU) == [
        Brought({1: ("bass", "pad"), 2: ("bell",)}, False),
        Brought({2: ("bell",)}, False),
    ]


def test_what_nothing_behind_needs_is_not_told() -> None:
    assert over(NOTES) == [Brought({1: ("bass", "pad")}, False)]
    assert over(THRU) == [NOTHING]


def test_an_audio_cable_brings_no_notes() -> None:
    assert over(LEFT, NOTES)[0] == NOTHING


def test_a_part_that_its_own_box_plays_needs_no_cable() -> None:
    own = lives("far/1", "far/OWN", 3)
    assert over(NOTES, THRU, bell=own)[1] == NOTHING


def test_channels_rise() -> None:
    bass, pad = lives("reef/1", "dock/EXT 1", 9), lives("reef/2", "dock/EXT 2", 4)
    assert list(over(NOTES, bass=bass, pad=pad)[0].parts) == [4, 9]


def test_a_wanted_clock_is_told_on_every_cable_that_it_takes() -> None:
    assert [one.clock for one in over(NOTES, THRU, clock=("far",))] == [True, True]
    assert [one.clock for one in over(NOTES, THRU, clock=("reef",))] == [True, False]
    assert [one.clock for one in over(NOTES, THRU, clock=("far",), far_box=far(clock=False))] == [False, False]


def test_usb_brings_both_ways() -> None:
    host = box(
        "Host", out=[named("OUT", mono="OUT")], track=[named("T")], midi=[named("USB", way="both", plug="usb-host")]
    )
    key = box(
        "Key",
        out=[named("OUT", mono="OUT")],
        engine=[named("E")],
        track=[named("K")],
        midi=[named("USB", way="both", plug="usb-device")],
    )
    with_engine = host.model_copy(update={"engines": key.engines})
    boxes = {"host": with_engine, "key": key}
    parts = {"there": lives("key/E", "host/T", 1, outlet="OUT"), "back": lives("host/E", "key/K", 2, outlet="OUT")}
    (found,) = brought(jam(boxes, list(parts)), plan(parts, [cable("usb", "host/USB", "key/USB")]))
    assert found == Brought({1: ("there",), 2: ("back",)}, False)
