"""The sheet of a plan."""

import itertools
import re
from typing import Any

import pytest

from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import width_of
from solver.sheet.sections import SAFETY
from solver.sheet.text import breach_text, headline, plan_text
from tests.sheet.low_tide import JAM, OTHER, PLAN, low_tide, plan_of, planned, renamed

TITLES = [
    "Low Tide",
    "Cables, in plugging order",
    "Settings to make",
    "Parts",
    "Engines to keep silent",
    "Sounds to prepare",
    "Cautions",
]


def sheet(width: int = 100, **changes: Any) -> str:
    return plan_text(low_tide(), planned(plan_of(**changes)), width)


def section(text: str, title: str) -> list[str]:
    """The lines of one section, without its title."""
    _, _, after = text.partition(f"{title}\n{'-' * len(title)}\n")
    lines: list[str] = []
    for line, following in zip(after.split("\n"), [*after.split("\n")[1:], ""], strict=True):
        if re.fullmatch("[-=]+", following) and line in TITLES:
            break
        lines.append(line)
    return [line for line in lines if line]


def test_sections_stand_in_order() -> None:
    lines = sheet().split("\n")
    titles = [line for line, under in itertools.pairwise(lines) if under in ("-" * len(line), "=" * len(line))]
    assert [title for title in titles if title] == TITLES


def test_the_head_says_cost_proof_time_and_frame() -> None:
    assert sheet().split("\n")[2:5] == [
        "3 cables and 7 settings to move (1 of them a level turned down to zero), both proved the fewest; 3",
        "amounts to set. Planned in less than a second.",
        "Leader tiller; ears on tiller/MAIN; stereo mains; 118 beats a minute.",
    ]


@pytest.mark.parametrize(
    ("proof", "said"),
    [
        (
            {"cables": True, "settings_moved": True},
            "3 cables and 7 settings to move (1 of them a level turned down to zero), both proved the fewest; "
            "3 amounts to set.",
        ),
        (
            {"cables": True, "settings_moved": False},
            "3 cables, proved the fewest; 7 settings to move (1 of them a level turned down to zero), "
            "not proved the fewest; 3 amounts to set.",
        ),
        *(
            (
                proof,
                "3 cables found; whether fewer would do is not proved; "
                "7 settings to move (1 of them a level turned down to zero); 3 amounts to set.",
            )
            for proof in ({"cables": False}, {})
        ),
    ],
)
def test_the_headline_claims_what_is_proved_and_no_more(proof: dict[str, bool], said: str) -> None:
    assert headline(planned(plan_of(proof=proof))) == f"{said} Planned in less than a second."


def test_the_headline_counts_in_words() -> None:
    one = {"cables": 1, "silenced": 0, "settings_moved": 1}
    assert headline(planned(plan_of(goals=one))).startswith(
        "1 cable and 1 setting to move, both proved the fewest; 3 amounts to set. "
    )
    none = {"cables": 0, "settings_moved": 0}
    said = headline(planned(plan_of(goals=none, proof={})))
    assert said.startswith("No cable needed; no setting to move; 3 amounts to set. ")


def test_a_plan_without_goals_is_counted() -> None:
    assert headline(planned(plan_of(goals=None))) == headline(planned())


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (0.0, "less than a second"),
        (0.99, "less than a second"),
        (1.0, "less than 3 seconds"),
        (9.9, "less than 10 seconds"),
        (29.0, "less than 30 seconds"),
        (30.0, "less than a minute"),
        (61.0, "less than 2 minutes"),
    ],
)
def test_time_is_coarse(seconds: float, said: str) -> None:
    assert headline(planned(seconds=seconds)).endswith(f" Planned in {said}.")
    assert headline(planned(seconds=seconds, stopped=True)).endswith(f" Stopped early, after {said}.")


def test_cables_are_numbered_and_say_what_they_carry() -> None:
    assert [line.split() for line in section(sheet(), "Cables, in plugging order")[2:]] == [
        ["1", "6.35", "mono", "barge/L/MONO", "tiller/IN", "1", "bass"],
        ["2", "6.35", "mono", "barge/R", "tiller/IN", "2", "arp"],
        ["3", "din", "tiller/MIDI", "OUT", "barge/MIDI", "IN"],
    ]


def test_a_breakout_names_both_legs() -> None:
    cable = {"kind": "6.35 stereo > 2x 6.35 mono", "from": "barge/MAIN", "to": ["tiller/IN 1", "tiller/IN 2"]}
    assert "left tiller/IN 1, right tiller/IN 2" in sheet(cables=[cable])


