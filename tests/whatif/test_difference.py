"""Doing what a difference says, to the plan in use, gives exactly the new plan."""

from collections.abc import Iterator, Mapping
from functools import cache
from typing import TypeVar

import pytest

import solver
from solver.gear.box import Box
from solver.jam.editing import Changes, Put, changed
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_box, read_jam
from solver.sheet.edits import Source
from solver.sheet.whatif import whatif_text
from solver.sheet.whatif_data import difference_data
from solver.sheet.words import cable_words
from solver.whatif.compared import WhatIf
from solver.whatif.difference import Side, difference
from tests.showing import SCENARIOS
from tests.whatif.applying import (
    Key,
    cables_after,
    in_words,
    parts_after,
    plugged,
    printed,
    settings_after,
    settings_of,
    turned,
)
from tests.whatif.pairs import SEEDS, pair

K = TypeVar("K")
NEW = 10**6


def _boxes() -> dict[str, Box]:
    return {path.stem: read_box(path) for path in sorted((SCENARIOS / "boxes").glob("*.toml"))}


def _of_scenarios() -> Iterator[tuple[str, Jam, Jam]]:
    """Every scenario with each intent left out, each part left out, and each box gone or joined by a splitter."""
    boxes = _boxes()
    for path in sorted(SCENARIOS.glob("*.toml")):
        jam = read_jam(path)
        for place in range(len(jam.intents)):
            yield f"{path.stem}-intent.{place + 1}", jam, changed(jam, Changes(drops=(("intent", place),)))
        for part in jam.parts:
            without = changed(jam, Changes(drops=(("part", part),)))
            yield f"{path.stem}-without-{part}", jam, without
            yield f"{path.stem}-with-{part}", without, jam
        for box in jam.boxes:
            if box not in (jam.leader, jam.ears.box):
                yield f"{path.stem}-without-{box}", jam, changed(jam, Changes(drops=(("boxes", box),)))
        added = Changes(adds=(Put(("boxes", "split"), boxes["cleft"]), Put(("intent", NEW), {"clock": ["split"]})))
        yield f"{path.stem}-split", jam, changed(jam, added)


CASES = {name: (before, after) for name, before, after in _of_scenarios()}


@cache
def _of_case(name: str) -> WhatIf:
    return solver.what_if(*CASES[name], time_limit=None)


def _leads_there(before: Jam, after: Jam, used: Plan, found: WhatIf) -> None:
    assert isinstance(found.has, Planned) and found.difference is not None
    new, told = found.has.best, difference_data(found.difference)
    old_json, new_json = used.to_json(), new.to_json()
    by_name = repr
    assert sorted(cables_after(old_json["cables"], told), key=by_name) == sorted(new_json["cables"], key=by_name)
    assert parts_after(old_json["parts"], told) == new_json["parts"]
    turned_to = settings_after(_standing(before, after, used, new), told)
    assert _but_zeros(turned_to, settings_of(after, new)) == settings_of(after, new)


def _but_zeros(found: Mapping[K, object], wanted: Mapping[K, object]) -> dict[K, object]:
    """Without effects at 0 of which nothing is wanted any more: they do no harm."""
    return {key: value for key, value in found.items() if key in wanted or value not in (0, "0 %")}


def _standing(before: Jam, after: Jam, used: Plan, new: Plan) -> dict[Key, object]:
    """How everything on the table stands before a hand is moved: as in the plan in use, or as a new box comes."""
    same = {name for name, box in after.boxes.items() if before.boxes.get(name) == box}
    come = {str(spot): {"channel": engine.stands} for spot, engine in after.rig.engines.items()}
    bare = {**new.to_json(), "parts": {}, "strips": {}, "engines": come, "settings": []}
    standing = {key: value for key, value in settings_of(before, used).items() if key[0] in same}
    unset = settings_of(after, Plan.model_validate(bare))
    return standing | {key: value for key, value in unset.items() if key[0] not in same}


