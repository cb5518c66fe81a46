"""Box files made of answers: they read as what was answered."""

from functools import partial
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from solver.gear.box import Box
from solver.making.box_file import Told, box_of
from solver.making.box_questions import Place, box_interview
from solver.making.box_text import box_text, copy_text
from solver.making.questions import NotSoError
from solver.reading import read_box
from tests.making.walking import BOXES, ODD, drawn, scripted, walk

QUESTIONS = partial(box_interview, Place(Path(), Path))
KEPT = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)

MODULE = {"name": "Skiff", "engines": "2", "midi.1": "in", "midi.2": "thru"}
DESK = {"name": "Desk", "ins": "1", "in.1.offers": "ducking, reverb", "engine.channels": "none", "tracks": "2"}


def read_back(folder: Path, told: Told) -> Box:
    """The box that the file of a box says."""
    file = folder / "made.toml"
    file.write_bytes(box_text(told, "box.json").encode())
    return read_box(file)


def made(folder: Path, said: dict[str, str]) -> Box:
    """The box of some answers, read from its file, which says the same."""
    told = box_of(walk(QUESTIONS, scripted(said)))
    box = read_back(folder, told)
    assert box == told.box
    return box


def test_a_name_alone_makes_a_box(tmp_path: Path) -> None:
    box = made(tmp_path, {"name": "Skiff"})
    assert [(jack.label, jack.plug) for jack in box.outlets[0].jacks] == [("L", "6.35"), ("R", "6.35")]
    assert (box.outlets[0].alone, box.engines[0].stands, box.tracks, box.ports) == ("own", 1, (), ())


def test_mono_beside_the_left_jack_means_sum(tmp_path: Path) -> None:
    assert made(tmp_path, {**MODULE, "out.1.left": "L/Mono"}).outlets[0].alone == "sum"
    assert made(tmp_path, {**MODULE, "out.1.left": "L/Mono", "out.1.alone": "no"}).outlets[0].alone == "own"


def test_phones_mirror_or_have_a_sound_of_their_own(tmp_path: Path) -> None:
    mirror = made(tmp_path, {**MODULE, "phones": "same as MAIN"}).outlets[1]
    assert (mirror.stereo, mirror.plug, mirror.mirrors) == ("PHONES", "3.5", "MAIN")
    box = made(tmp_path, {**MODULE, "phones": "own", "phones.plug": "6.35", "engine.to": "PHONES, MAIN"})
    assert (box.outlets[1].mirrors, box.outlets[1].plug, box.engines[0].to) == (None, "6.35", ("PHONES", "MAIN"))


@pytest.mark.parametrize(
    ("fader", "strips"),
    [
        ("each", [("IN 1", "LINE/left"), ("IN 2", "LINE/right")]),
        ("both", [("LINE", "LINE")]),
        ("no", []),
    ],
)
def test_faders_are_strips(tmp_path: Path, fader: str, strips: list[tuple[str, str]]) -> None:
    box = made(tmp_path, {**DESK, "in.1.fader": fader, "in.1.alone": "yes"})
    assert [(strip.name, strip.source) for strip in box.strips] == strips
    assert all(strip.offers == ("ducking", "reverb") and strip.key == ("1",) for strip in box.strips)
    assert box.inlets[0].alone == "copy"


@pytest.mark.parametrize(
    ("how", "standing", "channels"),
    [
        ("own", "5, 6", [(tuple(range(1, 17)), 5), (tuple(range(1, 17)), 6)]),
        ("own", "7", [(tuple(range(1, 17)), 7), (tuple(range(1, 17)), 7)]),
        ("shared", "4", [((4,), 4), ((4,), 4)]),
        ("fixed", "10, 12", [((10,), 10), ((12,), 12)]),
        ("every", "", [("all", "all"), ("all", "all")]),
        ("none", "", [((), "off"), ((), "off")]),
    ],
)
def test_engines_listen_as_told(tmp_path: Path, how: str, standing: str, channels: list[Any]) -> None:
    box = made(tmp_path, {**MODULE, "engine.channels": how, "engine.standing": standing})
    assert [(engine.channels, engine.stands) for engine in box.engines] == channels


@pytest.mark.parametrize(("shape", "asked"), [("mono", False), ("stereo", True), ("pair", True)])
def test_panning_is_asked_only_where_there_are_two_sides(shape: str, asked: bool) -> None:
    replies = walk(QUESTIONS, scripted({**MODULE, "out.1.shape": shape}))
    assert ("engine.pan" in replies) == asked


