"""``hardpan plan``."""

import json
from pathlib import Path

import pytest

from solver.codes import Code
from solver.documents import plan_document
from solver.outcome import Impossible, InternalError, Planned, Progress, Undecided
from solver.plans import Plan
from solver.reading import BadInput, Problem, read_saved
from solver.sheet.answers import STOPPED, impossible_text, undecided_text
from solver.sheet.text import plan_text
from tests.cli.conftest import Finder, Run
from tests.sheet.low_tide import OTHER, low_tide, plan_of, planned

FILE = "low-tide.toml"
BEST, OTHER_PLAN = plan_of(title="Ebbe und Flut 低"), Plan.from_json(OTHER)


def test_a_plan_is_shown_as_text(run: Run, finder: Finder) -> None:
    finder.outcome = planned(BEST)
    done = run("plan", FILE)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout_bytes.decode("utf-8") == plan_text(low_tide(), planned(BEST), 80)


def test_a_plan_is_asked_for_as_told(run: Run, finder: Finder) -> None:
    finder.outcome = planned()
    run("plan", FILE)
    progress = finder.asked.pop("progress")
    assert callable(progress)
    assert finder.asked == {"title": "Low Tide", "alternatives": 0, "time_limit": 60.0}
    run("plan", FILE, "--alternatives", "3", "--time-limit", "2.5")
    assert (finder.asked["alternatives"], finder.asked["time_limit"]) == (3, 2.5)


def test_json_is_one_document_and_nothing_else(run: Run, finder: Finder) -> None:
    finder.outcome = planned(BEST)
    done = run("plan", FILE, "--json")
    assert (done.exit_code, done.stderr) == (0, "")
    text = done.stdout_bytes.decode("utf-8")
    assert json.loads(text) == plan_document(low_tide(), BEST)
    assert "低" in text and text.endswith("}\n") and '\n  "cables": [\n' in text


@pytest.mark.parametrize("plans", [(BEST,), (BEST, OTHER_PLAN)])
def test_json_lists_alternatives_where_asked(run: Run, finder: Finder, plans: tuple[Plan, ...]) -> None:
    finder.outcome = Planned(plans, 0.1)
    done = run("plan", FILE, "--json", "--alternatives", "2")
    assert json.loads(done.stdout) == plan_document(low_tide(), BEST, plans[1:])


def test_impossible_exits_1(run: Run, finder: Finder) -> None:
    finder.outcome = Impossible(0.1)
    done = run("plan", FILE, "--out", "plan.json")
    assert (done.exit_code, done.stdout) == (1, impossible_text("Low Tide", FILE, 80))
    done = run("plan", FILE, "--json")
    assert (done.exit_code, json.loads(done.stdout)) == (1, {"title": "Low Tide", "status": "impossible"})
    assert not Path("plan.json").exists()


def test_undecided_exits_3(run: Run, finder: Finder) -> None:
    finder.outcome = Undecided(60.0)
    done = run("plan", FILE)
    assert (done.exit_code, done.stdout) == (3, undecided_text("Low Tide", 80))
    done = run("plan", FILE, "--json")
    assert (done.exit_code, json.loads(done.stdout)) == (3, {"title": "Low Tide", "status": "undecided"})


def test_bad_input_exits_2(run: Run, finder: Finder, monkeypatch: pytest.MonkeyPatch) -> None:
    problems = [
        Problem(Code.UNKNOWN_NAME, FILE, 3, "leader", '"till"', "a box of this jam"),
        Problem(Code.OUT_OF_RANGE, FILE, 9, "tempo", "0", "above 0"),
    ]

    def refuse(path: Path) -> None:
        raise BadInput(problems)

    monkeypatch.setattr("solver.cli.plan.read_jam_or_set", refuse)
    done = run("plan", FILE)
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.splitlines() == [str(problem) for problem in problems]
    done = run("plan", FILE, "--json")
    assert done.exit_code == 2
    texts = [str(problem) for problem in problems]
    assert json.loads(done.stdout) == {"status": "bad input", "problems": texts, "codes": ["N01", "V05"]}
    assert done.stderr.splitlines() == [str(problem) for problem in problems]
    assert finder.asked == {}


