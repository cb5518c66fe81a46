"""``hardpan explain``: what it exits with, and the one JSON document of each question."""

import json
import shlex
from contextlib import chdir
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from benchmarks.files import write
from benchmarks.rigs import SIZES, rig
from solver.cli import main
from solver.jam.claims import claims
from solver.plans import Plan
from solver.reading import read_jam
from solver.reasons import explained
from tests.explain.known import SHARES, let_commands_know
from tests.showing import ROOT

IMPOSSIBLE, POSSIBLE = "scenarios/impossible/three-reeds.toml", "scenarios/low-tide.toml"
TWO_GROUPS = "scenarios/impossible/double-leak.toml"
CHANNEL = """--why-not 'keep = { part = "arp", channel = 1 }'"""
NO_JACK = """--why-not 'avoid = { jacks = ["barge/R"] }'"""
NO_CHANNEL = """--why-not 'avoid = { channels = [1] }'"""
PLAIN_KEYS = {"possible", "conflicts", "repairs"}


@pytest.fixture(autouse=True)
def _unhurried(monkeypatch: pytest.MonkeyPatch) -> None:
    for share in SHARES:
        monkeypatch.setattr(explained, share, 600.0)


@cache
def _run(words: str) -> Result:
    with chdir(ROOT), pytest.MonkeyPatch.context() as patch:
        let_commands_know(patch)
        return CliRunner().invoke(main, ["explain", *shlex.split(words)])


def _json(words: str) -> dict[str, Any]:
    done = _run(f"{words} --json")
    assert done.stdout.endswith("}\n")
    found = json.loads(done.stdout)
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (IMPOSSIBLE, 1),
        (f"{IMPOSSIBLE} --all", 1),
        (f"{IMPOSSIBLE} --repair 1", 0),
        (f"{IMPOSSIBLE} --fewer", 1),
        (f"{IMPOSSIBLE} {NO_CHANNEL}", 1),
        (POSSIBLE, 0),
        (f"{POSSIBLE} --all", 0),
        (f"{POSSIBLE} --fewer", 0),
        (f"{POSSIBLE} {CHANNEL}", 0),
        (f"{POSSIBLE} {NO_JACK}", 1),
    ],
)
def test_an_answer_exits_as_it_turns_out(words: str, status: int) -> None:
    for line in (words, f"{words} --json"):
        done = _run(line)
        assert done.exit_code == status
        assert done.stdout and not {"Error", "Sorry", "Traceback"} & set(done.stderr.split())


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (f"{IMPOSSIBLE} --repair 99", "--repair takes a number from 1 to 5"),
        (f"{IMPOSSIBLE} --repair 0", "--repair"),
        (f"{POSSIBLE} --repair 1", "--repair is for a jam that is impossible; this one can be had."),
        (f"{IMPOSSIBLE} --repair 1 --fewer", "--repair, --fewer and --why-not are asked one at a time."),
        (f"{POSSIBLE} --fewer {NO_JACK}", "--repair, --fewer and --why-not are asked one at a time."),
        (f"{POSSIBLE} --repair 1 {NO_JACK}", "--repair, --fewer and --why-not are asked one at a time."),
        (f"{POSSIBLE} --time-limit 0", "takes a number of seconds above 0."),
        ("scenarios/no-such-jam.toml", "scenarios/no-such-jam.toml"),
    ],
)
def test_what_cannot_be_asked_exits_2(words: str, said: str) -> None:
    done = _run(words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ('keep = { part = "basss", pan = "left" }', ['keep.part: found "basss"', 'did you mean "bass"?']),
        ('keep = { part = "bass", pan = "up" }', ['keep.pan: found "up"', '"left", "centre" or "right"']),
        ('avoid = { jacks = ["barge/X"] }', ['found "barge/X"', '"barge/L/MONO"']),
        ("avoid = { channels = [17] }", ["17", "a whole number from 1 to 16"]),
        ('stereo = ["pad"]', ["found stereo", "one keep or avoid"]),
        ('keep = { part = "bass", pan = "left" }\navoid = { channels = [1] }', ["one keep or avoid"]),
        ("keep = {", ["found"]),
        ("", ["found nothing", "one keep or avoid"]),
    ],
)
def test_a_bad_wish_exits_2_and_says_what_is_allowed(wish: str, said: list[str]) -> None:
    done = _run(f"{POSSIBLE} --why-not {shlex.quote(wish)}")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith("--why-not:")
    assert "intent" not in done.stderr and "Traceback" not in done.stderr
    assert all(some in done.stderr for some in said)
    with_json = _json(f"{POSSIBLE} --why-not {shlex.quote(wish)}")
    problems = done.stderr.splitlines()
    assert with_json == {"status": "bad input", "problems": problems, "codes": [text[-4:-1] for text in problems]}


