"""What a drawing tells: sides at plugs, parts and channels on cables, the ears, what is free, and all that in words."""

from xml.etree import ElementTree as Xml

import pytest

from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.drawing import drawing
from tests.building import LEFT, NOTES, RIGHT, cable, desk, dock_and_reef, module, named, plain_plan
from tests.sheet.drawing import faults
from tests.sheet.drawing.rigs import SCENARIO_NAMES, rig
from tests.sheet.drawing.seen import SVG, Seen, seen


def shown(jam: Jam, plan: Plan) -> Seen:
    return seen(Xml.fromstring(drawing(jam, plan)))


def sides(found: Seen) -> dict[tuple[str, str], str | None]:
    return {(plug.number, plug.spot): plug.side for plug in found.plugs}


def carries(found: Seen) -> list[tuple[str, str]]:
    return [(plug.number, plug.carries) for plug in found.plugs if plug.carries is not None]


def test_low_tide_tells_sides_parts_and_channels() -> None:
    found = shown(*rig("low-tide"))
    assert sides(found) == {
        ("1", "barge/L/MONO"): "L",
        ("1", "tiller/IN 1"): None,
        ("2", "barge/R"): "R",
        ("2", "tiller/IN 2"): None,
        ("3", "tiller/MIDI OUT"): None,
        ("3", "barge/MIDI IN"): None,
    }
    assert carries(found) == [("1", "bass, pad"), ("2", "arp"), ("3", "ch 1: bass, pad; ch 2: arp; clock")]
    words = [label.words for label in found.labels]
    assert [words.count(said) for said in ("bass, pad", "arp", "ch 1: bass, pad", "ch 2: arp", "clock")] == [1] * 5
    assert words.count("6.35 mono") == 2 and words.count("din") == 1


def test_both_plugs_of_a_stereo_part_tell_their_side() -> None:
    told = sides(shown(*rig("slow-swell")))
    assert [told["1", "wherry/WIDE L"], told["1", "windlass/WAKE L"]] == ["L", "L"]
    assert [told["2", "wherry/WIDE R"], told["2", "windlass/WAKE R"]] == ["R", "R"]
    assert told["3", "wherry/SUB"] is None


def test_the_legs_of_a_breakout_are_left_and_right() -> None:
    jam, plan = rig("narrow-channel")
    found = shown(jam, plan)
    assert len(found.cables) == 2
    assert sides(found) == {
        ("1", "dinghy/PHONES"): "L R",
        ("1", "tiller/IN 1"): "L",
        ("1", "tiller/IN 2"): "R",
        ("2", "tiller/MIDI OUT"): None,
        ("2", "dinghy/MIDI IN"): None,
    }


def test_a_left_jack_alone_tells_that_it_sums_only_where_it_does() -> None:
    jam = dock_and_reef()
    assert sides(shown(jam, plain_plan([LEFT, NOTES])))["1", "reef/L/MONO"] == "L+R"
    assert sides(shown(jam, plain_plan()))["1", "reef/L/MONO"] == "L"
    own = dock_and_reef(reef=module(out=[named("MAIN", left="L/MONO", right="R")]))
    assert sides(shown(own, plain_plan([LEFT, NOTES])))["1", "reef/L/MONO"] == "L"


def test_an_inlet_tells_its_side_where_a_strip_takes_both() -> None:
    wide = desk(strip=[named("LINE", from_="LINE")])
    assert sides(shown(dock_and_reef(dock=wide), plain_plan()))["2", "dock/IN 2"] == "R"
    assert sides(shown(dock_and_reef(), plain_plan()))["2", "dock/IN 2"] is None


def test_only_sockets_in_use_are_drawn_and_the_others_counted() -> None:
    found = shown(dock_and_reef(), plain_plan([LEFT, NOTES]))
    assert sorted(spot for spot, _ in found.jacks) == ["dock/IN 1", "dock/MIDI OUT", "reef/L/MONO", "reef/MIDI IN"]
    free = [(label.box, label.words) for label in found.labels if label.words.startswith("free")]
    assert free == [("dock", "free: 1 jack, 1 port"), ("reef", "free: 1 jack, 1 port")]


def test_a_box_without_a_cable_is_drawn_too() -> None:
    boxes = {"dock": desk(), "reef": module(), "spare": module()}
    jam = dock_and_reef().changed(boxes=boxes)
    found = shown(jam, plain_plan())
    assert list(found.boxes) and set(found.boxes) == set(boxes)
    assert "nothing plugged" in [label.words for label in found.labels if label.box == "spare"]


