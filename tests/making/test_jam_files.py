"""Jam files made of answers: they read as what was answered, and they plan."""

from functools import partial
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import solver
from solver.cli import main
from solver.cli.exits import Exit
from solver.jam.jam import Jam
from solver.making.jam_file import files_of, from_there, jam_of, jam_text
from solver.making.jam_questions import jam_interview
from solver.making.questions import NotSoError
from solver.outcome import Planned
from solver.reading import read_jam
from tests.making.walking import ODD, at_hand, drawn, scripted, walk, words
from tests.showing import SCENARIOS

LOW = {
    "box.1": "tiller",
    "box.2": "barge",
    "part.1": "kick",
    "part.1.on": "tiller/PAD 1",
    "part.2": "bass",
    "part.2.on": "barge",
    "part.2.sound": "synth",
    "part.3": "arp",
}
KEPT = settings(
    deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40
)


def made(folder: Path, replies: dict[str, Any]) -> tuple[Jam, Jam]:
    """The jam that was told of, and the one that its file says."""
    jam, file = jam_of(replies), folder / "made.toml"
    files = {name: from_there(found, folder) for name, found in files_of(replies).items()}
    file.write_bytes(jam_text(jam, files, "jam.json").encode())
    return jam, read_jam(file)


def low(folder: Path, **said: str) -> tuple[Jam, Jam]:
    """Low tide waters: tiller, barge and three parts, with some answers more."""
    keyed = {key.replace("_", "."): text for key, text in said.items()}
    return made(folder, walk(partial(jam_interview, at_hand()), scripted(LOW | keyed)))


def test_few_answers_make_a_jam_that_plans(tmp_path: Path) -> None:
    told, read = low(tmp_path)
    assert read == told
    assert (read.leader, read.listen, read.tempo, read.mains) == ("tiller", "tiller/MAIN", 120, "stereo")
    assert (read.parts["bass"].on, read.parts["bass"].sound, read.parts["arp"].on) == ("barge", "synth", None)
    assert (read.intents, read.cables) == ((), None)
    assert isinstance(solver.plan(read), Planned)


def test_wishes_are_kept(tmp_path: Path) -> None:
    said = {"layer_1": "bass, arp", "treat_1": "arp", "treat_1_amounts": "ducking 20, reverb 30 %", "clock": "barge"}
    told, read = low(
        tmp_path, **said, treat_2="bass", treat_2_amounts="ducking 60 key arp", drawer="din 1, 6.35 mono=2"
    )
    assert read == told
    shown = [intent.model_dump(exclude_defaults=True, by_alias=True) for intent in read.intents]
    assert shown == [
        {"layer": ("bass", "arp")},
        {"treat": ("arp",), "with": {"ducking": 20, "reverb": 30}, "key": "kick"},
        {"treat": ("bass",), "with": {"ducking": 60}, "key": "arp"},
        {"clock": ("barge",)},
    ]
    assert read.cables == {"din": 1, "6.35 mono": 2}


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ({"box_2": "nobody"}, "no such box file"),
        ({"box_1": "sluice", "box_2": ""}, "line out to listen to"),
        ({"box_2_name": "tiller"}, "there already"),
        ({"box_2_name": "a/b"}, "slash"),
        ({"tempo": "fast"}, "above 0"),
        ({"tempo": "nan"}, "above 0"),
        ({"leader": "quay"}, "one of tiller, barge"),
        ({"listen": "barge/L/MONO"}, "one of tiller/MAIN, barge/MAIN"),
        ({"part_2": "kick"}, "there already"),
        ({"part_2": "bass, arp"}, "One part at a time"),
        ({"part_2_on": "tiller/PAD 9"}, 'no "tiller/PAD 9"'),
        ({"part_2_sound": "brass"}, "any, synth, noise"),
        ({"layer_1": "bass"}, "two parts or more"),
        ({"layer_1": "bass, bell"}, 'called "bell"'),
        ({"treat_1": "bell"}, 'no part "bell"'),
        ({"treat_1": "arp", "treat_1_amounts": "reverb 101"}, "from 0 to 100"),
        ({"treat_1": "arp", "treat_1_amounts": "flange 10"}, "ducking, reverb"),
        ({"treat_1": "arp", "treat_1_amounts": "reverb 10 key kick"}, "Only ducking"),
        ({"treat_1": "arp", "treat_1_amounts": "ducking 10 key bell"}, 'no part "bell"'),
        (
            {"treat_1": "arp", "treat_1_amounts": "reverb 1", "treat_2": "arp", "treat_2_amounts": "reverb 2"},
            "already",
        ),
        ({"clock": "tiller"}, "barge"),
        ({"drawer": "string 2"}, 'no cable "string"; there is 6.35 mono, '),
        ({"drawer": "6.35 momo 2"}, r"Did you mean 6\.35 mono\?$"),
        ({"drawer": "din"}, "The kinds are"),
        ({"leader": "tilller"}, r"Did you mean tiller\?$"),
        ({"layer_1": "bas, arp"}, r"Did you mean bass\?$"),
        ({"treat_1": "arp", "treat_1_amounts": "reverp 10"}, r"Did you mean reverb\?$"),
        ({"drawer": "din 1, din 2"}, "stands twice"),
    ],
)
def test_wrong_answers_say_what_is_allowed(tmp_path: Path, said: dict[str, str], message: str) -> None:
    with pytest.raises(NotSoError, match=message):
        low(tmp_path, **said)


