"""Repairs make a jam possible, are the cheapest there are, and say what to write into the file."""

import re
import shutil
from collections.abc import Iterator, Sequence
from functools import cache
from heapq import heappop, heappush
from itertools import combinations
from pathlib import Path

import pytest

import solver
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.reading import line_finder, read_jam
from solver.reasons.changes import edits
from solver.reasons.conflicts import conflicts
from solver.reasons.edits import AMOUNT, CABLE, ELSEWHERE, GEAR, MONO, PART, WISH, Edit, edited
from solver.reasons.repairs import MOST_REPAIRS, Repair, Repaired, repairs
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from solver.search.planner import is_possible
from solver.sheet.edits import Source, edit_text
from tests.building import Table, desk, dock_and_reef, jam, module, named
from tests.enumeration.rigs import seeded
from tests.showing import SCENARIOS

SEEDS = (
    *(10, 11, 12, 15, 16, 17, 18, 21, 22, 28, 32, 33, 58, 64, 65, 66, 74, 76, 99, 103, 107, 110, 121, 137),
    *(143, 158, 166, 182, 197, 220, 230, 242, 254, 258, 263, 268, 271, 278, 287, 296, 362),
)
"""Seeds of impossible jams with few changes, whose cheapest repairs cost from 2 to 16."""


@cache
def _repaired(seed: int) -> tuple[Jam, Repaired]:
    return _repairs_of(seeded(seed))


def _repairs_of(tiny: Jam) -> tuple[Jam, Repaired]:
    found = conflicts(Trial(tiny, Clock(None)))
    return tiny, repairs(tiny, found.conflicts, Clock(None))


@cache
def _three_winds() -> tuple[Jam, Repaired]:
    return _repairs_of(read_jam(SCENARIOS / "impossible" / "three-winds.toml"))


def _possible(changed: Jam | None) -> bool:
    answer = changed is not None and is_possible(changed, Clock(None))
    assert answer is not None
    return answer


def _by_cost(known: Sequence[Edit]) -> Iterator[tuple[Edit, ...]]:
    """Every set of edits, the cheapest first; nothing is left out."""
    waiting: list[tuple[int, tuple[int, ...]]] = [(0, ())]
    while waiting:
        cost, places = heappop(waiting)
        yield tuple(known[place] for place in places)
        for place in range(places[-1] + 1 if places else 0, len(known)):
            heappush(waiting, (cost + known[place].cost, (*places, place)))


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_every_repair_is_planned_and_followed(seed: int) -> None:
    tiny, found = _repaired(seed)
    assert found.done and 1 <= len(found.repairs) <= MOST_REPAIRS
    for repair in found.repairs:
        again = edited(tiny, repair.edits)
        assert again is not None and again.model_dump() == repair.jam.model_dump()
        assert solver.check(again, repair.planned.best) == ()
        outcome = solver.plan(again, time_limit=None)
        assert isinstance(outcome, Planned) and outcome.best == repair.planned.best
        goals = repair.planned.best.goals
        assert goals is not None and goals.cables == len(repair.planned.best.cables)


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_nothing_cheaper_would_do(seed: int) -> None:
    tiny, found = _repaired(seed)
    least = next(changes for changes in _by_cost(edits(tiny)) if _possible(edited(tiny, changes)))
    assert found.repairs[0].cost == sum(edit.cost for edit in least)
    assert found.repairs[0].cheapest


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_repairs_come_in_the_order_of_their_cost(seed: int) -> None:
    found = _repaired(seed)[1].repairs
    costs = sorted(repair.cost for repair in found)
    assert costs == [repair.cost for repair in found] == [sum(edit.cost for edit in repair.edits) for repair in found]
    assert [repair.cheapest for repair in found] == [cost == costs[0] for cost in costs]
    places = [{edit.path for edit in repair.edits} for repair in found]
    assert not any(one <= other for one, other in combinations(places, 2))


def _all_needed(of: Jam, repair: Repair) -> bool:
    """Whether a repair is none any more without any one of its edits."""
    fewer = combinations(repair.edits, len(repair.edits) - 1)
    return not any(_possible(edited(of, some)) for some in fewer)


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_no_change_is_told_that_is_not_needed(seed: int) -> None:
    tiny, found = _repaired(seed)
    assert all(_all_needed(tiny, repair) for repair in found.repairs)


