"""``hardpan export``: what it writes, what it refuses, and what it exits with."""

import json
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import solver
from solver.cli import main
from solver.outcome import Impossible, Outcome, Planned, Progress, Undecided
from solver.plans import Plan
from solver.reading import read_jam, read_saved
from solver.sheet.answers import STOPPED, impossible_text, undecided_text
from solver.sheet.formats import FORMATS
from solver.sheet.hand_steps import hand_steps
from tests.showing import ROOT, SCENARIOS

JAM = "tide-tables.toml"
BROKEN = ROOT / "docs" / "by-hand.json"
Run = Callable[[str], Result]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run ``hardpan export`` on copies of the scenarios, in their folder."""
    monkeypatch.chdir(shutil.copytree(SCENARIOS, tmp_path / "scenarios"))

    def go(words: str) -> Result:
        done = CliRunner().invoke(main, ["export", *shlex.split(words)], prog_name="hardpan")
        assert "Traceback" not in done.stderr and "Sorry" not in done.stderr
        return done

    return go


def ended(monkeypatch: pytest.MonkeyPatch, outcome: Outcome) -> None:
    """Let every search end so."""
    monkeypatch.setattr(solver, "plan", lambda jam, **asked: outcome)


def best(jam: str) -> Planned:
    outcome = solver.plan(read_jam(jam), time_limit=None)
    assert isinstance(outcome, Planned)
    return outcome


def test_every_kind_is_written_as_its_ending_says(run: Run) -> None:
    names = [f"sheet{ending.upper() if ending == '.csv' else ending}" for ending in FORMATS]
    done = run(f"{JAM} " + " ".join(f"--to {name}" for name in names))
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith("".join(f"Written: {name}\n" for name in names) + "\nBy hand, for the line check ")
    jam, plan = read_jam(JAM), best(JAM).best
    for name, kind in zip(names, FORMATS.values(), strict=True):
        made = kind.made(jam, plan)
        assert Path(name).read_bytes() == (made.encode() if isinstance(made, str) else made)


def test_a_saved_plan_is_exported_without_any_other_file(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    every = " ".join(f"--to sheet{ending}" for ending in FORMATS)
    assert run(f"{JAM} {every}").exit_code == 0
    alone = tmp_path / "alone"
    alone.mkdir()
    Path("sheet.json").rename(alone / "moved.json")
    monkeypatch.chdir(alone)
    (tmp_path / "scenarios" / JAM).unlink()
    shutil.rmtree(tmp_path / "scenarios" / "boxes")
    assert run(f"moved.json {every}").exit_code == 0
    for ending in FORMATS:
        old = alone / "moved.json" if ending == ".json" else tmp_path / "scenarios" / f"sheet{ending}"
        assert (alone / f"sheet{ending}").read_bytes() == old.read_bytes()


def test_the_plan_comes_back_as_it_was(run: Run) -> None:
    run(f"{JAM} --to one.json")
    run("one.json --to two.json --to one.json")
    assert read_saved("two.json") == (read_jam(JAM), best(JAM).best)
    assert Path("one.json").read_bytes() == Path("two.json").read_bytes()
    assert CliRunner().invoke(main, ["check", JAM, "two.json"]).exit_code == 0
    saved = CliRunner().invoke(main, ["plan", JAM, "--json"])
    assert saved.stdout == Path("two.json").read_text("utf-8")


def test_json_tells_what_is_written(run: Run) -> None:
    done = run(f"{JAM} --to sheet.md --to sheet.txt --json")
    told = {"title": "Tide Tables", "status": "proved", "written": ["sheet.md", "sheet.txt"]}
    assert json.loads(done.stdout) == told


def test_a_midi_file_is_written_with_what_hands_do_beside_it(run: Run) -> None:
    by_hand = hand_steps(read_jam(JAM), best(JAM).best)
    told = json.loads(run(f"{JAM} --to check.mid --json").stdout)
    assert told["by_hand"] == list(by_hand)
    shown = " ".join(run(f"{JAM} --to check.mid").stdout.split())
    assert all(f"- {step}" in shown for step in by_hand)
    assert "By hand" not in run(f"{JAM} --to sheet.md").stdout


def test_a_plan_without_its_jam_takes_it_from_its_file(run: Run) -> None:
    Path("bare.json").write_text(json.dumps(best(JAM).best.to_json()), encoding="utf-8")
    done = run("bare.json --to sheet.html --to sheet.txt")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith("bare.json:1: the plan carries no jam")
    assert not Path("sheet.html").exists()
    assert run(f"bare.json --jam {JAM} --to sheet.html --to sheet.txt --to sheet.json").exit_code == 0
    assert read_saved("sheet.json").jam == read_jam(JAM)


def test_what_a_plan_leaves_out_or_says_wrongly_is_right_on_its_sheets(run: Run) -> None:
    whole = best(JAM).best
    run(f"{JAM} --to whole.csv --to whole.md")
    bare = {
        key: value for key, value in whole.to_json().items() if key in ("title", "cables", "parts", "engines", "strips")
    }
    wrong = {**bare, "settings": [{**whole.to_json()["settings"][0], "value": 9}]}
    for name, data in (("bare", bare), ("wrong", wrong)):
        Path(f"{name}.json").write_text(json.dumps(data), encoding="utf-8")
        done = run(f"{name}.json --jam {JAM} --to {name}.csv")
        assert Path(f"{name}.csv").read_bytes() == Path("whole.csv").read_bytes()
        assert ("Note: The plan lists channel 9 on tiller/EXT 1" in done.stderr) == (name == "wrong")


def test_a_plan_that_breaks_rules_is_not_exported(run: Run) -> None:
    done = run(f"{BROKEN} --jam low-tide.toml --to sheet.html")
    checked = CliRunner().invoke(main, ["check", "low-tide.toml", str(BROKEN)])
    assert (done.exit_code, done.stdout) == (1, checked.stdout)
    assert done.stderr == f"Nothing is written: {BROKEN} breaks rules.\n"
    assert not Path("sheet.html").exists()
    as_json = run(f"{BROKEN} --jam low-tide.toml --to sheet.html --json")
    assert json.loads(as_json.stdout)["status"] == "broken"


def test_without_a_plan_it_ends_as_plan_does(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    ended(monkeypatch, Impossible(0.1))
    done = run(f"{JAM} --to sheet.md")
    assert (done.exit_code, done.stdout) == (1, impossible_text("Tide Tables", JAM, 80))
    ended(monkeypatch, Undecided(0.1))
    done = run(f"{JAM} --to sheet.md")
    assert (done.exit_code, done.stdout) == (3, undecided_text("Tide Tables", 80))
    assert json.loads(run(f"{JAM} --to sheet.md --json").stdout)["status"] == "undecided"
    assert not Path("sheet.md").exists()


def test_progress_and_a_stop_are_told_on_standard_error(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = best(JAM).best

    def slow(jam: object, *, progress: Callable[[Progress], None], time_limit: float) -> Planned:
        progress(Progress("cables", 6, 4, 4.2))
        assert time_limit == 2.5
        return Planned((plan,), 4.2, stopped=True)

    monkeypatch.setattr(solver, "plan", slow)
    done = run(f"{JAM} --to sheet.md --time-limit 2.5")
    assert done.exit_code == 0
    assert done.stderr == f"4 s: best so far 6 cables, at least 4\n{STOPPED}\n"


REFUSED = [
    (f"{JAM} --to sheet.xls", "sheet.xls: its ending says what to make, one of .html, "),
    (f"{JAM} --to sheet.pdf", "For a PDF, make a page (.html) and print it."),
    (f"{JAM} --to sheet", "sheet: its ending says what to make"),
    (f"{JAM} --to -", "-: its ending says what to make"),
    (f"{JAM} --to sheet.md --to ./sheet.md", "sheet.md: is named twice."),
    (f"{JAM} --to {JAM}", f"{JAM}: its ending says what to make"),
    (f"{JAM} --to boxes.md", "boxes.md: is a folder."),
    (f"{JAM} --to none/sheet.md", "the folder none is not there"),
    (f"{JAM} --to mine.md --to sheet.md", "mine.md: holds something else than a sheet"),
    (f"{JAM} --to mine.html", "mine.html: holds something else than a page"),
    (f"{JAM} --to mine.csv", "mine.csv: holds something else than a table"),
    (f"{JAM} --to mine.txt", "mine.txt: holds something else than a sheet"),
    (f"{JAM} --to mine.svg", "mine.svg: holds something else than a drawing"),
    (f"{JAM} --to mine.json", "mine.json: holds something else than a plan"),
    (f"{JAM} --jam {JAM} --to sheet.md", "is a jam itself"),
    ("none.toml --to sheet.md", "none.toml: found no such file"),
    ("none.json --to sheet.md", "none.json: found no such file"),
]


@pytest.mark.parametrize(("words", "said"), REFUSED, ids=[words for words, _ in REFUSED])
def test_what_cannot_be_is_told_before_anything_is_written(
    words: str, said: str, run: Run, finds_nothing: None
) -> None:
    Path("boxes.md").mkdir()
    mine = [Path(f"mine{ending}") for ending in FORMATS]
    for file in mine:
        file.write_text("shopping list", encoding="utf-8")
    done = run(words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr
    assert not Path("sheet.md").exists()
    assert all(file.read_text("utf-8") == "shopping list" for file in mine)


@pytest.fixture
def finds_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make sure that nothing is planned."""
    monkeypatch.setattr(solver, "plan", None)