def test_settings_stand_box_by_box_in_file_order() -> None:
    lines = section(sheet(), "Settings to make")
    assert [line for line in lines if line.startswith("On ")] == ["On tiller:", "On barge:"]
    cells = [re.split(r" {2,}", line) for line in lines]
    assert ["track EXT 1", "channel", "5 -> 1", "box: once for all projects"] in cells
    assert ["strip IN 2", "ducking", "set 30 %, key kick", "box: once for all projects"] in cells
    assert ["engine 1", "shift", "set -12 semitones", "project"] in cells
    assert ["engine 3", "channel", "3 -> off", "project"] in cells
    assert ["engine 5", "level", "up -> zero", "project"] in cells
    assert cells.index(["track EXT 2", "channel", "6 -> 2", "project"]) < cells.index(["On barge:"])


def test_an_engine_that_ducks_names_its_key() -> None:
    setting = {**PLAN["settings"][4], "box": "barge", "of": "engine", "where": "2"}
    engines = {**PLAN["engines"], "barge/2": {"channel": 2, "settings": {"ducking": 45}, "key": "kick"}}
    text = sheet(settings=[{**setting, "value": 45}], engines=engines)
    assert "set 45 %, key kick" in text


def test_parts_say_who_plays_them_and_where_they_go() -> None:
    cells = [re.split(r" {2,}", line) for line in section(sheet(), "Parts")]
    assert ["kick", "tiller/PAD 1", "tiller/PAD 1", "nothing sent out"] in cells
    assert ["bass", "barge/1", "tiller/EXT 1", "1"] in cells
    assert ["bass", "barge/MAIN, left side", "tiller: IN 1", "shift -12 semitones"] in cells
    assert ["arp", "barge/MAIN, right side", "tiller: IN 2", "ducking 30 %, key kick; reverb 20 %"] in cells
    assert ["kick", "tiller/MAIN, both sides", "-", "-"] in cells


def test_silent_engines_say_how() -> None:
    assert section(sheet(), "Engines to keep silent") == [
        "- barge/3: switch its channel off.",
        "- barge/4: move it out of the way, to channel 9.",
        "- barge/5: turn its level down to zero.",
    ]


def test_an_engine_with_a_part_is_not_silenced() -> None:
    settings = [{**PLAN["settings"][8], "where": "1"}]
    text = sheet(settings=settings, engines={"barge/1": {"channel": 9}})
    assert section(text, "Engines to keep silent") == ["None: every engine without a part stays silent as it stands."]


def test_sounds_are_by_hand_or_by_program_change() -> None:
    assert section(sheet(), "Sounds to prepare") == [
        "- Recall on tiller: bank B, slot 3.",
        "- bass (barge/1): switched by program change.",
        "- arp (barge/2): by hand. Prepare in advance, in this order: glass, rust.",
    ]
    jam = low_tide(intent=[{"program": ["arp"]}], recall={})
    assert section(plan_text(jam, planned(), 100), "Sounds to prepare") == [
        "- arp (barge/2): switched by program change, in this order: glass, rust."
    ]


def test_project_names_stand_with_the_slots_or_say_where_none_is_named() -> None:
    saved = {"slot": "bank B, slot 3", "name": "LOW TIDE"}
    assert section(sheet(recall={"tiller": saved}), "Sounds to prepare")[0] == (
        "- Recall on tiller: bank B, slot 3 (project name LOW TIDE)."
    )
    names = {"tiller": {"name": "LOW TIDE"}, "barge": {"name": "LOW TIDE"}, "skiff": {"name": "LOW TD"}}
    text = plan_text(low_tide(recall={}), planned(plan_of(recall=names)), 80)
    assert section(text, "Sounds to prepare")[:2] == [
        "- Save on tiller and barge as LOW TIDE: [recall] names no slot there.",
        "- Save on skiff as LOW TD: [recall] names no slot there.",
    ]


def test_cautions_come_first_and_safety_always() -> None:
    lines = section(sheet(), "Cautions")
    assert lines[0] == "- bass is a stereo sound taken from one side."
    for text in (sheet(), sheet(cautions=[])):
        assert all(caution in text.replace("\n  ", " ") for caution in SAFETY)


def test_empty_sections_say_so() -> None:
    bare: dict[str, Any] = {
        "boxes": {"tiller": JAM["boxes"]["tiller"]},
        "part": {},
        "intent": [],
        "recall": {},
        "cables": None,
    }
    text = plan_text(low_tide(**bare), planned(plan_of(cables=[], parts={}, strips={}, settings=[], engines={})), 80)
    assert section(text, "Cables, in plugging order") == ["No cable to plug."]
    assert section(text, "Settings to make") == ["Nothing to set: everything stays where it stands."]
    assert section(text, "Parts") == ["No part."]
    assert section(text, "Sounds to prepare") == ["Nothing to prepare."]


