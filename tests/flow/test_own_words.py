"""What a plan says of itself is compared with what it comes to."""

import pytest

import solver
from solver.flow.own_words import misstated
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from tests.showing import SCENARIOS


def low_tide() -> tuple[Jam, Plan]:
    jam = read_jam(str(SCENARIOS / "low-tide.toml"))
    outcome = solver.plan(jam)
    assert isinstance(outcome, Planned)
    return jam, outcome.best


@pytest.mark.parametrize("scenario", sorted(path.stem for path in SCENARIOS.glob("*.toml")))
def test_a_plan_of_our_own_says_nothing_wrong_of_itself(scenario: str) -> None:
    jam = read_jam(str(SCENARIOS / f"{scenario}.toml"))
    outcome = solver.plan(jam)
    if isinstance(outcome, Planned):
        assert misstated(jam, outcome.best) == ()


def test_what_a_plan_leaves_out_is_not_judged() -> None:
    jam, plan = low_tide()
    bare = {key: value for key, value in plan.to_json().items() if key not in ("settings", "goals")}
    assert misstated(jam, Plan.from_json(bare)) == ()


def test_another_title_other_settings_and_other_counts_are_told() -> None:
    jam, plan = low_tide()
    data = plan.to_json()
    data["title"] = "High Tide"
    data["goals"]["cables"] = 9
    pan = next(setting for setting in data["settings"] if (setting["where"], setting["what"]) == ("1", "pan"))
    data["settings"] = [pan | {"value": "right"}, pan | {"what": "level", "value": "zero"}]
    told = misstated(jam, Plan.from_json(data))
    assert told[:3] == (
        "The plan is written for High Tide, this jam is Low Tide.",
        "The plan lists pan right on barge/1, it comes to left.",
        "The plan lists level zero on barge/1, which is neither moved nor wanted.",
    )
    assert "The plan does not list ducking 60 on tiller/IN 1." in told
    assert told[-1] == "The plan counts 9 for cables, it comes to 3."


def test_another_slot_and_a_name_that_is_too_long_are_told() -> None:
    jam, plan = low_tide()
    saved = plan.to_json()["recall"]
    assert saved == {box: {"slot": None, "name": "LOW TIDE"} for box in ("tiller", "barge")}
    data = plan.to_json() | {"recall": saved | {"tiller": {"slot": "bank B, 3", "name": "LOW TIDE AT DUSK"}}}
    assert misstated(jam, Plan.from_json(data)) == (
        "The plan recalls bank B, 3 on tiller, the jam nothing.",
        "The plan names a project LOW TIDE AT DUSK, the screen of tiller takes 10 letters.",
    )
    assert misstated(jam.changed(recall={"barge": "7"}), plan) == ()
    named = plan.to_json() | {"recall": {"barge": {"slot": "Bank B,  3", "name": "LOW TIDE"}}}
    assert misstated(jam.changed(recall={"barge": "bank b, 3"}), Plan.from_json(named)) == ()
    assert misstated(jam.changed(recall={"barge": "bank b, 4"}), Plan.from_json(named)) == (
        "The plan recalls Bank B,  3 on barge, the jam bank b, 4.",
    )