def test_no_change_is_told_that_is_not_needed_where_many_are_alike() -> None:
    of, found = _three_winds()
    assert [repair.edits for repair in found.repairs if not _all_needed(of, repair)] == []


def test_the_seeds_have_repairs_of_every_price() -> None:
    told = {edit.kind for seed in SEEDS for repair in _repaired(seed)[1].repairs for edit in repair.edits}
    told |= {edit.kind for repair in _three_winds()[1].repairs for edit in repair.edits}
    assert told == {AMOUNT, ELSEWHERE, CABLE, MONO, GEAR, WISH, PART}


@pytest.mark.parametrize("seed", SEEDS[:12])
def test_what_is_said_to_help_takes_no_plan_away(seed: int) -> None:
    for repair in _repaired(seed)[1].repairs:
        for edit in edits(repair.jam):
            assert not edit.only_helps or _possible(edited(repair.jam, [edit])), edit.says


def test_without_time_there_is_no_repair() -> None:
    found = conflicts(Trial(seeded(18), Clock(None))).conflicts
    assert repairs(seeded(18), found, Clock(0)) == ((), False)


def test_where_no_conflict_is_known_every_change_is_tried() -> None:
    assert repairs(seeded(18), (), Clock(None)).repairs[0].edits == _repaired(18)[1].repairs[0].edits


def test_a_change_and_leaving_out_its_intent_do_not_go_together() -> None:
    """Leaving out the wish does not help: the leader has no lane, and it plays where nothing is said."""
    ports = [named("MIDI IN", way="in"), named("MIDI OUT", way="out")]
    others = {name: module(track=[named(name, channel=n)], midi=ports) for n, name in enumerate(("reef", "cove"), 1)}
    lanes: Table = {"track": [], "engine": [], "strip": [named("IN 1", from_="LINE/left")]}
    of = jam({"dock": desk(**lanes), **others}, ("bass", "arp"), {"play": ["bass", "arp"], "from": "reef"})
    told = {edit.path for repair in _repairs_of(of)[1].repairs for edit in repair.edits}
    assert told == {("part", "bass")}
    whole, *within = sorted((edit for edit in edits(of) if edit.path[0] == "intent"), key=lambda edit: len(edit.path))
    assert [edit.new for edit in (whole, *within)] == [None, "cove", ["arp"], ["bass"]]
    for edit in within:
        assert edited(of, [edit]) is not None
        assert edited(of, [whole, edit]) is None is edited(of, [edit, whole])
    assert edited(of, within[1:]) is None


WISHES: tuple[Table, ...] = (
    {"layer": ["kick", "bass"], "shift": {"bass": -12, "kick": 12}},
    {"separate": ["kick", "bass", "arp"]},
    {"treat": ["bass", "arp"], "with": {"ducking": 30, "reverb": 20}, "key": "kick"},
    {"treat": ["kick"], "with": {"reverb": 10}},
    {"treat": ["bass"], "with": {"ducking": 30}, "key": "kick"},
    {"match": ["kick"]},
    {"stereo": ["arp"]},
    {"keep": {"part": "kick", "engine": "dock/PAD"}},
    {"keep": {"part": "bass", "pan": "left"}},
    {"keep": {"cable": ["reef/R", "dock/IN 2"]}},
    {"avoid": {"channels": [3]}},
)


def test_a_part_left_out_is_left_out_of_every_intent() -> None:
    of = dock_and_reef(*WISHES)
    out = {edit.path[1]: edit for edit in edits(of) if edit.kind == PART}
    layer: Table = {"layer": ["bass"], "shift": {"bass": -12}}
    wet: Table = {"treat": ["bass", "arp"], "with": {"reverb": 20}}
    left = ({"separate": ["bass", "arp"]}, wet, WISHES[6], *WISHES[8:])
    expected = dock_and_reef(layer, *left, parts=("bass", "arp"))
    without = edited(of, [out["kick"]])
    again = edited(of, [out["kick"]])
    assert without is not None and without.model_dump() == expected.model_dump()
    assert again is not None and again.model_dump() == without.model_dump()
    assert of.model_dump() == dock_and_reef(*WISHES).model_dump()
    alone, turned = (edited(of, [out[a], out[b]]) for a, b in (("kick", "arp"), ("arp", "kick")))
    assert alone is not None and turned is not None and alone.model_dump() == turned.model_dump()
    assert [intent.kind for intent in alone.intents] == ["layer", "separate", "treat", "keep", "keep", "avoid"]