def test_an_alternative_says_only_what_differs() -> None:
    text = plan_text(low_tide(), planned(plan_of(), Plan.from_json(OTHER)), 80)
    assert text.startswith(plan_text(low_tide(), planned(), 80))
    assert text[len(plan_text(low_tide(), planned(), 80)) :].strip().split("\n") == [
        "Alternative 2: 3 cables (as many), 6 settings to move (1 fewer).",
        "  Pull  din: tiller/MIDI OUT -> barge/MIDI IN",
        "  Plug  6.35 mono: tiller/MAIN R -> barge/R",
        "  Part  bass: engine barge/1 -> barge/6; channel 1 -> 6",
        "  Set   barge engine 5, level: zero -> up",
        "  Set   tiller track EXT 1, channel: 1 -> 6 (for all projects)",
    ]


def test_a_cable_that_keeps_one_end_is_one_line() -> None:
    swapped = [
        {**PLAN["cables"][0], "to": "tiller/IN 2"},
        {**PLAN["cables"][1], "to": "tiller/IN 1"},
        PLAN["cables"][2],
    ]
    text = plan_text(low_tide(), planned(plan_of(), plan_of(cables=swapped)), 80)
    assert text.rstrip().split("\n")[-2:] == [
        "  Move  6.35 mono from barge/L/MONO: tiller/IN 1 -> tiller/IN 2",
        "  Move  6.35 mono from barge/R: tiller/IN 2 -> tiller/IN 1",
    ]
    other = [{**PLAN["cables"][0], "from": "tiller/MAIN L"}, *PLAN["cables"][1:]]
    text = plan_text(low_tide(), planned(plan_of(), plan_of(cables=other)), 80)
    assert text.rstrip().split("\n")[-1] == "  Move  6.35 mono to tiller/IN 1: barge/L/MONO -> tiller/MAIN L"


def test_an_alternative_that_differs_in_nothing_says_so() -> None:
    text = plan_text(low_tide(), planned(plan_of(), plan_of()), 80)
    assert text.endswith("\n  The same cables, parts and settings.\n")


@pytest.mark.parametrize("width", [80, 100])
@pytest.mark.parametrize(
    "stem",
    ["x" * 200, "word " * 39 + "end", "低音" * 100, "e\u0301" * 100, "\U0001f469\u200d\U0001f467" * 60, "-" * 200],
)
def test_long_names_in_any_script_fit(stem: str, width: int) -> None:
    names = {name: f"{name}{stem}"[:200] for name in ("kick", "bass", "arp", "Low Tide")}
    names |= {name: f"{name}{stem}"[:95] for name in ("tiller", "barge", "EXT 1", "MAIN")}
    jam, plan = Jam.model_validate(renamed(JAM, names)), Plan.from_json(renamed(PLAN, names))
    text = plan_text(jam, planned(plan, Plan.from_json(renamed(OTHER, names))), width)
    assert all(width_of(line) <= width and line == line.rstrip() for line in text.split("\n"))
    assert width_of(max(text.split("\n"), key=width_of)) > width - 10
    squeezed = re.sub(r"\s", "", text)
    assert names["tiller"].replace(" ", "")[:8] in squeezed


@pytest.mark.parametrize("width", [80, 100])
def test_no_line_is_too_long_or_ends_in_space(width: int) -> None:
    text = plan_text(low_tide(), planned(plan_of(), Plan.from_json(OTHER)), width)
    assert text.endswith("\n") and not text.endswith("\n\n")
    assert all(len(line) <= width and line == line.rstrip() for line in text.split("\n"))


def test_no_word_of_the_workshop_is_said() -> None:
    text = plan_text(low_tide(), planned(plan_of(), Plan.from_json(OTHER)), 80).lower()
    words = ("solver", "constraint", "cp-sat", "feasible", "optim", "objective", "variable", "null", "none ", "true")
    assert not [word for word in words if word in text]


def test_breaches_stand_one_a_line() -> None:
    breaches = [
        ("A7", "Every part is heard.", "bass does not reach tiller/MAIN"),
        ("M1", "A port takes one plug", "barge/MIDI IN\nhas two"),
    ]
    assert breach_text(breaches) == (
        "A7 Every part is heard: bass does not reach tiller/MAIN\nM1 A port takes one plug: barge/MIDI IN has two\n"
    )
    assert breach_text([]) == ""