@pytest.mark.parametrize("name", ODD)
def test_odd_names_survive(tmp_path: Path, name: str) -> None:
    quoted = '"' + name.replace('"', '\\"').replace("\t", "\\t") + '"'
    told, read = low(tmp_path, title=quoted, box_2_name=quoted, part_2=quoted, part_2_on="3", layer_1=f"{quoted}, arp")
    assert read == told
    assert (read.title, list(read.boxes)[1], list(read.parts)[1]) == (name, name, name)


def test_tempo_and_schema_stand_as_they_are_read(tmp_path: Path) -> None:
    told, read = low(tmp_path, tempo="97.5")
    assert read.tempo == told.tempo == 97.5
    text = (tmp_path / "made.toml").read_text("utf-8")
    assert text.startswith("#:schema jam.json\n# ")
    assert 'tiller = "' in text and "../" in text


@KEPT
@given(data=st.data())
def test_any_answers_make_a_file_that_says_them(tmp_path: Path, data: st.DataObject) -> None:
    replies = walk(partial(jam_interview, at_hand()), drawn(data.draw))
    told, read = made(tmp_path, replies)
    assert read == told
    assert list(read.parts) == [replies[f"part.{n}"] for n in range(1, len(read.parts) + 1)]
    assert [read.boxes[replies[f"box.{n}.name"]] for n in range(1, len(read.boxes) + 1)] == list(read.boxes.values())


@KEPT
@given(data=st.data())
def test_any_answers_make_a_file_that_plans(tmp_path: Path, data: st.DataObject) -> None:
    """Planned, or proved impossible: the file is never what stands in the way."""
    made(tmp_path, walk(partial(jam_interview, at_hand()), drawn(data.draw)))
    done = CliRunner().invoke(main, ["plan", str(tmp_path / "made.toml"), "--time-limit", "60"])
    assert done.exit_code in (Exit.WELL, Exit.FAILED), done.output


@KEPT
@given(title=words, part=words, recall=words, weight=st.integers(1, 1000))
def test_any_jam_is_written_whole(tmp_path: Path, title: str, part: str, recall: str, weight: int) -> None:
    low_tide = read_jam(SCENARIOS / "low-tide.toml")
    stated = low_tide.model_dump(by_alias=True, exclude_defaults=True) | {"boxes": low_tide.boxes, "title": title}
    stated["part"] = {**stated["part"], part: {"notes": 2, "sounds": [title, recall + "2"]}}
    wishes = [{"stereo": [part], "weight": weight, "name": recall}, {"play": [part], "from": "tiller"}]
    stated["intent"] = [*stated["intent"], *wishes, {"avoid": {"channels": [3]}}]
    jam = Jam.model_validate(stated)
    file = tmp_path / "whole.toml"
    file.write_bytes(
        jam_text(jam, {name: str(SCENARIOS / "boxes" / f"{name}.toml") for name in jam.boxes}, "x").encode()
    )
    assert read_jam(file) == jam
