"""The way of a part as text and as JSON data."""

import json
from typing import Any, get_args

import pytest

from solver.flow.sound_way import Level
from solver.flow.stops import Cause, Stop
from solver.flow.trace import trace
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import width_of
from solver.sheet.levels import db_words, level_words
from solver.sheet.stops import stop_words
from solver.sheet.trace import trace_text
from solver.sheet.trace_data import trace_data
from tests.building import BASS, LEFT, NOTES, box, cable, dock_and_reef, jam, lives, named, plain_plan, plan

SOURCES = "Where the numbers come from"


def text(of: Jam, in_plan: Plan, part: str = "bass", width: int = 80) -> str:
    return trace_text(of, trace(of, in_plan, part), width)


@pytest.mark.parametrize(
    ("db", "said"),
    [
        (0.0, "0.0 dB"),
        (-0.04, "0.0 dB"),
        (0.04, "0.0 dB"),
        (-3.0103, "-3.0 dB"),
        (3.0103, "+3.0 dB"),
        (-12, "-12.0 dB"),
    ],
)
def test_decibels(db: float, said: str) -> None:
    assert db_words(db).replace("\xa0", " ") == said


@pytest.mark.parametrize(
    ("levels", "said"),
    [
        ([("mono", "whole", -3.0)], "-3.0 dB"),
        ([("left", "whole", 0.0)], "left 0.0 dB"),
        ([("left", "whole", -3.0), ("right", "whole", -3.0)], "both sides -3.0 dB"),
        ([("left", "whole", -1.0), ("right", "whole", -3.0)], "left -1.0 dB, right -3.0 dB"),
        ([("left", "left", 0.0), ("right", "right", 0.0)], "each half 0.0 dB"),
        ([("left", "left", 0.0), ("right", "right", -6.0)], "left half 0.0 dB; right half -6.0 dB"),
        ([("right", "right", 0.0)], "right half 0.0 dB"),
        (
            [("left", "left", -3.0), ("left", "right", -3.0), ("right", "left", -3.0)],
            "left half both sides -3.0 dB; right half left -3.0 dB",
        ),
        ([("mono", "left", -6.0), ("mono", "right", -6.0)], "each half -6.0 dB"),
        ([], "-"),
    ],
)
def test_levels_by_side_and_half(levels: list[tuple[Any, Any, float]], said: str) -> None:
    assert level_words([Level(*level) for level in levels]).replace("\xa0", " ") == said


def test_a_level_whose_side_goes_without_saying() -> None:
    assert level_words([Level("left", "whole", 0.0)], sides=False).replace("\xa0", " ") == "0.0 dB"


@pytest.mark.parametrize("cause", get_args(Cause))
def test_every_cause_has_its_sentence(cause: Cause) -> None:
    said = stop_words(Stop(cause, "reef/{1}", ("one", "two")))
    assert "reef/{1}" in said
    assert said.endswith(".") and "{at}" not in said and "{all}" not in said


def test_what_an_engine_listens_to_instead() -> None:
    said = "Its notes come to the box of reef/1, on channel 1; that engine"
    assert stop_words(Stop("other channel", "reef/1", ("1", "7"))) == f"{said} listens to channel 7."
    assert stop_words(Stop("other channel", "reef/1", ("1", "off"))) == f"{said} is off."


def test_a_part_that_is_heard() -> None:
    whole = text(dock_and_reef(), plain_plan())
    assert whole.partition(SOURCES)[0] == (
        "bass in Test: from track to ears\n"
        "================================\n"
        "Heard on dock/MAIN: both sides -3.0 dB.\n"
        "\n"
        "Notes\n"
        "-----\n"
        "where             what happens there\n"
        "----------------  -----------------------------\n"
        "track dock/EXT 1  sends on channel 1\n"
        "cable 3, din      dock/MIDI OUT -> reef/MIDI IN\n"
        "engine reef/1     listens to channel 1\n"
        "\n"
        "Sound, in dB against its engine\n"
        "-------------------------------\n"
        "where               what happens there        level\n"
        "------------------  ------------------------  ------------------\n"
        "engine reef/1       pan left, to MAIN         0.0 dB\n"
        "outlet reef/MAIN                              left 0.0 dB\n"
        "cable 1, 6.35 mono  reef/L/MONO -> dock/IN 1  0.0 dB\n"
        "strip dock/IN 1     pan centre, to MAIN       0.0 dB\n"
        "outlet dock/MAIN    your ears                 both sides -3.0 dB\n"
        "\n"
        "What shares its strips\n"
        "----------------------\n"
        "- dock/IN 1 carries bass alone, at 0.0 dB. Start with its trim at 0.0 dB.\n"
        "\n"
    )


def test_a_part_that_is_silent() -> None:
    whole = text(dock_and_reef(), plain_plan([LEFT], engines={"reef/1": {"channel": 2}}))
    assert whole.split("\n")[2:4] == ["Silent:", "- Its notes come as far as dock/MIDI OUT: no cable is plugged there."]
    assert "Sound, once it is played, in dB against its engine" in whole
    assert text(dock_and_reef(), plain_plan(without=["bass"])).split("\n")[2:] == [
        "Silent:",
        "- bass is not in the plan.",
        "",
    ]


