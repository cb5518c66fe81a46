"""Why jams cannot share a wiring: groups, conflicts and ways out, each tried again."""

from functools import cache
from itertools import combinations

import pytest

import solver
from solver.jam.claims import Claim, claims
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, PlannedSet
from solver.reading import read_jam, read_set
from solver.reasons.set_reasons import WhySetImpossible, WhySetPossible
from solver.reasons.set_repairs import repaired_set
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from solver.search.planner import is_possible
from tests.building import desk, jam, module
from tests.explain.known import explain
from tests.showing import SCENARIOS

HIGH_AND_LOW = SCENARIOS / "sets" / "high-and-low.toml"


@cache
def _high_and_low() -> tuple[JamSet, WhySetImpossible]:
    asked = read_set(HIGH_AND_LOW)
    return asked, _why(asked)


@cache
def _why_three() -> WhySetImpossible:
    return _why(_three())


def _why(asked: JamSet) -> WhySetImpossible:
    why = explain(asked, every=True)
    assert isinstance(why, WhySetImpossible)
    return why


def _three() -> JamSet:
    """Two jams that want the desk's two strips for one module each, and one that wants both for the reef."""
    boxes = {"dock": desk(), "reef": module(), "cove": module()}
    both = {"bass": {"on": "reef"}, "arp": {"on": "reef"}}
    wide = jam(boxes, both, {"separate": ["bass", "arp"]})
    mixed = jam(boxes, {"bass": {"on": "reef"}, "arp": {"on": "cove"}}, {"separate": ["bass", "arp"]})
    plain = jam(boxes, {"bass": {"on": "reef"}})
    return JamSet("Three", {"wide": wide, "plain": plain, "mixed": mixed})


def test_the_groups_are_the_smallest_that_fail_and_all_of_them() -> None:
    asked = _three()
    names = list(asked.jams)
    failing = [
        set(some)
        for count in range(1, len(names) + 1)
        for some in combinations(names, count)
        if is_possible([asked.jams[name] for name in some], Clock(None)) is False
    ]
    smallest = [group for group in failing if not any(other < group for other in failing)]
    why = _why_three()
    assert why.all
    assert [set(one.files) for one in why.clashes] == smallest == [{"wide", "mixed"}]


def test_the_lines_of_a_clash_fail_together_and_none_of_them_can_be_left_out() -> None:
    asked, why = _high_and_low()
    (one,) = why.clashes
    assert one.clash is not None
    assert one.clash.conflict.minimal
    assert {claim.jam for claim in one.clash.conflict.claims} == set(asked.files)
    assert all(name.partition(":")[0] in asked.files for name in one.clash.conflict.statements)
    trial = Trial(asked.jams, Clock(None))
    kept = one.clash.conflict.claims
    assert trial.fails(kept)
    spoken = {(claim.jam, part) for claim in kept if claim.piece[0] != "part" for part in claim.parts}
    for claim in kept:
        if claim.piece[0] != "part" or (claim.jam, claim.parts[0]) not in spoken:
            assert not trial.fails([other for other in kept if other != claim])


def test_every_way_out_has_a_plan_that_passes_the_check() -> None:
    asked, why = _high_and_low()
    repairs = why.repaired.repairs
    assert [repair.cost for repair in repairs] == sorted(repair.cost for repair in repairs)
    kinds = {"replug" if r.replug else "left out" if r.left_out else "edit" for r in repairs}
    assert kinds == {"replug", "left out", "edit"}
    for repair in repairs:
        if repair.replug is not None:
            files, turn = list(asked.files), repair.replug.turn
            for half, planned in ((files[:turn], repair.replug.before), (files[turn:], repair.replug.after)):
                assert solver.check(asked.only(half), planned.best) == ()
        else:
            assert repair.planned is not None
            assert solver.check(repaired_set(asked, repair), repair.planned.best) == ()


def test_a_re_plug_stands_where_it_moves_the_fewest_plugs() -> None:
    """The plain jam goes with either, so only the place decides: before or after it, one plug and one more cable."""
    found = [repair.replug for repair in _why_three().repaired.repairs if repair.replug is not None]
    assert len(found) == 1
    assert found[0].turn in (1, 2)
    costs = [repair.cost for repair in _why_three().repaired.repairs if repair.replug is not None]
    assert costs == [2 * (found[0].difference.plugs + len(found[0].difference.plugged))]


def test_a_jam_that_is_impossible_alone_is_a_group_of_its_own() -> None:
    alone = read_jam(SCENARIOS / "short-rope.toml")
    fine = alone.changed(cables=None)
    why = _why(JamSet("Two", {"short": alone, "fine": fine}))
    assert [one.files for one in why.clashes] == [("short",)]


def test_of_a_set_that_can_be_had_each_cable_has_its_reason() -> None:
    asked = read_set(SCENARIOS / "sets" / "first-watch.toml")
    why = solver.explain(asked, every=True, time_limit=None)
    assert isinstance(why, WhySetPossible)
    assert len(why.needed) == len(why.planned.best.cables)
    because = {one.cable: one for one in why.needed}
    bell = next(one for cable, one in because.items() if "limpet/BELL" in cable)
    assert (bell.because, bell.files) == ("alone", ("bells/first.toml", "bells/third.toml"))
    assert why.fewest is not None
    few = [asked.jams[file] for file in why.fewest]
    count = len(why.planned.best.cables)
    assert is_possible(few, Clock(None), most_cables=count - 1) is False
    for jam_ in few:
        assert is_possible([other for other in few if other is not jam_], Clock(None), most_cables=count - 1)


@pytest.mark.parametrize("left_out", ["wide", "mixed"])
def test_leaving_out_a_whole_jam_is_leaving_out_all_its_claims(left_out: str) -> None:
    asked = _three()
    trial = Trial(asked.jams, Clock(None))
    kept: list[Claim] = [claim for claim in trial.claims if claim.jam != left_out]
    assert trial.fails(trial.claims)
    assert not trial.fails(kept)
    assert isinstance(solver.plan(asked.only([name for name in asked.files if name != left_out])), PlannedSet)


def test_claims_of_one_jam_have_no_file() -> None:
    one: Jam = read_jam(SCENARIOS / "low-tide.toml")
    assert {claim.jam for claim in claims(one)} == {""}
    assert {claim.id for claim in claims(one, "a.toml")} == {f"a.toml:{claim.id}" for claim in claims(one)}
    assert isinstance(solver.plan(read_set(HIGH_AND_LOW)), Impossible)