FILES = (
    *("three-winds", "loose-letter", "deep-water", "double-leak", "lost-lead", "missing-splice", "three-reeds"),
    *("one-rope-two-ears", "few-lamps", "open-ears", "turned-pages", "two-hands", "wide-and-alone"),
)
BY_HAND = {
    *((AMOUNT, "with", "other"), (AMOUNT, "shift", "other"), (WISH, "shift", "gone"), (ELSEWHERE, "sound", "gone")),
    *((ELSEWHERE, "on", "gone"), (ELSEWHERE, "on", "other"), (ELSEWHERE, "from", "other"), (MONO, "mains", "other")),
    *((CABLE, "din", "other"), (CABLE, "3.5 stereo > 2x 6.35 mono", "new"), (ELSEWHERE, "program", "other")),
    *((WISH, "separate", "other"), (WISH, "intent", "gone"), (WISH, "channels", "other")),
}
"""What an edit costs, the key that it is about, and what becomes of its value."""


@cache
def _of_the_file(name: str) -> tuple[Edit, ...]:
    """The edits of a file that one place of it is for, and that give a jam."""
    of = read_jam(SCENARIOS / "impossible" / f"{name}.toml")
    return tuple(
        edit
        for edit in edits(of)
        if edit.kind not in (GEAR, PART)
        and edited(of, [edit]) is not None
        and (edit.kind != MONO or name == "one-rope-two-ears")
        and (len(edit.path) > 2 or edit.path[0] != "intent" or edit.new is None)
    )


def test_edits_of_every_kind_are_made_by_hand() -> None:
    assert {_sort(edit) for name in FILES for edit in _of_the_file(name)} >= BY_HAND


def _sort(edit: Edit) -> tuple[int, str, str]:
    assert edit.kind != CABLE or edit.new == (edit.old or 0) + edit.times
    key = next(step for step in reversed(edit.path) if isinstance(step, str))
    return edit.kind, key, "new" if edit.old is None else "gone" if edit.new is None else "other"


@pytest.mark.parametrize("name", FILES)
def test_the_text_of_an_edit_is_what_to_write_into_the_file(name: str, tmp_path: Path) -> None:
    shutil.copytree(SCENARIOS, tmp_path / "scenarios")
    file = tmp_path / "scenarios" / "impossible" / f"{name}.toml"
    of, text, source = read_jam(file), file.read_text("utf-8"), Source(str(file), line_finder(file))
    for edit in _of_the_file(name):
        file.write_text(_by_hand(text, edit_text(edit, source)), "utf-8")
        made = edited(of, [edit])
        assert made is not None
        assert read_jam(file).model_dump() == made.model_dump(), edit.says


def _by_hand(text: str, told: str) -> str:
    """The text of a file after an edit was made as it is told: at its line, spaces aside."""
    known = re.fullmatch(r"[a-z-]+\.toml:(\d+): (.+)", told)
    assert known is not None, told
    lines, at, what = text.splitlines(), int(known[1]) - 1, known[2]
    if what == "leave out this [[intent]]":
        assert lines[at] == "[[intent]]"
        end = next((n for n in range(at + 1, len(lines)) if lines[n].startswith("[")), len(lines))
        return "\n".join([*lines[:at], *lines[end:]])
    if what.startswith("add "):
        return "\n".join([*lines[: at + 1], what.removeprefix("add "), *lines[at + 1 :]])
    old, _, new = what.removeprefix("leave out ").partition(" -> ")
    pattern = r"\s*".join(map(re.escape, old.split()))
    lines[at], count = re.subn(pattern, lambda _: new, lines[at])
    assert count == 1, told
    return "\n".join(lines)