def test_a_plan_without_cables_is_a_drawing_too() -> None:
    found = shown(dock_and_reef(), plain_plan([]))
    assert not found.cables and not found.plugs and set(found.boxes) == {"dock", "reef"}
    assert "no cable" in [label.words for label in found.labels]


def test_broken_plans_are_drawn_as_they_are_plugged() -> None:
    """A loop, two plugs in one jack, and a box that is not in the jam."""
    wrong = [LEFT, LEFT, cable("6.35 mono", "dock/OUT L", "reef/AUX"), cable("din", "ghost/OUT", "reef/MIDI IN"), RIGHT]
    found = shown(dock_and_reef(), plain_plan(wrong))
    assert [ends for _, ends, _ in found.cables] == [
        "reef/L/MONO > dock/IN 1",
        "reef/L/MONO > dock/IN 1",
        "dock/OUT L > reef/AUX",
        "ghost/OUT > reef/MIDI IN",
        "reef/R > dock/IN 2",
    ]
    assert "not in the jam" in [label.words for label in found.labels if label.box == "ghost"]


def test_sound_runs_from_left_to_right() -> None:
    found = shown(*rig("three-rivers"))
    assert found.boxes["barge"].right < found.boxes["eddy"].left < found.boxes["eddy"].right
    assert found.boxes["eddy"].right < found.boxes["pennant"].left
    found = shown(*rig("one-ear-open"))
    assert found.boxes["barge"].right < found.boxes["gaff"].left == found.boxes["quay"].left


@pytest.mark.parametrize(("modules", "columns"), [(4, 2), (5, 2), (6, 3), (9, 3)])
def test_a_long_column_is_spread_over_two(modules: int, columns: int) -> None:
    names = [f"reef{n}" for n in range(modules)]
    inlets = [named(f"IN {n}", mono=f"IN {n}") for n in range(modules)]
    hub = desk(in_=inlets, strip=[named(f"IN {n}", from_=f"IN {n}") for n in range(modules)])
    jam = dock_and_reef().changed(boxes={"dock": hub, "reef": module(), **dict.fromkeys(names, module())})
    cables = [cable("6.35 mono", f"{name}/L/MONO", f"dock/IN {n}") for n, name in enumerate(names)]
    plan = plain_plan(cables)
    found = shown(jam.changed(boxes={box: gear for box, gear in jam.boxes.items() if box != "reef"}, parts={}), plan)
    assert len({card.left for card in found.boxes.values()}) == columns
    assert not any(list(promise(found, plan)) for promise in faults.PROMISES)


def test_sound_and_notes_are_told_apart_without_colour() -> None:
    svg = Xml.fromstring(drawing(*rig("low-tide")))
    strokes = {path.attrib["class"]: path.attrib for path in svg.iter(f"{SVG}path")}
    audio, midi = strokes["hp-audio"], strokes["hp-midi"]
    assert "stroke-dasharray" in midi and "stroke-dasharray" not in audio
    assert float(audio["stroke-width"]) >= 1.5 * float(midi["stroke-width"])
    words = [text.text for text in svg.iter(f"{SVG}text")]
    assert "audio" in words and "MIDI" in words


def test_who_does_not_see_it_is_told_everything() -> None:
    svg = Xml.fromstring(drawing(*rig("low-tide")))
    named_by = {element.attrib["id"]: element.text for element in svg if "id" in element.attrib}
    assert svg.attrib["role"] == "img" and svg.attrib["aria-labelledby"].split() == [*named_by]
    assert [*named_by.values()] == [
        "Wiring of Low Tide",
        "3 cables. 1: 6.35 mono from barge/L/MONO (left) to tiller/IN 1, carries bass, pad. "
        "2: 6.35 mono from barge/R (right) to tiller/IN 2, carries arp. "
        "3: din from tiller/MIDI OUT to barge/MIDI IN, carries ch 1: bass, pad; ch 2: arp; clock. "
        "The ears are on tiller/MAIN.",
    ]


@pytest.mark.parametrize("name", SCENARIO_NAMES)
def test_the_ears_are_marked_once_with_their_outlet(name: str) -> None:
    jam, plan = rig(name)
    svg = Xml.fromstring(drawing(jam, plan))
    ears = [group for group in svg.iter(f"{SVG}g") if "data-ears" in group.attrib]
    assert [group.attrib["data-ears"] for group in ears] == [jam.listen]
    card = next(group for group in svg.iter(f"{SVG}g") if group.attrib.get("data-box") == jam.ears.box)
    assert ears[0] in card
    assert f"ears: {jam.ears.name}" in [text.text for text in ears[0].iter(f"{SVG}text")]