def test_tracks_play_and_send_as_told(tmp_path: Path) -> None:
    box = made(tmp_path, {**DESK, "track.names": "A, B", "track.standing": "3, 4", "track.off": "y"})
    assert [(track.plays, track.stands, track.can_be_off) for track in box.tracks] == [("1", 3, True), (None, 4, True)]
    silent = made(tmp_path, {**DESK, "track.sends": "no"})
    assert [track.channels for track in silent.tracks] == [(), ()]


def test_a_small_plug_of_unknown_wiring_is_left_out_with_a_note(tmp_path: Path) -> None:
    box = made(tmp_path, {**MODULE, "midi.1.plug": "unknown", "midi.2": "usb-device", "midi.3": ""})
    assert [(port.name, port.way, port.plug) for port in box.ports] == [("USB", "both", "usb-device")]
    text = (tmp_path / "made.toml").read_text("utf-8")
    assert "socket MIDI IN is missing here" in text and "The maker's manual says" in text.replace("\n# ", " ")


def test_sockets_pass_on_what_they_are_told(tmp_path: Path) -> None:
    said = {"midi.3": "out", "midi.3.repeats": "MIDI IN", "midi.3.clock": "no", "midi.1.plug": "trs-b"}
    box = made(tmp_path, MODULE | said)
    assert [(p.way, p.plug, p.passes_on, p.clock) for p in box.ports] == [
        ("in", "trs-b", (), True),
        ("thru", "din", ("MIDI IN",), True),
        ("out", "din", ("MIDI IN",), False),
    ]


def test_what_the_box_stores_is_kept_with_engines_strips_and_tracks(tmp_path: Path) -> None:
    box = made(tmp_path, {**DESK, "stored": "pan, channel"})
    assert (box.engines[0].memory("channel"), box.engines[0].memory("level")) == ("box", "project")
    assert (box.strips[0].memory("pan"), box.strips[0].memory("reverb")) == ("box", "project")
    assert box.tracks[0].memory("channel") == "box"


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ({"outs": "many"}, "whole number from 0"),
        ({"out.1.right": "L"}, "there already"),
        ({"engine.names": "A"}, "As many different names"),
        ({"engine.names": "A, A"}, "As many different names"),
        ({"engine.sounds": "a, b, c"}, "One for all of them"),
        ({"engine.standing": "17"}, "from 1 to 16"),
        ({"engine.offers": "pan"}, "is no effect"),
        ({"midi.1": "thru"}, "one of in, out"),
        ({"midi.2.name": "MIDI IN"}, "there already"),
        ({"stored": "colour"}, "channel, pan, outlet, level"),
        ({"name": ""}, "Something has to be answered"),
    ],
)
def test_wrong_answers_say_what_is_allowed(said: dict[str, str], message: str) -> None:
    with pytest.raises(NotSoError, match=message):
        walk(QUESTIONS, scripted(MODULE | said))


@KEPT
@given(data=st.data())
def test_any_answers_make_a_file_that_says_them(tmp_path: Path, data: st.DataObject) -> None:
    replies = walk(QUESTIONS, drawn(data.draw))
    told = box_of(replies)
    assert read_back(tmp_path, told) == told.box
    assert told.box.name == replies["name"]
    assert [engine.name for engine in told.box.engines] == list(replies.get("engine.names", ()))


@pytest.mark.parametrize("file", sorted(BOXES.iterdir()), ids=lambda file: file.stem)
def test_any_box_is_written_whole(tmp_path: Path, file: Path) -> None:
    box = read_box(file)
    assert read_back(tmp_path, Told(box)) == box


@pytest.mark.parametrize("name", ODD)
def test_a_copy_has_another_name_and_the_same_remarks(tmp_path: Path, name: str) -> None:
    text = (BOXES / "barge.toml").read_text("utf-8")
    copy = copy_text(text, name, "a.json")
    first, _, rest = copy.partition("\n")
    assert (first, rest.replace(rest.splitlines()[2], 'name  = "Barge"')) == ("#:schema a.json", text)
    (tmp_path / "copy.toml").write_bytes(copy_text(copy, name, "b.json").encode())
    assert read_box(tmp_path / "copy.toml").name == name
    assert (tmp_path / "copy.toml").read_text("utf-8").count("#:schema") == 1
