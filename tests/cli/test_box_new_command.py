"""``hardpan box new``."""

import json
import random
import re
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from solver.making.box_file import box_of
from solver.making.box_questions import Place, box_interview
from solver.making.box_text import box_text
from solver.making.jam_file import from_there
from solver.making.questions import NotSoError, Question
from solver.reading import read_box
from solver.schemas import schema_file
from tests.cli.answering import Talk, files, talker
from tests.making.walking import walk
from tests.showing import ROOT

STRAIGHT = [
    *("Skiff", "", "two voices", "1", "pair", "L/MONO", "", "", "", "", "2", "", ""),  # up to the headphones
    *("0", "2", "A, B", "synth", "own", "", "y", "", "sides", "0"),  # ins, engines, tracks
    *("in", "", "din", "", "", "channel", ""),  # MIDI, what is stored, the last
]


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Talk:
    return talker(tmp_path, monkeypatch)


def test_straight_through_writes_a_box(talk: Talk, tmp_path: Path) -> None:
    done = talk("box", "new", typed=STRAIGHT)
    assert done.exit_code == 0, done.output
    assert done.stdout.startswith("Wrote boxes/skiff.toml.")
    box = read_box("boxes/skiff.toml")
    assert (box.name, box.about, box.outlets[0].alone, box.outlets[1].mirrors) == ("Skiff", "two voices", "sum", "MAIN")
    assert [(e.name, e.sound, e.stands, e.pan, e.can_be_off) for e in box.engines] == [
        ("A", "synth", 1, "sides", True),
        ("B", "synth", 2, "sides", True),
    ]
    assert [(port.name, port.clock) for port in box.ports] == [("MIDI IN", True)]
    assert box.engines[0].memory("channel") == "box"
    assert files(tmp_path) == {"skiff.toml"}


def test_back_twice_and_change(talk: Talk) -> None:
    done = talk("box", "new", typed=["Skif", "", "back", "back", "Skiff", *STRAIGHT[1:]])
    assert done.exit_code == 0, done.output
    assert "[Skif]: " in done.stderr
    assert read_box("boxes/skiff.toml").name == "Skiff"


@pytest.mark.parametrize("last", [["quit"], []])
@pytest.mark.parametrize("many", range(0, len(STRAIGHT), 6))
def test_quit_and_the_end_of_input_leave_nothing(talk: Talk, tmp_path: Path, last: list[str], many: int) -> None:
    done = talk("box", "new", typed=[*STRAIGHT[:many], *last])
    assert (done.exit_code, done.stdout) == (3, "")
    assert done.stderr.splitlines()[-1] == "Stopped: nothing is written."
    assert files(tmp_path) == set()


def test_help_says_how_to_find_out_the_wiring(talk: Talk) -> None:
    done = talk("box", "new", typed=[*STRAIGHT[:-5], "?", "4", "", "", "", ""])
    assert done.exit_code == 0, done.output
    assert "The maker's manual says" in done.stderr and "adapter that came with the box" in done.stderr
    assert read_box("boxes/skiff.toml").ports == ()
    assert "MIDI IN is missing here" in Path("boxes/skiff.toml").read_text("utf-8")


def test_wrong_answers_are_asked_again_with_what_is_allowed(talk: Talk) -> None:
    typed = [*STRAIGHT[:3], "few", *STRAIGHT[3:]]
    done = talk("box", "new", typed=typed)
    assert done.exit_code == 0, done.output
    assert "A whole number from 0 to 64 is wanted here." in done.stderr


def test_options_answer_the_main_questions(talk: Talk) -> None:
    words = ["--about", "desk", "--out", "OUT L, OUT R", "--out", "AUX", "--in", "stereo LINE", "--engines", "3"]
    words += ["--channels", "none", "--tracks", "4", "--midi", "out", "--midi", "in trs-a=NOTES"]
    done = talk("box", "new", "punt", "--name", 'Punt "2" = #😀', *words)
    assert done.exit_code == 0, done.output
    box = read_box("punt.toml")
    assert (box.name, box.about, len(box.engines), len(box.tracks)) == ('Punt "2" = #😀', "desk", 3, 4)
    assert [jack.label for outlet in (*box.outlets, *box.inlets) for jack in outlet.jacks] == [
        "OUT L",
        "OUT R",
        "AUX",
        "LINE",
    ]
    assert [(port.name, port.way, port.plug) for port in box.ports] == [
        ("MIDI OUT", "out", "din"),
        ("NOTES", "in", "trs-a"),
    ]


WORDS = {"offers": "ducking, reverb", "sounds": "synth", "stored": "channel, pan"}


def chance(seed: int) -> tuple[dict[str, str], str]:
    """Answers drawn to every question of an interview, as they would be typed, and the file that comes of them."""
    dice, typed = random.Random(seed), dict[str, str]()

    def reply(question: Question) -> Any:
        last = question.key.rpartition(".")[2]
        text = WORDS.get(last) or dice.choice(["", *(choice.reply for choice in question.choices)])
        if question.key in ("outs", "ins", "engines", "tracks"):
            text = str(dice.randint(0, 2))
        if (last.isdecimal() and int(last) > 3) or question.key == "sure":
            text = ""
        typed[question.key] = text or ("Punt" if question.default is None else "")
        try:
            return question.answer(typed[question.key])
        except NotSoError:  # a thru of nothing
            typed[question.key] = ""
            return question.answer("")

    told = box_of(walk(partial(box_interview, Place(Path(), Path, Path("punt.toml"))), reply))
    return typed, box_text(told, from_there(schema_file("box"), Path.cwd()))


