"""``hardpan new``."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from solver.cli import main
from solver.jam.jam import Jam
from solver.reading import read_jam
from tests.cli.answering import Talk, files, talker

GIVEN = ("--box", "tiller=boxes/tiller.toml", "--box", "barge", "--part", "kick=tiller/PAD 1", "--part", "arp=barge")
STRAIGHT = [
    *("First Light", "tiller", "", "barge", "", ""),  # title, boxes and their names
    *("", "", "96", "mono"),  # leader, ears, tempo, mains
    *("kick", "tiller/PAD 1", "arp", "barge", "synth", ""),  # parts
    *("", "arp", "ducking 20, reverb 30", "", "", "barge", "din 1, 6.35 mono 2"),  # layers, effects, key, clock, drawer
    "",
]


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Talk:
    return talker(tmp_path, monkeypatch)


def test_straight_through_writes_and_plans(talk: Talk, tmp_path: Path) -> None:
    done = talk("new", "light.toml", typed=STRAIGHT)
    assert done.exit_code == 0, done.output
    jam = read_jam("light.toml")
    assert (jam.title, jam.leader, jam.listen, jam.tempo, jam.mains) == (
        "First Light",
        "tiller",
        "tiller/MAIN",
        96,
        "mono",
    )
    assert (jam.parts["kick"].on, jam.parts["arp"].sound) == ("tiller/PAD 1", "synth")
    assert [(w.part, w.effect, w.amount, w.key) for w in jam.wanted] == [
        ("arp", "ducking", 20, "kick"),
        ("arp", "reverb", 30, None),
    ]
    assert jam.cables == {"din": 1, "6.35 mono": 2}
    assert files(tmp_path) == {"light.toml"}
    assert "Wrote light.toml." in done.stderr
    assert done.stdout == CliRunner().invoke(main, ["plan", "light.toml"]).stdout


def test_back_twice_changes_an_answer_and_keeps_the_others_as_defaults(talk: Talk) -> None:
    typed = ["One", "tiller", "", "back", "back", "back", "Two", "", "desk", *STRAIGHT[3:6], "", "", "", ""]
    done = talk("new", "light.toml", "--no-plan", "--part", "kick", typed=[*typed, "", "", "", ""])
    assert done.exit_code == 0, done.output
    jam = read_jam("light.toml")
    assert (jam.title, list(jam.boxes)) == ("Two", ["desk", "barge"])
    assert "[One]: " in done.stderr and "[tiller]: " in done.stderr


def test_back_forgets_what_followed_from_the_answer(talk: Talk) -> None:
    """Tiller alone leads without being asked; with gaff beside it, that is a question again."""
    words = ("new", "a.toml", "--title", "A", "--part", "kick", "--no-plan")
    done = talk(*words, typed=["tiller", "", "", "back", "gaff", "", "", "gaff", *[""] * 9])
    assert done.exit_code == 0, done.output
    jam = read_jam("a.toml")
    assert (list(jam.boxes), jam.leader) == (["tiller", "gaff"], "gaff")


def test_the_words_of_the_interview_are_names_in_quotes_only(talk: Talk, tmp_path: Path) -> None:
    assert talk("new", "a.toml", *GIVEN, typed=["Quit", *[""] * 12]).exit_code == 3
    assert files(tmp_path) == set()
    assert talk("new", "a.toml", *GIVEN, "--no-plan", typed=['"Quit"', *[""] * 12]).exit_code == 0
    assert read_jam("a.toml").title == "Quit"


def test_back_at_the_first_question_stays_there(talk: Talk) -> None:
    done = talk("new", "light.toml", typed=["back", "quit"])
    assert "This is the first question." in done.stderr


def test_back_and_a_dash_take_a_reply_away(talk: Talk) -> None:
    typed = ["kick, arp", "back", "-", *[""] * 4]
    done = talk("new", "a.toml", *GIVEN, "--title", "A", "--no-plan", typed=[*[""] * 5, *typed])
    assert done.exit_code == 0, done.output
    assert "[kick, arp; - for none]: " in done.stderr
    assert read_jam("a.toml").intents == ()


@pytest.mark.parametrize("last", [["quit"], ["QUIT "], []])
@pytest.mark.parametrize("many", range(0, len(STRAIGHT), 4))
def test_quit_and_the_end_of_input_leave_nothing(talk: Talk, tmp_path: Path, last: list[str], many: int) -> None:
    done = talk("new", "light.toml", typed=[*STRAIGHT[:many], *last])
    assert (done.exit_code, done.stdout) == (3, "")
    assert done.stderr.splitlines()[-1] == "Stopped: nothing is written."
    assert files(tmp_path) == set()


def test_a_question_mark_tells_more(talk: Talk) -> None:
    done = talk("new", "light.toml", typed=["", "?", "quit"])
    assert "A box file describes one piece of gear." in done.stderr
    assert done.stderr.count("Barge: six-engine sound module") == 2


def test_wrong_answers_are_asked_again_with_what_is_allowed(talk: Talk) -> None:
    done = talk("new", "light.toml", *GIVEN, "--no-plan", typed=["", "", "", "", "fast", "", "both", *[""] * 9])
    assert done.exit_code == 0, done.output
    assert "A number above 0 and at most 1000 is wanted here." in done.stderr
    assert 'There is no "both" here; it is one of stereo, mono.' in done.stderr


def test_the_file_is_asked_where_none_is_named(talk: Talk, tmp_path: Path) -> None:
    Path("low-light.toml").write_text("", encoding="utf-8")
    done = talk("new", *GIVEN, "--no-plan", typed=["Low Light", "", "two", *[""] * 12])
    assert done.exit_code == 0, done.output
    assert "low-light.toml: is there already" in done.stderr
    assert read_jam("two.toml").title == "Low Light"
    assert Path("low-light.toml").read_text(encoding="utf-8") == ""


def test_options_answer_everything(talk: Talk) -> None:
    words = ["--title", "Low", "--leader", "tiller", "--listen", "tiller/MAIN", "--tempo", "97.5", "--mains", "mono"]
    words += ["--part", "bass=barge", "--sound", "bass=synth", "--layer", "bass,arp", "--clock", "barge"]
    words += ["--treat", "bass, arp: ducking 20 key kick, reverb 30", "--drawer", "din=2", "--drawer", "6.35 mono=3"]
    done = talk("new", "low.toml", *GIVEN, *words)
    assert done.exit_code == 0, done.output
    jam = read_jam("low.toml")
    assert (jam.title, jam.tempo, jam.mains, jam.parts["bass"].sound) == ("Low", 97.5, "mono", "synth")
    assert (jam.layers, jam.cables) == ((("kick",), ("arp", "bass")), {"din": 2, "6.35 mono": 3})
    assert [(w.part, w.effect, w.key) for w in jam.wanted] == [
        ("bass", "ducking", "kick"),
        ("bass", "reverb", None),
        ("arp", "ducking", "kick"),
        ("arp", "reverb", None),
    ]


def test_yes_asks_nothing(talk: Talk) -> None:
    done = talk("new", "a.toml", *GIVEN, "--yes", "--no-plan", typed=[])
    assert (done.exit_code, done.stdout) == (0, "Wrote a.toml.\nNext: hardpan plan a.toml\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "--box and --part are missing"),
        (GIVEN[:4], "--part is missing"),
        (GIVEN[4:], "--box is missing"),
        ((*GIVEN, "--leader", "quay"), "--leader 'quay': There is no \"quay\" here; it is one of tiller, barge."),
        ((*GIVEN, "--box", "x=nobody.toml"), "There is no box file"),
        ((*GIVEN, "--box", "tillr"), "Did you mean tiller?"),
        ((*GIVEN, "--sound", "bell=tin"), "there is kick, arp"),
        ((*GIVEN, "--sound", "kick=drum"), "--sound 'drum': there is nothing to choose here"),
        ((*GIVEN, "--treat", "arp"), "a colon"),
        ((*GIVEN, "--treat", "arp: reverb"), "an effect and a percent"),
        ((*GIVEN, "--drawer", "string=1"), "there is 6.35 mono"),
    ],
)
def test_without_a_terminal_what_is_wrong_or_missing_names_its_option(
    talk: Talk, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    done = talk("new", "a.toml", *words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said.casefold() in done.stderr.casefold()
    assert files(tmp_path) == set()


def test_a_file_that_is_there_stays_unless_forced(talk: Talk) -> None:
    Path("a.toml").write_text("mine", encoding="utf-8")
    done = talk("new", "a", *GIVEN, "--no-plan")
    assert (done.exit_code, Path("a.toml").read_text(encoding="utf-8")) == (2, "mine")
    assert "a.toml: is there already" in done.stderr and "--force" in done.stderr
    assert talk("new", "a", *GIVEN, "--no-plan", "--force").exit_code == 0
    assert list(read_jam("a.toml").parts) == ["kick", "arp"]


@pytest.mark.parametrize("file", ["a.json", "none/a.toml", "boxes"])
def test_files_that_cannot_be_are_refused_before_anything_is_asked(talk: Talk, file: str) -> None:
    Path("boxes.toml").mkdir()
    done = talk("new", file, typed=[])
    assert done.exit_code == 2
    assert "Enter takes" not in done.stderr


def test_no_box_of_the_jam_is_replaced(talk: Talk) -> None:
    before = Path("boxes/tiller.toml").read_bytes()
    done = talk("new", "boxes/tiller.toml", "--force", *GIVEN)
    assert (done.exit_code, Path("boxes/tiller.toml").read_bytes()) == (2, before)


def test_box_files_are_named_from_where_the_jam_stands(talk: Talk) -> None:
    Path("jams").mkdir()
    assert talk("new", "jams/a.toml", *GIVEN, "--box", "w=boxes/wherry.toml").exit_code == 0
    assert 'w      = "../boxes/wherry.toml"' in Path("jams/a.toml").read_text("utf-8")


def test_an_impossible_jam_points_to_its_reasons(talk: Talk) -> None:
    done = talk("new", "a.toml", *GIVEN, "--drawer", "din=0")
    assert done.exit_code == 1
    assert "hardpan explain a.toml" in done.stdout
    assert isinstance(read_jam("a.toml"), Jam)


def test_json_is_one_document(talk: Talk) -> None:
    done = talk("new", "a.toml", *GIVEN, "--json")
    assert json.loads(done.stdout)["title"] == "A"
    done = talk("new", "b.toml", *GIVEN, "--json", "--no-plan")
    assert json.loads(done.stdout) == {"title": "B", "file": "b.toml"}
