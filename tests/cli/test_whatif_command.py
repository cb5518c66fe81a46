"""``hardpan whatif``: what it says, the one JSON document, and what it exits with."""

import json
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from benchmarks.files import write
from benchmarks.rigs import SIZES, rig
from solver.cli import main
from solver.cli.whatif import command
from solver.plans import Plan
from solver.reading import read_jam, read_plan, read_saved
from tests.showing import ROOT, SCENARIOS

JAM = "low-tide.toml"
NO_JACK = """--add-intent 'avoid = { jacks = ["barge/R"] }'"""
REFUSED = "--sweep and --frontier are asked alone."
Run = Callable[[str], Result]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run ``hardpan whatif`` on copies of the scenarios, in their folder."""
    monkeypatch.chdir(shutil.copytree(SCENARIOS, tmp_path / "scenarios"))
    monkeypatch.setattr("solver.cli.telling.QUIET", float("inf"))

    def go(words: str) -> Result:
        done = CliRunner().invoke(main, ["whatif", *shlex.split(words)], prog_name="hardpan")
        assert "Traceback" not in done.stderr and "Sorry" not in done.stderr
        return done

    return go


def data_of(done: Result) -> dict[str, Any]:
    """The one JSON document."""
    assert done.stdout.endswith("}\n")
    found = json.loads(done.stdout)
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (f"{JAM} --drop-part bass", 0, "What if, in Low Tide:\n- Without the part bass.\n"),
        (f"{JAM} {NO_JACK}", 1, "\nImpossible, proved (it was possible before).\n"),
        (
            JAM,
            0,
            "Low Tide as it is, against the plan in use:\n\nThe plan stays as it is: 3 cables, 5 settings to move.\n",
        ),
        (f"{JAM} --set title=Other", 0, "\nThe plan stays as it is: "),
        ("impossible/three-reeds.toml --drop intent.1", 0, " It was impossible before.\n"),
        ("impossible/three-reeds.toml", 1, "\nImpossible, proved (as before).\n"),
    ],
)
def test_an_answer_says_what_becomes_of_the_plan(words: str, status: int, said: str, run: Run) -> None:
    done = run(words)
    assert (done.exit_code, done.stderr) == (status, "")
    assert said in done.stdout
    found = run(f"{words} --json")
    assert (found.exit_code, found.stderr) == (status, "")
    possible = data_of(found)["status"] == "proved fewest cables" or data_of(found)["plan"] is not None
    assert possible == (status == 0)
    assert data_of(found)["changes"] == ([] if "--" not in words else data_of(found)["changes"])
    assert "written" not in data_of(found)


def test_an_answer_as_json(run: Run) -> None:
    found = data_of(run(f"{JAM} --drop-part bass --json"))
    assert found["title"] == "Low Tide"
    assert found["changes"][0] == "without the part bass"
    assert found["before"]["goals"] == {"cables": 3, "silenced": 0, "settings_moved": 5}
    assert found["after"]["status"] == found["status"] == Plan.from_json(found["plan"]).status
    assert found["difference"]["parts"]["bass"]["new"] is None
    assert (found["conflicts"], found["repairs"]) == ([], [])


def test_a_change_that_leaves_no_plan_as_json(run: Run) -> None:
    found = data_of(run(f"{JAM} {NO_JACK} --json"))
    assert (found["status"], found["plan"], found["difference"]) == ("impossible", None, None)
    assert found["changes"] == ["one more wish: what you avoid, barge/R"]
    assert found["conflicts"] and found["repairs"]


def test_what_is_not_decided_in_time_exits_3(tmp_path: Path, run: Run) -> None:
    file = shlex.quote(str(write(rig(SIZES[-1]), tmp_path)))
    done = run(f"{file} --set tempo=90 --time-limit 0.01 --write")
    assert done.exit_code == 3
    assert "\nNot decided: " in done.stdout and "mpossible" not in done.stdout
    assert "stays as it is" in done.stderr
    found = run(f"{file} --set tempo=90 --time-limit 0.01 --json")
    assert (found.exit_code, data_of(found)["status"], data_of(found)["plan"]) == (3, "undecided", None)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (f"{JAM} --drop intent.9", "--drop: found "),
        (f"{JAM} --remove-box tiller --write", "--remove-box: found "),
        (f"{JAM} --set mains=mona --drawer din=x", "--set: mains: found "),
        (f"{JAM} --from nowhere.toml", "nowhere.toml: found no such file; allowed: a file of changes"),
        (f"{JAM} --against nowhere.json", "nowhere.json: found no such file; allowed: a plan file"),
        (f"{JAM} --out {JAM}", f"{JAM}: not saved there"),
        (f"{JAM} --out nowhere/plan.json", "nowhere/plan.json: the folder nowhere is not there."),
        ("nowhere.toml --drop intent.1", "nowhere.toml: found no such file; allowed: a jam or set file"),
        ("boxes/tiller.toml", "boxes/tiller.toml:"),
        ("nowhere.toml --sweep", "nowhere.toml: found no such file; allowed: a jam or set file"),
        ("nowhere.toml --frontier", "nowhere.toml: found no such file; allowed: a jam or set file"),
        (f"{JAM} --frontier --page {JAM}", f"{JAM}: not saved there"),
    ],
)
def test_bad_input_exits_2_and_says_why(words: str, said: str, run: Run) -> None:
    before = Path(JAM).read_bytes()
    done = run(words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith(said)
    found = run(f"{words} --json")
    assert (found.exit_code, found.stderr) == (2, done.stderr)
    problems = done.stderr.splitlines()
    assert data_of(found) == {"status": "bad input", "problems": problems, "codes": [text[-4:-1] for text in problems]}
    assert Path(JAM).read_bytes() == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        *((f"{JAM} {one} {more}", REFUSED) for one in ("--sweep", "--frontier") for more in ("--drop x", "--write")),
        *((f"{JAM} --sweep {more}", REFUSED) for more in ("--fresh", "--against p", "--out p", "--frontier")),
        (f"{JAM} --page p.html", "--page goes with --frontier."),
        (f"{JAM} --sweep --page p.html", "--page goes with --frontier."),
        (f"{JAM} --drop", "Option '--drop' requires an argument."),
        (f"{JAM} --time-limit 0", "takes a number of seconds above 0."),
        ("", "Missing argument 'FILE'."),
    ],
)
def test_what_cannot_be_asked_exits_2(words: str, said: str, run: Run) -> None:
    done = run(words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr


def test_changes_are_said_in_the_order_in_which_they_are_asked_for(run: Run) -> None:
    found = data_of(run(f"{JAM} --set tempo=90 --set mains=stereo --drawer din=4 --drop intent.4 --json"))
    assert [line.split(" ")[0] for line in found["changes"]] == ["tempo:", "the", "the", "the", "without"]
    other = data_of(run(f"{JAM} --drop intent.4 --drawer din=4 --set mains=stereo --set tempo=90 --json"))
    assert other["plan"] == found["plan"]
    assert other["changes"] != found["changes"] and sorted(other["changes"]) == sorted(found["changes"])


def test_against_a_saved_plan(run: Run) -> None:
    jam = read_jam(JAM)
    assert run(f"{JAM} --out used.json").exit_code == 0
    used = read_plan("used.json", jam)
    assert "The plan stays as it is" in run(f"{JAM} --against used.json").stdout
    moved = json.loads(Path("used.json").read_text("utf-8"))
    moved["cables"].pop()
    Path("other.json").write_text(json.dumps(moved), "utf-8")
    found = data_of(run(f"{JAM} --against other.json --json"))
    assert len(found["difference"]["plug"]) == 1
    assert len(Plan.from_json(found["plan"]).cables) == len(used.cables)


def test_fresh_lets_plugs_move_where_that_saves_settings(run: Run) -> None:
    words = "narrow-channel.toml --drop intent.1"
    near, fresh = (data_of(run(f"{words} {more} --json")) for more in ("", "--fresh"))
    assert near["difference"]["plugs_moved"] == 0
    assert near["fresh"] == {"goals": fresh["after"]["goals"], "plugs_moved": fresh["difference"]["plugs_moved"]}
    assert fresh["fresh"] is None
    assert fresh["after"]["goals"]["settings_moved"] < near["after"]["goals"]["settings_moved"]
    assert " ".join(run(words).stdout.split()).count("See it: --fresh.") == 1
    assert "See it" not in run(f"{words} --fresh").stdout


def test_out_saves_the_plan_after_the_change_and_nothing_where_there_is_none(run: Run) -> None:
    found = data_of(run(f"{JAM} --drop-part bass --out plan.json --json"))
    saved = read_saved("plan.json")
    assert (list(saved.jam.parts), saved.plan.to_json()) == (["kick", "pad", "arp"], found["plan"])
    assert run(f"{JAM} {NO_JACK} --out none.json").exit_code == 1
    assert not Path("none.json").exists()


def test_sweep_as_a_command(run: Run) -> None:
    done, found = run(f"{JAM} --sweep"), run(f"{JAM} --sweep --json")
    assert (done.exit_code, found.exit_code, done.stderr) == (0, 0, "")
    assert "Low Tide" in done.stdout
    assert data_of(found)["title"] == "Low Tide"


def test_frontier_as_a_command_with_its_page(run: Run) -> None:
    done = run("slow-swell.toml --frontier --page trade.html")
    assert (done.exit_code, done.stderr) == (0, "")
    page = Path("trade.html").read_text("utf-8")
    assert '<meta name="generator" content="hardpan">' in page and "Slow Swell" in page
    again = run("slow-swell.toml --frontier --page trade.html --json")
    assert (again.exit_code, data_of(again)["title"]) == (0, "Slow Swell")
    assert Path("trade.html").read_text("utf-8") == page


def test_help_lists_every_option(run: Run) -> None:
    done = run("--help")
    assert done.exit_code == 0
    names = [name for option in command.params if option.param_type_name == "option" for name in option.opts]
    assert len(names) >= 18
    assert [name for name in names if name not in done.stdout] == []


def test_two_processes_answer_alike_to_the_byte() -> None:
    words = [JAM, "--drop-part", "bass", "--add-part", "hats", "--add-intent", 'separate = ["hats", "arp"]']
    answers = [
        subprocess.run(
            [sys.executable, "-m", "solver", "whatif", *words, *more],
            cwd=SCENARIOS,
            env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            check=False,
        )
        for more in ([], ["--json"])
        for seed in ("1", "4242")
    ]
    assert answers[0].stdout == answers[1].stdout != b""
    assert answers[2].stdout == answers[3].stdout != b""
    assert {answer.returncode for answer in answers} == {0}


def test_a_plan_in_use_that_breaks_rules_is_compared_with_all_the_same(run: Run) -> None:
    Path("by-hand.json").write_bytes((ROOT / "docs" / "by-hand.json").read_bytes())
    done = run(f"{JAM} --against by-hand.json")
    assert (
        done.stderr == f"Note: by-hand.json breaks rules; hardpan check {JAM} by-hand.json lists them.\n"
        and done.exit_code == 0
    )
    assert "Cables: 1 to plug; 2 stay." in done.stdout
    run(f"{JAM} --out own.json")
    assert run(f"{JAM} --against own.json").stderr == ""