def test_an_older_sheet_is_replaced_by_a_newer_one(run: Run) -> None:
    every = " ".join(f"--to sheet{ending}" for ending in FORMATS)
    assert run(f"low-tide.toml {every}").exit_code == 0
    older = {ending: Path(f"sheet{ending}").read_bytes() for ending in FORMATS}
    assert run(f"{JAM} {every}").exit_code == 0
    assert all(Path(f"sheet{ending}").read_bytes() != older[ending] for ending in FORMATS)


def test_nothing_is_half_written(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(self: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    before = sorted(Path.cwd().iterdir())
    done = run(f"{JAM} --to sheet.html")
    assert done.exit_code == 2
    assert "sheet.html: not saved (No space left on device)" in done.stderr
    assert sorted(Path.cwd().iterdir()) == before


def test_a_saved_plan_is_exported_without_the_solver(run: Run) -> None:
    run(f"{JAM} --to plan.json")
    script = (
        "import sys\nfrom solver.cli import main\ntry:\n    main(sys.argv[1:])\nfinally:\n"
        "    print(sorted({'ortools', 'pandas', 'numpy'} & set(sys.modules)), file=sys.stderr)"
    )
    to = [word for ending in FORMATS for word in ("--to", f"sheet{ending}")]
    done = subprocess.run(
        [sys.executable, "-c", script, "export", "plan.json", *to],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stderr=subprocess.PIPE,
        check=True,
    )
    assert done.stderr == b"[]\n"


def test_the_best_of_several_plans_is_exported(run: Run) -> None:
    saved = CliRunner().invoke(main, ["plan", JAM, "--alternatives", "1", "--json"]).stdout
    Path("both.json").write_text(saved, encoding="utf-8")
    assert len(json.loads(saved)["alternatives"]) == 1
    assert run("both.json --to one.json").exit_code == 0
    assert Plan.from_json(json.loads(Path("one.json").read_text("utf-8"))) == best(JAM).best
    assert "alternatives" not in json.loads(Path("one.json").read_text("utf-8"))
