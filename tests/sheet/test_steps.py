"""The steps of a sheet: all of a plan, once, in the order of hands."""

import itertools

import pytest

import solver
from solver.flow.completed import completed
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from solver.sheet.step import Group, Name, names, plain
from solver.sheet.steps import groups
from solver.sheet.words import end_words, value_pair
from tests.sheet.low_tide import low_tide, plan_of
from tests.showing import SCENARIOS

ORDER = [
    "Before you plug",
    "Audio cables",
    "MIDI cables",
    "Switch on",
    "Settings on tiller",
    "Settings on barge",
    "Effect amounts",
    "Sounds to prepare",
    "Engines to keep silent",
    "Level start points",
    "Line check, one part at a time",
    "Save and turn up",
]


def said(jam: Jam, plan: Plan) -> dict[str, list[str]]:
    """Every group with what its steps say."""
    return {plain(group.title): [plain(step.does) for step in group.steps] for group in groups(jam, plan)}


def test_groups_come_in_the_order_of_hands_and_none_is_empty() -> None:
    assert list(said(low_tide(), plan_of())) == ORDER
    none = plan_of(cables=[], parts={}, strips={}, settings=[], engines={})
    bare = low_tide(recall={}, part={}, intent=[])
    assert list(said(bare, none)) == ["Before you plug", "Switch on", "Save and turn up"]


def test_steps_say_what_to_do_with_the_old_value_and_the_new() -> None:
    told = said(low_tide(), plan_of())
    assert told["Audio cables"] == ["barge/L/MONO → tiller/IN 1", "barge/R → tiller/IN 2"]
    assert told["MIDI cables"] == ["tiller/MIDI OUT → barge/MIDI IN"]
    assert told["Switch on"][1:] == ["Recall on tiller: bank B, slot 3"]
    assert told["Settings on tiller"] == ["track EXT 1: channel 5 → 1", "track EXT 2: channel 6 → 2"]
    assert told["Settings on barge"] == [
        "engine 1: pan centre → left",
        "engine 1: shift -12\xa0semitones",
        "engine 2: pan centre → right",
    ]
    assert told["Effect amounts"] == [
        "tiller strip IN 2: ducking 30\xa0%, key kick",
        "tiller strip IN 2: reverb 20\xa0%",
    ]
    assert told["Sounds to prepare"] == [
        "bass: sounds that a program change brings",
        "arp: lay ready, to switch by hand: glass and rust",
    ]
    assert told["Engines to keep silent"] == [
        "barge engine 3: channel 3 → off",
        "barge engine 4: channel 4 → 9",
        "barge engine 5: level up → zero",
    ]
    assert told["Line check, one part at a time"][1:] == [
        "kick: heard inside tiller",
        "bass: heard over tiller/IN 1",
        "arp: heard over tiller/IN 2",
    ]
    assert told["Save and turn up"][0] == "Save the project on barge and tiller"


def test_effects_that_nobody_wants_stay_at_zero_in_one_step_a_place() -> None:
    unwanted = plan_of(strips={"tiller/IN 1": {"outlet": "MAIN"}}, settings=[])
    assert said(low_tide(), unwanted)["Effect amounts"] == ["tiller strip IN 1: ducking and reverb stay at 0"]


def test_levels_start_at_the_trim_of_what_shares_a_strip() -> None:
    planned = solver.plan(read_jam(SCENARIOS / "low-tide.toml"), time_limit=None)
    assert isinstance(planned, Planned)
    told = said(read_jam(SCENARIOS / "low-tide.toml"), planned.best)["Level start points"]
    assert told == [
        "tiller strip IN 1: fader at 0, trim -6.0\xa0dB",  # two parts of one layer, in phase at worst: 20 log 2
        "tiller strip IN 2: fader at 0, trim 0.0\xa0dB",
        "tiller engine PAD 1: level at its usual mark",
    ]


@pytest.mark.parametrize("file", sorted(SCENARIOS.glob("*.toml")), ids=lambda file: file.stem)
def test_every_cable_and_setting_is_one_step(file: object) -> None:
    jam = read_jam(str(file))
    outcome = solver.plan(jam, time_limit=None)
    for plan in outcome.plans if isinstance(outcome, Planned) else ():
        assert completed(jam, plan) == plan
        found = groups(jam, plan)
        cables = _steps(found, "cables")
        assert sorted(cables) == sorted(f"{end_words(one.source)} → {end_words(one.to)}" for one in plan.cables)
        turned = [step for group in found if "what" in group.headers for step in group.steps]
        places = [(step.cells[0], step.cells[1], step.cells[2]) for step in turned if step.cells[3] != "keep at 0"]
        assert sorted(places) == sorted((one.box, f"{one.of} {one.where}", one.what) for one in plan.settings)
        for one in plan.settings:
            (step,) = [s for s in turned if s.cells[:3] == (one.box, f"{one.of} {one.where}", one.what)]
            assert [value for value in value_pair(plan, one) if value is not None] == [
                str(piece) for piece in step.does if piece in value_pair(plan, one)
            ][-2:]
        checked = [plain(step.does).partition(":")[0] for step in found[-2].steps[1:]]
        assert checked == list(plan.parts)


def _steps(found: tuple[Group, ...], ending: str) -> list[str]:
    return [plain(step.does) for group in found if plain(group.title).endswith(ending) for step in group.steps]


def test_names_stay_apart_from_the_words_around_them() -> None:
    listed = [names(["a", "b", "c"][:count]) for count in range(4)]
    assert [plain(words) for words in listed] == ["", "a", "a and b", "a, b and c"]
    assert all(isinstance(piece, Name) for piece in itertools.chain(*listed) if piece in ("a", "b", "c"))


def test_what_a_plan_leaves_out_is_worked_out() -> None:
    jam = read_jam(SCENARIOS / "low-tide.toml")
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned)
    whole = outcome.best
    parts = {name: part.model_copy(update={"strips": None}) for name, part in whole.parts.items()}
    bare = whole.model_copy(
        update={"parts": parts, "settings": (), "timing": (), "cautions": ("The red cable is worn.",), "goals": None}
    )
    found = completed(jam, bare)
    assert found.cautions == (*whole.cautions, "The red cable is worn.")
    assert found.model_copy(update={"cautions": whole.cautions}) == whole
