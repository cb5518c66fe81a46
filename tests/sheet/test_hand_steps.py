"""What hands do for a line check, because no file can."""

from solver.sheet.hand_steps import hand_steps
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    RIGHT,
    box,
    cable,
    dock_and_reef,
    jam,
    lives,
    module,
    named,
    plain_plan,
    plan,
)

PLAYED = (
    "Turn the volume down, play the file in the place of dock, over the cables that leave it, and turn up slowly: it "
    "checks bass and arp."
)
SET_BACK = "The file sets the volume on channels 1 and 2 to 100 of 127; set it back afterwards."
KICK = "Play kick by hand, on track dock/PADS: no file reaches it. Hear it on dock/MAIN."


def test_a_plan_that_needs_little() -> None:
    assert hand_steps(dock_and_reef(), plain_plan()) == (PLAYED, SET_BACK, KICK)


def test_settings_that_no_message_sets() -> None:
    strips = {"dock/IN 1": {"outlet": "MAIN", "pan": "left", "settings": {"ducking": 30, "reverb": 20}, "key": "kick"}}
    engines = {"reef/1": {"channel": 1}, "reef/2": {"channel": 7, "level": "zero"}}
    steps = hand_steps(dock_and_reef(), plain_plan(strips=strips, engines=engines, without=["arp"]))
    assert steps[:2] == (
        "On dock, set first by hand, as the plan says: 1 pan of a strip and 2 amounts.",
        "On reef, set first by hand, as the plan says: 1 channel and 1 level to zero.",
    )


def test_shifts_and_pans_of_a_layer() -> None:
    parts = {"bass": BASS, "arp": BASS | {"engine": "reef/2", "pan": "right"}}
    engines = {"reef/1": {"channel": 1, "shift": -12}, "reef/2": {"channel": 1}}
    layer = dock_and_reef({"layer": ["bass", "arp"]})
    steps = hand_steps(layer, plain_plan([LEFT, RIGHT, NOTES], engines=engines, **parts))
    assert "Set the shift of reef/1 to -12 semitones by hand: it shares its channel with arp." in steps
    assert (
        "Pan by hand: reef/1 left and reef/2 right. They share channel 1, where one message would move them all."
        in steps
    )
    alone = hand_steps(dock_and_reef(), plain_plan(engines={"reef/1": {"channel": 1, "shift": 1}}))
    assert "Set the shift of reef/1 to +1 semitone by hand: not every box obeys tuning by MIDI." in alone


def test_sounds_by_hand() -> None:
    table = dock_and_reef({"program": ["bass"]}, parts={"kick": {}, "bass": {}, "arp": {"sounds": ["glass", "rust"]}})
    steps = hand_steps(table, plain_plan())
    assert "Choose the first sound of bass by hand: a jam names no program numbers, so the file has none." in steps
    assert "Choose the first sound of arp by hand: glass." in steps


def test_parts_that_are_silent_and_parts_that_send_nothing() -> None:
    steps = hand_steps(dock_and_reef(), plain_plan(bass=BASS | {"channel": None}))
    silent = "bass is silent in this plan, so nothing plays it: hardpan trace says where it stops."
    assert silent in steps
    unheard = hand_steps(dock_and_reef(), plain_plan([RIGHT, NOTES]))
    assert silent in unheard
    assert hand_steps(dock_and_reef(), plain_plan(without=["bass", "arp"])) == (KICK,)


def test_as_few_places_to_play_the_file_in_as_it_takes() -> None:
    relay = box(
        "Relay",
        track=[named("T")],
        midi=[named("IN", way="in"), named("OUT", way="out", repeats="IN")],
    )
    boxes = {"dock": dock_and_reef().boxes["dock"], "relay": relay, "reef": module()}
    table = jam(boxes, ["bass", "arp"], {"play": ["arp"], "from": "relay"})
    parts = {"bass": BASS, "arp": ARP | {"track": "relay/T"}}
    leads = [LEFT, RIGHT, cable("din", "dock/MIDI OUT", "relay/IN"), cable("din", "relay/OUT", "reef/MIDI IN")]
    assert PLAYED in hand_steps(table, plan(parts, leads))
    apart = {"dock": boxes["dock"], "relay": relay, "reef": module(), "wreck": module()}
    two = plan(
        {"bass": BASS, "arp": lives("wreck/2", "relay/T", 2)},
        [LEFT, cable("6.35 mono", "wreck/L/MONO", "dock/IN 2"), NOTES, cable("din", "relay/OUT", "wreck/MIDI IN")],
    )
    steps = hand_steps(jam(apart, ["bass", "arp"], {"play": ["arp"], "from": "relay"}), two)
    assert [step.rpartition(": ")[2] for step in steps if "in the place of" in step] == [
        "it checks bass.",
        "it checks arp.",
    ]
