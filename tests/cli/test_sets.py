"""Sets on the command line: planned, saved, checked, explained and changed."""

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

import solver
from solver.cli import main
from solver.documents import json_text, set_document
from solver.outcome import PlannedSet
from solver.reading import read_set
from solver.reasons.set_reasons import WhySetImpossible
from tests.explain.known import explain, let_commands_know
from tests.showing import ROOT, SCENARIOS

FIRST_WATCH = "scenarios/sets/first-watch.toml"
HIGH_AND_LOW = "scenarios/sets/high-and-low.toml"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the scenarios."""
    shutil.copytree(SCENARIOS, tmp_path / "scenarios")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@cache
def _first_watch() -> str:
    """The saved plan of First Watch."""
    of = read_set(SCENARIOS / "sets" / "first-watch.toml")
    outcome = solver.plan(of, time_limit=None)
    assert isinstance(outcome, PlannedSet)
    return json_text(set_document(of, outcome.best))


def _run(*words: str) -> Result:
    return CliRunner().invoke(main, words)


@pytest.mark.usefixtures("here")
def test_a_set_is_planned_saved_and_checked() -> None:
    done = _run("plan", FIRST_WATCH, "--out", "watch.json")
    assert done.exit_code == 0
    for shown in ("8 cables, proved the fewest", "Settings to make once, for all jams", "3. Third Bell", "Before it:"):
        assert shown in done.stdout
    assert _run("check", FIRST_WATCH, "watch.json").stdout == "All is well: the plan keeps every rule.\n"
    assert Path("watch.json").read_text("utf-8") == _first_watch()
    saved = json.loads(Path("watch.json").read_text("utf-8"))
    assert list(saved) == ["title", "status", "proof", "cables", "settings", "jams", "between", "goals", "set"]
    assert list(saved["jams"]) == ["bells/first.toml", "bells/second.toml", "bells/third.toml"]
    assert all(setting["stored"] == "box" for setting in saved["settings"])


@pytest.mark.usefixtures("here")
def test_a_plan_in_which_jams_disagree_is_broken_where_they_do() -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    saved = json.loads(Path("watch.json").read_text("utf-8"))
    second = saved["jams"]["bells/second.toml"]
    free = next(name for name in second["engines"] if name.startswith("barge/") and name not in str(second["parts"]))
    second["engines"][free]["channel"] = 14
    Path("watch.json").write_text(json.dumps(saved), "utf-8")
    done = _run("check", FIRST_WATCH, "watch.json", "--json")
    assert done.exit_code == 1
    assert {breach["rule"] for breach in json.loads(done.stdout)["breaches"]} == {"S1"}
    where = json.loads(done.stdout)["breaches"][0]["where"]
    assert where.startswith(f"bells/second.toml: the channel of engine {free} is 14, in First Bell it is ")


@pytest.mark.usefixtures("here")
def test_plans_of_jams_and_sets_do_not_pass_for_each_other() -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    _run("plan", "scenarios/sets/bells/first.toml", "--out", "first.json")
    jam = _run("check", "scenarios/sets/bells/first.toml", "watch.json")
    assert jam.exit_code == 2
    assert "this is the plan of a set" in jam.stderr
    whole = _run("check", FIRST_WATCH, "first.json")
    assert whole.exit_code == 2
    assert "this is the plan of one jam" in whole.stderr


@pytest.mark.usefixtures("here")
def test_an_impossible_set_has_its_exit_status_and_says_who_tells_why() -> None:
    done = _run("plan", HIGH_AND_LOW)
    assert done.exit_code == 1
    assert "hardpan explain scenarios/sets/high-and-low.toml" in done.stdout.replace("\n", " ")


@pytest.mark.usefixtures("here")
def test_an_explanation_as_data_names_statements_with_their_jams(monkeypatch: pytest.MonkeyPatch) -> None:
    let_commands_know(monkeypatch)
    done = _run("explain", HIGH_AND_LOW, "--json", "--all", "--time-limit", "600")
    assert done.exit_code == 1
    data = json.loads(done.stdout)
    (conflict,) = data["conflicts"]
    assert conflict["minimal"]
    assert set(conflict["jams"]) == {"../low-tide.toml", "../harbour-lights.toml"}
    assert "../harbour-lights.toml:part.bell.on" in conflict["statements"]
    assert any("replug" in repair for repair in data["repairs"])


@pytest.mark.usefixtures("here")
def test_both_plans_of_a_re_plug_are_shown_with_what_hands_do_between_them(monkeypatch: pytest.MonkeyPatch) -> None:
    found = explain(read_set(SCENARIOS / "sets" / "high-and-low.toml"), every=True)
    monkeypatch.setattr(solver, "explain", lambda *_, **__: found)
    assert isinstance(found, WhySetImpossible)
    repairs = found.repaired.repairs
    replug = next(number for number, repair in enumerate(repairs, start=1) if repair.replug is not None)
    edited = next(number for number, repair in enumerate(repairs, start=1) if repair.edit is not None)
    done = _run("explain", HIGH_AND_LOW, "--repair", str(replug))
    assert (done.exit_code, done.stderr) == (0, "")
    for shown in ("1. Low Tide", "Before 2 Harbour Lights:", "Move  6.35 mono to tiller/IN 2", "2. Harbour Lights"):
        assert shown in done.stdout
    assert len(json.loads(_run("explain", HIGH_AND_LOW, "--repair", str(replug), "--json").stdout)) == 2
    assert "2. Harbour Lights" in _run("explain", HIGH_AND_LOW, "--repair", str(edited)).stdout
    assert _run("explain", HIGH_AND_LOW, "--repair", "9").exit_code == 2


@pytest.mark.usefixtures("here")
def test_a_jam_joins_and_leaves_and_the_file_keeps_its_other_bytes() -> None:
    file = Path(FIRST_WATCH)
    before = file.read_bytes()
    done = _run("whatif", FIRST_WATCH, "--add-jam", "scenarios/sets/bells/fifth.toml", "--write")
    assert done.exit_code == 0
    assert "Fifth Bell joins, as number 4." in done.stdout
    assert file.read_bytes() == before.replace(b'third.toml"]', b'third.toml", "bells/fifth.toml"]')
    done = _run("whatif", FIRST_WATCH, "--drop-jam", "fifth", "--write")
    assert done.exit_code == 0
    assert file.read_bytes() == before


@pytest.mark.usefixtures("here")
def test_a_change_inside_a_jam_of_a_set() -> None:
    jam = Path("scenarios/sets/bells/third.toml")
    before = jam.read_bytes()
    done = _run("whatif", FIRST_WATCH, "--in", "third", "--set", "intent.2.with.reverb=35", "--write")
    assert done.exit_code == 0
    assert "In Third Bell, reverb of lead and low is 35" in done.stdout.replace("\n  ", " ")
    assert jam.read_bytes() == before.replace(b"reverb = 20", b"reverb = 35")


@pytest.mark.usefixtures("here")
def test_a_box_that_comes_with_hardpan_joins_a_jam_of_a_set() -> None:
    done = _run("whatif", FIRST_WATCH, "--in", "third", "--add-box", "spare=headphone-end", "--write")
    assert (done.exit_code, done.stderr.count("Note: spare is a box file that comes with hardpan.")) == (0, 1)


@pytest.mark.usefixtures("here")
def test_a_jam_that_cannot_join_is_told_why_and_nothing_is_written() -> None:
    Path("scenarios/sets/low.toml").write_text('title = "Low"\njams = ["../low-tide.toml"]\n', "utf-8")
    before = Path("scenarios/sets/low.toml").read_bytes()
    done = _run("whatif", "scenarios/sets/low.toml", "--add-jam", "scenarios/harbour-lights.toml", "--write")
    assert done.exit_code == 1
    assert "no one wiring serves all of its jams" in done.stdout.replace("\n", " ")
    assert "3 strips needed" in done.stdout
    assert Path("scenarios/sets/low.toml").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--drop-jam", "sixth"], 'found "sixth"; allowed: a jam of this set'),
        (["--drop-jam", "first", "--drop-jam", "first"], "found a jam that is left out already"),
        (["--set", "tempo=90"], "allowed: with --in, which names the jam of the set"),
        (["--in", "nobody", "--set", "tempo=90"], 'found "nobody"; allowed: a jam of this set: 1 First Bell, 2 '),
        (["--in", "thrid", "--set", "tempo=90"], 'did you mean "third"?'),
        (["--drop-jam", "Frist Bell"], 'did you mean "First Bell"?'),
        (["--add-jam", "scenarios/sets/bells/ninth.toml"], "no such file"),
        (["--sweep"], "--sweep and --frontier are asked of one jam"),
    ],
)
@pytest.mark.usefixtures("here")
def test_what_cannot_be_asked_of_a_set(words: list[str], said: str) -> None:
    done = _run("whatif", FIRST_WATCH, *words)
    assert done.exit_code == 2
    assert said in done.stderr


@pytest.mark.parametrize("words", [["--drop-jam", "a"], ["--add-jam", "a"], ["--in", "a"]])
@pytest.mark.usefixtures("here")
def test_what_is_for_sets_is_refused_of_a_jam(words: list[str]) -> None:
    done = _run("whatif", "scenarios/low-tide.toml", *words)
    assert done.exit_code == 2
    assert "are for a set; FILE is no set" in done.stderr


def test_another_process_with_another_hash_seed_gives_the_same_bytes() -> None:
    words = [sys.executable, "-m", "solver", "plan", str(ROOT / FIRST_WATCH), "--json"]
    other = subprocess.run(words, cwd=ROOT, env=os.environ | {"PYTHONHASHSEED": "7"}, capture_output=True, check=True)
    assert other.stdout.decode("utf-8") == _first_watch()


@pytest.mark.usefixtures("here")
def test_a_saved_set_is_exported_from_another_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    away = tmp_path / "away"
    away.mkdir()
    shutil.move("watch.json", away)
    monkeypatch.chdir(away)
    done = _run("export", "watch.json", "--to", "a.html", "--to", "a.txt", "--to", "a.svg", "--to", "a.json")
    assert (done.exit_code, done.stdout) == (
        0,
        "".join(f"Written: a.{kind}\n" for kind in ("html", "txt", "svg", "json")),
    )
    assert Path("a.json").read_bytes() == Path("watch.json").read_bytes()
    text = Path("a.txt").read_text("utf-8")
    assert "Settings to make once, for all jams" in text
    assert all(title in Path("a.html").read_text("utf-8") for title in ("First Bell", "Second Bell", "Third Bell"))


@pytest.mark.usefixtures("here")
def test_every_cable_of_a_set_is_drawn_and_listed_once_and_every_step_has_a_tick_of_its_own() -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    _run("export", "watch.json", "--to", "a.html", "--to", "a.svg")
    saved = json.loads(Path("watch.json").read_text("utf-8"))
    drawn = re.findall(r'data-cable="([^"]+)"', Path("a.svg").read_text("utf-8"))
    assert len(set(drawn)) == len(saved["cables"])
    page = Path("a.html").read_text("utf-8")
    ticks = re.findall(r'<input type="checkbox" id="([^"]+)"', page)
    assert len(set(ticks)) == len(ticks)
    assert set(re.findall(r'<label for="([^"]+)"', page)) == set(ticks)


@pytest.mark.parametrize("ending", ["md", "csv", "mid"])
@pytest.mark.usefixtures("here")
def test_what_is_not_made_of_a_set_is_said(ending: str) -> None:
    done = _run("export", FIRST_WATCH, "--to", f"a.{ending}")
    assert done.exit_code == 2
    assert f"a.{ending}: of a whole set, .html, .txt, .svg, .json can be made." in done.stderr


@pytest.mark.usefixtures("here")
def test_a_broken_plan_of_a_set_is_not_exported() -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    saved = json.loads(Path("watch.json").read_text("utf-8"))
    saved["cables"].pop()
    Path("watch.json").write_text(json.dumps(saved), "utf-8")
    done = _run("export", "watch.json", "--to", "a.html")
    assert done.exit_code == 1
    assert "Nothing is written: watch.json breaks rules." in done.stderr
    assert not Path("a.html").exists()


@pytest.mark.usefixtures("here")
def test_what_a_plan_of_a_set_says_wrongly_of_itself_is_noted_when_it_is_exported() -> None:
    saved = json.loads(_first_watch())
    saved["goals"]["cables"] = 9
    Path("watch.json").write_text(json.dumps(saved), "utf-8")
    done = _run("export", "watch.json", "--to", "a.txt")
    note = "Note: The plan counts 9 for cables of the set, it comes to 8.\n"
    assert (done.exit_code, done.stderr) == (0, note)
    assert _run("check", FIRST_WATCH, "watch.json").stderr == note


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda data: data.pop("set"), "the plan carries no set"),
        (lambda data: data["set"]["boxes"].pop("barge"), "allowed: a list of boxes that the set carries"),
        (lambda data: data["set"].pop("title"), "title"),
        (lambda data: data["set"]["jams"]["bells/first.toml"].update(leader="nobody"), 'found "nobody"'),
        (lambda data: data["set"].update(jams=[]), "jams"),
    ],
)
@pytest.mark.usefixtures("here")
def test_a_set_that_a_plan_carries_wrongly_is_bad_input(change: Callable[[Any], object], said: str) -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    saved = json.loads(Path("watch.json").read_text("utf-8"))
    change(saved)
    Path("watch.json").write_text(json.dumps(saved), "utf-8")
    done = _run("export", "watch.json", "--to", "a.html")
    assert done.exit_code == 2
    assert said in done.stderr


@pytest.mark.usefixtures("here")
def test_one_jam_of_a_set_is_exported_and_traced_on_its_wiring() -> None:
    Path("watch.json").write_text(_first_watch(), "utf-8")
    done = _run("export", "watch.json", "--in", "Second Bell", "--to", "b.csv", "--to", "b.mid", "--to", "b.json")
    assert done.exit_code == 0
    second = json.loads(_first_watch())["jams"]["bells/second.toml"]
    assert json.loads(Path("b.json").read_text("utf-8"))["cables"] == second["cables"]
    heard = _run("trace", FIRST_WATCH, "watch.json", "reed", "--in", "2")
    assert heard.exit_code == 0
    assert "wherry/UPPER" in heard.stdout
    for words in (["--in", "nobody"], []):
        assert _run("trace", FIRST_WATCH, "watch.json", "reed", *words).exit_code == 2
    assert _run("export", "watch.json", "--in", "nobody", "--to", "c.csv").exit_code == 2


@pytest.mark.parametrize(
    ("change", "rule", "noted"),
    [
        (lambda data: data["jams"]["bells/first.toml"]["cables"].pop(), "S1", ""),
        (lambda data: data["goals"].update(cables=3), "", "counts 3 for cables of the set"),
        (lambda data: data.update(between=[]), "", "what is done between the jams"),
        (lambda data: data.update(settings=[]), "", "what boxes store"),
        (lambda data: data.update(title="Other"), "", "is written for Other"),
    ],
)
@pytest.mark.usefixtures("here")
def test_what_a_plan_of_a_set_says_wrongly_is_told(change: Callable[[Any], object], rule: str, noted: str) -> None:
    saved = json.loads(_first_watch())
    change(saved)
    Path("watch.json").write_text(json.dumps(saved), "utf-8")
    done = _run("check", FIRST_WATCH, "watch.json", "--json")
    rules = {breach["rule"] for breach in json.loads(done.stdout)["breaches"]}
    assert (rule in rules) == bool(rule)
    assert done.exit_code == (1 if rule else 0)
    assert noted in done.stderr
