"""A box shown as tables: every form of socket, channel and memory in words."""

from pathlib import Path

import pytest

from solver.gear.box import Box
from solver.sheet.box import box_text
from tests.building import box, named


def rows(of: Box) -> list[str]:
    """What is shown, with one space between words."""
    return [" ".join(line.split()) for line in box_text(of, Path("b.toml"), 80).splitlines()]


def test_a_bare_box_has_its_name_and_file_alone() -> None:
    assert box_text(box("Bare"), Path("bare.toml"), 80) == "Bare\n====\nDescribed in bare.toml.\n"


@pytest.mark.parametrize(
    ("keys", "row"),
    [
        ({"mono": "J"}, "OUT J mono 6.35 mm"),
        ({"stereo": "J", "plug": "3.5"}, "OUT J both (stereo) 3.5 mm"),
        ({"left": "J", "right": "K"}, "OUT J left 6.35 mm its own side"),
        ({"left": "J", "right": "K", "alone": "sum"}, "OUT J left 6.35 mm both sides summed"),
    ],
)
def test_outlets(keys: dict[str, str], row: str) -> None:
    assert row in rows(box(out=[named("OUT", **keys)]))


def test_an_outlet_that_mirrors_another() -> None:
    assert "B B mono 6.35 mm A" in rows(box(out=[named("A", mono="A"), named("B", mono="B", mirrors="A")]))


def test_an_inlet_that_copies() -> None:
    shown = rows(box(in_=[named("LINE", left="L", right="R", alone="copy")]))
    assert shown[-2:] == ["LINE L left 6.35 mm both sides", "R right 6.35 mm its own side"]


@pytest.mark.parametrize(
    ("keys", "row"),
    [
        ({"way": "in", "plug": "trs-b"}, "M in TRS type B"),
        ({"way": "out", "clock": True}, "M out DIN passes"),
        ({"way": "both", "plug": "usb-host"}, "M in and out USB, host"),
    ],
)
def test_midi_sockets(keys: dict[str, object], row: str) -> None:
    assert row in rows(box(midi=[named("M", **keys)]))


@pytest.mark.parametrize(
    ("source", "row"),
    [
        ("PAIR", "S L and R, both sides"),
        ("PAIR/right", "S R"),
        ("WIDE", "S W, both sides"),
        ("WIDE/left", "S W, left side"),
        ("ONE", "S O"),
    ],
)
def test_what_feeds_a_strip(source: str, row: str) -> None:
    inlets = [named("PAIR", left="L", right="R"), named("WIDE", stereo="W"), named("ONE", mono="O")]
    assert row in rows(box(in_=inlets, strip=[named("S", from_=source)]))


@pytest.mark.parametrize(
    ("keys", "row"),
    [
        ({}, "E 1 1 to 16"),
        ({"channels": "all", "can_be_off": True}, "E all channels all channels, off"),
        ({"channels": [1, 2, 10], "channel": 10}, "E 10 1, 2, 10"),
        ({"channel": "off", "can_be_off": True}, "E off 1 to 16, off"),
        ({"channels": []}, "E no channel"),
        ({"sound": "reed", "shift": 5, "program_change": True}, "E reed 1 1 to 16 up to 5 obeys"),
    ],
)
def test_engines(keys: dict[str, object], row: str) -> None:
    assert row in rows(box(engine=[named("E", **keys)]))


def test_tracks() -> None:
    tracks = [named("T", channels=[], plays="E"), named("U", channel=3, program_change=True)]
    shown = rows(box(engine=[named("E")], track=tracks))
    assert "T nothing sent out - E -" in shown
    assert "U 3 1 to 16 - sends" in shown


def test_where_emitters_go_and_what_is_stored_where() -> None:
    outs = [named("A", left="L", right="R"), named("B", mono="B")]
    engine = named("E", to=["B", "A"], pan="sides", offers=["reverb"], stored={"pan": "box", "reverb": "box"})
    shown = rows(box(out=outs, engine=[engine, named("F", channels=[3], pan="fixed", stored="box")]))
    assert "E B, or A left, centre, right reverb" in shown
    assert shown[-3:] == [
        "engine E channel, outlet, level project",
        "engine E pan, reverb box: once for all projects",
        "engine F level box: once for all projects",
    ]


def test_things_that_agree_share_a_row() -> None:
    assert rows(box(engine=[named("E"), named("F")]))[-1] == "engines E, F channel, pan, level project"