@pytest.mark.parametrize("seed", range(12))
def test_every_answer_is_an_option(talk: Talk, seed: int) -> None:
    typed, text = chance(seed)
    answers = [word for key, said in typed.items() if said for word in ("--answer", f"{key}={said}")]
    done = talk("box", "new", "punt", *answers)
    assert done.exit_code == 0, done.output
    assert Path("punt.toml").read_text("utf-8") == text


def test_the_page_names_every_question() -> None:
    page = (ROOT / "docs" / "reference" / "boxes.md").read_text("utf-8")
    table = page[page.index("| question |") :].partition("\n\n")[0]
    told = {
        re.sub(r"\b[A-Z]\b", "1", key)
        for row in table.splitlines()
        for key in re.findall(r"`([\w.]+)`", row.split("|")[1])
    }
    asked = {re.sub(r"\.\d+", ".1", key) for seed in range(60) for key in chance(seed)[0]}
    assert told == asked - {"sure"} | {"file"}


@pytest.mark.parametrize("last", ["?", "yes"])
def test_help_tells_the_option(talk: Talk, last: str) -> None:
    done = talk("box", "new", typed=["Punt", last, "quit"])
    assert "As an option: FILE\n" in done.stderr or last == "yes"
    done = talk("box", "new", typed=["Punt", "", "", "1", "mono", "?", "", "?", "quit"])
    assert "As an option: --out\n" in done.stderr
    assert "As an option: --answer out.1.plug=...\n" in done.stderr


def test_a_mono_input_has_a_fader_or_none_and_effects_have_names(talk: Talk) -> None:
    up_to = ["Punt", "", "", "0", "", "1", "mono", "", ""]
    done = talk("box", "new", typed=[*up_to, "both", "yes", "yes", "reverb", "quit"])
    assert 'There is no "both" here; it is one of yes, no.' in done.stderr
    assert done.stderr.count("Their names are wanted, such as reverb, delay. Enter alone is for none.") == 1


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "--name is missing"),
        (
            ("--name", "A", "--answer", "trak.names=x"),
            "--answer trak.names=x: nothing is called so among what is asked",
        ),
        (("--name", "A", "--tracks", "1", "--answer", "trak.names=x"), "; did you mean track.names?"),
        (
            ("--name", "A", "--answer", "out.1.plug=9"),
            "--answer out.1.plug '9': There is no \"9\" here; it is one of 6.35",
        ),
        (("--name", "A", "--answer", "plug"), '--answer "plug": a question, =, an answer, such as engine.sounds=drum.'),
        (("--name", "A", "--engines", "x"), "--engines 'x': A whole number"),
        (("--name", "A", "--engines", "0", "--channels", "own"), "--channels 'own': there is nothing to choose here"),
        (("--name", "A", "--out", "a, b, c"), "one label, or two"),
        (("--name", "A", "--midi", "thru"), "--midi 'thru'"),
        (("--from", "barge", "--name", "A", "--tracks", "2"), "--from copies a box as it is"),
        (("--from", "barg", "--name", "A"), "Did you mean barge?"),
    ],
)
def test_what_is_wrong_or_missing_names_its_option(
    talk: Talk, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    done = talk("box", "new", *words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr
    assert files(tmp_path) == set()


@pytest.mark.parametrize("source", ["barge", "Barge", "boxes/barge.toml"])
def test_a_copy_keeps_remarks_under_a_new_name(talk: Talk, source: str) -> None:
    done = talk("box", "new", "--from", source, "--name", "Barge Two")
    assert done.exit_code == 0, done.output
    copy = Path("boxes/barge-two.toml").read_text("utf-8")
    original = Path("boxes/barge.toml").read_text("utf-8")
    assert copy.partition("\n")[2] == original.replace('"Barge"', '"Barge Two"')
    assert copy.startswith("#:schema ") and copy.partition("\n")[0].endswith("box.json")


def test_a_file_that_is_there_stays_unless_forced(talk: Talk) -> None:
    before = Path("boxes/barge.toml").read_bytes()
    done = talk("box", "new", "--name", "Barge")
    assert (done.exit_code, Path("boxes/barge.toml").read_bytes()) == (2, before)
    assert "is there already" in done.stderr
    assert talk("box", "new", "boxes/barge.toml", "--from", "barge", "--force").exit_code == 2
    assert talk("box", "new", "--name", "Barge", "--force").exit_code == 0
    assert len(read_box("boxes/barge.toml").engines) == 1


def test_without_a_folder_for_boxes_it_stands_here(talk: Talk, tmp_path: Path) -> None:
    (tmp_path / "boxes").rename(tmp_path / "others")
    assert talk("box", "new", "--name", "Skiff").exit_code == 0
    assert read_box("skiff.toml").name == "Skiff"


def test_json_is_one_document(talk: Talk) -> None:
    done = talk("box", "new", "--name", "Skiff", "--json")
    assert json.loads(done.stdout) == {
        "name": "Skiff",
        "file": "boxes/skiff.toml",
        "left_out": [],
        "doubts": [
            "boxes/skiff.toml:12: doubt: Nobody can play the engine 1: the box has no MIDI in, and no track plays it. "
            "[B05]"
        ],
    }