@pytest.mark.parametrize("seed", [seed for seed in SEEDS if seed < 150])
def test_a_difference_leads_from_plan_to_plan(seed: int) -> None:
    of = pair(seed)
    for fresh in (False, True):
        found = solver.what_if(of.before, of.after, against=of.used, fresh=fresh, time_limit=None)
        _leads_there(of.before, of.after, of.used, found)


@pytest.mark.parametrize("name", CASES)
def test_a_difference_of_a_scenario_leads_from_plan_to_plan(name: str) -> None:
    before, after = CASES[name]
    found = _of_case(name)
    if not isinstance(found.had, Planned) or not isinstance(found.has, Planned):
        assert found.difference is None or not isinstance(found.had, Planned)
        return
    used, new = found.had.best, found.has.best
    _leads_there(before, after, used, found)
    said = printed(whatif_text(found, [], Source("x.toml", lambda _: None), 80))
    assert sorted(plugged(list(map(cable_words, used.cables)), said)) == sorted(map(cable_words, new.cables))
    wanted = in_words(settings_of(after, new))
    assert _but_zeros(turned(_standing(before, after, used, new), said), wanted) == wanted
    named = {line.partition(":")[0] for line in said["Part"]}
    assert named == {part for part in {**used.parts, **new.parts} if used.parts.get(part) != new.parts.get(part)}


def test_scenarios_reach_what_matters() -> None:
    found = list(map(_of_case, CASES))
    told = [one.difference for one in found if one.difference is not None and isinstance(one.had, Planned)]
    assert any(one.pulled for one in told) and any(one.moved for one in told) and any(one.plugged for one in told)
    assert any(one.why is not None for one in found)
    assert {turn.place.what for one in told for turn in one.settings} >= {"channel", "pan", "level", "key", "ducking"}


def test_no_plan_differs_from_itself() -> None:
    for path in sorted(SCENARIOS.glob("*.toml")):
        outcome = solver.plan(read_jam(path))
        if isinstance(outcome, Planned):
            side = Side(read_jam(path), outcome.best)
            told = difference(side, side)
            assert told.none and told.stay == len(outcome.best.cables) and told.plugs == 0


def test_the_order_of_a_plan_makes_no_difference() -> None:
    outcome = solver.plan(read_jam(SCENARIOS / "low-tide.toml"))
    assert isinstance(outcome, Planned)
    best = outcome.best
    parts = dict(reversed(best.parts.items()))
    turned = {"cables": best.cables[::-1], "settings": best.settings[::-1], "parts": parts}
    jam = read_jam(SCENARIOS / "low-tide.toml")
    assert difference(Side(jam, best), Side(jam, best.model_copy(update=turned))).none


def test_without_a_plan_in_use_all_is_new() -> None:
    jam = read_jam(SCENARIOS / "low-tide.toml")
    outcome = solver.plan(jam)
    assert isinstance(outcome, Planned)
    told = difference(None, Side(jam, outcome.best))
    assert told.plugged == outcome.best.cables and not told.pulled and not told.moved and told.stay == 0
    moved: dict[object, object] = {(s.box, s.of, s.where, s.what): (s.was, s.value) for s in outcome.best.settings}
    spare = [("strip", "IN 1"), ("engine", "PAD 1")]  # reverb that nobody there wants
    moved |= {("tiller", of, where, "reverb"): (None, 0) for of, where in spare}
    assert {turn.place: (turn.old, turn.new) for turn in told.settings if turn.place.what != "key"} == moved


def test_of_another_box_nothing_is_known() -> None:
    """A box that is swapped stands as it comes: what was set on the old one is no old value of the new one."""
    jam = read_jam(SCENARIOS / "low-tide.toml")
    barge = jam.boxes["barge"]
    swapped = jam.changed(boxes={**jam.boxes, "barge": barge.model_copy(update={"voices": 3})})
    found = solver.what_if(jam, swapped)
    assert found.difference is not None and found.difference.stay == 3
    assert ("barge", "engine", "3", "channel") in {turn.place for turn in found.difference.settings}
    assert all(turn.old in (1, "centre", None) for turn in found.difference.settings)
