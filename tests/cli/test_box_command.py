"""``hardpan box``: list, show and check."""

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from solver.boxes import SHIPPED, YOURS
from solver.cli import main
from solver.cli.box import COMMANDS
from solver.reading import read_box
from tests.cli.test_main import python
from tests.showing import SCENARIOS

BAD = 'name = "Bad"\n[[out]]\nname = "MAIN"\nmono = "MAIN"\nplug = "9"\n[[oot]]\n'
DOUBTFUL = '# A synth.\nname = "Doubtful"\n\n[[out]]\nname = "MAIN"\nmono = "MAIN"\n'
DOUBT = 'No engine and no strip goes to the outlet MAIN: name it in their "to", or say what it mirrors.'


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the boxes of Low Tide, a user's own folder that is not there yet, and no other box."""
    monkeypatch.setenv(YOURS, "own")
    monkeypatch.chdir(tmp_path)
    Path("boxes").mkdir()
    for box in ("barge", "tiller"):
        shutil.copy(SCENARIOS / "boxes" / f"{box}.toml", "boxes")
    return tmp_path


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ("box", *words))


def data(*words: str, status: int = 0) -> dict[str, Any]:
    done = run(*words, "--json")
    assert done.exit_code == status
    answer: dict[str, Any] = json.loads(done.stdout)
    return answer


def rows(box: str) -> list[str]:
    """What is shown of a box, with one space between words."""
    return [" ".join(line.split()) for line in run("show", box).stdout.splitlines()]


def test_help_lists_the_commands_and_loads_none_of_them() -> None:
    script = (
        "import sys\nfrom solver.cli import main\nmain(['box', '--help'], standalone_mode=False)\n"
        "print(sorted({'ortools', 'pydantic', 'tabulate'} & set(sys.modules)), file=sys.stderr)"
    )
    done = python("-c", script)
    assert (done.returncode, done.stderr.decode().strip()) == (0, "[]")
    for name, line in COMMANDS.items():
        assert f"  {name}" in done.stdout.decode()
        assert line in done.stdout.decode()


