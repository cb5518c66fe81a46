"""``hardpan book``."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from solver.cli import main
from tests.book.shelves import edit, save, shelf
from tests.showing import ROOT


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with two saved plans, where the line is typed."""
    monkeypatch.chdir(shelf(tmp_path))
    save(Path("low-tide.toml"), Path("low-tide.plan.json"))
    save(Path("sets/first-watch.toml"), Path("sets/first-watch.plan.json"))
    return tmp_path


def book(*words: str) -> Result:
    return CliRunner().invoke(main, ["book", *words])


def sections(text: str) -> dict[str, list[str]]:
    """The lines of each section by its title."""
    _, *pieces = re.split(r"\n\n([^\n]+)\n-+\n", text)
    lines = [[line for line in piece.splitlines() if set(line) - set("- ")] for piece in pieces[1::2]]
    return dict(zip(pieces[::2], lines, strict=True))


@pytest.mark.usefixtures("folder")
def test_a_book_is_listed() -> None:
    done = book()
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith("Book of this folder\n===================\n4 jams, 1 set.\n\nJams\n----\n")
    told = sections(done.stdout)
    assert list(told) == ["Jams", "Where they are saved", "Sets"]
    assert told["Jams"][1].split() == ["Low", "Tide", "low-tide.toml", "tiller,", "barge", "3", "well"]
    assert "In sets/bells:" in told["Jams"]
    assert told["Where they are saved"][1].split("  ")[0] == "barge"
    assert told["Where they are saved"][-1] == "No slot under [recall]: Low Tide."
    assert told["Sets"][1].split() == ["First", "Watch", "sets/first-watch.toml", "3", "well"]


def test_stale_plans_exit_1_with_the_first_reason(folder: Path) -> None:
    edit(folder / "low-tide.toml", "ducking = 60", "ducking = 50")
    done = book()
    assert done.exit_code == 1
    assert " ".join(" ".join(sections(done.stdout)["Stale plans"]).split()) == (
        "- low-tide.plan.json: A9 A part gets each amount you want of an effect once on its way, and nothing that no "
        "part there wants: tiller/IN 1 has ducking 60, bass wants 50. And 1 more thing."
    )
    assert book("--box", "limpet").exit_code == 0, "nothing that is listed is stale"
    data = json.loads(book("--json").stdout)
    assert (data["status"], data["jams"][0]["plan"], data["jams"][0]["cables"]) == ("stale", "stale", 3)
    assert len(data["jams"][0]["plans"][0]["reasons"]) == 2


def test_slots_claimed_twice_and_files_that_cannot_be_read(folder: Path) -> None:
    (folder / "sets" / "first-watch.toml").unlink()
    edit(folder / "sets" / "bells" / "second.toml", "bank A, 2", "bank A, 1")
    edit(folder / "sets" / "bells" / "third.toml", 'leader = "capstan"', 'leader = "captain"')
    done = book("--text", "reed")
    told = sections(done.stdout)
    assert done.exit_code == 0
    assert "1 of 3 jams here fits." in done.stdout
    assert " ".join(" ".join(told["Slots claimed twice"]).split()) == (
        "- capstan, bank A, 1: First Bell (sets/bells/first.toml:44) and Second Bell (sets/bells/second.toml:39). "
        "What is saved there last is all that is left: save each on a slot of its own."
    )
    assert told["Files that cannot be read"][0].startswith("- sets/bells/third.toml:4: leader: found ")
    assert told["Saved plans of no jam or set that can be read here"] == ["- sets/first-watch.plan.json (First Watch)"]
    data = json.loads(book("--text", "reed", "--json").stdout)
    assert data["slots_claimed_twice"][0]["jams"][1] == {
        "title": "Second Bell",
        "file": "sets/bells/second.toml",
        "line": 39,
        "slot": "bank A, 1",
    }
    assert data["plans_without_jam"] == ["sets/first-watch.plan.json"]
    assert [one["file"] for one in data["unread"]] == ["sets/bells/third.toml"]


def test_what_is_wrong_in_a_set_because_of_a_jam_is_told_once(folder: Path) -> None:
    edit(folder / "sets" / "bells" / "third.toml", 'leader = "capstan"', 'leader = "captain"')
    done = book()
    assert done.stdout.count("third.toml:4: leader:") == 1
    assert len(json.loads(book("--json").stdout)["unread"]) == 2
    assert sections(done.stdout)["Sets"][1].endswith("cannot be read")


@pytest.mark.usefixtures("folder")
def test_json_tells_what_the_text_tells() -> None:
    data = json.loads(book("sets", "--slot", "a, 2", "--json").stdout)
    (jam,) = data["jams"]
    assert jam == {
        "title": "Second Bell",
        "file": "sets/bells/second.toml",
        "boxes": ["capstan", "barge", "curragh", "wherry"],
        "recall": {
            "capstan": {"slot": "bank A, 2", "name": "SECOND BELL"},
            "barge": {"slot": "project, 2", "name": "SECOND BELL"},
        },
        "cables": 8,
        "sets": [{"title": "First Watch", "file": "sets/first-watch.toml"}],
        "plan": "none",
        "plans": [],
    }
    assert data["sets"][0]["plans"] == [
        {"file": "sets/first-watch.plan.json", "status": "well", "reasons": [], "cables": 8}
    ]


@pytest.mark.usefixtures("folder")
def test_nothing_that_fits_is_said() -> None:
    done = book("--box", "zither")
    assert (done.exit_code, done.stdout) == (
        0,
        "Book of this folder\n===================\nNone of 4 jams here fits.\n",
    )


def test_slots_go_by_their_numbers(folder: Path) -> None:
    edit(folder / "sets" / "bells" / "first.toml", "bank A, 1", "bank A, 10")
    rows = [line for line in sections(book().stdout)["Where they are saved"] if line.startswith("capstan")]
    assert [row.split()[3] for row in rows] == ["2", "3", "10"]


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("name", ["none", "low-tide.toml"])
def test_no_folder_exits_2(name: str) -> None:
    done = book(name)
    assert (done.exit_code, done.stdout) == (2, "")
    assert name in done.stderr


@pytest.mark.usefixtures("folder")
def test_it_is_the_same_on_every_run_and_loads_no_solver() -> None:
    script = (
        "import sys\nfrom solver.cli import main\ntry:\n    main(['book'])\nfinally:\n"
        "    print(sorted({'ortools', 'pandas', 'numpy'} & set(sys.modules)), file=sys.stderr)"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        )
        for seed in ("1", "2")
    ]
    assert [run.stderr for run in runs] == [b"[]\n", b"[]\n"]
    assert runs[0].stdout == runs[1].stdout != b""