def test_half_of_a_stereo_part_is_told() -> None:
    whole = text(dock_and_reef({"stereo": ["bass"]}), plain_plan([LEFT], bass=BASS | {"pan": "centre"}))
    assert "Silent:" in whole
    own = dock_and_reef({"stereo": ["bass"]})
    kept = own.boxes["reef"].model_copy(
        update={"outlets": (own.boxes["reef"].outlets[0].model_copy(update={"alone": "own"}),)}
    )
    lost = text(
        own.changed(boxes={**own.boxes, "reef": kept}), plain_plan([LEFT, NOTES], bass=BASS | {"pan": "centre"})
    )
    assert "its other half is lost." in lost.replace("\n", " ")


def sources(of: Jam, in_plan: Plan, part: str = "bass") -> str:
    return text(of, in_plan, part).partition(SOURCES)[2].replace("\n  ", " ")


def test_only_what_counts_is_said_of_the_numbers() -> None:
    plain = sources(dock_and_reef(), plain_plan())
    assert "Published (RP-036" in plain and "desks differ" in plain and "Turn up again slowly" in plain
    assert "Textbook" not in plain and "count half" not in plain and "keeps each half" not in plain
    summed = sources(dock_and_reef(), plain_plan([LEFT, NOTES]))
    assert "Textbook: N sounds equally loud" in summed and "each is taken to count half, -6.0 dB" in summed
    stereo = sources(dock_and_reef({"stereo": ["bass"]}), plain_plan(bass=BASS | {"pan": "centre"}, without=["arp"]))
    assert "keeps each half" in stereo and "RP-036" not in stereo
    mono = jam(
        {"pool": box("Pool", out=[named("MAIN", mono="OUT")], engine=[named("1")], track=[named("T", plays="1")])},
        ["bass"],
    )
    alone = sources(mono, plan({"bass": lives("pool/1", "pool/T", 1)}))
    assert alone.count("- ") == 2 and "Taken as given" in alone


def test_a_loop_is_told_with_what_it_can_do() -> None:
    mixer = box("Mix", out=[named("MAIN", mono="O")], in_=[named("A", mono="A")], strip=[named("A", from_="A")])
    table = jam({"mix": mixer, "dock": dock_and_reef().boxes["dock"], "reef": dock_and_reef().boxes["reef"]}, ["bass"])
    round_trip = [LEFT | {"to": "mix/A"}, cable("6.35 mono", "mix/O", "mix/A"), NOTES]
    assert "such a loop can howl" in text(table, plan({"bass": BASS}, round_trip))


NAMES = ["<b>\"&'", "🎹🥁", "שלום עולם", "x" * 200, "{at}{0}"]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [80, 100])
def test_any_name_keeps_the_width_and_the_json(name: str, width: int) -> None:
    table = dock_and_reef(parts=("kick", name, "arp"))
    renamed = Plan.from_json(json.loads(json.dumps(plain_plan().to_json()).replace('"bass"', json.dumps(name))))
    found = trace(table, renamed, name)
    lines = trace_text(table, found, width).split("\n")
    assert max(map(width_of, lines)) <= width
    assert json.loads(json.dumps(trace_data(table, found)))["part"] == name


def test_json_says_the_same() -> None:
    table = dock_and_reef({"layer": ["bass", "arp"]})
    layered = plain_plan([LEFT, NOTES], arp=BASS | {"engine": "reef/2"}, strips={"dock/IN 1": {"outlet": "MAIN"}})
    data = trace_data(table, trace(table, layered, "bass"))
    assert json.loads(json.dumps(data)) == data
    assert (data["status"], data["stops"], data["part"], data["title"]) == ("heard", [], "bass", "Test")
    assert data["notes"] == {
        "track": "dock/EXT 1",
        "channel": 1,
        "together": ["arp"],
        "inside": False,
        "ways": [[{"cable": 2, "kind": "din", "from": "dock/MIDI OUT", "to": "reef/MIDI IN"}]],
        "engine": "reef/1",
        "listens": 1,
    }
    points = data["sound"]["points"]
    assert [point["point"] for point in points] == ["engine", "outlet", "cable", "strip", "outlet"]
    assert points[2] == {
        "point": "cable",
        "cable": 1,
        "kind": "6.35 mono",
        "from": "reef/L/MONO",
        "to": "dock/IN 1",
        "sums": True,
        "copies": False,
        "levels": [{"side": "left", "voice": "whole", "db": -6.02}],
    }
    assert {key: points[3][key] for key in ("strip", "parts", "layered", "likely", "worst", "trim")} == {
        "strip": "dock/IN 1",
        "parts": ["bass", "arp"],
        "layered": ["bass", "arp"],
        "likely": -3.01,
        "worst": 0.0,
        "trim": 0.0,
    }
    assert data["sound"]["heard"] == [{"side": side, "voice": "whole", "db": -9.03} for side in ("left", "right")]
    assert "-0.0" not in json.dumps(data)


def test_json_of_a_part_that_is_silent() -> None:
    table, broken = dock_and_reef(), plain_plan([LEFT])
    stop = trace_data(table, trace(table, broken, "arp"))["stops"][0]
    assert stop == {
        "cause": "no cable",
        "at": "dock/MIDI OUT",
        "about": [],
        "sentence": "Its notes come as far as dock/MIDI OUT: no cable is plugged there.",
    }
    data = trace_data(table, trace(table, plain_plan(without=["bass"]), "bass"))
    assert (data["status"], data["notes"], data["sound"]) == ("silent", None, None)
