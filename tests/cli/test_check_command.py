"""``hardpan check``."""

import json
from typing import NamedTuple

import pytest

import solver
from solver.codes import Code
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.reading import BadInput, Problem
from tests.cli.conftest import Run
from tests.sheet.low_tide import plan_of

WORDS = ("check", "low-tide.toml", "plan.json")


class Broken(NamedTuple):
    """One rule that a plan breaks."""

    rule: str
    sentence: str
    where: str


BREACHES = (
    Broken("A7", "Every part is heard.", "bass does not reach tiller/MAIN"),
    Broken("M1", "A port takes one plug.", "barge/MIDI IN has two: ü"),
)


@pytest.fixture
def breaches(monkeypatch: pytest.MonkeyPatch) -> list[Broken]:
    """What the check finds in the plan of Low Tide."""
    found: list[Broken] = []

    def judge(jam: Jam, plan: Plan) -> tuple[Broken, ...]:
        assert (jam.title, plan) == ("Low Tide", plan_of())
        return tuple(found)

    monkeypatch.setattr(solver, "check", judge)
    monkeypatch.setattr("solver.cli.check.read_plan", lambda path, jam: plan_of())
    monkeypatch.setattr("solver.cli.check.misstated", lambda jam, plan: ())
    return found


def test_a_good_plan_exits_0(run: Run, breaches: list[Broken]) -> None:
    done = run(*WORDS)
    assert (done.exit_code, done.stdout, done.stderr) == (0, "All is well: the plan keeps every rule.\n", "")
    done = run(*WORDS, "--json")
    assert (done.exit_code, json.loads(done.stdout)) == (
        0,
        {"title": "Low Tide", "status": "well", "breaches": [], "notes": []},
    )


def test_what_a_plan_says_wrongly_of_itself_is_noted_and_breaks_nothing(
    run: Run, breaches: list[Broken], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("solver.cli.check.misstated", lambda jam, plan: ("The plan counts 9 for cables.",))
    done = run(*WORDS)
    assert (done.exit_code, done.stderr) == (0, "Note: The plan counts 9 for cables.\n")
    assert json.loads(run(*WORDS, "--json").stdout)["notes"] == ["The plan counts 9 for cables."]


def test_a_broken_plan_exits_1_with_one_line_a_breach(run: Run, breaches: list[Broken]) -> None:
    breaches.extend(BREACHES)
    done = run(*WORDS)
    assert (done.exit_code, done.stderr) == (1, "")
    assert done.stdout_bytes.decode("utf-8") == (
        "A7 Every part is heard: bass does not reach tiller/MAIN\nM1 A port takes one plug: barge/MIDI IN has two: ü\n"
    )


def test_json_names_rule_sentence_and_place(run: Run, breaches: list[Broken]) -> None:
    breaches.extend(BREACHES)
    done = run(*WORDS, "--json")
    assert done.exit_code == 1
    assert json.loads(done.stdout) == {
        "title": "Low Tide",
        "status": "broken",
        "breaches": [breach._asdict() for breach in BREACHES],
        "notes": [],
    }


def test_a_bad_plan_file_exits_2(run: Run, breaches: list[Broken], monkeypatch: pytest.MonkeyPatch) -> None:
    problem = Problem(Code.WRONG_WORD, "plan.json", 4, "cables.1.kind", '"rope"', "a cable kind")

    def refuse(path: object, jam: Jam) -> Plan:
        raise BadInput([problem])

    monkeypatch.setattr("solver.cli.check.read_plan", refuse)
    done = run(*WORDS, "--json")
    assert (done.exit_code, done.stderr) == (2, f"{problem}\n")
    assert json.loads(done.stdout) == {"status": "bad input", "problems": [str(problem)], "codes": ["V04"]}