@pytest.mark.parametrize(
    "question", ["", " --all", " --fewer", " --why-not 'avoid = { channels = [1] }'", " --repair 1"]
)
def test_what_is_not_decided_in_time_exits_3(question: str, tmp_path: Path) -> None:
    file = write(rig(SIZES[-1]), tmp_path)
    done = _run(f"{file}{question} --time-limit 0.01")
    assert done.exit_code == 3
    assert done.stdout.startswith("Not decided: ") and "mpossible" not in done.stdout
    found = _json(f"{file}{question} --time-limit 0.01")
    assert found["status"] == "undecided"
    assert "possible" not in found


def test_conflicts_and_repairs_as_json() -> None:
    found = _json(TWO_GROUPS)
    assert found.keys() >= PLAIN_KEYS
    assert (found["title"], found["possible"], found["all"]) == ("Double Leak", False, True)
    ids = {claim.statement for claim in claims(read_jam(ROOT / TWO_GROUPS))}
    assert len(found["conflicts"]) == 2
    assert [conflict["group"] for conflict in found["conflicts"]] == [1, 2]
    for conflict in found["conflicts"]:
        assert conflict["minimal"] is True
        assert set(conflict["statements"]) <= ids
        assert conflict["facts"] and all(isinstance(fact, str) for fact in conflict["facts"])
    costs = [repair["cost"] for repair in found["repairs"]]
    assert costs == sorted(costs) and costs[0] == 3
    for repair in found["repairs"]:
        assert repair["drop"] or repair["add"]
        assert set(repair["drop"]) <= ids and all(isinstance(fact, str) for fact in repair["add"])


def test_a_repair_that_drops_names_what_it_drops() -> None:
    found = _json(IMPOSSIBLE)
    assert {"intent.1"} in [set(repair["drop"]) for repair in found["repairs"]]
    assert [] in [repair["drop"] for repair in found["repairs"]]


@pytest.mark.parametrize(
    ("words", "possible"),
    [
        (IMPOSSIBLE, False),
        (f"{IMPOSSIBLE} --fewer", False),
        (f"{IMPOSSIBLE} {NO_CHANNEL}", False),
        (POSSIBLE, True),
        (f"{POSSIBLE} --fewer", True),
        (f"{POSSIBLE} {CHANNEL}", True),
        (f"{POSSIBLE} {NO_JACK}", False),
    ],
)
def test_every_question_has_the_keys_of_an_explanation(words: str, possible: bool) -> None:
    found = _json(words)
    assert found.keys() >= {"title", *PLAIN_KEYS}
    assert found["possible"] is possible


def test_reasons_of_a_plan_as_json() -> None:
    found = _json(POSSIBLE)
    assert found["goals"] == {"cables": 3, "silenced": 0, "settings_moved": 5}
    assert [why["because"] for why in found["whys"]] == ["stated"] * 6 + ["notes"] * 2
    for why in found["whys"]:
        assert why["what"] and (why["statements"] or why["says"])


def test_another_wish_as_json() -> None:
    found = _json(f"{POSSIBLE} {CHANNEL}")
    assert (found["before"]["settings_moved"], found["after"]["settings_moved"]) == (5, 6)
    plan = Plan.from_json(found["plan"])
    assert plan.parts["arp"].channel == 1
    refused = _json(f"{POSSIBLE} {NO_JACK}")
    assert refused["after"] is None and refused["plan"] is None
    assert refused["conflicts"][0]["statements"][-2:] == ["intent.2", "intent.3"]


def test_the_plan_with_a_repair() -> None:
    every = _json(IMPOSSIBLE)["repairs"]
    for number, repair in enumerate(every, start=1):
        plan = Plan.from_json(_json(f"{IMPOSSIBLE} --repair {number}"))
        assert len(plan.cables) == repair["cables"]
    assert _run(f"{IMPOSSIBLE} --repair 1").stdout.startswith("Three Reeds")


def test_all_conflicts_are_listed_where_that_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(explained, "MOST_CONFLICTS", 1)
    with chdir(ROOT):
        some, every = (CliRunner().invoke(main, ["explain", TWO_GROUPS, "--json", *more]) for more in ((), ("--all",)))
    assert (some.exit_code, every.exit_code) == (1, 1)
    fewer, more = json.loads(some.stdout), json.loads(every.stdout)
    assert (len(fewer["conflicts"]), fewer["all"]) == (1, False)
    assert (len(more["conflicts"]), more["all"]) == (2, True)