def test_a_plan_that_fails_its_own_check_is_not_shown(run: Run, finder: Finder) -> None:
    finder.outcome = InternalError("A7 Every part is heard: bass does not reach tiller/MAIN\nM1 two plugs")
    done = run("plan", FILE, "--out", "plan.json")
    assert (done.exit_code, done.stdout) == (70, "")
    assert done.stderr.startswith("Sorry, hardpan made a mistake")
    assert "Please send" in done.stderr and "bass does not reach tiller/MAIN\nM1 two plugs\n" in done.stderr
    assert "Traceback" not in done.stderr
    assert not Path("plan.json").exists()
    done = run("plan", FILE, "--json")
    assert (done.exit_code, json.loads(done.stdout)["status"]) == (70, "internal error")


def test_any_other_mistake_never_looks_like_impossible(run: Run, finder: Finder) -> None:
    finder.outcome = ZeroDivisionError("by no cable")
    done = run("plan", FILE, "--json")
    assert done.exit_code == 70
    assert json.loads(done.stdout) == {
        "status": "internal error",
        "problems": ["ZeroDivisionError: by no cable"],
        "codes": ["X02"],
    }
    assert "Sorry" in done.stderr and "Traceback" in done.stderr


def test_a_stop_before_any_answer_is_undecided(run: Run, finder: Finder) -> None:
    finder.outcome = KeyboardInterrupt()
    done = run("plan", FILE, "--json")
    assert (done.exit_code, json.loads(done.stdout)["status"]) == (3, "undecided")
    assert done.stderr == "Stopped before there was an answer. [X03]\n"


def test_a_stopped_search_says_so_beside_its_plan(run: Run, finder: Finder) -> None:
    finder.outcome = planned(stopped=True)
    done = run("plan", FILE, "--json")
    assert (done.exit_code, done.stderr) == (0, f"{STOPPED}\n")
    assert json.loads(done.stdout) == plan_document(low_tide(), plan_of())


def test_progress_goes_to_standard_error(run: Run, finder: Finder, monkeypatch: pytest.MonkeyPatch) -> None:
    def slow(jam: object, *, progress: object, **_: object) -> Planned:
        assert callable(progress)
        for seconds in (0.5, 4.2, 4.4):
            progress(Progress("cables", 6, 4, seconds))
        return planned()

    monkeypatch.setattr("solver.plan", slow)
    done = run("plan", FILE, "--json")
    assert done.stderr == "4 s: best so far 6 cables, at least 4\n"
    assert json.loads(done.stdout) == plan_document(low_tide(), plan_of())


def test_out_saves_the_best_plan(run: Run, finder: Finder) -> None:
    finder.outcome = planned(BEST, OTHER_PLAN)
    done = run("plan", FILE, "--alternatives", "1", "--out", "plan.json")
    assert done.exit_code == 0 and done.stdout.startswith("Ebbe und Flut")
    assert Plan.from_json(json.loads(Path("plan.json").read_text(encoding="utf-8"))) == BEST
    assert read_saved("plan.json") == (low_tide(), BEST)
    assert [path.name for path in Path.cwd().iterdir()] == ["plan.json"]


def test_a_place_that_cannot_be_written_is_told_before_the_work(run: Run, finder: Finder) -> None:
    done = run("plan", FILE, "--out", "nowhere/plan.json", "--json")
    assert done.exit_code == 2
    assert json.loads(done.stdout)["status"] == "bad input"
    assert "nowhere" in done.stderr
    assert finder.asked == {}


def test_a_plan_that_cannot_be_saved_in_the_end_is_shown_all_the_same(
    run: Run, finder: Finder, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    finder.outcome = planned(BEST)
    done = run("plan", FILE, "--out", "plan.json", "--json")
    assert done.exit_code == 2
    assert json.loads(done.stdout) == plan_document(low_tide(), BEST)
    assert "plan.json: not saved (No space left on device)" in done.stderr