@pytest.mark.parametrize("name", [name for name in COMMANDS if name != "schema"])
def test_each_has_help_and_json(name: str) -> None:
    done = run(name, "--help")
    assert done.exit_code == 0
    assert "--json" in done.output
    assert done.output.startswith(f"Usage: hardpan box {name} ")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["chekc"], "There is no command 'box chekc'. Did you mean check?"),
        (["zzz"], "There is no command 'box zzz'. The commands are "),
        (["show"], "Missing argument"),
        (["check"], "Missing argument"),
    ],
)
def test_wrong_usage_exits_2(words: list[str], said: str) -> None:
    done = run(*words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr


def test_list_tells_name_kind_file_and_where(folder: Path) -> None:
    done = run("list")
    assert (done.exit_code, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[0].split() == ["name", "what", "it", "is", "file", "where"]
    assert lines[2].split()[0] == "Barge" and lines[2].split()[-2:] == ["boxes/barge.toml", "beside"]
    assert any(line.startswith("Sampler ") and line.endswith("hardpan's") for line in lines)
    assert "Your own folder is own (it is not there yet); the variable HARDPAN_BOXES" in done.stdout


def test_list_names_your_own_and_what_is_wrong(folder: Path) -> None:
    Path("own").mkdir()
    Path("own/mine.toml").write_text(BAD, "utf-8")
    done = run("list", "boxes")
    assert done.exit_code == 0
    assert "Your own folder is own; the variable" in done.stdout
    assert any(line.split()[-2:] == ["mine.toml", "yours"] for line in done.stdout.splitlines())
    assert 'own/mine.toml:5: out.1.plug: found "9"; allowed: "6.35" or "3.5"' in done.stdout
    (mine,) = [box for box in data("list", "boxes")["boxes"] if box["where"] == "yours"]
    assert (mine["name"], mine["file"]) == (None, "own/mine.toml")
    assert len(mine["problems"]) == 2


def test_list_as_data(folder: Path) -> None:
    listed = data("list", ".")
    assert (listed["folder"], listed["yours"]) == (".", "own")
    assert listed["boxes"][0] == {
        "name": "Barge",
        "about": "six-engine sound module, one stereo output",
        "file": "boxes/barge.toml",
        "where": "beside",
        "problems": [],
    }
    shipped = [box["file"] for box in listed["boxes"] if box["where"] == "shipped"]
    assert shipped == [str(file) for file in sorted(SHIPPED.glob("*.toml"))]


def test_list_of_no_folder_exits_2(folder: Path) -> None:
    done = run("list", "nowhere", "--json")
    said = "nowhere: found no such folder; allowed: a folder with box files or jams [F01]"
    assert (done.exit_code, done.stderr) == (2, said + "\n")
    assert json.loads(done.stdout) == {"status": "bad input", "problems": [said], "codes": ["F01"]}


@pytest.mark.parametrize("word", ["boxes/tiller.toml", "tiller"])
def test_show_takes_a_path_or_a_name(folder: Path, word: str) -> None:
    done = run("show", word)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith("Tiller\n======\n")
    assert "Described in boxes/tiller.toml.\n" in done.stdout
    assert data("show", word)["file"] == "boxes/tiller.toml"


@pytest.mark.parametrize(
    "line",
    [
        "Sound out",
        "MAIN L/MONO left 6.35 mm both sides summed",
        "R right 6.35 mm its own side",
        "MIDI THRU thru DIN MIDI IN passes",
        "5 noise 5 1 to 16 up to 24 obeys",
        "engines 1, 2, 3, 4, 5, 6 channel box: once for all projects",
    ],
)
def test_show_tells_sockets_engines_and_memory(folder: Path, line: str) -> None:
    assert line in rows("barge")


@pytest.mark.parametrize(
    "line",
    [
        "IN 1 IN 1 EXT 1",
        "IN 1 MAIN anywhere ducking, reverb PAD 1, PAD 2",
        "PAD 1 drum no channel PAD 1",
        "PAD 1 10 1 to 16, off PAD 1 -",
    ],
)
def test_show_tells_strips_and_tracks(folder: Path, line: str) -> None:
    assert line in rows("tiller")


def test_show_as_data_has_the_keys_of_the_file(folder: Path) -> None:
    box = data("show", "barge")["box"]
    assert (box["name"], box["midi"][1]["copies"], box["out"][0]["alone"]) == ("Barge", "MIDI IN", "sum")
    assert set(box["engine"][0]) >= {"channels", "can_be_off", "stored"}


@pytest.mark.parametrize("file", [*sorted(SCENARIOS.glob("**/boxes/*.toml")), *sorted(SHIPPED.glob("*.toml"))], ids=str)
def test_every_box_is_shown_within_the_width(file: Path) -> None:
    done = run("show", str(file))
    assert done.exit_code == 0
    lines = [line for line in done.stdout.splitlines() if not line.startswith(("Described", "/"))]
    assert max(map(len, lines)) <= 80
    box = read_box(file)
    for label in [jack.label for at in (*box.outlets, *box.inlets) for jack in at.jacks]:
        assert label in done.stdout


def test_show_of_an_unknown_name_suggests_one(folder: Path) -> None:
    done = run("show", "bargee")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.endswith('did you mean "barge"? [F01]\n')
    assert data("show", "boxes/bargee.toml", status=2)["status"] == "bad input"


def test_check_finds_nothing(folder: Path) -> None:
    done = run("check", "tiller", "sampler")
    said = "All is well: 2 box files, nothing wrong and nothing doubtful.\n"
    assert (done.exit_code, done.stdout, done.stderr) == (0, said, "")
    assert data("check", "tiller")["status"] == "well"


def test_check_with_doubts_alone_exits_0(folder: Path) -> None:
    Path("doubtful.toml").write_text(DOUBTFUL, "utf-8")
    done = run("check", "doubtful.toml")
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout == f"doubtful.toml:4: doubt: {DOUBT} [B03]\n1 box file: no error, 1 doubt.\n"
    assert data("check", "doubtful.toml") == {
        "status": "doubtful",
        "problems": [],
        "files": [
            {
                "file": "doubtful.toml",
                "name": "Doubtful",
                "problems": [],
                "doubts": [{"code": "B03", "line": 4, "key": "out.1", "sentence": DOUBT}],
            }
        ],
    }


def test_check_with_errors_exits_2_and_goes_on(folder: Path) -> None:
    Path("bad.toml").write_text(BAD, "utf-8")
    Path("doubtful.toml").write_text(DOUBTFUL, "utf-8")
    done = run("check", "bad.toml", "nothing", "doubtful.toml")
    assert (done.exit_code, done.stderr) == (2, "")
    lines = done.stdout.splitlines()
    assert lines[0] == 'bad.toml:5: out.1.plug: found "9"; allowed: "6.35" or "3.5" [V04]'
    assert lines[1].startswith("bad.toml:6: oot: found unknown key oot; allowed: the keys name, about,")
    assert lines[2].startswith("nothing: no box file of that name is here,")
    assert lines[3:] == [f"doubtful.toml:4: doubt: {DOUBT} [B03]", "3 box files: 3 errors, 1 doubt."]
    answer = data("check", "bad.toml", "nothing", "doubtful.toml", status=2)
    assert answer["status"] == "bad input"
    assert answer["problems"] == lines[:3]
    assert [file["name"] for file in answer["files"]] == [None, None, "Doubtful"]
    assert answer["files"][0]["problems"][0]["line"] == 5
    assert answer["files"][0]["problems"][0]["code"] == "V04"
